//! Where a food has been, phase by phase, so that its predicted curve can be followed through them.

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

    /// Since the heat.
    pub fn since_heat(&self, cook: &Cook) -> Vec<Vec<About>> {
        let heats = |step: &About| {
            matches!(cook.phase(step.phase).purpose, Purpose::Cook | Purpose::Reheat | Purpose::HotHold)
        };
        let after = |Trail(steps): &Trail| {
            let from = steps.iter().rposition(heats).map_or(0, |last| last + 1);
            steps.get(from..).unwrap_or_default().to_vec()
        };
        self.0.iter().map(after).filter(|steps| !steps.is_empty()).collect()
    }
}
