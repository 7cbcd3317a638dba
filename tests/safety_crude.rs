//! A crude judge beside the real one, over random histories: it walks from minute to minute and counts.
//!
//! Readings lie on whole minutes with straight lines between, so what holds at both ends of a minute holds all
//! through it. `at_least` counts the minutes that are wholly so, `at_most` those that touch it: the true time lies
//! between. What the crude judge refuses by the first is never passed; what it passes by the second is never refused.

use dwell::quantity::{Duration, Temperature};
use dwell::safety::Verdict;
use dwell::safety::history::{Food, History, judge, overall};
use dwell::tables::{Aim, FoodState, RuleSets, Species};

const HISTORIES: u64 = 10_000;

/// Enough chance for a test, the same in every run (splitmix64, Steele, Lea and Flood 2014).
struct Dice(u64);

impl Dice {
    fn throw(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.throw()
    }

    /// Whole minutes and tenths of a degree: from about `first` to about `last`, each reading off by up to `off`.
    fn history(&mut self, first: f64, last: f64, off: f64, longest: f64) -> Vec<(u32, f64)> {
        let readings = 2 + (self.throw() * 9.0) as u32;
        let mut minute = 0;
        (0..readings)
            .map(|nth| {
                let share = f64::from(nth) / f64::from(readings - 1);
                let degrees = first + (last - first) * share.powf(0.4) + self.between(-off, off);
                let reading = (minute, (degrees * 10.0).round() / 10.0);
                minute += 1 + self.between(0.0, longest / f64::from(readings - 1)) as u32;
                reading
            })
            .collect()
    }
}

/// The temperature at each whole minute.
fn by_the_minute(readings: &[(u32, f64)]) -> Vec<f64> {
    let mut minutes = vec![readings[0].1];
    for pair in readings.windows(2) {
        let ((m0, from), (m1, to)) = (pair[0], pair[1]);
        for minute in m0 + 1..=m1 {
            // The reading itself where there is one, so that no rounding comes in.
            let share = f64::from(minute - m0) / f64::from(m1 - m0);
            minutes.push(if minute == m1 { to } else { from + (to - from) * share });
        }
    }
    minutes
}

/// Figures are to be clear of the limit by more than rounding can be.
const CLEAR: f64 = 1e-6;

/// Minutes wholly above the one and below the other, up to `end`.
fn at_least(minutes: &[f64], above: f64, below: f64) -> usize {
    let inside = |t: f64| t > above + CLEAR && t < below - CLEAR;
    minutes.windows(2).filter(|pair| inside(pair[0]) && inside(pair[1])).count()
}

/// Minutes of which some part may be above the one and below the other.
fn at_most(minutes: &[f64], above: f64, below: f64) -> usize {
    let beside = |pair: &&[f64]| {
        let (low, high) = (pair[0].min(pair[1]), pair[0].max(pair[1]));
        high <= above - CLEAR || low >= below + CLEAR
    };
    minutes.windows(2).count() - minutes.windows(2).filter(beside).count()
}

/// The real verdict: by one rule, or by all together.
fn real(set: &str, aim: Aim, rule: Option<&str>, readings: &[(u32, f64)]) -> Verdict {
    let readings =
        readings.iter().map(|(m, c)| (Duration::from_minutes(f64::from(*m)), Temperature::from_celsius(*c)));
    let history = History::new(readings.collect()).expect("a history");
    let state = if matches!(aim, Aim::ComeUp) { FoodState::Intact } else { FoodState::Cooked };
    let food = Food::new(Species::Pork, state);
    let outcomes = judge(&history, &food, aim, RuleSets::built_in().find(set).expect("a set"));
    match rule {
        Some(id) => outcomes.iter().find(|outcome| outcome.rule.id == id).expect("an outcome").verdict,
        None => overall(&outcomes),
    }
}

#[derive(Default, Debug)]
struct Tally {
    refused: usize,
    passed: usize,
}

