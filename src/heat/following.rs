//! Kit follows a new setting at its own rate, with the food in it or while the food is elsewhere.

use super::band::Band;
use crate::cook::PhaseId;
use crate::tables::KitClass;

/// Settings this near are one setting, K.
const SAME_K: f64 = 0.5;

/// A kit as a food saw it last.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftKit {
    pub phase: PhaseId,
    /// What it was set to, °C.
    pub set_c: Band,
    /// What it had come to when the food left, °C.
    pub at_c: Band,
    /// How long the food has been elsewhere since, s.
    pub away_s: Band,
}

/// A kit on its way from one setting to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ComingFrom {
    /// As the food comes in, °C.
    pub from_c: Band,
    pace: Pace,
}

/// How fast a kit follows a new setting, K/s.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Pace {
    heats_k_s: f64,
    cools_k_s: f64,
}

impl ComingFrom {
    /// How a kit of this class, now set to `set_c`, comes from where it was; `None` where it is there.
    ///
    /// When somebody turns it while the food is elsewhere, nothing says. Usually it is done as the food leaves; for the
    /// bounds it may be at any moment until the food is back.
    pub fn new(left: &LeftKit, set_c: Band, class: &KitClass) -> Option<Self> {
        let same = (left.set_c.typical - set_c.typical).abs() <= SAME_K;
        if same && left.at_c == left.set_c {
            return None;
        }
        let (heats, cools) = (class.heats_k_min, class.cools_k_min);
        let usual = if set_c.typical > left.at_c.typical { heats } else { cools }?;
        let rate = |known: Option<f64>| known.unwrap_or(usual) / 60.0;
        let pace = Pace { heats_k_s: rate(heats), cools_k_s: rate(cools) };
        let turned_at_once = Self { from_c: left.at_c, pace }.after(set_c, left.away_s);
        let from_c = Band::new(
            left.at_c.low.min(turned_at_once.low),
            turned_at_once.typical,
            left.at_c.high.max(turned_at_once.high),
        );
        Some(Self { from_c, pace })
    }

    /// Where it is after so many seconds on the way to `set_c`, °C.
    pub fn after(&self, set_c: Band, seconds: Band) -> Band {
        let after = |from_c, to_c, seconds| self.pace.after(from_c, to_c, seconds);
        let (from_c, s) = (self.from_c, seconds);
        Band::new(
            after(from_c.low, set_c.low, s.low).min(after(from_c.low, set_c.low, s.high)),
            after(from_c.typical, set_c.typical, s.typical),
            after(from_c.high, set_c.high, s.low).max(after(from_c.high, set_c.high, s.high)),
        )
    }

    /// Seconds from one temperature to another.
    pub fn takes_s(&self, from_c: f64, to_c: f64) -> f64 {
        (to_c - from_c).abs() / self.pace.towards(from_c, to_c)
    }
}

impl Pace {
    fn towards(self, from_c: f64, to_c: f64) -> f64 {
        if to_c > from_c { self.heats_k_s } else { self.cools_k_s }
    }

    fn after(self, from_c: f64, to_c: f64, seconds: f64) -> f64 {
        let (way, gone) = (to_c - from_c, self.towards(from_c, to_c) * seconds);
        if way.abs() <= gone { to_c } else { from_c + way.signum() * gone }
    }
}
