//! Whether a temperature waited for can ever come.
//!
//! By the maximum principle of the heat equation no part of the food ever gets hotter than the hottest part
//! now or the hottest equilibrium its surroundings still allow, nor colder than the coldest of either.

use super::error::HeatError;
use super::phase::{Goal, PhaseHeat, Until};
use super::step::Stepper;

/// Closer than this to a limit that is only approached counts as never, K.
const NEVER_K: f64 = 1e-6;

/// What the surroundings of a phase drive the food towards.
#[derive(Debug, Clone, Copy)]
pub struct Pull {
    /// The furthest equilibrium in the target's direction at any time in the phase.
    furthest_c: f64,
    /// The equilibrium once every setting has stopped changing.
    final_c: f64,
    settled_s: f64,
}

impl Pull {
    pub fn new(phase: &PhaseHeat, until: &Until, stepper: &Stepper) -> Result<Self, HeatError> {
        let (medium_c, wetness) = match until.goal {
            Goal::AtLeast => (phase.medium_c.highest(), phase.wetness.lowest()),
            Goal::AtMost => (phase.medium_c.lowest(), phase.wetness.highest()),
        };
        // An insulated food evens out.
        let even_c = stepper.even_c();
        let towards = |medium_c, wetness| -> Result<f64, HeatError> {
            Ok(phase.surface(medium_c, wetness)?.equilibrium_c().unwrap_or(even_c))
        };
        Ok(Self {
            furthest_c: towards(medium_c, wetness)?,
            final_c: towards(phase.medium_c.last(), phase.wetness.last())?,
            settled_s: phase.medium_c.settled_s().max(phase.wetness.settled_s()),
        })
    }

    /// What the food still tends to, `since_s` seconds into the phase.
    fn ahead_c(&self, since_s: f64) -> f64 {
        if since_s >= self.settled_s { self.final_c } else { self.furthest_c }
    }

    /// True when the target cannot come any more.
    pub fn rules_out(&self, until: &Until, stepper: &Stepper, since_s: f64) -> bool {
        let sign = sign(until.goal);
        let short = |c: f64| sign * (until.target_c - c);
        short(self.ahead_c(since_s)) > -NEVER_K && short(stepper.foremost_c(sign)) > -NEVER_K
    }

    /// The furthest the place watched can still get, when nothing but the approach to equilibrium is left
    /// to wait for: `best_c` is what it has had. `None` while heat inside may still carry it further.
    pub fn limit_c(&self, until: &Until, stepper: &Stepper, since_s: f64, best_c: f64) -> Option<f64> {
        let sign = sign(until.goal);
        let further = |a: f64, b: f64| if sign * (a - b) > 0.0 { a } else { b };
        let limit_c = further(best_c, self.ahead_c(since_s));
        let inside_c = stepper.foremost_c(sign);
        (since_s >= self.settled_s && sign * (inside_c - limit_c) < 0.01).then_some(limit_c)
    }
}

/// +1 when waiting for heat, −1 when waiting for cold.
pub fn sign(goal: Goal) -> f64 {
    match goal {
        Goal::AtLeast => 1.0,
        Goal::AtMost => -1.0,
    }
}
