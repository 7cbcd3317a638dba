//! `dwell rules`: the sets of food-safety rules, with figures, clauses and how far they can be trusted.

use serde::Serialize;

use super::layout::paragraph;
use crate::safety::{RuleRow, listing};
use crate::tables::RuleSet;

#[derive(Serialize)]
struct Document<'s> {
    format: &'static str,
    sets: Vec<Set<'s>>,
}

#[derive(Serialize)]
struct Set<'s> {
    id: &'s str,
    title: &'s str,
    edition: &'s str,
    place: &'s str,
    source: &'s str,
    rules: Vec<Row>,
}

#[derive(Serialize)]
struct Row {
    id: String,
    asks: String,
    figures: String,
    clause: String,
    source: String,
    status: &'static str,
    condition: Option<String>,
    not_judged_without: Option<String>,
    along_curve: bool,
    option: Option<String>,
    advice: bool,
}

/// One line for each set.
pub fn list(sets: &[&RuleSet]) -> String {
    let mut page = String::new();
    for set in sets {
        paragraph(&mut page, 0, 4, &set.id);
        let rows = listing(set);
        let judged = rows.iter().filter(|row| row.needs.is_none()).count();
        paragraph(
            &mut page,
            4,
            4,
            &format!(
                "{}, {}; {}. {judged} of {} figures are judged so far.",
                set.title,
                set.edition,
                set.place,
                rows.len()
            ),
        );
    }
    page.push('\n');
    paragraph(
        &mut page,
        0,
        0,
        "dwell rules ID shows one with its clauses. Local law and the person responsible for food safety come before all of them.",
    );
    page
}

/// Every rule of a set.
pub fn page(set: &RuleSet) -> String {
    let mut page = String::new();
    paragraph(&mut page, 0, 4, &format!("{}: {}, {}; {}", set.id, set.title, set.edition, set.place));
    for row in listing(set) {
        page.push('\n');
        let RuleRow {
            id,
            asks,
            figures,
            clause,
            source,
            status,
            condition,
            needs,
            along_curve,
            option,
            advice,
            ..
        } = row;
        paragraph(&mut page, 2, 4, &id);
        paragraph(&mut page, 4, 6, &asks);
        if !figures.is_empty() {
            paragraph(&mut page, 4, 6, &format!("figure: {figures}"));
        }
        if let Some(condition) = condition {
            paragraph(&mut page, 4, 6, &format!("counts {condition}"));
        }
        if let Some(option) = option {
            paragraph(&mut page, 4, 6, &format!("belongs to option {option}: one option of several will do"));
        }
        if let Some(needs) = needs {
            paragraph(&mut page, 4, 6, &format!("not judged; this needs {needs}"));
        }
        if along_curve {
            paragraph(&mut page, 4, 6, "judged along the temperature inside the food, predicted or logged");
        }
        let cited = if source.contains(&clause) { source } else { format!("{source}, {clause}") };
        let kind = if advice { "; advice" } else { "" };
        paragraph(&mut page, 4, 6, &format!("source: {cited} ({}{kind})", trust(status)));
    }
    page
}

/// How far the figure can be trusted, so that nobody takes it for more.
fn trust(status: &str) -> &str {
    match status {
        "secondary" => "secondary: read on a page that quotes it",
        "memory" => "memory: NOT VERIFIED, from memory",
        "computed" => "computed from verified figures",
        other => other,
    }
}

/// The same as JSON, in the format "dwell.rules/1".
pub fn json(sets: &[&RuleSet]) -> String {
    let set = |set: &&'_ RuleSet| {
        let rows = listing(set).into_iter().map(|row| Row {
            id: row.id,
            asks: row.asks,
            figures: row.figures,
            clause: row.clause,
            source: row.source,
            status: row.status,
            condition: row.condition,
            not_judged_without: row.needs,
            along_curve: row.along_curve,
            option: row.option,
            advice: row.advice,
        });
        rows.collect()
    };
    let sets = sets.iter().map(|one| Set {
        id: &one.id,
        title: &one.title,
        edition: &one.edition,
        place: &one.place,
        source: &one.source,
        rules: set(one),
    });
    super::escape::json(&Document { format: "dwell.rules/1", sets: sets.collect() })
}
