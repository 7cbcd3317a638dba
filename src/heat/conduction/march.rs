//! Through one phase: step sizes, corners of the settings, and the moment the phase ends.

mod sooner;
mod target;

pub use sooner::Sooner;

use target::place_c;

use super::check::LONGEST_PHASE_S;
use super::error::HeatError;
use super::history::{Ending, History, PhaseEnd, Sample};
use super::phase::{End, PhaseHeat, Place};
use super::reach::{Pull, sign};
use super::solve::Accuracy;
use super::step::{Stepper, Trial};
use super::surface::Surface;
use crate::stop;

/// Far more than a rough phase needs; what is rougher is refused.
const MOST_STEPS: usize = 50_000;

pub struct March<'a> {
    index: usize,
    phase: &'a PhaseHeat,
    accuracy: &'a Accuracy,
    start_s: f64,
    history: &'a mut History,
    /// Seconds into the phase, and the corner passed last.
    t_s: f64,
    corner_s: f64,
    after_jump: bool,
    /// The next step, as far as its error decides.
    wanted_s: f64,
    tries: usize,
    heat_j_m2: f64,
    steady: Option<Surface>,
}

impl<'a> March<'a> {
    pub fn new(
        index: usize,
        phase: &'a PhaseHeat,
        accuracy: &'a Accuracy,
        start_s: f64,
        history: &'a mut History,
    ) -> Self {
        Self {
            index,
            phase,
            accuracy,
            start_s,
            history,
            t_s: 0.0,
            corner_s: 0.0,
            after_jump: true,
            wanted_s: 0.0,
            tries: 0,
            heat_j_m2: 0.0,
            steady: None,
        }
    }

    /// Steps the food to the end of the phase. [`Sooner`] takes down what would be in it had the phase been over before.
    pub fn run(&mut self, stepper: &mut Stepper, sooner: &mut Sooner) -> Result<PhaseEnd, HeatError> {
        if self.phase.is_steady() {
            self.steady = Some(self.phase.surface_at(0.0, 0.0)?);
        }
        stepper.now.rate.fill(0.0);
        let first = self.sample(stepper, 0.0, false)?;
        self.history.samples.push(first);
        if let Some(until) = self.phase.end.until
            && sign(until.goal) * (place_c(&first, until.place) - until.target_c) >= 0.0
        {
            return Ok(self.end(stepper, Ending::Reached));
        }
        self.wanted_s = self.first_step_s(stepper)?;
        self.go_on(stepper, self.phase.end, sooner)
    }

    /// From where it stands to `end`.
    fn go_on(&mut self, stepper: &mut Stepper, end: End, sooner: &mut Sooner) -> Result<PhaseEnd, HeatError> {
        let until = end.until;
        let end_s = end.duration_s.unwrap_or(LONGEST_PHASE_S);
        let pull = match until {
            Some(until) if end.duration_s.is_none() => Some(Pull::new(self.phase, &until, stepper)?),
            _ => None,
        };
        let mut best_c = until.map_or(0.0, |until| self.last_c(until.place));
        while self.t_s < end_s {
            stop::here();
            if let (Some(until), Some(pull)) = (until, pull)
                && pull.rules_out(&until, stepper, self.t_s)
                && let Some(limit_c) = pull.limit_c(&until, stepper, self.t_s, best_c)
            {
                return Ok(self.end(stepper, Ending::OutOfReach { limit_c }));
            }
            let next_corner = self.phase.next_corner(self.t_s);
            sooner.part(self, stepper, next_corner)?;
            self.tries += 1;
            if self.tries > MOST_STEPS {
                return Err(HeatError::TooManySteps { phase: self.index, at_s: self.start_s + self.t_s });
            }
            let corner = next_corner.filter(|c| c.0 < end_s);
            let stop_s = corner.map_or(end_s, |c| c.0);
            let dt = self.fit(self.wanted_s, stop_s);
            let Some((trial, next_s)) = self.try_step(stepper, dt)? else {
                self.wanted_s = 0.25 * dt;
                self.history.rejected += 1;
                continue;
            };
            if trial.error_k > self.accuracy.step_error_k {
                self.wanted_s = next_s;
                self.history.rejected += 1;
                continue;
            }
            let mut taken = (dt, trial);
            let mut hit = false;
            if let Some(until) = until {
                (taken, hit) = self.stop_at_target(stepper, &until, taken)?;
            }
            // A step cut short by a corner says little about the next one.
            self.wanted_s =
                if taken.0 < self.wanted_s { self.wanted_s.min(next_s).max(taken.0) } else { next_s };
            self.t_s = if taken.0 == dt && stop_s - self.t_s - dt < 1e-9 * stop_s {
                stop_s
            } else {
                self.t_s + taken.0
            };
            self.take(stepper, taken.1)?;
            if let Some(until) = until {
                let c = self.last_c(until.place);
                best_c = if sign(until.goal) * (c - best_c) > 0.0 { c } else { best_c };
            }
            if hit {
                return Ok(self.end(stepper, Ending::Reached));
            }
            if let Some((at_s, jumps)) = corner
                && self.t_s >= at_s
            {
                self.corner_s = at_s;
                if jumps {
                    self.after_jump = true;
                    self.wanted_s = self.wanted_s.min(self.first_step_s(stepper)?);
                }
            }
        }
        let ending = match (until, end.duration_s) {
            (None, _) => Ending::Elapsed,
            (Some(_), Some(_)) => Ending::GaveUp,
            (Some(_), None) => Ending::OutOfReach { limit_c: best_c },
        };
        Ok(self.end(stepper, ending))
    }

