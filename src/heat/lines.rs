//! The runs that stand for all that may happen: the usual one, and the corners of what is not known.
//!
//! By the comparison principle of the heat equation a body that takes up less heat at every moment is nowhere warmer. For
//! one thickness, the cold line is therefore below every other and the warm line above: both take each figure (setting,
//! film, wetness, humidity, where the kit comes from) at the end that counts at that moment. Thickness works both ways (a
//! thin piece heats and cools faster, so that one in between may get hottest), so three of them are run on both sides and
//! a parabola through them says how far the ones in between may go ([`reaches`]).
//!
//! Assumed: figures stay the same through a phase but may differ from phase to phase; one thickness holds for the whole
//! cook until another is written; what is not a tolerance (the food's properties, its shape factor, how fast kit follows a
//! new setting, the length that a cook chooses) is exact; air under a lid, crusts, shrinking and dripping count for
//! nothing beyond the range of the wetness.

use std::rc::Rc;

use super::band::Band;
use super::conduction::body::Body;
use super::conduction::error::HeatError;
use super::conduction::field::Field;
use super::conduction::history::{Ending, Follow, History, Sample};
use super::conduction::material::Material;
use super::conduction::phase::{End, PhaseHeat, Until};
use super::conduction::ramp::Ramp;
use super::conduction::shape::Form;
use super::conduction::solve::{Accuracy, solve_with_sooner};
use super::conduction::surface::{Film, Humidity};
use super::surroundings::Surroundings;

/// Which end of what is not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    Usual,
    /// The least heat into the food (of thickness: the thickest).
    Cold,
    /// The most heat into the food (of thickness: the thinnest).
    Warm,
}

impl Side {
    /// The end of a temperature that it stands for.
    pub fn of(self, band: Band) -> f64 {
        match self {
            Self::Usual => band.typical,
            Self::Cold => band.low,
            Self::Warm => band.high,
        }
    }
}

/// One run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    pub side: Side,
    pub thick: Side,
}

pub const USUAL: usize = 0;

/// What a prediction is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// Curves that people see.
    Curves,
    /// One of many curves to hold against readings.
    Trial,
    /// Findings and the plan: how long things take and how warm they end.
    Ends,
}

/// The usual run first, then the cold side and the warm side, each from thick to thin.
pub const LINES: [Line; 7] = [
    Line { side: Side::Usual, thick: Side::Usual },
    Line { side: Side::Cold, thick: Side::Cold },
    Line { side: Side::Cold, thick: Side::Usual },
    Line { side: Side::Cold, thick: Side::Warm },
    Line { side: Side::Warm, thick: Side::Cold },
    Line { side: Side::Warm, thick: Side::Usual },
    Line { side: Side::Warm, thick: Side::Warm },
];

/// How finely a line is run. The corners only bound: they are run coarsely, and are widened by what that costs. So is
/// the usual run where nobody will see its curve.
pub fn accuracy(side: Side, detail: Detail) -> Accuracy {
    match side {
        Side::Usual if detail == Detail::Curves => Accuracy::FULL,
        Side::Usual => Accuracy::COARSE,
        Side::Cold | Side::Warm => Accuracy::COARSE,
    }
}

/// How far a coarse line may be off, K: held to the reference cooks in `tests/heat/coarse.rs`.
pub const COARSE_K: f64 = 0.2;

/// The line of the same thickness on the other side.
pub fn across(nth: usize) -> usize {
    match LINES[nth].side {
        Side::Usual => nth,
        Side::Cold => nth + 3,
        Side::Warm => nth - 3,
    }
}

/// From the least to the most that a value may be which each of [`LINES`] has, any thickness between included.
pub fn reaches(values: &[f64]) -> (f64, f64) {
    let all = values.iter().copied();
    let (mut low, mut high) =
        all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)));
    for side in values.get(1..).unwrap_or_default().chunks_exact(3) {
        if let Some(peak) = peak(side[0], side[1], side[2]) {
            (low, high) = (low.min(peak), high.max(peak));
        }
    }
    (low, high)
}

/// Where the parabola through three values at equal distances turns, if it does between them.
fn peak(first: f64, middle: f64, last: f64) -> Option<f64> {
    let (rise, bend) = (0.5 * (last - first), last - 2.0 * middle + first);
    (rise.abs() < bend.abs()).then(|| middle - 0.5 * rise * rise / bend)
}

