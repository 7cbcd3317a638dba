//! Heat: the temperature in each food through all its phases, predicted.
//!
//! [`conduction`] solves the heat equation for one body; the rest says which body, in which surroundings, from phase to
//! phase, and how far all of it may be off.

mod band;
pub mod conduction;
mod curves;
mod envelope;
mod findings;
mod following;
mod food;
mod lines;
mod medium;
mod mix;
mod piece;
mod predict;
mod readings;
mod schedule;
mod stop;
mod surroundings;
mod walk;

pub use band::Band;
pub use curves::{Curves, FoodCurve, PhaseTimes, Sample, Stay, Unpredicted};
pub use envelope::Instant;
pub use lines::COARSE_K;
pub use predict::{Prediction, lend_lengths, outline, predict};
pub use readings::{Heeded, Reading, sharpened};
