//! A setting that is hotter or colder.

use super::{Ladder, Offers};
use crate::cook::{MediumRange, Phase, Setting};
use crate::cures::steps;
use crate::quantity::Temperature;

/// The hottest and the coldest that are tried, °C, whatever the kit can do.
const HOTTEST_C: f64 = 250.0;
const COLDEST_C: f64 = -40.0;

impl Offers<'_> {
    pub(super) fn hotter(&self, phase: &Phase) -> Ladder {
        self.settings(phase, |range| range.high, Temperature::from_celsius(HOTTEST_C))
    }

    pub(super) fn colder(&self, phase: &Phase) -> Ladder {
        self.settings(phase, |range| range.low, Temperature::from_celsius(COLDEST_C))
    }

    /// The setting, degree by degree, as far as the kit goes; a hot oven by fives.
    pub(super) fn settings(
        &self,
        phase: &Phase,
        end: fn(&MediumRange) -> Temperature,
        furthest: Temperature,
    ) -> Ladder {
        let Some(setting) = phase.setting else { return Ladder::default() };
        let Setting { temperature, scale, medium, .. } = setting;
        let cook = self.written.cook;
        let kit = phase.place.as_ref().map(|place| cook.kit(place.value));
        let range = kit.and_then(|kit| kit.ranges.iter().find(|range| range.medium == medium));
        let last = match range.map(end) {
            Some(end) if furthest < temperature => end.max(furthest),
            Some(end) => end.min(furthest),
            None => furthest,
        };
        if (last < temperature) != (furthest < temperature) {
            return Ladder::default();
        }
        let step = if temperature.celsius() > 100.0 { 5 } else { 1 };
        let figures = steps::degrees(temperature, last, scale, step);
        let ladder =
            Ladder::of(&figures, self.hint(&figures), |at| self.written.setting(phase, &setting, at));
        // Without a figure of the rule among them, nothing says where to begin.
        if ladder.hint == 0 { ladder.bounded() } else { ladder }
    }

    /// Where the figure of the rule itself is among them, it is tried first.
    pub(super) fn hint(&self, figures: &[Temperature]) -> usize {
        let Some((first, limit)) = figures.first().zip(self.limit) else { return 0 };
        let (low, high) = (*first <= limit, |at: &Temperature| at.kelvin() >= limit.kelvin() - 1e-6);
        if low { figures.iter().position(high).unwrap_or(0) } else { 0 }
    }
}