/// What heat meets along one line in one phase, where the surface has dried for `dried_s` before.
pub fn phase_heat(
    side: Side,
    around: &Surroundings,
    dried_s: f64,
    pressure_pa: f64,
    end: End,
) -> Result<PhaseHeat, HeatError> {
    let pick = |band: Band| side.of(band);
    // A wetter surface takes up less heat.
    let wetness = match side {
        Side::Usual => Ramp::new("wetness", around.usual_wetness(dried_s))?,
        Side::Cold => Ramp::constant(around.wetness.high),
        // It may also dry sooner than usual, whatever it was like before.
        Side::Warm => Ramp::new("wetness", around.driest(dried_s))?,
    };
    let medium_c = pick(around.medium_c);
    let medium = match &around.coming_from {
        None => Ramp::constant(medium_c),
        Some(coming) => {
            let from_c = pick(coming.from_c);
            Ramp::new("medium, °C", vec![(0.0, from_c), (coming.takes_s(from_c, medium_c), medium_c)])?
        }
    };
    let film = match side {
        Side::Usual => Film::Known(around.film_w_m2k.typical),
        Side::Cold => Film::Least(around.film_w_m2k.low, around.film_w_m2k.high),
        Side::Warm => Film::Most(around.film_w_m2k.low, around.film_w_m2k.high),
    };
    Ok(PhaseHeat {
        medium_c: medium,
        film,
        emissivity: around.emissivity,
        wall_c: None,
        wetness,
        humidity: Humidity::Ratio(pick(around.humidity_ratio)),
        pressure_pa,
        end,
    })
}

/// One phase along one line. Lines that coincide share one.
#[derive(Clone)]
pub struct LineRun {
    history: Rc<History>,
    /// The heat in the food at the earlier ends that were asked for.
    sooner: Rc<[Field]>,
    /// The temperature that ended it, °C, where one did.
    target_c: Option<f64>,
    /// Seconds of the run for each second of the phase: what the writer has seen may be slower or quicker.
    pace: f64,
}

impl LineRun {
    /// `sooner_s`: earlier ends of a phase of known length, rising, between 0 and it.
    pub fn new(
        form: Form,
        material: &Material,
        field: &Field,
        phase: &PhaseHeat,
        accuracy: Accuracy,
        sooner_s: &[f64],
    ) -> Result<Self, HeatError> {
        let body = Body { form, material: material.clone(), field: field.clone() };
        let (history, sooner) = solve_with_sooner(&body, phase, accuracy, sooner_s)?;
        let target_c = phase.end.until.map(|until: Until| until.target_c);
        Ok(Self { history: Rc::new(history), sooner: sooner.into(), target_c, pace: 1.0 })
    }

    /// Seconds from the start of the phase.
    pub fn length_s(&self) -> f64 {
        self.history.ends.last().map_or(0.0, |end| end.at_s) / self.pace
    }

    /// The same run, over in so many seconds.
    pub fn lasting(self, seconds: f64) -> Self {
        let run_s = self.length_s() * self.pace;
        Self { pace: if seconds > 0.0 && run_s > 0.0 { run_s / seconds } else { 1.0 }, ..self }
    }

    pub fn ending(&self) -> Ending {
        self.history.ends.last().map_or(Ending::Elapsed, |end| end.ending)
    }

    pub fn field(&self) -> &Field {
        &self.history.field
    }

    /// The heat in the food had the phase been over sooner.
    pub fn sooner(&self) -> &[Field] {
        &self.sooner
    }

    pub fn last(&self) -> Option<&Sample> {
        self.history.samples.last()
    }

    /// Medium, surface and core at `tau_s` of the phase; after its end, as it ended.
    pub fn at(&self, tau_s: f64) -> (f64, f64, f64) {
        let run_s = self.run_s(tau_s);
        let samples = &self.history.samples;
        let next = samples.partition_point(|sample| sample.t_s < run_s).min(samples.len().saturating_sub(1));
        let medium = match (next.checked_sub(1).and_then(|before| samples.get(before)), samples.get(next)) {
            (Some(a), Some(b)) if b.t_s > a.t_s => {
                a.medium_c + (b.medium_c - a.medium_c) * (run_s - a.t_s) / (b.t_s - a.t_s)
            }
            (_, Some(b)) => b.medium_c,
            _ => f64::NAN,
        };
        (medium, self.read(run_s, Sample::surface), self.read(run_s, Sample::core))
    }

    /// The core at `tau_s`; past the end that a temperature made, that temperature.
    pub fn core(&self, tau_s: f64) -> f64 {
        match self.target_c {
            Some(target) if tau_s > self.length_s() && self.ending() == Ending::Reached => target,
            _ => self.read(self.run_s(tau_s), Sample::core),
        }
    }

    /// Seconds of the run at `tau_s` of the phase.
    fn run_s(&self, tau_s: f64) -> f64 {
        tau_s.clamp(0.0, self.length_s()) * self.pace
    }

    fn read(&self, run_s: f64, follow: Follow) -> f64 {
        self.history.at(0, run_s, follow).unwrap_or(f64::NAN)
    }
}
