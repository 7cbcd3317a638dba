//! Which rules were judged and how they came out: silence is never a verdict.

use super::clean;
use super::layout::paragraph;
use crate::compile::Compiled;
use crate::safety::{Judged, Verdict};

/// The least pressing last.
const ORDER: [Verdict; 3] = [Verdict::Broken, Verdict::NotJudged, Verdict::Met];

/// What was judged alike in several phases, as one row.
struct Row<'j> {
    verdict: Verdict,
    rule: &'j str,
    places: Vec<String>,
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
    for verdict in ORDER {
        for judged in judged.iter().filter(|judged| judged.verdict == verdict) {
            let why = clean::line(&judged.why.render(file.scale)).into_owned();
            let place = [&judged.phase, &judged.food]
                .into_iter()
                .flatten()
                .map(|name| clean::line(name).into_owned())
                .collect::<Vec<_>>()
                .join(", ");
            match rows
                .iter_mut()
                .find(|row| row.verdict == verdict && row.rule == judged.rule && row.why == why)
            {
                Some(row) => row.places.push(place),
                None => rows.push(Row { verdict, rule: &judged.rule, places: vec![place], why }),
            }
        }
    }
    rows
}

fn lines(rows: &[Row]) -> String {
    let mut page = String::new();
    for row in rows {
        let places: Vec<&str> =
            row.places.iter().map(String::as_str).filter(|place| !place.is_empty()).collect();
        let places = if places.is_empty() { String::new() } else { format!(" ({})", places.join("; ")) };
        // What is broken has been said at length, with its place.
        let why = if row.verdict == Verdict::Broken { "See the finding." } else { &row.why };
        paragraph(&mut page, 4, 6, &format!("{}: {}{places}. {why}", words(row.verdict), row.rule));
    }
    page
}

fn words(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Met => "met",
        Verdict::Broken => "broken",
        Verdict::NotJudged => "not judged",
    }
}
