//! From what a cook knows of a piece (thickness, mass, other sides, a word) to half thickness and β.

use super::error::{HeatError, within};

/// A body for the solver. β is 0 for a slab, 1 for a long cylinder, 2 for a ball, and between.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Form {
    /// From the core to the surface, m: half the thickness, or the depth where one face is insulated.
    pub half_thickness_m: f64,
    pub beta: f64,
    /// Kept at one temperature throughout by stirring.
    pub stirred: bool,
}

impl Form {
    /// `half_thickness_m` from 0.5 mm to 0.5 m, `beta` from 0 to 2.
    pub fn new(half_thickness_m: f64, beta: f64) -> Result<Self, HeatError> {
        Ok(Self {
            half_thickness_m: within("half thickness, m", half_thickness_m, 0.0005, 0.5)?,
            beta: within("shape factor", beta, 0.0, 2.0)?,
            stirred: false,
        })
    }

    pub fn stirred(self) -> Self {
        Self { stirred: true, ..self }
    }
}

/// Words for a piece whose other sides are not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Likeness {
    SlabLike,
    CylinderLike,
    SphereLike,
}

impl Likeness {
    /// What such a piece behaves like in a published table of heating times, which is not the ideal body: a
    /// joint is neither endless nor round. Fitted to Baldwin, D. E., Sous vide cooking: a review, Int. J.
    /// Gastronomy and Food Science 1 (2012) 15–30 and the same author's guide, table 2.2 (table rows mostly
    /// from memory): ideal 1 and 2 would give times 15 % and 28 % too short.
    pub fn beta(self) -> f64 {
        match self {
            Self::SlabLike => 0.0,
            Self::CylinderLike => 0.70,
            Self::SphereLike => 1.25,
        }
    }
}

impl Form {
    /// A brick of three sides, in any order; its core is the product of three slabs'. See [`USUAL_BIOT`].
    pub fn brick(sides_m: [f64; 3]) -> Result<Self, HeatError> {
        for side in sides_m {
            within("side, m", side, 0.001, 5.0)?;
        }
        let mut sides = sides_m;
        sides.sort_by(f64::total_cmp);
        let thin = sides[0];
        let slabs = sides.map(|side| Decay::new(0.0, USUAL_BIOT, side / thin));
        Self::new(0.5 * thin, like(&slabs))
    }

    /// A piece of which only thickness and volume (mass over density, per piece) are known. It is taken as
    /// a brick with a square plan, the least compact of the usual forms and so the slowest; a piece lighter
    /// than the cube of its thickness has to be rounded, up to a ball, which is the lightest there is.
    pub fn from_thickness(thickness_m: f64, volume_m3: f64) -> Result<Self, HeatError> {
        let thickness_m = within("thickness, m", thickness_m, 0.001, 1.0)?;
        let volume_m3 = within("volume, m³", volume_m3, 1e-9, 10.0)?;
        let cube_m3 = thickness_m.powi(3);
        let ball_m3 = cube_m3 * std::f64::consts::PI / 6.0;
        if volume_m3 < 0.9 * ball_m3 {
            return Err(HeatError::TooLightForThickness { volume_m3, least_m3: ball_m3 });
        }
        if volume_m3 >= cube_m3 {
            let side = (volume_m3 / thickness_m).sqrt().clamp(thickness_m, 5.0);
            return Self::brick([thickness_m, side, side]);
        }
        let cube = Self::brick([thickness_m; 3])?;
        let round = ((cube_m3 - volume_m3) / (cube_m3 - ball_m3)).min(1.0);
        Self::new(0.5 * thickness_m, cube.beta + round * (2.0 - cube.beta))
    }
}

/// h R / k at which a body and its β are matched: 8 cm of meat in a bath is at 8, in an oven at 1 to 2.
/// They are matched where the core has come nine tenths of the way (`MATCHED_AT`), because that is what
/// cooking and cooling wait for. Matching the rate alone would have the core of a brick hot too early.
pub const USUAL_BIOT: f64 = 5.0;
const MATCHED_AT: f64 = 0.1;

/// The slowest term of the exact series at the core, C exp(−ζ² Fo), Fo by the half thickness.
#[derive(Debug, Clone, Copy)]
struct Decay {
    start: f64,
    rate: f64,
}

impl Decay {
    /// Of a body `ratio` times as thick as the one that Fo and `biot` refer to.
    fn new(beta: f64, biot: f64, ratio: f64) -> Self {
        let p = 0.5 * (beta - 1.0);
        let rate = slowest_rate(beta, biot * ratio);
        let z = rate.sqrt();
        let (a, b) = (series(p, z), z / (2.0 * (p + 1.0)) * series(p + 1.0, z));
        let start = 2.0 / z * b / (a * a - 2.0 * p / z * a * b + b * b);
        Self { start, rate: rate / (ratio * ratio) }
    }
}

/// The β whose core is as far as that of the product of these at the moment that counts.
fn like(factors: &[Decay]) -> f64 {
    let start: f64 = factors.iter().map(|d| d.start).product();
    let rate: f64 = factors.iter().map(|d| d.rate).sum();
    let fo = (start / MATCHED_AT).ln() / rate;
    let (mut low, mut high) = (0.0, 2.0);
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        let body = Decay::new(middle, USUAL_BIOT, 1.0);
        if body.start * (-body.rate * fo).exp() > MATCHED_AT { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// Σ (−z²/4)^j / (j! (order+1)_j): the Bessel function J_order(z) but for a factor without zeros.
fn series(order: f64, z: f64) -> f64 {
    let (mut term, mut sum) = (1.0, 1.0);
    for j in 1..30 {
        term *= -0.25 * z * z / (j as f64 * (order + j as f64));
        let before = sum;
        sum += term;
        // The terms fall from the second on: what no longer counts will not count again.
        if sum == before && j > 2 {
            break;
        }
    }
    sum
}

/// ζ² of the slowest term: ζ J_{p+1}(ζ) = Bi J_p(ζ), p = (β−1)/2 (Carslaw and Jaeger, Conduction of Heat in
/// Solids, 2nd ed. 1959, chapters III, VII and IX). Newton's way, halved where it would leave what holds the root.
pub fn slowest_rate(beta: f64, biot: f64) -> f64 {
    let p = 0.5 * (beta - 1.0);
    let (mut low, mut high) = (0.0, 3.15); // a ball's, π, is the largest
    let mut z = 0.5 * (low + high);
    for _ in 0..60 {
        // With a = J_p and b = J_{p+1} but for the same factor, a' = −b and (z b)' = z a − 2 p b.
        let (a, b) = (series(p, z), z / (2.0 * (p + 1.0)) * series(p + 1.0, z));
        let short = biot * a - z * b;
        if short > 0.0 {
            low = z
        } else {
            high = z
        }
        let next = z + short / ((biot - 2.0 * p) * b + z * a);
        // Newton doubles the digits: a last move so small leaves an error near rounding.
        if (next - z).abs() < 1e-9 {
            return next * next;
        }
        z = if next > low && next < high { next } else { 0.5 * (low + high) };
    }
    z * z
}
