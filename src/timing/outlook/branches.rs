//! How the rest goes if nature is quick, and if it is slow.

use super::Named;
use super::settled::Settled;
use crate::timing::clock::Minute;
use crate::timing::network::{Lasts, Network};
use crate::timing::timeline::Window;

/// A spread that is less than this changes nothing that one would plan for.
const WIDE: Minute = 30;
/// Starts that move by less are not worth telling.
const MOVED: Minute = 15;

/// Start and end of each step.
type Spans = [(Window, Window)];

/// A phase that nature ends, and what follows from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Branch {
    pub cook: String,
    pub phase: String,
    pub quick: Case,
    pub slow: Case,
}

/// One length of the phase, and what follows from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    pub lasts: Minute,
    pub ends: Window,
    /// The same phases in both cases.
    pub then: Vec<Then>,
}

/// A phase that takes up what nature leaves, or that has to wait for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Then {
    pub cook: String,
    pub phase: String,
    /// It is what people eat.
    pub served: bool,
    pub starts: Window,
    /// The shortest and the longest that it then lasts, where that is what takes it up.
    pub lasts: Option<Window>,
}

/// One for each phase that nature may stretch by much, where that changes anything.
pub fn all(settled: &Settled<'_>, natural: &[usize], named: &dyn Fn(usize) -> Named) -> Vec<Branch> {
    let wide = natural.iter().filter(|&&n| is_wide(settled.network, n));
    wide.filter_map(|&n| {
        let (low, high) = settled.range(n);
        let quick = settled.if_lasting(n, low)?;
        let slow = settled.if_lasting(n, high)?;
        let follows = consequences(settled.network, n, &quick, &slow);
        let Named { cook, phase, gone } = named(n);
        let case = |length: Minute, windows: &Spans| Case {
            lasts: length + gone,
            ends: windows[n].1,
            then: follows.iter().map(|&one| then(settled.network, windows, one, named)).collect(),
        };
        let branch = Branch { cook, phase, quick: case(low, &quick), slow: case(high, &slow) };
        (!follows.is_empty()).then_some(branch)
    })
    .collect()
}

fn then(
    network: &Network,
    windows: &Spans,
    (n, takes_up): (usize, bool),
    named: &dyn Fn(usize) -> Named,
) -> Then {
    let Named { cook, phase, .. } = named(n);
    Then {
        cook,
        phase,
        served: network.steps[n].serving.is_some(),
        starts: windows[n].0,
        lasts: takes_up.then(|| lasts(network, windows, n)),
    }
}

/// Nature may stretch it by much.
fn is_wide(network: &Network, n: usize) -> bool {
    let lasts = network.steps[n].lasts;
    matches!(lasts, Lasts::Nature { .. }) && lasts.high() - lasts.low() >= WIDE
}

/// The shortest and the longest that a step lasts between these windows.
fn lasts(network: &Network, windows: &Spans, n: usize) -> Window {
    let ((start, end), lasts) = (windows[n], network.steps[n].lasts);
    let between = |minutes: Minute| minutes.clamp(lasts.low(), lasts.high());
    Window { earliest: between(end.earliest - start.latest), latest: between(end.latest - start.earliest) }
}

/// The steps in which two outcomes of step `n` part, in the order of the clock, and whether each takes up the difference:
/// where the food goes on the first that does so, or else the first that starts at another time; elsewhere
/// what has to start at another time.
pub fn consequences(network: &Network, n: usize, one: &Spans, other: &Spans) -> Vec<(usize, bool)> {
    let count = network.steps.len();
    let followers = |n: usize| (0..count).filter(move |&m| network.steps[m].follows.contains(&n));
    let mut found = Vec::new();
    // On the way of the food, or behind something that was told.
    let mut known = vec![false; count];
    known[n] = true;
    let mut open: Vec<usize> = followers(n).collect();
    while let Some(m) = open.pop() {
        if std::mem::replace(&mut known[m], true) {
            continue;
        }
        let step = &network.steps[m];
        let chosen = matches!(step.lasts, Lasts::Chosen { low, high } if low < high);
        if chosen && lasts(network, one, m) != lasts(network, other, m) {
            found.push((m, true));
        } else if is_wide(network, m) || step.serving.is_some() {
            found.extend(moved(one, other, m).then_some((m, false)));
        } else {
            open.extend(followers(m));
        }
    }
    for m in 0..count {
        let follows = &network.steps[m].follows;
        if known[m] || follows.iter().any(|&before| known[before]) {
            known[m] = true;
        } else if network.steps[m].behind.is_none() && moved(one, other, m) {
            known[m] = true;
            found.push((m, false));
        }
    }
    found.sort_by_key(|&(m, _)| (one[m].0.earliest, m));
    found
}

fn moved(one: &Spans, other: &Spans, n: usize) -> bool {
    let (one, other) = (one[n].0, other[n].0);
    (one.earliest - other.earliest).abs().max((one.latest - other.latest).abs()) >= MOVED
}
