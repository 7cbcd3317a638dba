//! A longer or a shorter time, where the cook decides it.

use super::{Ladder, Offers};
use crate::cook::{Lasts, Phase};
use crate::cures::changes::Written;
use crate::cures::steps;
use crate::findings::OtherLength;

/// What would do for the clock; whether for the food too is then tried.
pub(super) fn otherwise(written: Written, length: &OtherLength) -> Ladder {
    let phase = written.cook.phases.iter().find(|phase| phase.name == length.phase);
    let lasts = match length.low == length.high {
        true => Lasts::Fixed(length.low),
        false => Lasts::Chosen { low: length.low, high: Some(length.high) },
    };
    Ladder::one(phase.and_then(|phase| written.lasts(phase, lasts)))
}

impl Offers<'_> {
    pub(super) fn longer(&self, phase: &Phase) -> Ladder {
        let (least, high) = match phase.lasts {
            Lasts::Fixed(time) => (time, None),
            Lasts::Chosen { low, high } => (low, high),
            _ => return Ladder::default(),
        };
        let longer = |low| {
            let lasts = match (phase.lasts, high) {
                (Lasts::Fixed(_), _) => Lasts::Fixed(low),
                (_, high) => Lasts::Chosen { low, high: high.map(|high| high.max(low)) },
            };
            self.written.lasts(phase, lasts)
        };
        Ladder::of(&steps::longer(least), 0, longer).bounded()
    }

    pub(super) fn shorter(&self, phase: &Phase) -> Ladder {
        let (low, most) = match phase.lasts {
            Lasts::Fixed(time) => (time, time),
            Lasts::Chosen { low, high: Some(high) } => (low, high),
            _ => return Ladder::default(),
        };
        let shorter = |high| {
            let lasts = match phase.lasts {
                Lasts::Fixed(_) => Lasts::Fixed(high),
                _ => Lasts::Chosen { low: low.min(high), high: Some(high) },
            };
            self.written.lasts(phase, lasts)
        };
        Ladder::of(&steps::shorter(most), 0, shorter).bounded()
    }
}
