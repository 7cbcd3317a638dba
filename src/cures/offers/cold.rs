//! Colder, and cold sooner.

use super::{Ladder, Offers};
use crate::cook::{CoverKind, Kit, Lasts, MediumRange, Phase, Setting};
use crate::quantity::{Duration, Scale, Temperature};
use crate::tables::{Demand, RuleSets};

/// How cold a chiller is set, one after the other, in whole degrees of each scale.
const CHILLED_C: [f64; 4] = [2.0, -2.0, -5.0, -10.0];
const CHILLED_F: [f64; 4] = [35.0, 30.0, 25.0, 15.0];

/// A setting that is lowered by so many steps beside another change.
const MUCH_COLDER: usize = 8;

/// What a kit of this range is set to, one after the other.
fn chilled(range: &MediumRange, scale: Scale) -> impl Iterator<Item = Temperature> + use<> {
    let (low, high) = (range.low, range.high);
    let all = match scale {
        Scale::Celsius => CHILLED_C.map(Temperature::from_celsius),
        Scale::Fahrenheit => CHILLED_F.map(Temperature::from_fahrenheit),
    };
    all.into_iter().filter(move |at| low <= *at && *at <= high)
}

fn freezes(kit: &Kit) -> bool {
    kit.class.base_name() == "freezer"
}

impl Offers<'_> {
    /// Into a kit of this cook that is cold: as it is, or set as cold as that takes.
    pub(super) fn elsewhere_cold(&self, phase: &Phase) -> Ladder {
        let Some(place) = &phase.place else { return Ladder::default() };
        let own_setting =
            |setting: &Setting| !setting.kept && phase.block.range().contains(&(setting.span.start as usize));
        if phase.setting.as_ref().is_some_and(own_setting) {
            return Ladder::default();
        }
        let others = self.written.cook.kit.iter().enumerate().filter(|(n, _)| *n != place.value.0 as usize);
        let cold = others.map(|(_, kit)| kit).filter(|kit| kit.class.cold && !freezes(kit));
        let (mut rungs, scale) = (Vec::new(), self.written.cook.scale);
        for kit in cold {
            let Some(there) = self.written.instead(place.span, kit.name.value.clone(), phase) else {
                continue;
            };
            match kit.ranges.iter().find(|range| range.low < range.high) {
                None => rungs.push(vec![there]),
                Some(range) => rungs.extend(chilled(range, scale).filter_map(|at| {
                    let clause = format!("{} {}", range.medium.word(), at.show(scale));
                    Some(vec![there.clone(), self.written.added(phase, clause)?])
                })),
            }
        }
        Ladder { rungs, ..Ladder::default() }
    }

    /// Bare, colder, less deep or elsewhere; then two of these.
    pub(super) fn cooling(&self, phase: &Phase) -> Vec<Ladder> {
        let window = self.window();
        let (least, natural) = match phase.lasts {
            Lasts::Fixed(time) | Lasts::Chosen { low: time, .. } => (time, false),
            Lasts::Nature { low, .. } => (low, true),
            _ => (Duration::ZERO, false),
        };
        let timed = self.fault.span == phase.lasts_span;
        // As long as it is written to take, nothing makes it quick enough.
        let quicker = |ladder: Ladder| match (timed && natural, window) {
            (false, _) => ladder,
            (true, None) => Ladder::default(),
            (true, Some(window)) => {
                let within = format!("within {}", window.show());
                ladder.and(self.written.instead(phase.lasts_span, within, phase))
            }
        };
        let uncovered =
            self.written.cover(phase, CoverKind::Uncovered).filter(|_| !phase.shape.covers.is_empty());
        let bare = |ladder: Ladder| match &uncovered {
            Some(uncovered) => ladder.and(Some(uncovered.clone())),
            None => Ladder::default(),
        };
        let too_long = timed && !natural && window.is_some_and(|window| least > window);
        vec![
            if too_long { self.shorter(phase) } else { Ladder::default() },
            quicker(Ladder::one(uncovered.clone())),
            quicker(self.colder(phase)),
            quicker(self.shallower(phase)),
            quicker(self.elsewhere_cold(phase)),
            quicker(bare(self.shallower(phase))),
            quicker(bare(self.colder(phase))),
            quicker(self.shallower(phase).and_all(self.elsewhere_cold(phase).rungs.pop())),
            quicker(self.shallower(phase).and_all(self.colder(phase).up_to(MUCH_COLDER).rungs.pop())),
        ]
    }

    /// How long the rules of the set let food cool down to the end of the stage that was missed.
    fn window(&self) -> Option<Duration> {
        let set = RuleSets::built_in().find(&self.fault.rule.as_ref()?.set)?;
        let mut so_far = 0.0;
        for rule in &set.rules {
            let Demand::Cool { max_s, further, .. } = &rule.demand else { continue };
            so_far = max_s + if *further { so_far } else { 0.0 };
            if Some(&rule.id) == self.asked.map(|asked| &asked.id) {
                return Some(Duration::from_seconds(so_far));
            }
        }
        None
    }
}
