//! Figures that are not known exactly.

/// The least and the most that a figure may be, and the one to reckon with. All in the same unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    pub low: f64,
    pub typical: f64,
    pub high: f64,
}

impl Band {
    pub const fn new(low: f64, typical: f64, high: f64) -> Self {
        Self { low, typical, high }
    }

    pub const fn exact(value: f64) -> Self {
        Self::new(value, value, value)
    }

    pub fn around(typical: f64, by: f64) -> Self {
        Self::new(typical - by, typical, typical + by)
    }

    /// The value at `share` (0 to 1) of the way from the least to the most.
    pub fn at(self, share: f64) -> f64 {
        self.low + share * (self.high - self.low)
    }

    /// The same to reckon with, and all that either may be.
    pub fn widened(self, other: Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high), ..self }
    }

    pub fn plus(self, other: Self) -> Self {
        Self::new(self.low + other.low, self.typical + other.typical, self.high + other.high)
    }
}
