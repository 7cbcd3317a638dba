//! Predicted temperatures over time, as `dwell curve` shows them: one file for each form.
//!
//! Whatever is shown here is called predicted, because only a probe knows.

mod axis;
mod chart;
mod csv;
mod json;
mod limits;
mod menu;
mod plot;
mod shown;
mod start;
mod svg;
mod text;
pub(super) mod words;

pub use csv::csv;
pub use json::{CurveJson, json};
pub use limits::{limits, limits_in_force};
pub use menu::together;
pub use shown::Shown;
pub use start::Start;
pub use svg::svg;
pub use text::text;
pub use words::core as core_in_words;

use crate::heat::{Curves, FoodCurve, Sample};
use crate::safety::{FoodMicrobes, Microbe};

/// What stands at the end of everything that people see.
const A_PROBE_DECIDES: &str =
    "All of this is predicted, from figures that are never exactly right. A probe decides, not a plan.";

/// The curves of one food alone, with the phases that it goes through; `None` where there is no food of
/// this name.
pub fn of_food(curves: &Curves, name: &str) -> Option<Curves> {
    let named = |other: &str| other.to_lowercase() == name.to_lowercase();
    let mut one = curves.clone();
    one.foods.retain(|food| named(&food.name));
    one.unpredicted.retain(|food| named(&food.name));
    if one.foods.is_empty() && one.unpredicted.is_empty() {
        return None;
    }
    let Curves { phases, foods, .. } = &mut one;
    phases.retain(|phase| has(foods.iter().flat_map(|food| &food.samples), phase.phase));
    Some(one)
}

/// Those of this food.
fn microbes_of<'m>(food: &FoodCurve, microbes: &'m [FoodMicrobes]) -> &'m [Microbe] {
    microbes.iter().find(|one| one.item == food.item).map_or(&[], |one| &one.microbes)
}

/// Whether one of the samples is of this phase.
fn has<'s>(mut samples: impl Iterator<Item = &'s Sample>, phase: crate::cook::PhaseId) -> bool {
    samples.any(|sample| sample.phase == phase)
}
