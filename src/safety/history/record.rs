//! A history: temperatures at moments, with straight lines between them, and the exact moments at which it
//! crosses a limit.

use crate::quantity::{Duration, Temperature, TemperatureDifference};

/// The temperature of one place in a food over time, from a probe or from a predicted curve.
#[derive(Debug, Clone, PartialEq)]
pub struct History {
    readings: Vec<(Duration, Temperature)>,
}

/// Why readings are no history.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unusable {
    Empty,
    /// Some figure is no number, or below absolute zero.
    NoFigure,
    /// A reading is earlier than the one before it.
    OutOfOrder,
}

/// A stretch of time without a break.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spell {
    pub start: Duration,
    pub end: Duration,
}

impl Spell {
    pub fn length(self) -> Duration {
        self.end - self.start
    }
}

impl History {
    /// Two readings at one moment are a step.
    pub fn new(readings: Vec<(Duration, Temperature)>) -> Result<Self, Unusable> {
        if readings.is_empty() {
            return Err(Unusable::Empty);
        }
        let figure = |(at, t): &(Duration, Temperature)| {
            at.seconds().is_finite() && t.kelvin().is_finite() && t.kelvin() >= 0.0
        };
        if !readings.iter().all(figure) {
            return Err(Unusable::NoFigure);
        }
        if !readings.windows(2).all(|pair| pair[0].0 <= pair[1].0) {
            return Err(Unusable::OutOfOrder);
        }
        Ok(Self { readings })
    }

    /// The same from seconds and °C.
    ///
    /// # Errors
    /// As for [`new`](Self::new).
    pub fn from_celsius(points: impl IntoIterator<Item = (f64, f64)>) -> Result<Self, Unusable> {
        let typed = |(at_s, celsius)| (Duration::from_seconds(at_s), Temperature::from_celsius(celsius));
        Self::new(points.into_iter().map(typed).collect())
    }

    pub(in crate::safety) fn colder_by(self, by: TemperatureDifference) -> Self {
        Self { readings: self.readings.into_iter().map(|(at, t)| (at, t - by)).collect() }
    }

    /// From the first reading on that is no warmer than `limit`; all of it, where none is.
    pub(in crate::safety) fn once_at_most(self, limit: Temperature) -> Self {
        match self.readings.iter().position(|(_, t)| *t <= limit) {
            Some(first) => Self { readings: self.readings[first..].to_vec() },
            None => self,
        }
    }

    pub fn start(&self) -> Duration {
        self.readings[0].0
    }

    pub fn end(&self) -> Duration {
        self.readings[self.readings.len() - 1].0
    }

    pub(in crate::safety) fn first(&self) -> Temperature {
        self.readings[0].1
    }

    pub(super) fn hottest(&self) -> Temperature {
        self.readings.iter().map(|(_, t)| *t).fold(self.first(), Temperature::max)
    }

    pub(super) fn coldest(&self) -> Temperature {
        self.readings.iter().map(|(_, t)| *t).fold(self.first(), Temperature::min)
    }

    /// The straight pieces; one reading alone is a piece without length.
    pub(in crate::safety) fn pieces(&self) -> impl Iterator<Item = [(Duration, Temperature); 2]> {
        let last = self.readings.last().filter(|_| self.readings.len() == 1);
        let next = self.readings.iter().skip(1).chain(last);
        self.readings.iter().zip(next).map(|(one, other)| [*one, *other])
    }

    /// Every stretch at `edge` or hotter, be it a moment.
    pub(super) fn at_least(&self, edge: Temperature) -> Vec<Spell> {
        self.stretches(edge.kelvin(), f64::INFINITY, true)
    }

    /// The parts of the straight pieces that are at `edge` or hotter.
    pub(super) fn pieces_at_least(
        &self,
        edge: Temperature,
    ) -> impl Iterator<Item = [(Duration, Temperature); 2]> {
        self.pieces().filter_map(move |[one, other]| {
            let (start, end) = clip(one, other, edge.kelvin(), f64::INFINITY, true)?;
            let line = |t: Duration| one.1 + (other.1 - one.1) * ((t - one.0) / (other.0 - one.0));
            (end > start).then(|| [(start, line(start)), (end, line(end))])
        })
    }

    /// Every stretch at `edge` or colder, be it a moment.
    pub(super) fn at_most(&self, edge: Temperature) -> Vec<Spell> {
        self.stretches(f64::NEG_INFINITY, edge.kelvin(), true)
    }

    /// Every stretch hotter than the one and colder than the other, where they are given.
    pub(super) fn between(&self, above: Option<Temperature>, below: Option<Temperature>) -> Vec<Spell> {
        let low = above.map_or(f64::NEG_INFINITY, Temperature::kelvin);
        self.stretches(low, below.map_or(f64::INFINITY, Temperature::kelvin), false)
    }

    /// `edges`: the edges count as inside, and a moment as a stretch.
    fn stretches(&self, low: f64, high: f64, edges: bool) -> Vec<Spell> {
        let mut found: Vec<Spell> = Vec::new();
        for [one, other] in self.pieces() {
            let Some((start, end)) = clip(one, other, low, high, edges) else { continue };
            match found.last_mut() {
                Some(last) if last.end >= start => last.end = end,
                _ => found.push(Spell { start, end }),
            }
        }
        if !edges {
            found.retain(|spell| spell.end > spell.start);
        }
        found
    }
}

/// The part of a straight piece that lies inside. It is one stretch, for a straight line is.
fn clip(
    (t0, from): (Duration, Temperature),
    (t1, to): (Duration, Temperature),
    low: f64,
    high: f64,
    edges: bool,
) -> Option<(Duration, Duration)> {
    let (from, to) = (from.kelvin(), to.kelvin());
    let (bottom, top) = (from.min(to), from.max(to));
    let touches = if edges { top >= low && bottom <= high } else { top > low && bottom < high };
    if !touches {
        return None;
    }
    // Where an end of the piece is inside, its own moment is taken as it stands: nothing is lost to rounding.
    let moment = |kelvin: f64| t0 + (t1 - t0) * ((kelvin - from) / (to - from));
    let enters = if from < low {
        moment(low)
    } else if from > high {
        moment(high)
    } else {
        t0
    };
    let leaves = if to < low {
        moment(low)
    } else if to > high {
        moment(high)
    } else {
        t1
    };
    Some((enters, leaves))
}
