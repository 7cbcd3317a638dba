//! What became of the temperatures.

use super::field::Field;

/// The food at one moment; the rates let any time between two samples be read off smoothly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    pub t_s: f64,
    /// Counted from 0. A moment at which one phase ends and the next begins has a sample of either.
    pub phase: usize,
    pub medium_c: f64,
    pub core_c: f64,
    /// Volume mean of the temperature.
    pub mean_c: f64,
    pub surface_c: f64,
    pub core_k_s: f64,
    pub mean_k_s: f64,
    pub surface_k_s: f64,
}

/// How a phase ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ending {
    /// Its time was up, and no temperature was waited for.
    Elapsed,
    /// The temperature waited for came.
    Reached,
    /// The temperature waited for had not come when the longest wait was over.
    GaveUp,
    /// It cannot come: the food gets no further than this, °C. The cook stops here.
    OutOfReach { limit_c: f64 },
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhaseEnd {
    pub at_s: f64,
    pub ending: Ending,
    /// Heat taken in through the surface during the phase, J per m² of surface.
    pub heat_j_m2: f64,
    /// Surface per volume in this phase, 1/m; heat per volume = `heat_j_m2` times this.
    pub surface_per_m: f64,
}

/// A value and when it was there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extreme {
    pub value_c: f64,
    pub at_s: f64,
}

#[derive(Debug, Clone, PartialEq)]
pub struct History {
    pub samples: Vec<Sample>,
    /// One for each phase that was run.
    pub ends: Vec<PhaseEnd>,
    pub core_highest: Extreme,
    pub core_lowest: Extreme,
    /// The heat inside at the end, to go on from.
    pub field: Field,
    /// Steps taken and steps thrown away.
    pub steps: usize,
    pub rejected: usize,
}

/// One of the three temperatures followed, with its rate.
pub type Follow = fn(&Sample) -> (f64, f64);

impl Sample {
    pub fn core(&self) -> (f64, f64) {
        (self.core_c, self.core_k_s)
    }

    pub fn mean(&self) -> (f64, f64) {
        (self.mean_c, self.mean_k_s)
    }

    pub fn surface(&self) -> (f64, f64) {
        (self.surface_c, self.surface_k_s)
    }
}

/// As far as a temperature may go beyond two samples on its way from one to the other, K. Where a rate jumps, as when ice
/// begins to melt at the surface, the cubic swings out further than any body does.
const SWINGS_OUT_K: f64 = 0.1;

/// The cubic through two samples' values and rates, at share `x` of the way.
pub fn between(a: &Sample, b: &Sample, follow: Follow, x: f64) -> f64 {
    let dt = b.t_s - a.t_s;
    let ((ya, ra), (yb, rb)) = (follow(a), follow(b));
    let y = 1.0 - x;
    let line = y * ya + x * yb;
    let cubic = line + x * y * (y * (ra * dt - (yb - ya)) + x * ((yb - ya) - rb * dt));
    cubic.clamp(ya.min(yb) - SWINGS_OUT_K, ya.max(yb) + SWINGS_OUT_K)
}

/// Shares of the way at which that cubic is flat.
pub fn flat_spots(a: &Sample, b: &Sample, follow: Follow) -> [Option<f64>; 2] {
    let dt = b.t_s - a.t_s;
    let ((ya, ra), (yb, rb)) = (follow(a), follow(b));
    // Derivative of the cubic by the share: c2 x² + c1 x + c0.
    let (c0, rise) = (ra * dt, yb - ya);
    let c1 = 6.0 * rise - 4.0 * ra * dt - 2.0 * rb * dt;
    let c2 = 3.0 * (ra * dt + rb * dt - 2.0 * rise);
    let inside = |x: f64| (x > 0.0 && x < 1.0).then_some(x);
    let root = c1 * c1 - 4.0 * c2 * c0;
    if root < 0.0 {
        return [None, None];
    }
    let q = -0.5 * (c1 + c1.signum() * root.sqrt());
    [inside(q / c2), inside(c0 / q)]
}

impl History {
    /// Of a body with this heat in it, which nothing has happened to yet.
    pub fn new(field: Field) -> Self {
        Self {
            samples: Vec::with_capacity(64),
            ends: Vec::new(),
            core_highest: Extreme { value_c: f64::NEG_INFINITY, at_s: 0.0 },
            core_lowest: Extreme { value_c: f64::INFINITY, at_s: 0.0 },
            field,
            steps: 0,
            rejected: 0,
        }
    }

    /// Temperature during `phase` at `t_s` (seconds from the start of the cook); `None` outside the phase.
    pub fn at(&self, phase: usize, t_s: f64, follow: Follow) -> Option<f64> {
        let begin = self.samples.partition_point(|s| s.phase < phase);
        let end = self.samples.partition_point(|s| s.phase <= phase);
        let samples = &self.samples[begin..end];
        let (first, last) = (samples.first()?, samples.last()?);
        if t_s < first.t_s || t_s > last.t_s {
            return None;
        }
        let after = samples.partition_point(|s| s.t_s < t_s);
        if after == 0 {
            return Some(follow(first).0);
        }
        let (a, b) = (&samples[after - 1], &samples[after]);
        Some(between(a, b, follow, (t_s - a.t_s) / (b.t_s - a.t_s)))
    }

    /// How long, s, the core is between two temperatures, either included.
    pub fn core_seconds_between(&self, low_c: f64, high_c: f64) -> f64 {
        const PIECES: usize = 32;
        let mut total = 0.0;
        for pair in self.samples.windows(2) {
            let piece_s = (pair[1].t_s - pair[0].t_s) / PIECES as f64;
            if piece_s <= 0.0 {
                continue;
            }
            let mut from = pair[0].core_c;
            for i in 1..=PIECES {
                let to = between(&pair[0], &pair[1], Sample::core, i as f64 / PIECES as f64);
                total += piece_s * share_between(from, to, low_c, high_c);
                from = to;
            }
        }
        total
    }
}

/// Share of a straight piece from `a` to `b` that lies between two values.
fn share_between(a: f64, b: f64, low: f64, high: f64) -> f64 {
    let (bottom, top) = (a.min(b), a.max(b));
    // A core that has not moved yet sits on the edge but for rounding.
    const ROUNDING_K: f64 = 1e-9;
    if bottom >= low - ROUNDING_K && top <= high + ROUNDING_K {
        return 1.0;
    }
    if top == bottom {
        return 0.0;
    }
    ((top.min(high) - bottom.max(low)) / (top - bottom)).max(0.0)
}
