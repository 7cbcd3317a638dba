//! A setting that changes over time: straight lines between points.

use super::error::HeatError;

/// Points (seconds from the start of the phase, value), joined by straight lines; constant before the
/// first and after the last. Two points at one time are a jump.
#[derive(Debug, Clone, PartialEq)]
pub struct Ramp {
    points: Vec<(f64, f64)>,
}

impl Ramp {
    pub fn constant(value: f64) -> Self {
        Self { points: vec![(0.0, value)] }
    }

    /// Refuses an empty list, numbers that are not finite and times that run backwards.
    pub fn new(what: &'static str, points: Vec<(f64, f64)>) -> Result<Self, HeatError> {
        let finite = points.iter().all(|p| p.0.is_finite() && p.1.is_finite());
        let ordered = points.windows(2).all(|w| w[0].0 <= w[1].0);
        if points.is_empty() || !finite || !ordered {
            return Err(HeatError::BadRamp { what });
        }
        Ok(Self { points })
    }

    pub fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    pub fn is_constant(&self) -> bool {
        self.points.iter().all(|p| p.1 == self.points[0].1)
    }

    /// The value it settles on.
    pub fn last(&self) -> f64 {
        self.points[self.points.len() - 1].1
    }

    /// When it stops changing, s.
    pub fn settled_s(&self) -> f64 {
        if self.is_constant() { 0.0 } else { self.points[self.points.len() - 1].0 }
    }

    pub fn lowest(&self) -> f64 {
        self.points.iter().map(|p| p.1).fold(f64::INFINITY, f64::min)
    }

    pub fn highest(&self) -> f64 {
        self.points.iter().map(|p| p.1).fold(f64::NEG_INFINITY, f64::max)
    }

    /// The value at `t_s` inside the stretch that begins at the last point not after `from_s`. At a jump
    /// both sides are asked for: the step before it with its own start, the step after it with the jump's.
    pub fn at(&self, t_s: f64, from_s: f64) -> f64 {
        let next = self.points.partition_point(|p| p.0 <= from_s);
        match (next.checked_sub(1).map(|i| self.points[i]), self.points.get(next)) {
            (None, Some(first)) => first.1,
            (Some(last), None) => last.1,
            (Some(a), Some(b)) => a.1 + (b.1 - a.1) * ((t_s - a.0) / (b.0 - a.0)).clamp(0.0, 1.0),
            (None, None) => f64::NAN,
        }
    }

    /// The first corner after `t_s`, s, and whether the value jumps there.
    pub fn next_corner(&self, t_s: f64) -> Option<(f64, bool)> {
        let next = self.points.partition_point(|p| p.0 <= t_s);
        let at = self.points.get(next)?.0;
        let last = self.points.partition_point(|p| p.0 <= at) - 1;
        Some((at, last > next && self.points[last].1 != self.points[next].1))
    }
}
