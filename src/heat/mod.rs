//! Heat: the temperature in each food through all its phases, predicted.

mod curves;

pub use curves::{Curves, FoodCurve, PhaseTimes, Sample, Unpredicted};
