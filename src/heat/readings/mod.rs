//! Probe readings sharpen the forecast.
//!
//! A probe that has followed a food for a while has seen what no table knows: how thick the piece really is, how well this
//! kit passes heat on, how wet the surface is. Ways that the cook may go are drawn ([`trial`]), those that fit what was
//! read are kept ([`fit`]), and the forecast is what they have in common. It stays inside the forecast without readings.
//!
//! What a piece of kit does, it is taken to do for the whole cook. From where the food goes into kit that no reading tells
//! of, the bounds are those without readings: draws do not reach as far as the corners that these come from.

mod contradiction;
mod fit;
mod kept;
mod told;
mod trial;

pub use trial::Trial;

use super::predict::Prediction;
use crate::cook::{Cook, ItemId};
use crate::findings::{Code, Finding};
use crate::ledger::Ledger;
use crate::quantity::Duration;
use crate::say;
use fit::{Bench, thinned};
use told::Told;
use trial::Layout;

/// A probe in the middle of a food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Seconds from the start of the cook.
    pub t_s: f64,
    pub core_c: f64,
}

/// What became of the readings of a food.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Heeded {
    #[default]
    Followed,
    /// The core has not changed enough yet to tell anything.
    TooSoon,
    /// They speak against the file.
    Rejected,
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
    if readings.is_empty() {
        return plain;
    }
    if let Some(finding) = too_late(&bench, &plain, readings) {
        let mut plain = plain;
        plain.findings.push(finding);
        return plain;
    }
    let tried = bench.fitting();
    let (mut after, heeded) = match tried.first() {
        Some(best) if best.misfit.worst_k <= CONTRADICTS_K => match Told::by(&bench, best) {
            told if told.nothing() => (plain, Heeded::TooSoon),
            told => (kept::forecast(&bench, plain, &tried, &told), Heeded::Followed),
        },
        best => {
            let mut plain = plain;
            plain.findings.push(contradiction::finding(&bench, best));
            (plain, Heeded::Rejected)
        }
    };
    if let Some(food) = after.curves.foods.iter_mut().find(|food| food.item == item) {
        food.readings = bench.readings;
        food.heeded = heeded;
    }
    after
}

/// A reading from when the food has been out of its last phase for certain.
fn too_late(bench: &Bench<'_>, plain: &Prediction, readings: &[Reading]) -> Option<Finding> {
    let kin = plain.curves.foods.iter().filter(|food| bench.layout.kin(food.item, bench.item));
    let been = kin.flat_map(|food| food.samples.iter().map(|sample| sample.phase));
    let last = been.max()?;
    let over_s = plain.curves.phases.iter().find(|times| times.phase == last)?.end_latest_s;
    let late = readings.iter().find(|reading| reading.t_s > over_s)?;
    let food = bench.cook.item(bench.item);
    let since = |t_s: f64| Duration::from_minutes((t_s / 60.0).round());
    Some(Finding {
        food: Some(food.name.clone()),
        ..Finding::new(
            Code::ReadingUnplaced,
            food.span,
            say![
                "A reading was taken after ",
                since(late.t_s),
                format!("; `{}` is out of its last phase after ", food.name),
                since(over_s),
                " at the latest. Readings were not used."
            ],
            say!["Check the time of the reading, and when the cook started: `--started \"Fri 22:03\"`."],
        )
    })
}
