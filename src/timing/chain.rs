//! One food line, solved exactly: back from the last step, the set of minutes at which each may start.
//!
//! Three sets for each step. *Hard*: from here there is a way that never needs hands while nobody is
//! there, whatever nature does, however late dinner is. *Always*: and every outcome is on time. *Lucky*:
//! a way inside the hard set that is on time for at least one outcome.

use super::clock::Minute;
use super::guests::{self, State};
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
    /// Whether there is a way from the first on, and a lucky one: the first step may wait for the guests.
    pub won: bool,
    pub may_be_won: bool,
    /// The starts of the first step that win by that, or may; those after the guests came, where it waits for
    /// them.
    pub starts: Set,
    /// The last step, counted on from which everything could still be won, but not from it.
    pub lost: Option<usize>,
}

/// `None` when the steps are not one line, or guests are awaited twice.
pub fn solve(network: &Network) -> Option<Sets> {
    if !is_chain(network) || !guests::few(network) {
        return None;
    }
    let awake = network.absent.complement();
    let always = guests::always(network, &awake);
    let hard = guests::hard(network, &awake);
    let lucky = guests::lucky(network, &hard, &awake);
    let won = always.first().is_some_and(|first| first.is_won(&awake));
    let may_be_won = lucky.first().zip(hard.first());
    let may_be_won = may_be_won.is_some_and(|(lucky, hard)| guests::is_lucky(lucky, hard, &awake));
    let known_or_not = |states: &[State]| states.iter().map(State::known_or_not).collect::<Vec<_>>();
    let hard = known_or_not(&hard);
    let on_time = known_or_not(&always);
    let lucky: Vec<Set> = lucky.iter().map(State::known).collect();
    let possible: Vec<Set> = always.iter().map(State::known).collect();
    let blind: Vec<Set> = lucky.iter().zip(&hard).map(|(lucky, hard)| lucky.intersect(hard)).collect();
    let ways = if won { [&on_time, &possible] } else { [&blind, &lucky] };
    let starts = ways.into_iter().filter_map(|way| way.first()).find(|set| !set.is_empty());
    Some(Sets {
        starts: starts.cloned().unwrap_or_default(),
        lucky: blind,
        hard,
        won,
        may_be_won,
        always: on_time,
        possible,
        lost: (always.iter().zip(&network.steps)).rposition(|(state, step)| !state.may_win(step)),
    })
}

/// Whether there is a way from the first on, and no more; `None` as with [`solve`].
pub fn wins(network: &Network) -> Option<bool> {
    if !is_chain(network) || !guests::few(network) {
        return None;
    }
    let awake = network.absent.complement();
    Some(guests::always(network, &awake).first().is_some_and(|first| first.is_won(&awake)))
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
pub fn luck_before(step: &Step, lucky: &Set, hard: &Set, awake: &Set) -> Set {
    match step.lasts {
        Lasts::Nature { .. } => win_before(step, hard, awake).intersect(&some_before(step, lucky)),
        _ => win_before(step, lucky, awake),
    }
}

/// The starts from which a step may end inside `target`, whoever is there.
pub fn some_before(step: &Step, target: &Set) -> Set {
    match step.lasts.looks() {
        None => target.some_before(step.lasts.low(), step.lasts.high()),
        Some(lengths) => lengths
            .iter()
            .map(|&length| target.some_before(length, length))
            .fold(Set::empty(), |all, one| all.union(&one)),
    }
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
