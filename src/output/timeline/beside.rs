//! A phase of the plan in a few words, to stand beside its line in a file.

use super::words;
use crate::timing::{Clock, OnTime, PhaseLine, Timeline, Windows};

/// "18:30 to 18:50, ends 22:30"; `None` where it cannot be timed.
pub fn short_times(clock: &Clock, phase: &PhaseLine) -> Option<String> {
    let start = words::times(clock, phase.start?);
    Some(words::end(clock, phase).map_or_else(|| start.clone(), |end| format!("{start}, ends {end}")))
}

/// "22:00 to 22:05, served 18:30 to 18:45" of a dish; `None` where it cannot be timed.
pub fn short_dish_times(plan: &Timeline) -> Option<String> {
    let start = words::times(&plan.clock, plan.start?);
    let served = plan.servings.iter().filter_map(|serving| serving.promised);
    let served: Vec<String> = served.map(|window| words::times(&plan.clock, window)).collect();
    let and = if served.is_empty() { "" } else { ", served " };
    Some(format!("{start}{and}{}", served.join(" and ")))
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

/// "Start at 22:00, the day before." and "Serve pulled at 18:30, on the day.", as far as they can be timed.
pub fn start_and_servings(plan: &Timeline) -> impl Iterator<Item = String> {
    let servings = plan.servings.iter().filter_map(|serving| words::serving(plan, serving));
    words::start(plan).into_iter().chain(servings)
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
