//! A temperature over time: points joined by straight lines.

use thiserror::Error;

/// The temperature of one point of a food over time, straight between its moments.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct History {
    /// Seconds and °C.
    points: Vec<(f64, f64)>,
}

/// Why a list of points is no history.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum NoHistory {
    #[error("a time or a temperature is not a number")]
    NotANumber,
    #[error("time runs backwards")]
    BackInTime,
}

/// From one moment to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Piece {
    pub from_c: f64,
    pub to_c: f64,
    pub lasts_s: f64,
}

impl History {
    /// From moments in s and temperatures in °C. Two points of one moment are a jump.
    ///
    /// # Errors
    /// Figures that are no numbers, and time that runs backwards.
    pub fn new(points: impl IntoIterator<Item = (f64, f64)>) -> Result<Self, NoHistory> {
        let points: Vec<(f64, f64)> = points.into_iter().collect();
        if points.iter().any(|(t_s, celsius)| !t_s.is_finite() || !celsius.is_finite()) {
            return Err(NoHistory::NotANumber);
        }
        if points.windows(2).any(|pair| pair[1].0 < pair[0].0) {
            return Err(NoHistory::BackInTime);
        }
        Ok(Self { points })
    }

    pub(super) fn pieces(&self) -> impl Iterator<Item = Piece> {
        let pieces = self.points.windows(2).map(|pair| Piece {
            from_c: pair[0].1,
            to_c: pair[1].1,
            lasts_s: pair[1].0 - pair[0].0,
        });
        pieces.filter(|piece| piece.lasts_s > 0.0)
    }
}

impl Piece {
    /// The part of it that is at `low_c` or above and below `high_c`.
    pub fn within(self, low_c: f64, high_c: f64) -> Option<Self> {
        let (least, most) = (self.from_c.min(self.to_c), self.from_c.max(self.to_c));
        if least >= low_c && most < high_c {
            return Some(self);
        }
        if least == most || most <= low_c || least >= high_c {
            return None;
        }
        let (from_c, to_c) = (self.from_c.clamp(low_c, high_c), self.to_c.clamp(low_c, high_c));
        let share = (to_c - from_c) / (self.to_c - self.from_c);
        Some(Self { from_c, to_c, lasts_s: self.lasts_s * share })
    }
}
