//! What to do before the heat goes on, and what is to be known of the food.

use maud::{Markup, html};

use super::Scope;
use super::marks::{Depth, heading, said};
use crate::output::prep::{CookPrep, READ_THE_LABELS, Step};

pub fn steps(prep: &CookPrep, scope: &Scope<'_>, depth: Depth) -> Markup {
    let inside = |steps: &'_ [Step]| -> Vec<Step> {
        steps.iter().filter(|step| scope.holds(&prep.cook.title, &step.phase)).cloned().collect()
    };
    let (before, to_hand, later) = (inside(&prep.before), inside(&prep.to_hand), inside(&prep.later));
    html! {
        @if !before.is_empty() || !scope.is_place() {
            (heading(depth, "Prep: before the heat goes on"))
            @if before.is_empty() { p { "There is nothing to do." } }
            (list(&before, 1))
        }
        @if !to_hand.is_empty() {
            (heading(depth, "To have ready, weighed"))
            ul {
                @for step in &to_hand { li { "for " (said(&step.phase)) ": " (said(&step.draws())) } }
            }
        }
        @if !later.is_empty() {
            (heading(depth, "Prep: later, when it has been hot"))
            (list(&later, before.len() + 1))
        }
    }
}

fn list(steps: &[Step], first: usize) -> Markup {
    html! {
        @if !steps.is_empty() {
            ol start=(first) {
                @for step in steps {
                    li {
                        strong { (said(&step.words())) }
                        ul.plain { @for more in step.more() { li { (said(&more)) } } }
                    }
                }
            }
        }
    }
}

/// Allergens of what is served, and cautions.
pub fn cautions(prep: &CookPrep, depth: Depth) -> Markup {
    html! {
        (heading(depth, "Cautions"))
        ul { @for caution in &prep.cautions { li { (said(caution)) } } }
        (heading(depth, "Allergens in what is served"))
        ul { @for food in &prep.served { li { (said(&food.words())) } } }
        p.small { (READ_THE_LABELS) }
    }
}