    fn last_c(&self, place: Place) -> f64 {
        place_c(&self.history.samples[self.history.samples.len() - 1], place)
    }

    /// The wanted step, shortened to meet the next stop and not to leave a sliver before it.
    fn fit(&self, wanted_s: f64, stop_s: f64) -> f64 {
        let left = stop_s - self.t_s;
        let wanted_s = wanted_s.min(self.accuracy.longest_step_s);
        if left <= wanted_s * (1.0 + 1e-9) {
            left
        } else if left < 2.0 * wanted_s {
            0.5 * left
        } else {
            wanted_s
        }
    }

    fn first_step_s(&self, stepper: &Stepper) -> Result<f64, HeatError> {
        if self.accuracy.step_error_k.is_infinite() {
            return Ok(self.accuracy.longest_step_s.min(LONGEST_PHASE_S));
        }
        Ok(0.1 * stepper.surface_time_s(&self.surface(self.t_s)?))
    }

    fn surface(&self, t_s: f64) -> Result<Surface, HeatError> {
        match self.steady {
            Some(surface) => Ok(surface),
            None => self.phase.surface_at(t_s, self.corner_s),
        }
    }

    /// A tried step and the length the step control would take next.
    fn try_step(&mut self, stepper: &mut Stepper, dt: f64) -> Result<Option<(Trial, f64)>, HeatError> {
        let middle_s = self.t_s + Stepper::middle_share(self.after_jump) * dt;
        let (at_middle, at_end) = (self.surface(middle_s)?, self.surface(self.t_s + dt)?);
        let Some(trial) = stepper.attempt(dt, self.after_jump, &at_middle, &at_end) else {
            return Ok(None);
        };
        // Local errors go with the cube of the step, after a jump with the square.
        let order = if self.after_jump { 0.5 } else { 1.0 / 3.0 };
        let room = 0.9 * (self.accuracy.step_error_k / trial.error_k.max(1e-12)).powf(order);
        // A step that is nearly right stays as it is: its factors can be used again.
        let factor = if room > 1.0 && room < 1.3 { 1.0 } else { room.clamp(0.1, 8.0) };
        Ok(Some((trial, dt * factor)))
    }

    /// Makes the tried step the present and writes it down.
    fn take(&mut self, stepper: &mut Stepper, trial: Trial) -> Result<(), HeatError> {
        let sample = self.sample(stepper, self.t_s, true)?;
        stepper.accept();
        self.heat_j_m2 += trial.heat_j_m2;
        self.history.steps += 1;
        if self.after_jump {
            // The rate before the first step after a jump is no guide: read that step as a straight line.
            let last = self.history.samples.len() - 1;
            self.history.samples[last] = straight(&self.history.samples[last], &sample);
        }
        self.after_jump = false;
        self.history.samples.push(sample);
        Ok(())
    }

    fn sample(&self, stepper: &Stepper, t_s: f64, next: bool) -> Result<Sample, HeatError> {
        let point = if next { &stepper.next } else { &stepper.now };
        let mesh = stepper.mesh();
        let last = mesh.nodes() - 1;
        let medium_c = match self.steady {
            Some(surface) => surface.medium_c,
            None => self.phase.medium_c.at(t_s, self.corner_s),
        };
        Ok(Sample {
            t_s: self.start_s + t_s,
            phase: self.index,
            medium_c,
            core_c: point.t[0],
            mean_c: mesh.mean(&point.t),
            surface_c: point.t[last],
            core_k_s: stepper.rate_k_s(point, 0),
            mean_k_s: stepper.mean_rate_k_s(point),
            surface_k_s: stepper.rate_k_s(point, last),
        })
    }

    fn end(&self, stepper: &Stepper, ending: Ending) -> PhaseEnd {
        PhaseEnd {
            at_s: self.start_s + self.t_s,
            ending,
            heat_j_m2: self.heat_j_m2,
            surface_per_m: 1.0 / stepper.mesh().total,
        }
    }
}

/// `a` with rates that make the way to `b` a straight line at its beginning.
fn straight(a: &Sample, b: &Sample) -> Sample {
    let dt = (b.t_s - a.t_s).max(1e-12);
    Sample {
        core_k_s: (b.core_c - a.core_c) / dt,
        mean_k_s: (b.mean_c - a.mean_c) / dt,
        surface_k_s: (b.surface_c - a.surface_c) / dt,
        ..*a
    }
}