impl Tally {
    fn hold(&mut self, what: &str, readings: &[(u32, f64)], refused: bool, passed: bool, real: Verdict) {
        assert!(!(refused && passed));
        assert!(
            !refused || real != Verdict::Met,
            "{what}: passed, and the crude judge refuses it: {readings:?}"
        );
        assert!(
            !passed || real != Verdict::Broken,
            "{what}: refused, and the crude judge passes it: {readings:?}"
        );
        self.refused += usize::from(refused);
        self.passed += usize::from(passed);
    }

    /// Both sides have to come up, or the test says nothing.
    fn close(&self, what: &str) {
        assert!(self.refused > 300 && self.passed > 300, "{what}: {self:?}");
    }
}

/// Hot holding: Food Code 3-501.16 (57 °C as printed), FSIS advice (60), Food Hygiene Regulations 2006 in Wales
/// and Scotland (63, and above 63), Standard 3.2.2 (60), Ontario Reg. 562 (60), the French order of 2009 (63).
#[test]
fn hot_holding() {
    let floors = [
        ("us-food-code", "us-fc.hold.hot", 57.0),
        ("us-fsis", "us-fsis.hold.hot", 60.0),
        ("uk", "uk.hold.hot", 63.0),
        ("uk-scotland", "uk.hold.scotland.hot", 63.0),
        ("au-nz", "au.hold.hot", 60.0),
        ("ca", "ca.hold.hot", 60.0),
        ("fr", "fr.hot", 63.0),
    ];
    let mut dice = Dice(1);
    let mut tallies: Vec<Tally> = floors.iter().map(|_| Tally::default()).collect();
    for _ in 0..HISTORIES {
        let level = dice.between(58.0, 70.0);
        let readings = dice.history(level, level, 6.0, 900.0);
        let minutes = by_the_minute(&readings);
        for ((set, rule, floor), tally) in floors.iter().zip(&mut tallies) {
            let lowest = minutes.iter().fold(f64::INFINITY, |low, t| low.min(*t));
            let (refused, passed) = (lowest < floor - CLEAR, lowest > floor + CLEAR);
            tally.hold(rule, &readings, refused, passed, real(set, Aim::HotHold, Some(rule), &readings));
        }
    }
    floors.iter().zip(&tallies).for_each(|((_, rule, _), tally)| tally.close(rule));
}

/// What excuses food that falls below: once and less than 2 h (Food Hygiene Regulations 2006, schedule 4); less
/// than 4 h in all between 5 and 60 °C (Standard 3.2.2, the 2-hour/4-hour rule).
#[test]
fn tolerances_of_hot_holding() {
    let (mut once, mut total) = (Tally::default(), Tally::default());
    let mut dice = Dice(2);
    for _ in 0..HISTORIES {
        let level = dice.between(56.0, 66.0);
        let mut readings = dice.history(level, level, 8.0, 700.0);
        readings[0].1 = 70.0;
        let minutes = by_the_minute(&readings);
        let below = |t: &f64| *t < 63.0 - CLEAR;
        let falls = minutes.windows(2).filter(|pair| !below(&pair[0]) && below(&pair[1])).count();
        let refused = at_least(&minutes, f64::NEG_INFINITY, 63.0) >= 120 || falls > 1;
        let passed = minutes.iter().all(|t| *t > 63.0 + CLEAR);
        once.hold("uk", &readings, refused, passed, real("uk", Aim::HotHold, None, &readings));

        let refused = at_least(&minutes, 5.0, 60.0) >= 240;
        let passed = at_most(&minutes, 5.0, 60.0) < 120;
        total.hold("au-nz", &readings, refused, passed, real("au-nz", Aim::HotHold, None, &readings));
    }
    once.close("uk");
    total.close("au-nz");
}

