//! The step in which a temperature that is waited for comes, ended at the moment of it.

use super::{March, straight};
use crate::heat::conduction::error::HeatError;
use crate::heat::conduction::history::{Sample, between};
use crate::heat::conduction::phase::{Place, Until};
use crate::heat::conduction::reach::sign;
use crate::heat::conduction::step::{Stepper, Trial};

/// A step that ends a phase hits its temperature this closely, K, or the time this closely, s.
const HIT_K: f64 = 1e-5;
const HIT_S: f64 = 1e-3;

impl March<'_> {
    /// If the step just tried passes the target, replaces it by one that ends there.
    pub(super) fn stop_at_target(
        &mut self,
        stepper: &mut Stepper,
        until: &Until,
        tried: (f64, Trial),
    ) -> Result<((f64, Trial), bool), HeatError> {
        let a = self.history.samples[self.history.samples.len() - 1];
        let b = self.sample(stepper, self.t_s + tried.0, true)?;
        let short = |c: f64| sign(until.goal) * (until.target_c - c);
        let follow = match until.place {
            Place::Core => Sample::core,
            Place::Surface => Sample::surface,
        };
        // The first of a few spots along the cubic that is past the target.
        const SPOTS: usize = 8;
        let a = if self.after_jump { straight(&a, &b) } else { a };
        let past = (1..=SPOTS).map(|i| i as f64 / SPOTS as f64);
        let Some(past) = past.into_iter().find(|x| short(between(&a, &b, follow, *x)) <= 0.0) else {
            return Ok((tried, false));
        };
        let (mut low, mut high) = (past - 1.0 / SPOTS as f64, past);
        for _ in 0..40 {
            let middle = 0.5 * (low + high);
            if short(between(&a, &b, follow, middle)) <= 0.0 { high = middle } else { low = middle }
        }
        // The cubic is a guess; the steps themselves decide.
        let (mut low_s, mut high_s) = (0.0, tried.0 * past);
        let (mut low_k, mut high_k) = (short(follow(&a).0), short(between(&a, &b, follow, past)));
        let mut dt = (tried.0 * high).max(1e-6 * tried.0);
        for round in 0..24 {
            let Some((trial, _)) = self.try_step(stepper, dt)? else {
                return Err(HeatError::TooManySteps { phase: self.index, at_s: self.start_s + self.t_s });
            };
            let k = short(place_c(&self.sample(stepper, self.t_s + dt, true)?, until.place));
            if k.abs() < HIT_K || high_s - low_s < HIT_S {
                return Ok(((dt, trial), true));
            }
            if k > 0.0 {
                (low_s, low_k) = (dt, k)
            } else {
                (high_s, high_k) = (dt, k)
            }
            if k > 0.0 && high_k > 0.0 {
                // Only the cubic was past the target: an ordinary step up to here.
                return Ok(((dt, trial), false));
            }
            let line = low_s + (high_s - low_s) * low_k / (low_k - high_k);
            dt = if round % 3 == 2 { 0.5 * (low_s + high_s) } else { line };
        }
        let trial = self.try_step(stepper, high_s)?;
        Ok(trial.map_or((tried, false), |(trial, _)| ((high_s, trial), true)))
    }
}

pub(super) fn place_c(sample: &Sample, place: Place) -> f64 {
    match place {
        Place::Core => sample.core_c,
        Place::Surface => sample.surface_c,
    }
}
