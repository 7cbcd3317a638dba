//! Which phases readings tell of.

use super::fit::{Bench, Tried};
use crate::cook::{Phase, PhaseId};
use crate::heat::curves::{Curves, Sample};

/// Readings tell of the kit when the core has changed by as much as this in it, K: several times what a probe is off by.
const TELLS_K: f64 = 10.0;
/// A stay as short as this in kit that nothing is set on says little of what comes after it, s. Common practice, no source:
/// a joint is patted dry, wrapped or turned in that time.
const SHORT_S: f64 = 1800.0;

pub struct Told {
    /// Those in which the core was read to change.
    pub read: Vec<PhaseId>,
    /// All that the food has been in up to the last of those.
    pub been: Vec<PhaseId>,
}

impl Told {
    /// By the curve that comes nearest to the readings.
    pub fn by(bench: &Bench<'_>, best: &Tried<'_>) -> Self {
        let kin = best.curves.foods.iter().filter(|food| bench.layout.kin(food.item, bench.item));
        let samples: Vec<&Sample> = kin.flat_map(|food| &food.samples).collect();
        let changes = |id: &PhaseId| {
            let mut stay = samples.iter().filter(|sample| sample.phase == *id);
            let Some(first) = stay.next() else { return false };
            let last_s = stay.next_back().map_or(first.t_s, |last| last.t_s);
            let mut within =
                bench.readings.iter().filter(|reading| (first.t_s..=last_s).contains(&reading.t_s));
            within.any(|reading| (reading.core_c - first.core_c).abs() >= TELLS_K)
        };
        let read: Vec<PhaseId> = bench.cook.phases().map(|(id, _)| id).filter(changes).collect();
        let mut been: Vec<PhaseId> = samples.iter().map(|sample| sample.phase).collect();
        been.dedup();
        been.retain(|id| read.iter().any(|read| id <= read));
        Self { read, been }
    }

    pub fn nothing(&self) -> bool {
        self.read.is_empty()
    }

    /// Does what comes of the food in this phase hang on kit that no reading tells of?
    pub fn leaves_open(&self, bench: &Bench<'_>, plain: &Curves, id: PhaseId, phase: &Phase) -> bool {
        let place = |phase: &Phase| phase.place.as_ref().map(|place| place.value);
        let same_kit = self.read.iter().any(|read| place(bench.cook.phase(*read)) == place(phase));
        let times = plain.phases.iter().find(|times| times.phase == id);
        let short = phase.setting.is_none() && times.is_some_and(|times| times.most_s <= SHORT_S);
        !same_kit && !short
    }
}
