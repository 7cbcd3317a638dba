//! The plan and the prediction of the file that is asked about, as far as there are any.

use super::View;
use super::scope::Scope;
use crate::compile::CompiledCook;
use crate::cook::PhaseId;
use crate::output::curve::core_in_words;
use crate::output::deadlines::{AS_PREDICTED, rests_on_prediction};
use crate::timing::{Timeline, Window};

/// What the stages made of the cook that stands in the file.
pub fn worked<'v>(view: &View<'v>) -> Option<CompiledCook<'v>> {
    let cook = Scope::of(view).cook?;
    view.compiled.cooks().into_iter().find(|worked| std::ptr::eq(worked.cook, cook))
}

/// The plan, with a line for each phase in the order of the file; `None` where there is none.
pub fn plan_of<'v>(view: &View<'v>) -> Option<&'v Timeline> {
    let worked = worked(view)?;
    worked.timeline.filter(|plan| plan.phases.len() == worked.cook.phases.len())
}

/// Times up to a moment, and whether they rest on a length that no file says. `all` is what is cooked side by side.
pub fn as_predicted(times: String, all: &[CompiledCook<'_>], by: Option<Window>) -> String {
    match by.is_some_and(|by| rests_on_prediction(all, by)) {
        true => format!("{times}, {AS_PREDICTED}"),
        false => times,
    }
}

/// Each food that has a curve there and its core as the phase ends, with bounds, in the scale of the file.
pub fn cores_at_end<'v>(view: &View<'v>, phase: PhaseId) -> Vec<(&'v str, String)> {
    let Some(worked) = worked(view) else { return Vec::new() };
    let scale = view.compiled.scale;
    let foods = worked.curves.foods.iter();
    let exits = foods.flat_map(|food| food.exits.iter().map(move |(id, core)| (food, *id, *core)));
    exits
        .filter(|(_, id, _)| *id == phase)
        .map(|(food, _, core)| (food.name.as_str(), core_in_words(core, scale)))
        .collect()
}

/// Why there is neither plan nor prediction; `None` where there is one.
pub fn why_none(view: &View<'_>) -> Option<&'static str> {
    if plan_of(view).is_some() {
        None
    } else if view.compiled.understood() {
        Some("Its times and temperatures are not worked out yet.")
    } else {
        Some("No times or temperatures are worked out while there is a line that is not understood.")
    }
}
