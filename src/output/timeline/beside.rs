//! A phase of the plan in a few words, to stand beside its line in a file.

use super::words;
use crate::timing::{Clock, OnTime, PhaseLine, Timeline, Windows};

/// "18:30 to 18:50, ends 22:30"; `None` where it cannot be timed.
pub fn short_times(clock: &Clock, phase: &PhaseLine) -> Option<String> {
    let start = words::times(clock, phase.start?);
    Some(words::end(clock, phase).map_or_else(|| start.clone(), |end| format!("{start}, ends {end}")))
}

/// "starts at 18:30, Friday, and ends between 22:00 and 22:30, Friday"; `None` where it cannot be timed.
pub fn phase_times(clock: &Clock, phase: &PhaseLine) -> Option<String> {
    let (start, end) = (phase.start?, phase.end?);
    let starts = words::moment(clock, start);
    Some(match start == end {
        true => format!("is {starts}"),
        false => format!("starts {starts}, and ends {}", words::moment(clock, end)),
    })
}

/// How far the times of this plan are to be trusted, where they are less than exact and promised; else nothing.
pub fn reservation(plan: &Timeline) -> String {
    let promise = match plan.on_time {
        OnTime::Always => None,
        OnTime::IfLucky => Some("Dinner is on time only with luck."),
        OnTime::Never => Some("Dinner is never on time."),
        OnTime::NotProved => Some("That dinner is on time is not proved."),
    };
    let windows = match plan.windows {
        Windows::Exact => None,
        Windows::Bounds => Some("Nothing falls outside these times, but not every minute inside is open."),
        Windows::OneWay => {
            Some("That is one way it may go, with everything at its longest; nothing is promised.")
        }
    };
    promise.into_iter().chain(windows).collect::<Vec<_>>().join(" ")
}
