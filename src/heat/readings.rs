//! Probe readings sharpen the forecast.
//!
//! Two figures are the least certain of all: how well heat passes to the surface, and how wet the surface is. The cook so
//! far is computed for a grid of both; the pairs that come close to every reading are kept, and the forecast goes on with
//! those alone.

use super::band::Band;
use super::curves::Curves;
use super::lines::{Detail, LINES, USUAL};
use super::predict::{Prediction, prediction};
use crate::cook::{Cook, ItemId};
use crate::findings::{Code, Finding, Piece};
use crate::ledger::Ledger;
use crate::quantity::{Duration, Temperature};
use crate::say;

/// A probe in the middle of a food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Seconds from the start of the cook.
    pub t_s: f64,
    pub core_c: f64,
}

/// The shares, 0 (the least) to 1 (the most), that heat at the surface and wetness are reckoned with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Narrowed {
    pub film: Band,
    pub wetness: Band,
}

/// Points of the grid in each direction.
const GRID: usize = 9;
/// A probe, its place and the model together are off by no more than this, K. Common practice, no source: a kitchen
/// probe is good to 1 K, and seldom sits in the very middle.
const OFF_K: f64 = 2.0;
/// Readings that fit nothing better than this speak against the file, K.
const CONTRADICTS_K: f64 = 5.0;

/// The forecast after `readings` of `item`; a finding where they speak against the file.
pub fn sharpened(cook: &Cook, ledger: &Ledger, item: ItemId, readings: &[Reading]) -> Prediction {
    let share = |nth: usize| nth as f64 / (GRID - 1) as f64;
    let mut tried: Vec<(f64, f64, f64)> = Vec::with_capacity(GRID * GRID);
    for film in (0..GRID).map(share) {
        for wetness in (0..GRID).map(share) {
            let exactly = Narrowed { film: Band::exact(film), wetness: Band::exact(wetness) };
            let worst = worst_miss(
                &prediction(cook, ledger, Some(&exactly), &LINES[..=USUAL], Detail::Curves).curves,
                item,
                readings,
            );
            tried.push((film, wetness, worst));
        }
    }
    let best = tried.iter().copied().min_by(|a, b| a.2.total_cmp(&b.2)).unwrap_or((0.5, 0.5, f64::INFINITY));
    let kept = tried.iter().filter(|(.., worst)| *worst <= best.2.max(0.0) + OFF_K);
    let spread = |pick: fn(&(f64, f64, f64)) -> f64, typical: f64| {
        let ends =
            kept.clone().map(pick).fold((typical, typical), |(low, high), at| (low.min(at), high.max(at)));
        // A point of the grid stands for all up to half way to its neighbours.
        let half = 0.5 / (GRID - 1) as f64;
        Band::new((ends.0 - half).max(0.0), typical, (ends.1 + half).min(1.0))
    };
    let narrowed =
        Narrowed { film: spread(|tried| tried.0, best.0), wetness: spread(|tried| tried.1, best.1) };
    let mut after = prediction(cook, ledger, Some(&narrowed), &LINES, Detail::Curves);
    if best.2 > CONTRADICTS_K {
        after.findings.extend(contradiction(cook, item, readings, &after.curves));
    }
    after
}

/// The greatest difference between the usual curve and a reading, K; infinite where the curve has no such moment.
fn worst_miss(curves: &Curves, item: ItemId, readings: &[Reading]) -> f64 {
    let misses = readings.iter().map(|reading| match usual_core(curves, item, reading.t_s) {
        Some(core_c) => (core_c - reading.core_c).abs(),
        None => f64::INFINITY,
    });
    misses.fold(0.0, f64::max)
}

/// The core of the usual curve at `t_s`.
fn usual_core(curves: &Curves, item: ItemId, t_s: f64) -> Option<f64> {
    let samples = &curves.foods.iter().find(|food| food.item == item)?.samples;
    let next = samples.partition_point(|sample| sample.t_s < t_s);
    let (before, after) = (samples.get(next.checked_sub(1).unwrap_or(next))?, samples.get(next)?);
    let span = after.t_s - before.t_s;
    let share = if span > 0.0 { (t_s - before.t_s) / span } else { 0.0 };
    Some(before.core_c + share * (after.core_c - before.core_c))
}

fn contradiction(cook: &Cook, item: ItemId, readings: &[Reading], after: &Curves) -> Option<Finding> {
    let miss = |reading: &&Reading| {
        usual_core(after, item, reading.t_s).map_or(0.0, |core_c| (core_c - reading.core_c).abs())
    };
    let worst = readings.iter().max_by(|a, b| miss(a).total_cmp(&miss(b)))?;
    let at = Piece::from(Duration::from_minutes((worst.t_s / 60.0).round()));
    let read = Piece::from(Temperature::from_celsius(worst.core_c));
    let predicted = usual_core(after, item, worst.t_s);
    let food = cook.item(item);
    let message = match predicted {
        Some(core_c) => say![
            format!("After "),
            at,
            format!(" the probe in `{}` read ", food.name),
            read,
            "; the nearest that the file allows is ",
            Temperature::from_celsius(core_c),
            "."
        ],
        None => {
            say![format!("After "), at, format!(" `{}` is not in any phase that is predicted.", food.name)]
        }
    };
    let warmer = predicted.is_some_and(|core_c| worst.core_c > core_c);
    let remedy = if warmer {
        say![
            "The food is thinner than written, or the probe is not in the middle but nearer the surface or on a bone. Put it into the thickest part and read again."
        ]
    } else {
        say!["The food is thicker than written, or the kit is cooler than its setting. Measure both."]
    };
    Some(Finding {
        food: Some(food.name.clone()),
        ..Finding::new(Code::ReadingContradicts, food.span, message, remedy)
    })
}
