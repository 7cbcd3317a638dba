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

    /// The last of `phases` and those of them that come straight before it, and where the food was before; each way once.
    pub fn last_outing(&self, phases: &[PhaseId]) -> Vec<(Since, Vec<PhaseId>)> {
        let Some(&last) = phases.last() else { return Vec::new() };
        let outing = |Trail(steps): &Trail| {
            let mut way: Vec<PhaseId> = steps.iter().map(|step| step.phase).collect();
            // It may be about to go through the last one.
            let end = way.iter().rposition(|phase| *phase == last).unwrap_or_else(|| {
                way.push(last);
                way.len() - 1
            });
            let from = way[..end].iter().rposition(|phase| !phases.contains(phase));
            let first = from.map_or(0, |at| at + 1);
            let since = from.map_or(Since::StartOf(way[first]), |at| Since::EndOf(way[at]));
            (since, way[first..=end].to_vec())
        };
        once(self.0.iter().map(outing))
    }

    /// Where it left the last such phase; where it began, if it never was in one.
    pub fn last_left(&self, is_such: impl Fn(&About) -> bool) -> Vec<Since> {
        let left = |Trail(steps): &Trail| {
            let last = steps.iter().rev().find(|step| is_such(step));
            let first = || steps.first().map(|step| Since::StartOf(step.phase));
            last.map(|step| Since::EndOf(step.phase)).or_else(first)
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
