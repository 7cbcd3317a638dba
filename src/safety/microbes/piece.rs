//! The straight pieces of a history, as far as microbes care.

use super::super::history::History;

/// From one moment to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Piece {
    pub from_c: f64,
    pub to_c: f64,
    pub lasts_s: f64,
}

impl Piece {
    pub fn all(history: &History) -> impl Iterator<Item = Self> {
        let pieces = history.pieces().map(|[(start, from), (end, to)]| Self {
            from_c: from.celsius(),
            to_c: to.celsius(),
            lasts_s: (end - start).seconds(),
        });
        pieces.filter(|piece| piece.lasts_s > 0.0)
    }

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
