//! More heat, or less of it lost.

use super::{Ladder, Offers};
use crate::cook::{CoverKind, Phase, Purpose, Test};
use crate::cures::steps;
use crate::quantity::Temperature;

/// Nobody ends a cook hotter than this, °C.
const HOTTEST_CORE_C: f64 = 95.0;
/// So many steps above the limit are near it.
const NEAR: usize = 15;
/// A setting that is raised by so many steps beside another change.
const SOME: usize = 4;

impl Offers<'_> {
    /// Hotter at the end, for longer, or in a hotter place; then two of these.
    pub(super) fn cooking(&self, phase: &Phase) -> Vec<Ladder> {
        let (end, longer, hotter) = (self.hotter_end(phase), self.longer(phase), self.hotter(phase));
        let both = [longer.clone().and_all(hotter.rung(SOME)), hotter.clone().and_all(end.rung(end.hint))];
        [end, longer, hotter].into_iter().chain(both).collect()
    }

    pub(super) fn hotter_end(&self, phase: &Phase) -> Ladder {
        let Some(until) = &phase.until else { return Ladder::default() };
        let core = until.tests.iter().find_map(|test| match test.value {
            Test::Core(at) => Some(at),
            _ => None,
        });
        let Some(core) = core else { return Ladder::default() };
        let scale = self.written.scale_at(until.span);
        let figures = steps::degrees(core, Temperature::from_celsius(HOTTEST_CORE_C), scale, 1);
        Ladder::of(&figures, self.hint(&figures), |at| self.written.until(phase, until, at))
    }

    /// Bare and damp, food stays far cooler than dry air around it: foil is the cure, rather than much more heat.
    pub(super) fn keeping_hot(&self, phase: &Phase) -> Vec<Ladder> {
        let foil = || self.written.cover(phase, CoverKind::Sealed);
        let set = phase.setting.map(|setting| setting.temperature).zip(self.limit);
        let hotter = self.hotter(phase);
        let near = hotter.up_to(hotter.hint + NEAR + 1);
        let in_foil = near.clone().and(foil());
        match set.is_some_and(|(set, limit)| set >= limit) {
            true => {
                let sooner = self.sooner(phase).and_all(foil().map(|foil| vec![foil]));
                vec![Ladder::one(foil()), near, in_foil, hotter, self.shorter(phase), sooner]
            }
            false => vec![near, in_foil, hotter, self.shorter(phase)],
        }
    }

    /// Less time in the room between the heat and this phase.
    pub(super) fn sooner(&self, phase: &Phase) -> Ladder {
        let before = self.before(phase).into_iter().next();
        before.filter(|it| it.purpose == Purpose::Rest).map(|it| self.shorter(it)).unwrap_or_default()
    }

    /// What brings the food to a phase too cold: the cook that ends too cool, or what stands between.
    pub(super) fn way_in(&self, phase: &Phase) -> Vec<Ladder> {
        let foil = self.written.cover(phase, CoverKind::Sealed).map(|foil| vec![foil]);
        let sooner = self.sooner(phase).and_all(foil);
        let mut all = Vec::new();
        for phase in self.before(phase) {
            match phase.purpose {
                Purpose::Cook | Purpose::Reheat => {
                    all.extend([self.hotter_end(phase), self.longer(phase)]);
                    break;
                }
                Purpose::Rest | Purpose::Prep => {
                    all.extend([self.shorter(phase), self.cover(phase, CoverKind::Covered)]);
                }
                _ => break,
            }
        }
        all.push(sooner);
        all
    }
}
