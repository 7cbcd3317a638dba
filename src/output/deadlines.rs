//! Limits in time, in words.

use serde::{Deserialize, Serialize};

use super::measure::tidy;
use crate::compile::CompiledCook;
use crate::cook::{Cook, Lasts, PhaseId};
use crate::quantity::Scale;
use crate::safety::{ByThen, Deadline, Since};
use crate::timing::{Minute, OnTime, PhaseLine, Window, Windows};

/// What is to be done once it is too late.
pub const TOO_LATE: &str = "Not so by then: throw it away.";

/// Stands beside a time that rests on a length which no file says.
pub const AS_PREDICTED: &str = "as predicted";

/// "core 21 °C or below".
pub fn what(deadline: &Deadline, scale: Scale) -> String {
    match deadline.by_then {
        ByThen::Used => "back in the heat or the cold, or eaten".to_owned(),
        ByThen::Cold(at) => format!("core {} or below", at.show(scale)),
        ByThen::ColdAfter { at, from, further } => format!(
            "core {} or below, and that no more than {} after it was at {}",
            at.show(scale),
            further.show(),
            from.show(scale)
        ),
    }
}

/// "2 h after simmer ends".
pub fn counted(deadline: &Deadline, cook: &Cook) -> String {
    let (phase, does) = match deadline.since {
        Since::StartOf(phase) => (phase, "starts"),
        Since::EndOf(phase) => (phase, "ends"),
    };
    format!("{} after {} {does}", deadline.within.show(), cook.phase(phase).name)
}

/// A limit on the clock of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnTheClock {
    /// When its time begins by the plan.
    pub since: Window,
    /// When it is up if its time begins as early as it may.
    pub by: Minute,
    /// Something that may have begun by then lasts as long as is only predicted.
    pub predicted: bool,
}

/// `None` where the plan does not hold whatever nature does: its windows then leave some outcomes out, and the time may
/// begin before them. `all` is what is cooked beside it: hands and kit are shared.
pub fn on_the_clock(
    deadline: &Deadline,
    worked: &CompiledCook<'_>,
    all: &[CompiledCook<'_>],
) -> Option<OnTheClock> {
    let plan = worked.timeline?;
    if plan.on_time != OnTime::Always || plan.windows == Windows::OneWay {
        return None;
    }
    let line = |phase: PhaseId| plan.phases.get(phase.0 as usize);
    let since = match deadline.since {
        Since::StartOf(phase) => line(phase)?.start?,
        Since::EndOf(phase) => line(phase)?.end?,
    };
    let within = deadline.within.minutes();
    if !within.is_finite() {
        return None;
    }
    // A part of a minute is not given away.
    let by = since.earliest.checked_add(within.floor() as Minute)?;
    let predicted = rests_on_prediction(all, since);
    Some(OnTheClock { since, by, predicted })
}

/// Something of what is cooked side by side may begin before this and last as long as is only predicted.
pub fn rests_on_prediction(all: &[CompiledCook<'_>], by: Window) -> bool {
    all.iter().any(|beside| predicted_before(beside, by))
}

/// Something that may begin before this has no length in the file, but one that is predicted.
fn predicted_before(worked: &CompiledCook<'_>, since: Window) -> bool {
    let planned = worked.timeline.into_iter().flat_map(|plan| &plan.phases);
    // What always comes later has both ends of its window later, though the two windows may overlap.
    let before = |start: Window| start.earliest < since.earliest || start.latest < since.latest;
    let begun = |line: &PhaseLine| line.start.is_none_or(before);
    worked.cook.phases.iter().zip(planned).any(|(phase, line)| phase.lasts == Lasts::Open && begun(line))
}

/// One limit, for programs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct DeadlineRow {
    pub rule: String,
    pub set: String,
    pub food: String,
    /// The time begins when this phase starts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub after_start_of: Option<String>,
    /// The time begins when this phase ends.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub after_end_of: Option<String>,
    pub within_s: f64,
    /// The middle of the food is no warmer by then; without it, the food is back in the heat or the cold, or eaten.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub core_c: Option<f64>,
    /// With `further_s`: and no longer than that after its middle was at this.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub after_core_c: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub further_s: Option<f64>,
    /// For people.
    pub text: String,
}

pub fn row(deadline: &Deadline, cook: &Cook) -> DeadlineRow {
    let name = |phase: PhaseId| Some(cook.phase(phase).name.clone());
    let (after_start_of, after_end_of) = match deadline.since {
        Since::StartOf(phase) => (name(phase), None),
        Since::EndOf(phase) => (None, name(phase)),
    };
    let core = match deadline.by_then {
        ByThen::Cold(at) | ByThen::ColdAfter { at, .. } => Some(at.celsius()),
        ByThen::Used => None,
    };
    let (after_core, further) = match deadline.by_then {
        ByThen::ColdAfter { from, further, .. } => (Some(from.celsius()), Some(further.seconds())),
        ByThen::Cold(_) | ByThen::Used => (None, None),
    };
    DeadlineRow {
        rule: deadline.rule.clone(),
        set: deadline.set.clone(),
        food: deadline.food.clone(),
        after_start_of,
        after_end_of,
        within_s: deadline.within.seconds(),
        core_c: core.map(tidy),
        after_core_c: after_core.map(tidy),
        further_s: further.map(tidy),
        text: format!(
            "{}: {} {}. {TOO_LATE}",
            counted(deadline, cook),
            deadline.food,
            what(deadline, cook.scale)
        ),
    }
}
