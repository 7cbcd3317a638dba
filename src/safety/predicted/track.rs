//! The predicted temperature of a food through a run of phases, as histories that can be judged.
//!
//! Each phase is taken on its own clock and put behind the one before. A temperature that ends a phase is there as the
//! phase ends: a probe has to show it, and no prediction says otherwise.

use super::super::declared::{core_checks, core_end};
use super::super::history::History;
use super::super::report::{About, Report};
use crate::cook::{Lasts, Phase};
use crate::heat::{COARSE_K, Instant, Stay};
use crate::quantity::{Duration, Temperature, TemperatureDifference};

/// Which bound of the core stands against a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// For heating and keeping hot.
    Cold,
    /// For cooling and keeping cold.
    Warm,
}

/// Which lengths count where a phase may be shorter or longer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lasting {
    Least,
    Most,
}

/// One run of a food.
pub struct Track {
    pub lines: Lines,
    /// What the outside usually goes through.
    pub surface: History,
    /// If every checkpoint of the core comes out as the file expects.
    pub as_expected: Option<Lines>,
}

/// The core of one run.
pub struct Lines {
    pub usual: History,
    /// The same as much nearer to what is asked as a coarse run may be off: what it misses only without that is no fault.
    pub at_best: History,
    pub bound: History,
}

/// Why a run is not followed: in a cook's words, where something can be done about it.
pub struct Missing(pub Option<String>);

#[derive(Clone, Copy, PartialEq)]
enum Line {
    Usual,
    AtBest,
    Surface,
    Bound,
}

pub fn track(report: &Report, steps: &[About], bound: Bound, lasting: Lasting) -> Result<Track, Missing> {
    let parts = steps.iter().map(|step| part(report, step)).collect::<Result<Vec<_>, _>>()?;
    let line = |line, expected| Reader { line, bound, lasting, expected }.history(&parts);
    let lines = |expected| {
        Ok(Lines {
            usual: line(Line::Usual, expected)?,
            at_best: line(Line::AtBest, expected)?,
            bound: line(Line::Bound, expected)?,
        })
    };
    let checked = parts.iter().any(|(phase, _)| core_checks(phase).next().is_some());
    let as_expected = if checked { Some(lines(true)?) } else { None };
    Ok(Track { lines: lines(false)?, surface: line(Line::Surface, false)?, as_expected })
}

/// What comes nearer to a limit for ever is there within this, K.
const NEAR_K: f64 = 0.05;

/// One phase in the cold, from the moment on at which the food is no warmer than `limit`; the whole of it, where it never
/// is. By then it is as cold as what surrounds it, and a coarse run is off by nothing.
pub fn track_once_cold(report: &Report, step: About, limit: Temperature) -> Result<Track, Missing> {
    let whole = track(report, &[step], Bound::Warm, Lasting::Most)?;
    let coarse = TemperatureDifference::from_kelvin(COARSE_K + NEAR_K);
    let Lines { usual, at_best, bound } = whole.lines;
    let lines = Lines {
        usual: usual.once_at_most(limit),
        at_best: at_best.once_at_most(limit),
        bound: bound.colder_by(coarse).once_at_most(limit),
    };
    Ok(Track { lines, ..whole })
}

/// The prediction of one step.
pub fn part<'a>(report: &Report<'a>, step: &About) -> Result<(&'a Phase, &'a Stay), Missing> {
    let (cook, curves) = (report.cook, report.curves);
    let of_item = curves.foods.iter().find(|food| food.item == step.food);
    let stay = of_item.and_then(|food| food.stays.iter().find(|stay| stay.phase == step.phase));
    let mut lost = curves.unpredicted.iter().filter(|lost| lost.item == step.food);
    let here = lost.clone().any(|lost| lost.phase == step.phase);
    match stay.filter(|_| !here) {
        Some(stay) => Ok((cook.phase(step.phase), stay)),
        None => Err(Missing(lost.rfind(|lost| lost.phase <= step.phase).map(|lost| lost.because.clone()))),
    }
}

/// The middle of a piece stays as hot as a probe finds it for at least so long, s: the heat is on its way in from outside,
/// and cold needs longer than that through a centimetre.
const STAYS_S: f64 = 30.0;

struct Reader {
    line: Line,
    bound: Bound,
    lasting: Lasting,
    /// Checkpoints count as seen.
    expected: bool,
}

