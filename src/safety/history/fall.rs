//! One stage of cooling.

use super::record::History;
use super::ruling::{Measured, Ruling, cold_edge, hot_edge, in_time, long_enough};
use crate::quantity::Duration;
use crate::tables::Limit;

/// From the moment the food falls below `from` to the first at which it is as cold as `to`. A `further` stage
/// starts at the first moment at which it is as cold as `from`: where the stage above ends. Without `from` the
/// clock starts with the history.
pub(super) fn judge(
    history: &History,
    from: Option<Limit>,
    to: Limit,
    max: Duration,
    further: bool,
) -> Ruling {
    let start = match from {
        None => Some(history.start()),
        Some(from) if further => history.at_most(cold_edge(from, false)).first().map(|cold| cold.start),
        Some(from) => falls_below(history, from),
    };
    let Some(start) = start else {
        return Ruling::not_judged("the history ends before the clock starts");
    };
    let cold = history.at_most(cold_edge(to, false));
    let reached = cold.iter().find(|cold| cold.end >= start).map(|cold| cold.start.max(start));
    if let Some(reached) = reached {
        let time = reached - start;
        let met = in_time(time, max, false);
        return Ruling::new(
            met,
            Measured::no_longer_than(time, max),
            if met { reached } else { start + max },
        );
    }
    let time = history.end() - start;
    let measured = Measured::no_longer_than(time, max);
    if long_enough(time, max) {
        return Ruling::new(false, measured, start + max).because("it is not as cold by then");
    }
    Ruling::new(false, measured, history.end()).open("the history ends before it is as cold, and in time")
}

/// The first moment at which it is no longer hot. It may start so.
fn falls_below(history: &History, from: Limit) -> Option<Duration> {
    let edge = hot_edge(from, false);
    if history.first() < edge {
        return Some(history.start());
    }
    history.between(None, Some(edge)).first().map(|below| below.start)
}
