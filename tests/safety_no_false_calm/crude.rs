//! The crude judge: three rules in a few lines, from minute to minute along the predicted core.
//!
//! It is lenient wherever a rule could be read in two ways, so that what it refuses is wrong by every reading.

use dwell::heat::{COARSE_K, Curves, Stay};

use super::cooks::{End, Flesh, Purpose, Written};

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    Calm,
    /// Something has to be said: a warning at least.
    Doubt,
    /// It has to be refused: an error.
    Unsafe,
}

impl Grade {
    pub fn name(self) -> &'static str {
        match self {
            Self::Calm => "calm",
            Self::Doubt => "doubtful",
            Self::Unsafe => "unsafe",
        }
    }
}

/// Below its limit food may be for so many minutes, by some sets.
#[derive(Clone, Copy)]
pub struct Hold {
    pub floor_c: f64,
    grace_min: usize,
    /// Agencies advise it; no law asks it.
    advice: bool,
}

/// From °C to °C within minutes. Where a stage follows another, its clock starts at the end of that.
pub struct Stage(pub f64, pub f64, pub usize);

pub fn hold_of(set: &str) -> Hold {
    let law = |floor_c, grace_min| Hold { floor_c, grace_min, advice: false };
    match set {
        // FDA Food Code 2022, 3-501.16: 57 °C.
        "us-food-code" => law(57.0, 0),
        // FSIS, danger zone: 60 °C (140 °F); advice.
        "us-fsis" => Hold { advice: true, ..law(60.0, 0) },
        // Standard 3.2.2: 60 °C; 4 h in all by the 2-hour/4-hour rule.
        "au-nz" => law(60.0, 240),
        // Ontario Regulation 562; Quebec P-29, r. 1.
        "ca" | "ca-nb" => law(60.0, 0),
        // Arrêté of 21 December 2009.
        "fr" => law(63.0, 0),
        // Food Hygiene Regulations, schedule 4: 63 °C; less than 2 h, once. In Scotland: above 63 °C, without that.
        "uk" => law(63.0, 120),
        "uk-scotland" => law(63.0, 0),
        // Food Safety Authority of Ireland: above 63 °C; up to 2 h on display.
        "eu-ie" => law(63.0, 120),
        _ => unreachable!("no other set is drawn"),
    }
}

/// The ways to cool of which one has to be kept, and whether they are only advice. Where Fahrenheit is printed beside,
/// the wider pair.
pub fn cooling_of(set: &str) -> (&'static [&'static [Stage]], bool) {
    match set {
        // FDA Food Code 2022, 3-501.14: both from the same start.
        "us-food-code" => (&[&[Stage(57.0, 190.0 / 9.0, 120), Stage(57.0, 5.0, 360)]], false),
        // FSIS Appendix B, 1999, options 1 and 2.
        "us-fsis" => (
            &[
                &[Stage(54.4, 26.7, 90), Stage(26.7, 40.0 / 9.0, 300)],
                &[Stage(440.0 / 9.0, 26.7, 60), Stage(440.0 / 9.0, 12.8, 360)],
            ],
            false,
        ),
        // Standard 3.2.2, clause 7(3).
        "au-nz" => (&[&[Stage(60.0, 21.0, 120), Stage(21.0, 5.0, 240)]], false),
        // Food Retail and Food Services Code (2016).
        "ca" => (&[&[Stage(60.0, 20.0, 120), Stage(20.0, 4.0, 240)]], false),
        // New Brunswick Regulation 2009-138, section 27(1)(c).
        "ca-nb" => (&[&[Stage(60.0, 20.0, 120), Stage(60.0, 4.0, 360)]], false),
        // Arrêté of 21 December 2009, annex IV.
        "fr" => (&[&[Stage(63.0, 10.0, 120)]], false),
        // Food Safety Authority of Ireland, Guidance Note 20, as quoted.
        "eu-ie" => (&[&[Stage(63.0, 10.0, 120)]], true),
        // The law has no figure, and the advice gives no temperature.
        _ => (&[], true),
    }
}

/// FSIS Revised Appendix A of 2021: no more than 6 h between 10 and 54.4 °C (50 and 130 °F), for a whole piece at its
/// surface. New South Wales, 2012, advice for water baths: no more than 6 h below 54.5 °C.
pub const WAY_UP_MIN: usize = 360;

