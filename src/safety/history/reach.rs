//! Hot enough for long enough, by a chart: one row is enough.
//!
//! Between two rows the cooler one counts: no publisher of the sets says how to read between them, and the
//! cooler row asks for the longer time. A row's time is one stretch without a break.

use super::Food;
use super::record::History;
use super::ruling::{Measured, Ruling, cold_edge, hot_edge, in_time, long_enough};
use crate::quantity::Duration;
use crate::tables::{Limit, Point};

/// A row that the history satisfies: when it gets there, and when its time is over.
struct Hit<'p> {
    point: &'p Point,
    from: Duration,
    done: Duration,
    hold: Duration,
}

pub(super) fn judge(history: &History, food: &Food, points: &[Point], strict: bool) -> Ruling {
    match first_hit(history, food, points, strict) {
        Some(hit) => met(history, &hit, strict),
        None => missed(history, food, points, strict),
    }
}

/// The earliest moment at which a row is satisfied.
pub(super) fn cooked_at(history: &History, food: &Food, points: &[Point], strict: bool) -> Option<Duration> {
    first_hit(history, food, points, strict).map(|hit| hit.done)
}

/// As [`judge`], and from the cold to the figure within the window.
pub(super) fn judge_reheat(
    history: &History,
    food: &Food,
    points: &[Point],
    strict: bool,
    window: Option<(Duration, Option<Limit>)>,
) -> Ruling {
    let Some((max, cold)) = window else { return judge(history, food, points, strict) };
    let soonest =
        hits(history, food, points, strict).min_by(|a, b| a.from.seconds().total_cmp(&b.from.seconds()));
    let Some(hit) = soonest else { return missed(history, food, points, strict) };
    let left_cold = cold.and_then(|cold| {
        let colds = history.at_most(cold_edge(cold, false));
        colds.iter().rev().find(|spell| spell.end <= hit.from).map(|spell| spell.end)
    });
    let start = left_cold.unwrap_or(history.start());
    let time = hit.from - start;
    if in_time(time, max, false) {
        return met(history, &hit, strict);
    }
    let late = Ruling::new(false, Measured::no_longer_than(time, max), start + max);
    Ruling { row: hit.point.id.clone(), ..late }
}

fn first_hit<'p>(history: &'p History, food: &'p Food, points: &'p [Point], strict: bool) -> Option<Hit<'p>> {
    hits(history, food, points, strict).min_by(|a, b| a.done.seconds().total_cmp(&b.done.seconds()))
}

/// The first time that each row is satisfied, where it is.
fn hits<'p>(
    history: &'p History,
    food: &'p Food,
    points: &'p [Point],
    strict: bool,
) -> impl Iterator<Item = Hit<'p>> {
    points.iter().filter_map(move |point| {
        let hold = point.hold_for(food.fat_percent);
        let spells = history.at_least(hot_edge(point.limit(), strict));
        let spell = spells.into_iter().find(|spell| long_enough(spell.length(), hold))?;
        let done = spell.start + hold + rest(point);
        long_enough(history.end(), done).then_some(Hit { point, from: spell.start, done, hold })
    })
}

fn rest(point: &Point) -> Duration {
    Duration::from_seconds(point.rest_s)
}

fn met(history: &History, hit: &Hit, strict: bool) -> Ruling {
    let measured = if hit.hold > Duration::ZERO {
        Measured::as_long_as(longest(history, hit.point, strict), hit.hold)
    } else {
        Measured::at_least(history.hottest(), hit.point.limit().lowest())
    };
    Ruling { row: hit.point.id.clone(), ..Ruling::new(true, measured, hit.done) }
}

/// How near the history came: by time to the row of which it had the greatest part, else by temperature to the
/// coolest row.
fn missed(history: &History, food: &Food, points: &[Point], strict: bool) -> Ruling {
    let parts = points.iter().filter_map(|point| {
        let hold = point.hold_for(food.fat_percent) + rest(point);
        let reaches = history.at_least(hot_edge(point.limit(), strict)).into_iter().next()?;
        let time =
            if point.rest_s > 0.0 { history.end() - reaches.start } else { longest(history, point, strict) };
        (hold > Duration::ZERO).then_some((point, time, hold))
    });
    let nearest = parts
        .max_by(|(_, one, of_one), (_, other, of_other)| (*one / *of_one).total_cmp(&(*other / *of_other)));
    if let Some((point, time, hold)) = nearest {
        let ruling = Ruling::new(false, Measured::as_long_as(time, hold), history.end());
        return Ruling { row: point.id.clone(), ..ruling };
    }
    let coolest =
        points.iter().min_by(|a, b| a.limit().lowest().kelvin().total_cmp(&b.limit().lowest().kelvin()));
    let Some(coolest) = coolest else { return Ruling::not_judged("the rule has no figure") };
    let measured = Measured::at_least(history.hottest(), coolest.limit().lowest());
    Ruling { row: coolest.id.clone(), ..Ruling::new(false, measured, history.end()) }
}

fn longest(history: &History, point: &Point, strict: bool) -> Duration {
    let spells = history.at_least(hot_edge(point.limit(), strict));
    spells.into_iter().map(|spell| spell.length()).fold(Duration::ZERO, Duration::max)
}
