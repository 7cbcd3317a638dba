//! Which rules were judged and how they came out: silence is never a verdict.
//!
//! What is broken comes first, then what was not judged for a food, then what was not judged for a whole
//! phase, which says the same of nearly any cook. What is met is counted; JSON has a row for it.

use super::clean;
use super::layout::paragraph;
use crate::compile::Compiled;
use crate::quantity::Scale;
use crate::safety::{Judged, Verdict};

/// The least pressing last.
const ORDER: [Verdict; 3] = [Verdict::Broken, Verdict::NotJudged, Verdict::Met];

/// One rule and the food that it was judged for alike: a row of the table.
pub(super) struct Row<'j> {
    pub rule: &'j str,
    /// "tomatoes (bake)", where one list of phases counts for all that is said.
    pub places: Vec<String>,
    pub said: Vec<Said>,
}

/// What was said of it, the worst first, and in which phases.
#[derive(PartialEq)]
pub(super) struct Said {
    pub verdict: Verdict,
    pub why: String,
    pub phases: Vec<String>,
}

/// The rules of a file's cooks, compact; empty where nothing was judged.
pub fn table(file: &Compiled) -> String {
    let cooks = file.cooks();
    let several = cooks.len() > 1;
    let title = |title: &'_ str| if several { Some(title.to_owned()) } else { None };
    let each = cooks
        .iter()
        .map(|worked| of(worked.judged, title(&worked.cook.title.value).as_deref(), file.scale, "check"));
    each.collect()
}

/// What was judged of one cook; `command` lists all of it.
pub fn of(judged: &[Judged], title: Option<&str>, scale: Scale, command: &str) -> String {
    let mut out = String::new();
    for set in sets(judged) {
        let of_set: Vec<&Judged> = judged.iter().filter(|judged| judged.set == set).collect();
        out.push_str(&heading(set, title, &of_set));
        out.push_str(&lines(&rows(&of_set, scale), command));
    }
    out
}

/// The ids of the sets that judged.
pub(super) fn sets(judged: &[Judged]) -> Vec<&str> {
    let mut sets: Vec<&str> = Vec::new();
    for judged in judged {
        if !sets.contains(&judged.set.as_str()) {
            sets.push(&judged.set);
        }
    }
    sets
}

fn heading(set: &str, title: Option<&str>, judged: &[&Judged]) -> String {
    let of = title.map(|title| format!(" for \"{}\"", clean::line(title))).unwrap_or_default();
    format!("  rules of {}{of}: {}\n", clean::line(set), counts(judged))
}

/// "0 broken, 2 not judged, 14 met".
pub(super) fn counts(judged: &[&Judged]) -> String {
    let count = |verdict| judged.iter().filter(|judged| judged.verdict == verdict).count();
    format!(
        "{} broken, {} not judged, {} met",
        count(Verdict::Broken),
        count(Verdict::NotJudged),
        count(Verdict::Met)
    )
}

/// One row for each rule and food; foods that come out alike in the same phases share one.
pub(super) fn rows<'j>(judged: &[&'j Judged], scale: Scale) -> Vec<Row<'j>> {
    let mut rows: Vec<Row> = Vec::new();
    for verdict in ORDER {
        for judged in judged.iter().filter(|judged| judged.verdict == verdict) {
            let why = clean::line(&judged.why.render(scale)).into_owned();
            let name = |name: &Option<String>| name.as_deref().map(|name| clean::line(name).into_owned());
            let (food, phase) = (Vec::from_iter(name(&judged.food)), name(&judged.phase));
            let known = rows.iter().position(|row| row.rule == judged.rule && row.places == food);
            let row = known.unwrap_or_else(|| {
                rows.push(Row { rule: &judged.rule, places: food, said: Vec::new() });
                rows.len() - 1
            });
            let said = &mut rows[row].said;
            match said.iter_mut().find(|said| said.verdict == verdict && said.why == why) {
                Some(said) => said.phases.extend(phase),
                None => said.push(Said { verdict, why, phases: Vec::from_iter(phase) }),
            }
        }
    }
    let mut together: Vec<Row> = Vec::new();
    // The sort keeps the order of those that are alike.
    rows.sort_by_key(|row| (!row.broken(), row.met(), row.places.is_empty()));
    for mut row in rows {
        row.place();
        match together.iter_mut().find(|other| other.rule == row.rule && other.said == row.said) {
            Some(other) => other.places.extend(row.places),
            None => together.push(row),
        }
    }
    together
}

impl Row<'_> {
    fn broken(&self) -> bool {
        self.said.iter().any(|said| said.verdict == Verdict::Broken)
    }

    /// Nothing but met.
    fn met(&self) -> bool {
        self.said.iter().all(|said| said.verdict == Verdict::Met)
    }

    /// Moves the phases to the food where they are the same for all that is said of it.
    fn place(&mut self) {
        let Some(first) = self.said.first().map(|said| said.phases.clone()) else { return };
        if first.is_empty() || self.said.iter().any(|said| said.phases != first) {
            return;
        }
        self.said.iter_mut().for_each(|said| said.phases.clear());
        let food = self.places.pop().map(|food| format!("{food} ")).unwrap_or_default();
        self.places.push(format!("{food}({})", first.join(", ")));
    }
}

fn lines(rows: &[Row], command: &str) -> String {
    let mut page = String::new();
    let met = rows.iter().filter(|row| row.met()).count();
    for row in rows.iter().filter(|row| !row.met()) {
        let places = row.places.join("; ");
        let mut line =
            format!("{}: {} {places}", row.said.first().map_or("", |said| words(said.verdict)), row.rule);
        for (nth, said) in row.said.iter().enumerate() {
            let before = nth.checked_sub(1).and_then(|before| row.said.get(before));
            let phases =
                if said.phases.is_empty() { String::new() } else { format!(" ({})", said.phases.join(", ")) };
            let opens =
                before.map(|before| format!(" {}", also(said.verdict, before.verdict))).unwrap_or_default();
            // What is broken has been said at length, with its place.
            let why = if said.verdict == Verdict::Broken { "See the finding." } else { &said.why };
            let mark = if before.is_some() { ":" } else { "." };
            line.push_str(&format!("{opens}{phases}{mark} {why}"));
        }
        paragraph(&mut page, 4, 6, &line);
    }
    if met > 0 {
        let them = if met == 1 { "1 row".to_owned() } else { format!("{met} rows") };
        let line = format!(
            "met: {them} not listed here. `dwell {command} --format json` lists every rule that was judged."
        );
        paragraph(&mut page, 4, 6, &line);
    }
    page
}

/// What begins a further part of a row.
fn also(verdict: Verdict, before: Verdict) -> &'static str {
    match verdict {
        _ if verdict == before => "Also",
        Verdict::Met => "Met",
        Verdict::Broken => "Broken",
        Verdict::NotJudged => "Not judged",
    }
}

pub(super) fn words(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Met => "met",
        Verdict::Broken => "broken",
        Verdict::NotJudged => "not judged",
    }
}