/// Seconds and °C.
pub type Points = Vec<(f64, f64)>;

/// One phase of the food.
pub struct Part {
    pub purpose: Purpose,
    pub in_water: bool,
    /// As the curve is shown.
    usual: Points,
    /// The bounds, on the clock of the phase, up to the longest that it may last.
    pub cold: Points,
    pub warm: Points,
}

impl Part {
    /// As if nothing about it were uncertain.
    pub fn as_usual(&self) -> Self {
        let begins = self.usual.first().map_or(0.0, |first| first.0);
        let usual: Points = self.usual.iter().map(|(t, c)| (t - begins, *c)).collect();
        Self { cold: usual.clone(), warm: usual.clone(), usual, ..*self }
    }
}

/// The phases in their order, up to the first that is not predicted.
pub fn parts(written: &Written, curves: &Curves) -> Vec<Part> {
    let mut parts = Vec::new();
    for (nth, step) in written.steps.iter().enumerate() {
        let here = |stay: &&Stay| stay.phase.0 as usize == nth;
        let found = curves.foods.iter().find_map(|food| Some((food, food.stays.iter().find(here)?)));
        let Some((food, stay)) = found else { break };
        let samples = food.samples.iter().filter(|sample| sample.phase == stay.phase);
        // What the file ends by a probe is as cold or as hot then as it says: no prediction says otherwise.
        let shown = |mut points: Points| {
            let probed = match step.end {
                End::Until(core) | End::UntilWithin(core, _) => Some(core as f64),
                _ => None,
            };
            points.extend(probed.zip(points.last()).map(|(core, (t, _))| (*t, core)));
            points
        };
        parts.push(Part {
            purpose: step.purpose,
            in_water: step.kit == "water bath",
            usual: samples.map(|sample| (sample.t_s, sample.core_c)).collect(),
            cold: stay.along(stay.lasts_s.high, 1.0, |instant| instant.low_c),
            warm: shown(stay.along(stay.lasts_s.high, 1.0, |instant| instant.high_c)),
        });
    }
    parts
}

/// One phase behind the other, each from its own first moment on.
pub fn joined<'p>(parts: &'p [Part], line: impl Fn(&'p Part) -> &'p Points) -> Points {
    let mut all: Points = Vec::new();
    for part in parts {
        let points = line(part);
        let (from, begins) =
            (all.last().map_or(0.0, |last| last.0), points.first().map_or(0.0, |first| first.0));
        all.extend(points.iter().map(|(t, c)| (from + t - begins, *c)));
    }
    all
}

/// The temperature at each whole minute, moved by `by_k`.
pub fn by_the_minute(points: &Points, by_k: f64) -> Vec<f64> {
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return Vec::new() };
    let mut next = 0;
    let mut minutes = Vec::new();
    let mut t = first.0;
    while t <= last.0 {
        while points[next].0 < t {
            next += 1;
        }
        let ((t0, c0), (t1, c1)) = (points[next.saturating_sub(1)], points[next]);
        let share = if t1 > t0 { (t - t0) / (t1 - t0) } else { 1.0 };
        minutes.push(c0 + share * (c1 - c0) + by_k);
        t += 60.0;
    }
    minutes
}

/// Whole minutes that are above the one and below the other at both their ends.
fn between(minutes: &[f64], above: f64, below: f64) -> usize {
    let inside = |t: f64| t > above && t < below;
    minutes.windows(2).filter(|pair| inside(pair[0]) && inside(pair[1])).count()
}

pub fn coldest(points: &Points) -> f64 {
    points.iter().fold(f64::INFINITY, |low, (_, c)| low.min(*c))
}

/// `usual` tells of the line moved by what a coarse run may be off, `Doubt` of the line itself and of the bound.
fn grade(wrong: bool, slightly: bool, on_the_bound: bool, gravest: Grade) -> Grade {
    match (wrong, slightly || on_the_bound) {
        (true, _) => gravest,
        (false, true) => Grade::Doubt,
        (false, false) => Grade::Calm,
    }
}