/// One stage: set, rule, its two temperatures, minutes. Where a publisher prints Fahrenheit beside, the wider pair,
/// which is what the sets let count (135 °F is printed as 57 °C, 70 °F is 21.11 °C).
const STAGES: [(&str, &str, f64, f64, usize); 11] = [
    ("us-food-code", "us-fc.cool.stage1", 57.0, 190.0 / 9.0, 120),
    ("us-food-code", "us-fc.cool.total", 57.0, 5.0, 360),
    ("us-fsis", "us-fsis.cool.1.a", 54.4, 26.7, 90),
    ("us-fsis", "us-fsis.cool.2.b", 440.0 / 9.0, 12.8, 360),
    ("au-nz", "au.cool.1", 60.0, 21.0, 120),
    ("ca", "ca.cool.1", 60.0, 20.0, 120),
    ("ca-nb", "ca.nb.cool.1", 60.0, 20.0, 120),
    ("ca-nb", "ca.nb.cool.2", 60.0, 4.0, 360),
    ("eu-ie", "ie.cool", 63.0, 10.0, 120),
    ("fr", "fr.cool", 63.0, 10.0, 120),
    ("au-nz", "au.cool.2", 21.0, 5.0, 240),
];

#[test]
fn cooling() {
    let mut dice = Dice(3);
    let mut tallies: Vec<Tally> = STAGES.iter().map(|_| Tally::default()).collect();
    for _ in 0..HISTORIES {
        let (longest, start, end) =
            (dice.between(60.0, 1800.0), dice.between(64.0, 90.0), dice.between(1.0, 8.0));
        let readings = dice.history(start, end, 2.0, longest);
        let minutes = by_the_minute(&readings);
        for ((set, rule, from, to, max), tally) in STAGES.iter().zip(&mut tallies) {
            // Up to the first minute that is as cold as it has to be; all of them where none is.
            let cold = minutes.iter().position(|t| *t <= to + CLEAR).unwrap_or(minutes.len() - 1);
            // From the first that is no longer hot.
            let warm = minutes.iter().position(|t| *t < from - CLEAR).unwrap_or(cold).min(cold);
            let least = cold.saturating_sub(1).saturating_sub(warm);
            let refused = least > *max;
            let sure = minutes.iter().position(|t| *t < to - CLEAR);
            let passed = sure.is_some_and(|sure| {
                let begins = minutes.iter().position(|t| *t < from + CLEAR).unwrap_or(0).saturating_sub(1);
                sure.saturating_sub(begins) <= *max
            });
            tally.hold(rule, &readings, refused, passed, real(set, Aim::Cool, Some(rule), &readings));
        }
    }
    STAGES.iter().zip(&tallies).for_each(|((_, rule, ..), tally)| tally.close(rule));
}

/// FSIS Revised Appendix A of 2021: no more than 6 h between 10 and 54.4 °C (50 and 130 °F). New South Wales, 2012:
/// no more than 6 h below 54.5 °C. Up to the first minute at which the food is through it, for nothing is cooked before.
#[test]
fn come_up() {
    let limits =
        [("us-fsis", "us-fsis.comeup", 10.0, 54.4), ("au-nz", "au.nsw.below545", f64::NEG_INFINITY, 54.5)];
    let mut dice = Dice(4);
    let mut tallies = [Tally::default(), Tally::default()];
    for _ in 0..HISTORIES {
        let longest = dice.between(120.0, 1400.0);
        let (start, end) = (dice.between(0.0, 15.0), dice.between(45.0, 75.0));
        let readings = dice.history(start.max(3.0), end, 3.0, longest);
        let minutes = by_the_minute(&readings);
        for ((set, rule, above, below), tally) in limits.iter().zip(&mut tallies) {
            let through = minutes.iter().position(|t| *t > below - CLEAR).unwrap_or(minutes.len() - 1);
            let refused = at_least(&minutes[..=through], *above, *below) > 360;
            let passed = at_most(&minutes, *above, *below) <= 360;
            tally.hold(rule, &readings, refused, passed, real(set, Aim::ComeUp, Some(rule), &readings));
        }
    }
    limits.iter().zip(&tallies).for_each(|((_, rule, ..), tally)| tally.close(rule));
}
