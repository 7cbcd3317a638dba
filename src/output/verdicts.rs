//! Which rules were judged and how they came out: silence is never a verdict.

use unicode_width::UnicodeWidthStr;

use super::clean;
use crate::compile::Compiled;
use crate::safety::{Judged, Verdict};

/// The least pressing last.
const ORDER: [(Verdict, &str); 3] =
    [(Verdict::Broken, "broken"), (Verdict::NotJudged, "not judged"), (Verdict::Met, "met")];

/// What was judged alike in several phases, as one row.
struct Row<'j> {
    word: &'static str,
    rule: &'j str,
    where_: Vec<String>,
    why: String,
}

/// The rules of a file's cooks, compact; empty where nothing was judged.
pub fn table(file: &Compiled) -> String {
    let cooks = file.cooks();
    let several = cooks.len() > 1;
    let mut out = String::new();
    for worked in cooks {
        let title = if several { Some(worked.cook.title.value.as_str()) } else { None };
        for set in sets(worked.judged) {
            let of_set: Vec<&Judged> = worked.judged.iter().filter(|judged| judged.set == set).collect();
            out.push_str(&heading(set, title, &of_set));
            out.push_str(&lines(&rows(&of_set, file)));
        }
    }
    out
}

fn sets(judged: &[Judged]) -> Vec<&str> {
    let mut sets: Vec<&str> = Vec::new();
    for judged in judged {
        if !sets.contains(&judged.set.as_str()) {
            sets.push(&judged.set);
        }
    }
    sets
}

fn heading(set: &str, title: Option<&str>, judged: &[&Judged]) -> String {
    let count = |verdict| judged.iter().filter(|judged| judged.verdict == verdict).count();
    let of = title.map(|title| format!(" for \"{}\"", clean::line(title))).unwrap_or_default();
    format!(
        "  rules of {}{of}: {} broken, {} not judged, {} met\n",
        clean::line(set),
        count(Verdict::Broken),
        count(Verdict::NotJudged),
        count(Verdict::Met)
    )
}

fn rows<'j>(judged: &[&'j Judged], file: &Compiled) -> Vec<Row<'j>> {
    let mut rows: Vec<Row> = Vec::new();
    for (verdict, word) in ORDER {
        for judged in judged.iter().filter(|judged| judged.verdict == verdict) {
            let why = clean::line(&judged.why.render(file.scale)).into_owned();
            let place = [&judged.phase, &judged.food]
                .into_iter()
                .flatten()
                .map(|name| clean::line(name).into_owned())
                .collect::<Vec<_>>()
                .join(", ");
            match rows.iter_mut().find(|row| row.word == word && row.rule == judged.rule && row.why == why) {
                Some(row) => row.where_.push(place),
                None => rows.push(Row { word, rule: &judged.rule, where_: vec![place], why }),
            }
        }
    }
    rows
}

fn lines(rows: &[Row]) -> String {
    let words = rows.iter().map(|row| row.word.len()).max().unwrap_or_default();
    let rules = rows.iter().map(|row| row.rule.width()).max().unwrap_or_default();
    let mut out = String::new();
    for row in rows {
        let blanks = " ".repeat(rules - row.rule.width());
        let places: Vec<&str> = row.where_.iter().map(String::as_str).filter(|w| !w.is_empty()).collect();
        let place = if places.is_empty() { String::new() } else { format!("({}) ", places.join("; ")) };
        out.push_str(&format!(
            "    {:words$}  {}{blanks}  {place}{}\n",
            row.word,
            clean::line(row.rule),
            row.why
        ));
    }
    out
}