/// The hot holds, each with its place among the phases.
pub fn holds(written: &Written, parts: &[Part]) -> Vec<(usize, Grade)> {
    let Hold { floor_c, grace_min, advice } = hold_of(written.rules);
    // A whole roast that was cooked by the chart for roasts may be kept at 54 °C (130 °F): 3-501.16.
    let roast = written.rules == "us-food-code" && written.flesh == Flesh::Whole && written.red;
    let floor_c = if roast { 54.0 } else { floor_c };
    let all = parts.iter().enumerate().filter(|(_, part)| part.purpose == Purpose::HotHold);
    let graded = |part: &Part| {
        let below = |by_k| coldest(&part.usual) + by_k < floor_c;
        let out = between(&by_the_minute(&part.usual, COARSE_K), f64::NEG_INFINITY, floor_c);
        let wrong = below(COARSE_K) && (grace_min == 0 || out > grace_min);
        let gravest = if advice { Grade::Doubt } else { Grade::Unsafe };
        grade(wrong, below(0.0), coldest(&part.cold) < floor_c, gravest)
    };
    all.map(|(nth, part)| (nth, graded(part))).collect()
}

/// A phase that ends as a probe shows just the figure has got there, whatever is rounded.
const SHOWN_K: f64 = 0.01;

/// Does it take longer than allowed? Where the line ends first, nobody knows.
fn slow(points: &Points, by_k: f64, Stage(from, to, max): &Stage) -> bool {
    let minutes = by_the_minute(points, by_k);
    // It may be there between two whole minutes, as a phase ends, and be put somewhere warmer then.
    let whole = minutes.iter().position(|t| *t <= to + SHOWN_K).unwrap_or(minutes.len());
    let shown = points.iter().find(|(_, c)| c + by_k <= to + SHOWN_K);
    let cold = shown.map_or(whole, |(t, _)| whole.min(((t - points[0].0) / 60.0).ceil() as usize));
    minutes[..cold.min(minutes.len())].iter().filter(|t| *t < from).count() > max + 1
}

/// Cooling after the heat: every run of phases from one heat to the next, or to the table, that chills it.
pub fn coolings(written: &Written, parts: &[Part]) -> Vec<Grade> {
    let (ways, advice) = cooling_of(written.rules);
    let wrong = |points: &Points, by_k: f64| {
        !ways.is_empty() && ways.iter().all(|way| way.iter().any(|stage| slow(points, by_k, stage)))
    };
    let gravest = if advice { Grade::Doubt } else { Grade::Unsafe };
    let graded = |run: &[Part]| {
        let usual = joined(run, |part| &part.usual);
        let warm = joined(run, |part| &part.warm);
        grade(wrong(&usual, -COARSE_K), wrong(&usual, 0.0), wrong(&warm, 0.0), gravest)
    };
    runs_down(parts).into_iter().map(graded).collect()
}

pub fn runs_down(parts: &[Part]) -> Vec<&[Part]> {
    let runs = parts.split(|part| part.purpose.heats()).skip(1);
    runs.filter(|run| run.iter().any(|part| part.purpose.chills())).collect()
}

/// The run that heats it first.
pub fn run_up(parts: &[Part]) -> &[Part] {
    let from = parts.iter().position(|part| part.purpose == Purpose::Cook).unwrap_or(parts.len());
    let ends = |part: &Part| part.purpose.chills() || part.purpose == Purpose::HotHold;
    let to = parts[from..].iter().position(ends).map_or(parts.len(), |after| from + after);
    &parts[from..to]
}

/// The way up, until it is through for the first time.
pub fn way_up(written: &Written, parts: &[Part]) -> Grade {
    let run = run_up(parts);
    let bath = run.iter().any(|part| part.in_water && part.purpose == Purpose::Cook);
    let (above, below, gravest) = match (written.rules, written.flesh) {
        (_, Flesh::None) => return Grade::Calm,
        ("us-fsis", Flesh::Opened) => (10.0, 54.4, Grade::Unsafe),
        ("us-fsis", Flesh::Whole) => (10.0, 54.4, Grade::Doubt),
        ("au-nz", _) if bath => (f64::NEG_INFINITY, 54.5, Grade::Doubt),
        _ => return Grade::Calm,
    };
    let wrong = |points: &Points, by_k| {
        let minutes = by_the_minute(points, by_k);
        let through = minutes.iter().position(|t| *t >= below).unwrap_or(minutes.len());
        between(&minutes[..through], above, below) > WAY_UP_MIN
    };
    let usual = joined(run, |part| &part.usual);
    grade(wrong(&usual, COARSE_K), wrong(&usual, 0.0), wrong(&joined(run, |part| &part.cold), 0.0), gravest)
}
