//! `dwell curve --format json`: the format "dwell.curve/1".

use schemars::JsonSchema;
use serde::Serialize;

use crate::heat::{Curves, FoodCurve, PhaseTimes, Reading, Sample, Unpredicted};
use crate::output::escape;
use crate::output::measure::thousandth;
use crate::output::microbes::{self, MicrobeJson};
use crate::safety::Microbe;

const FORMAT: &str = "dwell.curve/1";

/// Predicted temperatures of one cook. Times are seconds from its start; a figure that is not known is
/// null. Of a menu, dish after dish: each counts from its own start, and its phases and foods are named
/// with it ("Overnight shoulder: wait").
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "dwell curve, edition 1")]
pub struct CurveJson {
    /// Always "dwell.curve/1".
    #[schemars(extend("const" = FORMAT))]
    format: &'static str,
    /// In the order in which they start.
    phases: Vec<PhaseJson>,
    foods: Vec<FoodJson>,
    unpredicted: Vec<UnpredictedJson>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct PhaseJson {
    name: String,
    start_s: Option<f64>,
    end_s: Option<f64>,
    end_earliest_s: Option<f64>,
    end_latest_s: Option<f64>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct FoodJson {
    name: String,
    /// In the order of time; where two phases meet there are two samples of one moment.
    samples: Vec<SampleJson>,
    /// The organisms that are looked at in this food.
    microbes: Vec<MicrobeJson>,
    /// What the file does not say and had to be assumed, in words.
    assumed: Vec<String>,
    /// What a probe has read, thinned out where there is a lot of it; the forecast goes on from the last.
    readings: Vec<ReadingJson>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct ReadingJson {
    t_s: Option<f64>,
    core_c: Option<f64>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct SampleJson {
    t_s: Option<f64>,
    /// Air, water or contact temperature around the food.
    medium_c: Option<f64>,
    surface_c: Option<f64>,
    /// The slowest point.
    core_c: Option<f64>,
    /// These two enclose the core for everything that is not known exactly.
    core_low_c: Option<f64>,
    core_high_c: Option<f64>,
}

/// A food without a curve.
#[derive(Debug, Serialize, JsonSchema)]
struct UnpredictedJson {
    name: String,
    /// From this phase on; null where it is not among the phases.
    phase: Option<String>,
    why: String,
}

/// The curves for tools, with the microbes of each food in the same order.
pub fn json(curves: &Curves, microbes: &[&[Microbe]]) -> String {
    escape::json(&CurveJson {
        format: FORMAT,
        phases: curves.phases.iter().map(phase).collect(),
        foods: curves
            .foods
            .iter()
            .enumerate()
            .map(|(nth, one)| food(one, microbes.get(nth).copied().unwrap_or_default()))
            .collect(),
        unpredicted: curves.unpredicted.iter().map(|food| unpredicted(food, curves)).collect(),
    })
}

fn phase(phase: &PhaseTimes) -> PhaseJson {
    PhaseJson {
        name: phase.name.clone(),
        start_s: figure(phase.start_s),
        end_s: figure(phase.end_s),
        end_earliest_s: figure(phase.end_earliest_s),
        end_latest_s: figure(phase.end_latest_s),
    }
}

fn food(food: &FoodCurve, microbes: &[Microbe]) -> FoodJson {
    FoodJson {
        name: food.name.clone(),
        samples: food.samples.iter().map(sample).collect(),
        microbes: microbes.iter().map(microbes::json).collect(),
        assumed: food.assumed.clone(),
        readings: food.readings.iter().map(reading).collect(),
    }
}

fn reading(reading: &Reading) -> ReadingJson {
    ReadingJson { t_s: figure(reading.t_s), core_c: figure(reading.core_c) }
}

fn sample(sample: &Sample) -> SampleJson {
    SampleJson {
        t_s: figure(sample.t_s),
        medium_c: figure(sample.medium_c),
        surface_c: figure(sample.surface_c),
        core_c: figure(sample.core_c),
        core_low_c: figure(sample.core_low_c),
        core_high_c: figure(sample.core_high_c),
    }
}

fn unpredicted(food: &Unpredicted, curves: &Curves) -> UnpredictedJson {
    let phase = curves.phases.iter().find(|phase| phase.phase == food.phase);
    UnpredictedJson {
        name: food.name.clone(),
        phase: phase.map(|phase| phase.name.clone()),
        why: food.because.clone(),
    }
}

/// A prediction is not known better than to a thousandth.
fn figure(value: f64) -> Option<f64> {
    value.is_finite().then(|| thousandth(value))
}
