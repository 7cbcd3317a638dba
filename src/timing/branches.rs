//! How the rest goes if nature is quick, and if it is slow.

use super::build::Built;
use super::clock::Minute;
use super::network::{Lasts, Network};
use super::sets::Set;
use super::solution::{self, Solution};
use super::timeline::{OnTime, Window};
use crate::cook::{Cook, PhaseId};

/// A spread that is less than this changes nothing that one would plan for.
const WIDE: Minute = 30;

/// A phase that nature ends, and the phase that takes up what it leaves.
#[derive(Debug, Clone, PartialEq)]
pub struct Branch {
    pub phase: String,
    /// The next phase whose length the cook decides.
    pub then: String,
    pub quick: Case,
    pub slow: Case,
}

/// One length of the phase, and what follows from it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Case {
    pub lasts: Minute,
    pub ends: Window,
    /// The shortest and the longest that the phase that follows then lasts.
    pub then: Window,
}

/// One for each phase that nature may stretch by much, where one food line is proved to be always on time.
pub fn branches(cook: &Cook, built: &Built, solution: &Solution) -> Vec<Branch> {
    let proved = solution.on_time == OnTime::Always && solution.sets.is_some();
    if !proved || solution.windows.len() != built.network.steps.len() {
        return Vec::new();
    }
    let network = &built.network;
    let name = |n: usize| cook.phase(PhaseId(n as u32)).name.clone();
    let wide = (0..network.steps.len()).filter(|&n| is_wide(network, n));
    wide.filter_map(|n| {
        let then = takes_up(network, n)?;
        let Lasts::Nature { low, high, .. } = network.steps[n].lasts else { return None };
        let case = |length| case(network, solution, n, then, length);
        let gone = built.past.as_ref().map_or(0, |past| past.elapsed(n));
        let whole = |case: Case| Case { lasts: case.lasts + gone, ..case };
        Some(Branch { phase: name(n), then: name(then), quick: whole(case(low)?), slow: whole(case(high)?) })
    })
    .collect()
}

/// What is over has a length of its own by now.
fn is_wide(network: &Network, n: usize) -> bool {
    let lasts = network.steps[n].lasts;
    matches!(lasts, Lasts::Nature { .. }) && lasts.high() - lasts.low() >= WIDE
}

/// The next step that the cook stretches, unless nature stretches another before it.
fn takes_up(network: &Network, n: usize) -> Option<usize> {
    let mut after = (n + 1..network.steps.len()).take_while(|&other| !is_wide(network, other));
    after.find(|&other| matches!(network.steps[other].lasts, Lasts::Chosen { low, high } if low < high))
}

/// The step starts where the plan has it, and turns out to last so long.
fn case(network: &Network, plan: &Solution, n: usize, then: usize, length: Minute) -> Option<Case> {
    let mut tried = network.clone();
    for (step, (start, _)) in tried.steps.iter_mut().zip(&plan.windows).take(n + 1) {
        step.start_in = step.start_in.intersect(&Set::range(start.earliest, start.latest));
    }
    tried.steps[n].lasts = Lasts::Fixed(length);
    let tried = solution::solve(&tried);
    let ((_, ends), (start, end)) = (*tried.windows.get(n)?, *tried.windows.get(then)?);
    let lasts = network.steps[then].lasts;
    let between = |minutes: Minute| minutes.clamp(lasts.low(), lasts.high());
    let then = Window {
        earliest: between(end.earliest - start.latest),
        latest: between(end.latest - start.earliest),
    };
    (tried.on_time == OnTime::Always).then_some(Case { lasts: length, ends, then })
}
