//! Where a food has been, phase by phase, so that its predicted curve can be followed through them.

use super::deadline::Since;
use super::report::About;
use crate::cook::{Cook, ItemId, PhaseId, Purpose};

/// Longer than any real cook; of a longer one no run is followed that begins before what is kept.
const MOST_STEPS: usize = 48;
/// More parents than a real mixture has.
const MOST_TRAILS: usize = 6;

/// The way of one food through the phases, by the names that it had there.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Trail(Vec<About>);

/// How hot a phase left a food, by what is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Left {
    Hot,
    /// As it usually goes, but not at the cold end of what is predicted.
    Perhaps,
    Lukewarm,
}

/// The ways of all foods in a mixture, up to now.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Trails(Vec<Trail>);

impl Trails {
    /// It has been through a phase.
    pub fn follow(&mut self, step: About) {
        if self.0.is_empty() {
            self.0.push(Trail::default());
        }
        for Trail(steps) in &mut self.0 {
            if steps.len() >= MOST_STEPS {
                steps.remove(0);
            }
            steps.push(step);
        }
    }

    pub fn take_in(&mut self, other: Self) {
        for trail in other.0 {
            if self.0.len() < MOST_TRAILS && !self.0.contains(&trail) {
                self.0.push(trail);
            }
        }
    }

    /// From phase `first` on. Of a mixture, the way of `food` if it is known; else every way that comes through there.
    pub fn since(&self, first: PhaseId, food: Option<ItemId>) -> Vec<Vec<About>> {
        let from = |Trail(steps): &Trail| {
            let at = steps.iter().position(|step| step.phase == first)?;
            Some(steps.get(at..)?.to_vec())
        };
        let own = |trail: &&Trail| trail.0.first().is_some_and(|step| Some(step.food) == food);
        let of_food: Vec<_> = self.0.iter().filter(own).filter_map(from).collect();
        if of_food.is_empty() { self.0.iter().filter_map(from).collect() } else { of_food }
    }

    /// The last of `phases`, with what comes straight before it and is one of them or `counts` as such, and where the food
    /// was before; each way once.
    pub fn last_outing(
        &self,
        phases: &[PhaseId],
        counts: impl Fn(&About) -> bool,
    ) -> Vec<(Since, Vec<PhaseId>)> {
        let Some(&last) = phases.last() else { return Vec::new() };
        let outing = |Trail(steps): &Trail| {
            let mut way: Vec<PhaseId> = steps.iter().map(|step| step.phase).collect();
            // It may be about to go through the last one.
            let end = way.iter().rposition(|phase| *phase == last).unwrap_or_else(|| {
                way.push(last);
                way.len() - 1
            });
            let before = &steps[..end];
            let from = before.iter().rposition(|step| !phases.contains(&step.phase) && !counts(step));
            let first = from.map_or(0, |at| at + 1);
            let since = from.map_or(Since::StartOf(way[first]), |at| Since::EndOf(way[at]));
            (since, way[first..=end].to_vec())
        };
        once(self.0.iter().map(outing))
    }

    /// Where the last heat left it, counted from the earliest that may have left it hot, once the last that surely did is
    /// over; what came before it was last cold does not count. Where it began, if it never was in heat; nowhere, if no heat
    /// left it hot.
    pub fn last_left(
        &self,
        heat: impl Fn(&About) -> Option<Left>,
        chills: impl Fn(&About) -> bool,
    ) -> Vec<Since> {
        let left = |Trail(steps): &Trail| {
            let (mut heated, mut since) = (false, None);
            for step in steps.iter().rev() {
                let left = heat(step);
                match left {
                    None if heated && chills(step) => break,
                    None | Some(Left::Lukewarm) => {}
                    Some(Left::Perhaps | Left::Hot) => since = Some(Since::EndOf(step.phase)),
                }
                heated |= left.is_some();
                if left == Some(Left::Hot) {
                    break;
                }
            }
            let first = || steps.first().map(|step| Since::StartOf(step.phase));
            if heated { since } else { first() }
        };
        once(self.0.iter().filter_map(left))
    }

    /// Since the heat.
    pub fn since_heat(&self, cook: &Cook) -> Vec<Vec<About>> {
        let after = |Trail(steps): &Trail| {
            let from = steps.iter().rposition(|step| heats(cook, step)).map_or(0, |last| last + 1);
            steps.get(from..).unwrap_or_default().to_vec()
        };
        self.0.iter().map(after).filter(|steps| !steps.is_empty()).collect()
    }
}

fn heats(cook: &Cook, step: &About) -> bool {
    matches!(cook.phase(step.phase).purpose, Purpose::Cook | Purpose::Reheat | Purpose::HotHold)
}

fn once<T: PartialEq>(all: impl Iterator<Item = T>) -> Vec<T> {
    let mut each: Vec<T> = Vec::new();
    for one in all {
        if !each.contains(&one) {
            each.push(one);
        }
    }
    each
}
