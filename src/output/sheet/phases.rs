//! What the food does meanwhile: every phase by the clock.

use maud::{Markup, html};

use super::Scope;
use super::marks::{Depth, heading, said, times};
use crate::compile::CompiledCook;
use crate::output::timeline::words;
use crate::timing::{PhaseLine, Timeline};

pub fn table(worked: &CompiledCook<'_>, scope: &Scope<'_>, depth: Depth) -> Markup {
    html! {
        @if let Some(plan) = worked.timeline {
            (heading(depth, "Phases by the clock"))
            table {
                thead { tr {
                    th scope="col" { "Starts" }
                    th scope="col" { "Phase" }
                    th scope="col" { "Lasts" }
                    th scope="col" { "Ends" }
                } }
                @for (day, phases) in days(worked, plan, scope) {
                    tbody {
                        tr.day { th colspan="4" scope="rowgroup" { (day) } }
                        @for (phase, notes) in phases { (row(plan, phase, &notes)) }
                    }
                }
            }
        }
    }
}

type Noted<'c> = (&'c PhaseLine, Vec<&'c str>);

/// In the order of the clock, by the day on which they start; what is not timed comes first.
fn days<'c>(
    worked: &CompiledCook<'c>,
    plan: &'c Timeline,
    scope: &Scope<'_>,
) -> Vec<(String, Vec<Noted<'c>>)> {
    let notes =
        worked.cook.phases.iter().map(|phase| phase.notes.iter().map(|note| note.value.as_str()).collect());
    let mut phases: Vec<Noted<'c>> = plan.phases.iter().zip(notes).collect();
    phases.retain(|(phase, _)| scope.holds(&phase.cook, &phase.name));
    phases.sort_by_key(|(phase, _)| phase.start.map(|start| start.earliest));
    let mut days: Vec<(String, Vec<Noted<'c>>)> = Vec::new();
    for noted in phases {
        let start = noted.0.start;
        let day = start.map_or("Not timed".into(), |start| words::day_heading(&plan.clock, start.earliest));
        match days.last_mut() {
            Some((last, phases)) if *last == day => phases.push(noted),
            _ => days.push((day, vec![noted])),
        }
    }
    days
}

fn row(plan: &Timeline, phase: &PhaseLine, notes: &[&str]) -> Markup {
    html! {
        tr {
            td.when { @if let Some(start) = phase.start { (times(&plan.clock, start)) } }
            td {
                bdi { (phase.name) }
                @if let Some(kit) = &phase.kit { ": " bdi { (kit) } }
                @for note in notes { br; span.small { (said(note)) } }
            }
            td { @if !phase.lasts.is_empty() { (phase.lasts) " (" (words::decided_by(phase)) ")" } }
            td { @if let Some(end) = words::end(&plan.clock, phase) { (end) } }
        }
    }
}
