//! How far warmth lets microbes grow.

use std::f64::consts::LN_10;

use super::super::history::History;
use super::piece::Piece;
use crate::tables::microbes::Growth;

/// A quadrature over more kelvin than this is taken in parts.
const WIDEST_K: f64 = 5.0;
/// Up to here three points do.
const NARROW_K: f64 = 1.0;

/// Places and weights of Gauss and Legendre on 0 to 1 (Abramowitz and Stegun 1964, table 25.4).
///
/// The rate is a smooth function of temperature between its ends: over 5 K five points are good to some 10⁻⁷ of it where
/// it turns most sharply, over 1 K three are.
const FIVE: [(f64, f64); 5] = [
    (0.046_910_077_030_668, 0.118_463_442_528_094_5),
    (0.230_765_344_947_158_5, 0.239_314_335_249_683_2),
    (0.5, 0.284_444_444_444_444_4),
    (0.769_234_655_052_841_5, 0.239_314_335_249_683_2),
    (0.953_089_922_969_332, 0.118_463_442_528_094_5),
];
const THREE: [(f64, f64); 3] = [
    (0.112_701_665_379_258_3, 0.277_777_777_777_777_8),
    (0.5, 0.444_444_444_444_444_4),
    (0.887_298_334_620_741_7, 0.277_777_777_777_777_8),
];

/// The cardinal model: natural logarithms an hour at `celsius` (Rosso, Lobry, Bajard and Flandrois 1995, Appl. Environ.
/// Microbiol. 61, 610-616).
pub fn rate_per_h(growth: &Growth, celsius: f64) -> f64 {
    let Growth { mu_opt_per_h, t_min_c: min, t_opt_c: opt, t_max_c: max, .. } = *growth;
    if celsius <= min || celsius >= max {
        return 0.0;
    }
    let above = (celsius - max) * (celsius - min) * (celsius - min);
    let below = (opt - min) * ((opt - min) * (celsius - opt) - (opt - max) * (opt + min - 2.0 * celsius));
    mu_opt_per_h * above / below
}

/// Natural logarithms of growth over a history, were all cells ready to grow and had room: ∫ µ(T) dt.
pub fn grown_ln(growth: &Growth, history: &History) -> f64 {
    let inside = Piece::all(history).filter_map(|piece| piece.within(growth.t_min_c, growth.t_max_c));
    inside.map(|piece| over(growth, piece)).sum()
}

fn over(growth: &Growth, piece: Piece) -> f64 {
    let Piece { from_c, to_c, lasts_s } = piece;
    let hours = lasts_s / 3600.0;
    let kelvin = to_c - from_c;
    let mean = |points: &[(f64, f64)], from_c: f64, kelvin: f64| {
        points.iter().map(|(at, weight)| weight * rate_per_h(growth, from_c + at * kelvin)).sum::<f64>()
    };
    if kelvin == 0.0 {
        hours * rate_per_h(growth, from_c)
    } else if kelvin.abs() <= NARROW_K {
        hours * mean(&THREE, from_c, kelvin)
    } else {
        let parts = (kelvin.abs() / WIDEST_K).ceil();
        let step = kelvin / parts;
        (0..parts as usize).map(|nth| mean(&FIVE, from_c + nth as f64 * step, step)).sum::<f64>() * hours
            / parts
    }
}

/// log10 of how many times more there are, after so much of [`grown_ln`] (Baranyi and Roberts 1994, Int. J. Food Microbiol.
/// 23, 277-294, whose two equations have this solution at any temperatures).
///
/// `q0` is how ready the cells are at the start, `None` for ready at once; nothing ever exceeds `ceiling_log10`.
pub fn growth_log10(grown_ln: f64, q0: Option<f64>, ceiling_log10: f64) -> f64 {
    // 1 / (1 + the cells that there would be more of, were there room for all).
    let left = match q0 {
        Some(q0) => (-grown_ln).exp() * (1.0 + q0) / (q0 + (-grown_ln).exp()),
        None => (-grown_ln).exp(),
    };
    let full = 10_f64.powf(-ceiling_log10);
    -(left + (1.0 - left) * full).ln() / LN_10
}
