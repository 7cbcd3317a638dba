//! What heat hands on: predicted temperatures over time, as plain data.

use super::band::Band;
use super::envelope::Instant;
use super::readings::{Heeded, Reading};
use crate::cook::{ItemId, PhaseId};

/// The predicted temperatures of one cook. Everything here is a prediction; a probe decides.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Curves {
    /// In the order in which they start.
    pub phases: Vec<PhaseTimes>,
    pub foods: Vec<FoodCurve>,
    /// Foods without a curve, and why.
    pub unpredicted: Vec<Unpredicted>,
}

/// When a phase starts and ends if everything goes as it usually does, in seconds from the start of the cook.
#[derive(Debug, Clone, PartialEq)]
pub struct PhaseTimes {
    pub phase: PhaseId,
    pub name: String,
    pub start_s: f64,
    pub end_s: f64,
    /// The earliest and the latest end for all that is not known exactly.
    pub end_earliest_s: f64,
    pub end_latest_s: f64,
    /// The least and the most that it lasts, s.
    pub least_s: f64,
    pub most_s: f64,
    /// The end is read off the prediction, not written.
    pub end_predicted: bool,
}

/// One food from the first phase it is in to the last.
#[derive(Debug, Clone, PartialEq)]
pub struct FoodCurve {
    pub item: ItemId,
    pub name: String,
    /// In the order of time; where two phases meet there are two samples of one moment.
    pub samples: Vec<Sample>,
    /// The core as each of its phases ends, whenever that is: lowest, usual and highest, °C.
    pub exits: Vec<(PhaseId, Band)>,
    /// The same curve phase by phase, each on its own clock: the bounds are narrower there, since how long the phases
    /// before it took does not blur them.
    pub stays: Vec<Stay>,
    /// What was not written and had to be assumed, in a cook's words.
    pub assumed: Vec<String>,
    /// What a probe has read of it, in the order of time; the last of them is now.
    pub readings: Vec<Reading>,
    pub heeded: Heeded,
}

/// One food in one phase, in seconds from the start of the phase.
#[derive(Debug, Clone, PartialEq)]
pub struct Stay {
    pub phase: PhaseId,
    /// How long the phase lasts, s; the range of a choice of the cook as well.
    pub lasts_s: Band,
    /// How long it takes to the temperature that ends the phase, s, whatever the file says.
    pub alone_s: Option<Band>,
    /// Up to the longest that it may last; none where it takes no time.
    pub instants: Vec<Instant>,
}

impl FoodCurve {
    /// What `read` gives at `t_s`, in °C, on a straight line between the samples around it; `None` outside them.
    pub fn at<const N: usize>(&self, t_s: f64, read: impl Fn(&Sample) -> [f64; N]) -> Option<[f64; N]> {
        let next = self.samples.partition_point(|sample| sample.t_s < t_s);
        let (before, after) = (self.samples.get(next.saturating_sub(1))?, self.samples.get(next)?);
        if before.t_s > t_s {
            return None;
        }
        let span = after.t_s - before.t_s;
        let share = if span > 0.0 { (t_s - before.t_s) / span } else { 0.0 };
        let (from, to) = (read(before), read(after));
        Some(std::array::from_fn(|nth| from[nth] + share * (to[nth] - from[nth])))
    }
}

impl Stay {
    /// What `celsius` reads off its instants, as s from its start and °C, up to `lasts_s`. One second of the curve takes
    /// `pace` of them.
    pub fn along(&self, lasts_s: f64, pace: f64, celsius: impl Fn(&Instant) -> f64) -> Vec<(f64, f64)> {
        let mut points: Vec<(f64, f64)> = Vec::new();
        for instant in &self.instants {
            let (tau_s, celsius) = (pace * instant.tau_s, celsius(instant));
            if tau_s > lasts_s {
                if let Some(&(before_s, before)) = points.last().filter(|(before_s, _)| *before_s < lasts_s) {
                    let share = (lasts_s - before_s) / (tau_s - before_s);
                    points.push((lasts_s, before + share * (celsius - before)));
                }
                break;
            }
            points.push((tau_s, celsius));
        }
        points
    }
}

/// One moment of one food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// Seconds from the start of the cook.
    pub t_s: f64,
    pub phase: PhaseId,
    /// Air, water or contact temperature around the food, °C.
    pub medium_c: f64,
    pub surface_c: f64,
    /// The slowest point.
    pub core_c: f64,
    /// These two enclose the core for everything that is not known exactly.
    pub core_low_c: f64,
    pub core_high_c: f64,
}

/// A food whose temperature cannot be predicted.
#[derive(Debug, Clone, PartialEq)]
pub struct Unpredicted {
    pub item: ItemId,
    pub name: String,
    /// From here on.
    pub phase: PhaseId,
    /// What to write, or why nothing helps, in a cook's words.
    pub because: String,
}
