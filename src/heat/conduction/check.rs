//! Refuses numbers the model is not meant for before any work is done.

use super::body::Body;
use super::error::{HeatError, within};
use super::phase::PhaseHeat;
use super::ramp::Ramp;
use super::shape::Form;
use super::solve::Accuracy;
use super::surface::Humidity;

/// A cook has a handful of phases; this is far more.
pub const MOST_PHASES: usize = 200;
/// Corners in one phase's curves together.
pub const MOST_CORNERS: usize = 20_000;
/// Longest phase, s: ninety days.
pub const LONGEST_PHASE_S: f64 = 90.0 * 86_400.0;

pub fn check(body: &Body, phases: &[PhaseHeat], accuracy: &Accuracy) -> Result<(), HeatError> {
    within("cells", accuracy.cells as f64, 4.0, 2000.0)?;
    within("error of one step, K", accuracy.step_error_k, 1e-9, f64::INFINITY)?;
    within("longest step, s", accuracy.longest_step_s, 0.01, f64::INFINITY)?;
    if phases.is_empty() || phases.len() > MOST_PHASES {
        return Err(HeatError::PhaseCount { given: phases.len(), most: MOST_PHASES });
    }
    form(&body.form)?;
    for layer in body.field.layers() {
        within(
            "temperature of a layer, °C",
            body.material.temperature_c(layer.enthalpy_j_m3),
            -150.0,
            400.0,
        )?;
    }
    for (index, phase) in phases.iter().enumerate() {
        one_phase(index, phase)?;
    }
    Ok(())
}

fn form(form: &Form) -> Result<(), HeatError> {
    Form::new(form.half_thickness_m, form.beta).map(|_| ())
}

fn ramp(what: &'static str, ramp: &Ramp, low: f64, high: f64) -> Result<(), HeatError> {
    for point in ramp.points() {
        within(what, point.1, low, high)?;
    }
    if ramp.points().len() > MOST_CORNERS {
        return Err(HeatError::BadRamp { what });
    }
    Ok(())
}

fn one_phase(index: usize, phase: &PhaseHeat) -> Result<(), HeatError> {
    ramp("medium, °C", &phase.medium_c, -80.0, 400.0)?;
    ramp("wetness", &phase.wetness, 0.0, 1.0)?;
    let (low, high) = phase.film.bounds();
    within("film coefficient, W/(m² K)", low, 0.0, 1e7)?;
    within("film coefficient, W/(m² K)", high, 0.0, 1e7)?;
    within("emissivity", phase.emissivity, 0.0, 1.0)?;
    within("wall, °C", phase.wall_c.unwrap_or(0.0), -80.0, 600.0)?;
    within("air pressure, Pa", phase.pressure_pa, 20_000.0, 400_000.0)?;
    match phase.humidity {
        Humidity::Ratio(w) => within("humidity ratio", w, 0.0, 10.0)?,
        Humidity::Relative(r) => within("relative humidity", r, 0.0, 1.0)?,
    };
    // The only thing the surface law itself can refuse is air that would be steam.
    phase.surface(phase.medium_c.highest(), phase.wetness.highest())?;
    phase.surface(phase.medium_c.lowest(), phase.wetness.highest())?;
    if let Some(duration_s) = phase.end.duration_s {
        within("duration, s", duration_s, 0.0, LONGEST_PHASE_S)?;
    } else if phase.end.until.is_none() {
        return Err(HeatError::NoEnd { phase: index });
    }
    if let Some(until) = phase.end.until {
        within("target, °C", until.target_c, -80.0, 400.0)?;
    }
    Ok(())
}
