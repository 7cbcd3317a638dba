//! What there is to draw of one food, in the scale that people see.

use super::axis::Axis;
use crate::heat::{Band, Curves, FoodCurve, PhaseTimes, Reading, Sample};
use crate::quantity::{Scale, Temperature};

/// Nothing in a kitchen is further from 0 °C than this, or from the start of its cook, in seconds.
/// What claims to be is not drawn.
const FAR_C: f64 = 1e4;
const FAR_S: f64 = 1e9;

/// A limit this near to the curve still belongs in its picture, in kelvin.
const NEAR_K: f64 = 15.0;

/// One food's curve and its surroundings.
#[derive(Debug)]
pub struct Chart<'c> {
    pub food: &'c FoodCurve,
    /// In the order of time, at least one, every figure finite, temperatures in the scale shown.
    pub samples: Vec<Sample>,
    pub stretches: Vec<Stretch<'c>>,
    /// °C or °F.
    pub degrees: Axis,
    pub limits: Vec<Limit<'c>>,
}

/// A phase that the food goes through.
#[derive(Debug)]
pub struct Stretch<'c> {
    pub phase: &'c PhaseTimes,
    /// It starts where a phase ends whose end is uncertain.
    pub start_vague: bool,
    /// The last sample in it, in °C, with the bounds of its own end, whenever that is.
    pub last: Sample,
}

/// A line across.
#[derive(Debug)]
pub struct Limit<'c> {
    pub name: &'c str,
    pub celsius: f64,
    /// In the scale shown.
    pub shown: f64,
    /// Near enough to the curve to be drawn.
    pub drawn: bool,
}

impl<'c> Chart<'c> {
    /// `None` where the food has no sample that can be drawn.
    pub fn new(
        curves: &'c Curves,
        food: &'c FoodCurve,
        limits: &'c [(String, f64)],
        scale: Scale,
    ) -> Option<Self> {
        let drawable: Vec<&Sample> = food.samples.iter().filter(|sample| drawable(sample)).collect();
        let lowest = drawable.iter().flat_map(|sample| temperatures(sample)).reduce(f64::min)?;
        let highest = drawable.iter().flat_map(|sample| temperatures(sample)).reduce(f64::max)?;
        let limits: Vec<Limit<'_>> = limits
            .iter()
            .filter(|(_, celsius)| celsius.is_finite())
            .map(|(name, celsius)| Limit {
                name,
                celsius: *celsius,
                shown: shown(*celsius, scale),
                drawn: (lowest - NEAR_K..=highest + NEAR_K).contains(celsius),
            })
            .collect();
        let drawn = || limits.iter().filter(|limit| limit.drawn).map(|limit| limit.celsius);
        let low = drawn().fold(lowest, f64::min);
        let high = drawn().fold(highest, f64::max);
        let mut samples: Vec<Sample> = drawable.iter().map(|sample| in_scale(sample, scale)).collect();
        samples.sort_by(|a, b| a.t_s.total_cmp(&b.t_s));
        Some(Self {
            food,
            samples,
            stretches: stretches(curves, food, &drawable),
            degrees: Axis::degrees(shown(low, scale), shown(high, scale)),
            limits,
        })
    }

    /// What a probe has read, in the scale shown, as far as it is in the picture.
    pub fn readings(&self, time: &Axis, scale: Scale) -> Vec<Reading> {
        let (from, to) = (self.degrees.from, self.degrees.to);
        let shown =
            self.food.readings.iter().map(|read| Reading { core_c: shown(read.core_c, scale), ..*read });
        shown
            .filter(|read| (time.from..=time.to).contains(&read.t_s) && (from..=to).contains(&read.core_c))
            .collect()
    }

    /// Marked at no more than about `most` moments.
    pub fn time(&self, most: usize) -> Axis {
        let first = self.samples.first().map_or(0.0, |sample| sample.t_s);
        let last = self.samples.last().map_or(first, |sample| sample.t_s);
        Axis::time(first, last, most)
    }
}

fn stretches<'c>(curves: &'c Curves, food: &FoodCurve, samples: &[&'c Sample]) -> Vec<Stretch<'c>> {
    let mut stretches = Vec::new();
    for phase in &curves.phases {
        let Some(&last) = samples.iter().rfind(|sample| sample.phase == phase.phase) else { continue };
        let leads_here = |other: &PhaseTimes| (other.end_s - phase.start_s).abs() < 1.0;
        let start_vague = curves.phases.iter().any(|other| leads_here(other) && end_is_vague(other));
        let exit = food.exits.iter().find(|(exit, _)| *exit == phase.phase);
        let last = exit.map_or(*last, |(_, core_c)| Sample {
            core_low_c: core_c.low,
            core_high_c: core_c.high,
            ..*last
        });
        stretches.push(Stretch { phase, start_vague, last });
    }
    stretches
}

/// The end may be more than a fifth of the time since the start off: one figure would promise too much.
pub fn end_is_vague(phase: &PhaseTimes) -> bool {
    phase.end_latest_s - phase.end_earliest_s > 0.2 * phase.end_s
}

pub fn core_is_vague(sample: &Sample) -> bool {
    is_vague(Band::new(sample.core_low_c, sample.core_c, sample.core_high_c))
}

/// It may be anywhere in more than 5 K, of °C.
pub fn is_vague(core: Band) -> bool {
    core.high - core.low > 5.0
}

fn temperatures(sample: &Sample) -> [f64; 5] {
    let Sample { medium_c, surface_c, core_c, core_low_c, core_high_c, .. } = *sample;
    [medium_c, surface_c, core_c, core_low_c, core_high_c]
}

fn drawable(sample: &Sample) -> bool {
    // A comparison with what is not a number is false.
    sample.t_s.abs() <= FAR_S && temperatures(sample).iter().all(|celsius| celsius.abs() <= FAR_C)
}

fn in_scale(sample: &Sample, scale: Scale) -> Sample {
    Sample {
        t_s: sample.t_s,
        phase: sample.phase,
        medium_c: shown(sample.medium_c, scale),
        surface_c: shown(sample.surface_c, scale),
        core_c: shown(sample.core_c, scale),
        core_low_c: shown(sample.core_low_c, scale),
        core_high_c: shown(sample.core_high_c, scale),
    }
}

/// A temperature in °C as a figure of the scale that people see.
pub fn shown(celsius: f64, scale: Scale) -> f64 {
    match scale {
        Scale::Celsius => celsius,
        Scale::Fahrenheit => Temperature::from_celsius(celsius).fahrenheit(),
    }
}
