//! How many times deadlier heat is than at a reference: 10^(ΔT/z), after Bigelow, Bohart, Richardson and Ball 1920.

use std::f64::consts::LN_10;

/// So many kelvin above the reference.
pub(super) fn rate(above_k: f64, z_k: f64) -> f64 {
    (above_k * LN_10 / z_k).exp()
}

/// The mean along a straight line from one temperature to the other, both in kelvin above the reference. Exact.
pub(super) fn mean_rate(from_k: f64, to_k: f64, z_k: f64) -> f64 {
    let x = (to_k - from_k) * LN_10 / z_k;
    rate(from_k, z_k) * if x == 0.0 { 1.0 } else { x.exp_m1() / x }
}