impl Reader {
    fn history(&self, parts: &[(&Phase, &Stay)]) -> Result<History, Missing> {
        let mut readings: Vec<(Duration, Temperature)> = Vec::new();
        let mut start_s = 0.0;
        for (phase, stay) in parts {
            let probed = self.probed(phase, stay);
            let mut points = match (self.line, self.lasting, probed) {
                (Line::Bound, Lasting::Least, Some(target)) => quickest(stay, target),
                _ => self.points(phase, stay),
            };
            let length_s = points.last().map_or(0.0, |(tau_s, _)| *tau_s);
            if let Some((_, last)) = points.last().copied()
                && let Some(seen) = self.as_it_ends(phase, probed, last)
            {
                points.push((length_s, seen));
                if probed.is_some() && self.bound == Bound::Cold {
                    points.push((length_s + STAYS_S, seen));
                }
            }
            readings.extend(points.iter().map(|(tau_s, celsius)| {
                (Duration::from_seconds(start_s + tau_s), Temperature::from_celsius(*celsius))
            }));
            start_s += points.last().map_or(0.0, |(tau_s, _)| *tau_s);
        }
        History::new(readings).map_err(|_| Missing(None))
    }

    /// What a probe is to find as the phase ends, °C, where the food goes the way that the rule is about.
    fn probed(&self, phase: &Phase, stay: &Stay) -> Option<f64> {
        let target = core_end(phase)?.at.celsius();
        let rises = target > stay.instants.first()?.core_c;
        (self.line != Line::Surface && rises == (self.bound == Bound::Cold)).then_some(target)
    }

    /// How long the phase lasts here, s, and how many of these seconds one of the curve takes.
    fn length(&self, phase: &Phase, stay: &Stay) -> (f64, f64) {
        let lasts = stay.lasts_s;
        // It cannot be as quick as the writer says: the prediction is what is judged.
        if let Some(alone) = stay.alone_s.filter(|alone| alone.low > lasts.high)
            && lasts.typical > 0.0
        {
            return (alone.typical, alone.typical / lasts.typical);
        }
        let chosen = matches!(phase.lasts, Lasts::Chosen { .. });
        let length_s = match (self.line, self.lasting) {
            (Line::Usual | Line::AtBest | Line::Surface, _) if !chosen => lasts.typical,
            (_, Lasting::Least) => lasts.low,
            (_, Lasting::Most) => lasts.high,
        };
        (length_s, 1.0)
    }

    fn points(&self, phase: &Phase, stay: &Stay) -> Vec<(f64, f64)> {
        let (length_s, pace) = self.length(phase, stay);
        stay.along(length_s, pace, |instant| self.read(instant))
    }

    fn read(&self, instant: &Instant) -> f64 {
        match (self.line, self.bound) {
            (Line::Usual, _) => instant.core_c,
            (Line::AtBest, Bound::Cold) => instant.core_c + COARSE_K,
            (Line::AtBest, Bound::Warm) => instant.core_c - COARSE_K,
            (Line::Surface, _) => instant.surface_c,
            (Line::Bound, Bound::Cold) => instant.low_c,
            (Line::Bound, Bound::Warm) => instant.high_c,
        }
    }

    /// What a probe sees as the phase ends, where that is nearer to what is asked.
    fn as_it_ends(&self, phase: &Phase, probed: Option<f64>, last: f64) -> Option<f64> {
        if self.line == Line::Surface {
            return None;
        }
        let nearer = match self.bound {
            Bound::Cold => f64::max,
            Bound::Warm => f64::min,
        };
        let expected =
            core_checks(phase).filter(|_| self.expected).filter_map(|(low, high, _)| match self.bound {
                Bound::Cold => low,
                Bound::Warm => high,
            });
        let seen = probed.into_iter().chain(expected.map(Temperature::celsius)).reduce(nearer)?;
        Some(nearer(seen, last))
    }
}

/// The quickest way up to what a probe finds. A slow one spends more time near the end: it is the quick one that gives the
/// food the least heat.
fn quickest(stay: &Stay, target: f64) -> Vec<(f64, f64)> {
    let mut points: Vec<(f64, f64)> = Vec::new();
    for instant in &stay.instants {
        let celsius = instant.high_c - COARSE_K;
        if celsius < target {
            points.push((instant.tau_s, celsius));
            continue;
        }
        let tau_s = match points.last() {
            Some((before_s, before)) => {
                before_s + (instant.tau_s - before_s) * (target - before) / (celsius - before)
            }
            None => instant.tau_s,
        };
        points.push((tau_s, target));
        break;
    }
    points
}
