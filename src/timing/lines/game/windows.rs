//! The minutes in which each moment may be if the game is to be won at all.

use super::Goal;
use crate::timing::chain::{on_time, win_before};
use crate::timing::clock::Minute;
use crate::timing::needs::LONGEST;
use crate::timing::network::{Lasts, Network, Serving, Step};
use crate::timing::sets::{FAR, Set};

/// Narrowing stops after so many rounds; the windows are then wider than they need be.
const ROUNDS: usize = 60;

/// `to` comes at least so long after `from`: reckoned with for the earliest minute of `to`, and for the latest of `from`.
struct Arc {
    from: usize,
    to: usize,
    early: Minute,
    late: Minute,
}

/// For start and end of each step; `None` where one of them has none.
pub(super) fn windows(network: &Network, goal: Goal) -> Option<Vec<Set>> {
    let mut sets = domains(network, goal);
    let arcs = arcs(network, goal);
    let first = |set: &Set| set.first();
    let mut low: Vec<Minute> = sets.iter().map(first).collect::<Option<_>>()?;
    let mut high: Vec<Minute> = sets.iter().map(Set::last).collect::<Option<_>>()?;
    for _ in 0..ROUNDS {
        let mut changed = false;
        for arc in &arcs {
            if low[arc.from] > -FAR && low[arc.from] + arc.early > low[arc.to] {
                low[arc.to] = low[arc.from] + arc.early;
                changed = true;
            }
            if high[arc.to] < FAR && high[arc.to] - arc.late < high[arc.from] {
                high[arc.from] = high[arc.to] - arc.late;
                changed = true;
            }
        }
        if !changed {
            break;
        }
    }
    let (before, after) = horizon(network, &low, &high);
    for ((set, low), high) in sets.iter_mut().zip(low).zip(high) {
        *set = set.intersect(&Set::range(low.max(before), high.min(after)));
        if set.is_empty() {
            return None;
        }
    }
    Some(sets)
}

/// Before the first minute that anything is written of, and after the last, the clock does not matter: whatever is done
/// there can be done one after the other as near to it as all lengths together allow.
fn horizon(network: &Network, low: &[Minute], high: &[Minute]) -> (Minute, Minute) {
    let nights = network.absent.intervals().iter().flat_map(|&(first, last)| [first, last]);
    let written =
        || low.iter().chain(high).copied().chain(nights.clone()).filter(|minute| minute.abs() < FAR);
    let lengths: Minute = network.steps.iter().map(|step| step.lasts.high().min(LONGEST)).sum();
    let gaps: Minute = network.apart.iter().flat_map(|apart| apart.gaps).sum();
    let bounds = network.links.iter().flat_map(|link| [link.low.abs(), link.high.abs()]);
    let ahead = network.steps.iter().filter_map(|step| step.needs.before).map(|ahead| ahead.most);
    let busy = network.steps.iter().map(|step| step.needs.busy);
    let all =
        lengths + gaps + bounds.chain(ahead).chain(busy).filter(|minutes| *minutes < FAR).sum::<Minute>();
    (written().min().unwrap_or(0) - all, written().max().unwrap_or(0) + all)
}

/// What the clock and the crew leave each moment by itself.
fn domains(network: &Network, goal: Goal) -> Vec<Set> {
    let awake = network.absent.complement();
    let mut sets = vec![Set::all(); 2 * network.steps.len()];
    for (n, step) in network.steps.iter().enumerate().rev() {
        let mut ends = step.end_in.clone();
        if step.needs.at_end {
            ends = ends.intersect(&awake);
        }
        for (then, _) in network.steps.iter().enumerate().filter(|(_, then)| then.follows.contains(&n)) {
            if goal != Goal::Awake {
                ends = ends.intersect(&sets[2 * then]);
            }
        }
        let starts = match goal {
            Goal::Every => on_time(step).intersect(&win_before(step, &ends, &awake)),
            Goal::Some => on_time(step).intersect(&hope_before(step, &ends, &awake)),
            Goal::Awake => win_before(step, &ends, &awake),
        };
        (sets[2 * n], sets[2 * n + 1]) = (starts, ends);
    }
    sets
}

/// As [`win_before`] for nature's kindest length; sleep is kept whatever she does.
fn hope_before(step: &Step, ends: &Set, awake: &Set) -> Set {
    let Lasts::Nature { low, high, .. } = step.lasts else { return win_before(step, ends, awake) };
    ends.some_before(low, high).intersect(&win_before(step, &Set::all(), awake))
}

fn arcs(network: &Network, goal: Goal) -> Vec<Arc> {
    let mut arcs = Vec::new();
    let mut bind = |from: usize, to: usize, low: Minute, high: Minute| {
        if low > -FAR {
            arcs.push(Arc { from, to, early: low, late: low });
        }
        if high < FAR {
            arcs.push(Arc { from: to, to: from, early: -high, late: -high });
        }
    };
    if goal == Goal::Awake {
        return arcs;
    }
    let mut natural = Vec::new();
    for (n, step) in network.steps.iter().enumerate() {
        let (start, end) = (2 * n, 2 * n + 1);
        let looks = step.lasts.looks().and_then(|looks| looks.first().copied());
        let (low, high) = (looks.unwrap_or(step.lasts.low()), step.lasts.high());
        match step.lasts {
            Lasts::Nature { .. } if goal == Goal::Every => {
                natural.push(Arc { from: start, to: end, early: low, late: high });
                natural.push(Arc { from: end, to: start, early: -low, late: -high });
            }
            _ => bind(start, end, low, high),
        }
        step.follows.iter().for_each(|&before| bind(2 * before + 1, start, 0, 0));
    }
    for link in &network.links {
        let at = |point: crate::timing::network::Point| 2 * point.step + usize::from(point.end);
        bind(at(link.from), at(link.to), link.low, link.high);
    }
    arcs.extend(natural);
    arcs
}

/// The network of what is asked where dinner may be late: that nobody is needed in sleep.
pub(super) fn only_sleep(network: &Network) -> Network {
    let mut network = network.clone();
    network.people = None;
    (network.links, network.apart, network.rooms) = Default::default();
    for step in &mut network.steps {
        (step.start_in, step.end_in, step.not_before) = (Set::all(), Set::all(), -FAR);
        step.serving = step.serving.map(|serving| match serving {
            Serving::Within { .. } => Serving::Within { first: -FAR, last: FAR },
            Serving::Guests { first, last, .. } => Serving::Guests { first, last, late: 0 },
        });
    }
    network
}
