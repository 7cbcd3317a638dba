//! A phase of the plan in a few words, to stand beside its line in a file.

use super::words;
use crate::timing::{Clock, PhaseLine, Timeline, Windows};

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

/// How far the times of this plan are to be trusted, where they are less than exact; else nothing.
pub fn reservation(plan: &Timeline) -> &'static str {
    match plan.windows {
        Windows::Exact => "",
        Windows::Bounds => "Nothing falls outside these times, but not every minute inside is open.",
        Windows::OneWay => "That is one way it may go, with everything at its longest; nothing is promised.",
    }
}
