//! Probe readings sharpen the forecast.
//!
//! A probe that has followed a food for a while has seen what no table knows: how thick the piece really is, how well this
//! kit passes heat on, how wet the surface is. Ways that the cook may go are drawn ([`trial`]), those that fit what was
//! read are kept ([`fit`]), and the forecast is what they have in common. It stays inside the forecast without readings.
//!
//! What a piece of kit does, it is taken to do for the whole cook; kit that no reading tells of is as uncertain as before.

mod contradiction;
mod fit;
mod kept;
mod trial;

pub use trial::Trial;

use super::predict::Prediction;
use crate::cook::{Cook, ItemId};
use crate::ledger::Ledger;
use fit::{Bench, thinned};
use trial::Layout;

/// A probe in the middle of a food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Seconds from the start of the cook.
    pub t_s: f64,
    pub core_c: f64,
}

/// Readings that fit nothing better than this speak against the file, K.
const CONTRADICTS_K: f64 = 5.0;

/// The forecast after `readings` of `item`, from the one without. Readings that speak against the file bend nothing: they
/// are a finding, and the forecast stays what it was.
pub fn sharpened(
    cook: &Cook,
    ledger: &Ledger,
    plain: Prediction,
    item: ItemId,
    readings: &[Reading],
) -> Prediction {
    let layout = Layout::of(cook);
    let bench = Bench { cook, ledger, layout: &layout, item, readings: thinned(readings) };
    let Some(now_s) = bench
        .readings
        .last()
        .map(|_| readings.iter().map(|reading| reading.t_s).fold(f64::NEG_INFINITY, f64::max))
    else {
        return plain;
    };
    let tried = bench.fitting();
    let mut after = match tried.first() {
        Some(best) if best.misfit.worst_k <= CONTRADICTS_K => kept::forecast(&bench, plain, &tried, now_s),
        best => {
            let mut plain = plain;
            plain.findings.push(contradiction::finding(&bench, best));
            plain
        }
    };
    if let Some(food) = after.curves.foods.iter_mut().find(|food| food.item == item) {
        food.readings = bench.readings;
    }
    after
}
