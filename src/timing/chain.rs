//! One food line, solved exactly: back from the last step, the set of minutes at which each may start.
//!
//! Three sets for each step. *Hard*: from here there is a way that never needs hands while nobody is
//! there, whatever nature does, however late dinner is. *Always*: and every outcome is on time. *Lucky*:
//! a way inside the hard set that is on time for at least one outcome.

use super::clock::Minute;
use super::guests;
use super::network::{Lasts, Network, Serving, Step};
use super::sets::Set;

/// For each step, the minutes at which it may start.
#[derive(Debug, Clone)]
pub struct Sets {
    pub hard: Vec<Set>,
    pub always: Vec<Set>,
    /// With guests who come when they like, the starts that win once it is known when; else as *always*.
    pub possible: Vec<Set>,
    pub lucky: Vec<Set>,
}

/// `None` when the steps are not one line, or guests are awaited twice.
pub fn solve(network: &Network) -> Option<Sets> {
    if !is_chain(network) {
        return None;
    }
    let awake = network.absent.complement();
    let guests::Starts { always, possible } = guests::always(network, &awake)?;
    let count = network.steps.len();
    let mut sets = Sets { hard: vec![Set::all(); count], always, possible, lucky: vec![Set::all(); count] };
    let (mut hard_next, mut lucky_next) = (Set::all(), Set::all());
    for (n, step) in network.steps.iter().enumerate().rev() {
        let in_time = on_time(step);
        lucky_next =
            luck_before(step, &lucky_next.intersect(&step.end_in), &hard_next, &awake).intersect(&in_time);
        hard_next = win_before(step, &hard_next, &awake);
        sets.hard[n] = hard_next.clone();
        sets.lucky[n] = lucky_next.clone();
    }
    Some(sets)
}

/// Each step follows the one before it, and every further bond holds by that alone.
fn is_chain(network: &Network) -> bool {
    let in_line = network.steps.iter().enumerate().all(|(n, step)| match n.checked_sub(1) {
        None => step.follows.is_empty(),
        Some(before) => step.follows == [before],
    });
    in_line
        && network.apart.is_empty()
        && network.rooms.is_empty()
        && network.links.iter().all(|link| {
            let no_sooner = link.low <= 0 && link.high >= super::sets::FAR;
            let rank = |point: super::network::Point| 2 * point.step + usize::from(point.end);
            no_sooner && rank(link.from) <= rank(link.to)
        })
}

/// When the clock, and people's hunger, let a step start.
pub fn on_time(step: &Step) -> Set {
    match step.serving {
        Some(serving) => {
            let (first, last) = serving.whole();
            step.starts().intersect(&Set::range(first, last))
        }
        None => step.starts(),
    }
}

/// The starts from which the step can be brought to an end inside `target` whatever nature does, with
/// somebody there whenever the step needs it.
pub fn win_before(step: &Step, target: &Set, awake: &Set) -> Set {
    let ends = if step.needs.at_end { target.intersect(awake) } else { target.clone() };
    match step.lasts {
        Lasts::Fixed(length) => ends.some_before(length, length).intersect(&attended(step, length, awake)),
        Lasts::Nature { low, high, .. } => {
            let reached = match step.lasts.looks() {
                None => ends.all_before(low, high),
                Some(lengths) => lengths
                    .iter()
                    .map(|&length| ends.some_before(length, length))
                    .fold(Set::all(), |all, one| all.intersect(&one)),
            };
            reached.intersect(&attended(step, high, awake))
        }
        Lasts::Chosen { low, high } => choose_before(step, low, high, &ends, awake),
    }
}

/// As [`win_before`] into `hard`, with at least one outcome that ends inside `lucky`.
fn luck_before(step: &Step, lucky: &Set, hard: &Set, awake: &Set) -> Set {
    let Lasts::Nature { low, high, .. } = step.lasts else { return win_before(step, lucky, awake) };
    let some = match step.lasts.looks() {
        None => lucky.some_before(low, high),
        Some(lengths) => lengths
            .iter()
            .map(|&length| lucky.some_before(length, length))
            .fold(Set::empty(), |all, one| all.union(&one)),
    };
    win_before(step, hard, awake).intersect(&some)
}

/// The starts from which somebody is there whenever a step of this length needs it.
fn attended(step: &Step, length: Minute, awake: &Set) -> Set {
    let limit = if step.serving.is_some() { super::sets::FAR } else { length };
    step.awake_pieces()
        .into_iter()
        .map(|(from, to)| (from, to.min(limit)))
        .filter(|(from, to)| from < to)
        .fold(prepared(step, awake), |all, (from, to)| all.intersect(&awake.all_before(from, to - 1)))
}

/// The starts before which somebody is awake in time.
pub fn prepared(step: &Step, awake: &Set) -> Set {
    step.needs.before.map_or_else(Set::all, |ahead| awake.after(ahead.least, ahead.most))
}

/// A chosen length may be cut short of a minute that nobody is there for. Walks the needs in order:
/// between two of them every length is free, inside one the length is bound by the waking hours.
fn choose_before(step: &Step, low: Minute, high: Minute, ends: &Set, awake: &Set) -> Set {
    let mut found = Set::empty();
    // Starts for which every need up to `reached` is met.
    let mut alive = attended(step, low, awake);
    let mut reached = low;
    for (from, to) in step.awake_pieces() {
        let (from, to) = (from.max(low), to.min(high));
        if from >= to {
            continue;
        }
        found = found.union(&alive.intersect(&ends.some_before(reached, from)));
        for &(first, last) in awake.intervals() {
            let inside = Set::range(first, last).some_before(from, from);
            let cut = ends.intersect(&Set::up_to(last + 1)).some_before(from + 1, to);
            found = found.union(&alive.intersect(&inside).intersect(&cut));
        }
        alive = alive.intersect(&awake.all_before(from, to - 1));
        reached = to;
    }
    found.union(&alive.intersect(&ends.some_before(reached, high)))
}

/// A serving whose guests decide.
pub fn guests_of(step: &Step) -> Option<(Minute, Minute, Minute)> {
    match step.serving {
        Some(Serving::Guests { first, last, late }) => Some((first, last, late)),
        _ => None,
    }
}
