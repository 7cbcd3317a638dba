//! Which rules were judged, by which set, and how they came out.

use maud::{Markup, html};

use super::marks::{Depth, heading, said};
use crate::compile::CompiledCook;
use crate::output::verdicts::{self, Row};
use crate::quantity::Scale;
use crate::safety::Judged;
use crate::tables::RuleSet;

pub fn tables(worked: &CompiledCook<'_>, scale: Scale, depth: Depth) -> Markup {
    let sets = verdicts::sets(worked.judged);
    html! {
        (heading(depth, "Rules that were judged"))
        @if sets.is_empty() { p { "None was judged." } }
        @for id in sets {
            @let of_set: Vec<&Judged> = worked.judged.iter().filter(|judged| judged.set == id).collect();
            @let set = worked.sets.iter().find(|set| set.id == id);
            table {
                caption {
                    @match set { Some(set) => (full_name(set)), None => (id) }
                    ": " (verdicts::counts(&of_set))
                }
                thead { tr {
                    th scope="col" { "Rule" }
                    th scope="col" { "How it came out" }
                } }
                tbody { @for row in verdicts::rows(&of_set, scale) { (rows(&row, set.copied())) } }
            }
        }
    }
}

/// "FDA Food Code, 2022, United States"
fn full_name(set: &RuleSet) -> String {
    [&set.title, &set.edition, &set.place]
        .into_iter()
        .filter(|part| !part.is_empty())
        .cloned()
        .collect::<Vec<_>>()
        .join(", ")
}

/// One for each thing that was said of the rule and its food.
fn rows(row: &Row<'_>, set: Option<&RuleSet>) -> Markup {
    let rule = set.and_then(|set| Some((set, set.rule(row.rule)?)));
    html! {
        @for said_of in &row.said {
            tr {
                td.rule {
                    (row.rule)
                    @if let Some((set, rule)) = rule { br; span.small { (set.cite(rule)) } }
                }
                td {
                    strong { (verdicts::words(said_of.verdict)) } ": " (said(&row.places.join("; ")))
                    @if !said_of.phases.is_empty() { " (" (said(&said_of.phases.join(", "))) ")" }
                    br;
                    (said(&said_of.why))
                }
            }
        }
    }
}
