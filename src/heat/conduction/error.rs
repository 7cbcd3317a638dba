//! What can be wrong with the numbers a prediction is asked for.

use std::fmt;

/// A refusal to compute. `phase` counts from 0.
#[derive(Debug, Clone, PartialEq)]
pub enum HeatError {
    /// A number is not finite or lies outside what the model is meant for.
    OutOfRange { what: &'static str, value: f64, low: f64, high: f64 },
    /// No phase at all, or more than the solver takes on.
    PhaseCount { given: usize, most: usize },
    /// A phase has neither a duration nor a temperature to wait for.
    NoEnd { phase: usize },
    /// A curve over time has no points, or its times run backwards.
    BadRamp { what: &'static str },
    /// The vapour in the air would press at least as hard as the air itself.
    AirAtBoilingPoint { medium_c: f64, vapour_pa: f64, pressure_pa: f64 },
    /// A food said to be frozen is above its freezing point.
    NotFrozen { start_c: f64, freezing_c: f64 },
    /// The mass does not fit the thickness: even a ball of that thickness is heavier.
    TooLightForThickness { volume_m3: f64, least_m3: f64 },
    /// Nothing to merge, or a composition without any mass.
    NoMass,
    /// The step control needed more steps than it is allowed; the input is too rough to predict.
    TooManySteps { phase: usize, at_s: f64 },
}

impl fmt::Display for HeatError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OutOfRange { what, value, low, high } => {
                write!(f, "{what} is {value}, outside {low} to {high}")
            }
            Self::PhaseCount { given, most } => write!(f, "{given} phases, expected 1 to {most}"),
            Self::NoEnd { phase } => write!(f, "phase {phase} never ends: no duration and no temperature"),
            Self::BadRamp { what } => write!(f, "{what}: points missing or out of order in time"),
            Self::AirAtBoilingPoint { medium_c, vapour_pa, pressure_pa } => write!(
                f,
                "air at {medium_c} °C with {vapour_pa} Pa of vapour at {pressure_pa} Pa would be steam"
            ),
            Self::NotFrozen { start_c, freezing_c } => {
                write!(f, "a frozen food cannot start at {start_c} °C; it freezes at {freezing_c} °C")
            }
            Self::TooLightForThickness { volume_m3, least_m3 } => {
                write!(f, "{volume_m3} m³ is less than a ball of that thickness, {least_m3} m³")
            }
            Self::NoMass => write!(f, "nothing with a mass to merge"),
            Self::TooManySteps { phase, at_s } => {
                write!(f, "phase {phase} needs too many steps, stopped at {at_s} s")
            }
        }
    }
}

impl std::error::Error for HeatError {}

/// `value` if it is a number from `low` to `high`.
pub fn within(what: &'static str, value: f64, low: f64, high: f64) -> Result<f64, HeatError> {
    if (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(HeatError::OutOfRange { what, value, low, high })
    }
}
