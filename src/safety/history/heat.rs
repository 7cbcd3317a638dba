//! Heat in all: the time at each temperature, counted as often as it is deadlier than at a reference.
//!
//! F = ∫ 10^((T - reference)/z) dt, after Bigelow, Bohart, Richardson and Ball 1920; exact on straight lines.

use super::super::lethal::{mean_rate, rate};
use super::record::History;
use super::ruling::{Measured, Ruling, hot_edge, long_enough};
use crate::quantity::{Duration, Temperature};
use crate::tables::Limit;

/// As much as `hold` at `at`, with nothing counted below `credit`.
pub(super) fn judge(history: &History, at: Limit, z_k: f64, hold: Duration, credit: Limit) -> Ruling {
    let mut sum = Duration::ZERO;
    let mut done = None;
    for [(start, from), (end, to)] in history.pieces_at_least(hot_edge(credit, false)) {
        let above = |t: Temperature| (t - at.lowest()).kelvin();
        let dose = (end - start) * mean_rate(above(from), above(to), z_k);
        if done.is_none() && long_enough(sum + dose, hold) {
            let share = time_for(hold - sum, from, to, end - start, at.lowest(), z_k);
            done = Some(start + share.min(end - start));
        }
        sum = sum + dose;
    }
    Ruling::new(done.is_some(), Measured::as_long_as(sum, hold), done.unwrap_or(history.end()))
}

/// How far along a straight line of this length the dose is had.
fn time_for(
    dose: Duration,
    from: Temperature,
    to: Temperature,
    length: Duration,
    reference: Temperature,
    z_k: f64,
) -> Duration {
    let x = std::f64::consts::LN_10 * (to - from).kelvin() / z_k;
    let plain = dose * (1.0 / rate((from - reference).kelvin(), z_k));
    if x == 0.0 { plain } else { length * ((plain / length * x).ln_1p() / x) }
}
