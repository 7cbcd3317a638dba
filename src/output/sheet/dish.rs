//! What belongs to one cook: its prep, its phases, its kit, its picture and its verdicts.

use maud::{Markup, html};

use super::marks::{Depth, heading, said};
use super::{Scope, kit, phases, picture, prep, readings, rules, wall};
use crate::compile::{Compiled, CompiledCook};
use crate::output::{prep as prepping, serves};
use crate::timing::Timeline;

/// `own` is the scope of the dish where it is one of a menu, and `plan` that of all.
pub fn parts(file: &Compiled, plan: &Timeline, worked: &CompiledCook<'_>, own: Option<&Scope<'_>>) -> Markup {
    let cook = worked.cook;
    let depth = if own.is_some() { Depth::Below } else { Depth::Part };
    let list = prepping::list(&[(cook, worked.ledger)]);
    let all = Scope::all(&cook.title.value);
    html! {
        section.dish[own.is_some()] {
            @if let Some(own) = own {
                h2 dir="auto" { (cook.title.value) }
                @if let Some(people) = serves::people(cook) { p { (said(&format!("for {people}"))) } }
                @if let Some(about) = &cook.about { p { (said(&about.value)) } }
                // Whoever is handed the pages of one dish does not have page one before them.
                (wall::jobs(plan, std::slice::from_ref(worked), own, file.scale))
                (readings::table(file, &[*worked], own))
            }
            @for prepared in &list.cooks { (prep::steps(prepared, &all, depth)) }
            (phases::table(worked, &all, depth))
            (kit::table(worked, file.scale, &all, depth))
            (picture::figures(file, worked, depth))
            (rules::tables(worked, file.scale, depth))
            @for prepared in &list.cooks { (prep::cautions(prepared, depth)) }
            (notes(worked, depth))
        }
    }
}

/// What the writer adds, and who that is.
fn notes(worked: &CompiledCook<'_>, depth: Depth) -> Markup {
    let cook = worked.cook;
    html! {
        @if !cook.notes.is_empty() || cook.by.is_some() || cook.adapted_from.is_some() {
            (heading(depth, "Notes"))
            ul {
                @for note in &cook.notes { li { (said(&note.value)) } }
                @if let Some(by) = &cook.by { li { "By " bdi { (by.value) } } }
                @if let Some(from) = &cook.adapted_from { li { "Adapted from " bdi { (from.value) } } }
            }
        }
    }
}
