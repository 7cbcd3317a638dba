//! Amounts, names and times as they are typed.

use crate::cook::Edge;
use crate::text::Span;

/// Figures as typed: `1 h 30 min to 2 h`, `110 °C (230 °F) ± 5 °C`.
#[derive(Debug, Clone, Default)]
pub struct Measure {
    pub span: Span,
    /// Low end, high end, twin (low and high) and tolerance, one after the other.
    pub figures: Vec<Figure>,
    pub low: u8,
    pub high: u8,
    pub twin: u8,
    pub twin_high: u8,
    pub tolerance: u8,
}

impl Measure {
    pub fn low(&self) -> &[Figure] {
        self.part(0, self.low)
    }

    pub fn high(&self) -> &[Figure] {
        self.part(self.low, self.high)
    }

    pub fn twin(&self) -> &[Figure] {
        self.part(self.low + self.high, self.twin)
    }

    pub fn twin_high(&self) -> &[Figure] {
        self.part(self.low + self.high + self.twin, self.twin_high)
    }

    pub fn tolerance(&self) -> &[Figure] {
        self.part(self.low + self.high + self.twin + self.twin_high, self.tolerance)
    }

    fn part(&self, start: u8, length: u8) -> &[Figure] {
        let start = usize::from(start);
        self.figures.get(start..start + usize::from(length)).unwrap_or(&[])
    }
}

/// A number and the word after it, which may be a unit or what a bare count counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    pub value: f64,
    pub span: Span,
    pub unit: Option<Span>,
}

/// `half of stock`, `3 trays of chilli`, `all salt`, `65 buns`.
#[derive(Debug, Clone)]
pub struct Draw {
    pub span: Span,
    pub part: DrawPart,
    /// `None` only for [`DrawPart::Measure`], where the unit word is the name.
    pub name: Option<Span>,
}

#[derive(Debug, Clone)]
pub enum DrawPart {
    /// A bare name.
    Plain,
    All,
    Half,
    Rest,
    /// `40 g of`, `1/3 of`.
    Amount(Measure),
    /// `65 buns`.
    Measure(Measure),
}

/// A clock time as typed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WhenWords {
    pub span: Span,
    pub weekday: Option<Span>,
    pub date: Option<Span>,
    pub clock: Option<Span>,
    pub zone: Option<Span>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MomentWords {
    Serving(Span),
    Phase { name: Span, edge: Edge },
    When(WhenWords),
}
