//! One line of temperatures out of a log, with the gaps in it.

use crate::log::{GAP_S, Log, Row};
use crate::safety::history::History;

/// Seconds and °C, in the order of time.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Readings(Vec<(f64, f64)>);

impl Readings {
    pub fn core(log: &Log) -> Self {
        Self::of(log, |row| row.core_c)
    }

    pub fn surface(log: &Log) -> Self {
        Self::of(log, |row| row.surface_c)
    }

    /// The colder of core and surface.
    pub fn coldest(log: &Log) -> Self {
        Self::of(log, |row| row.core_c.map(|core| row.surface_c.map_or(core, |surface| core.min(surface))))
    }

    /// The warmer of core and surface.
    pub fn warmest(log: &Log) -> Self {
        Self::of(log, |row| row.core_c.map(|core| row.surface_c.map_or(core, |surface| core.max(surface))))
    }

    fn of(log: &Log, figure: impl Fn(&Row) -> Option<f64>) -> Self {
        Self(log.rows.iter().filter_map(|row| Some((row.t_s, figure(row)?))).collect())
    }

    pub fn points(&self) -> &[(f64, f64)] {
        &self.0
    }

    pub fn has_gaps(&self) -> bool {
        self.unbroken().nth(1).is_some()
    }

    /// The stretches without a gap.
    pub fn unbroken(&self) -> impl Iterator<Item = &[(f64, f64)]> {
        self.0.chunk_by(|one, next| next.0 - one.0 <= GAP_S)
    }

    /// The time that lies in gaps.
    pub fn unknown_s(&self) -> f64 {
        self.0.windows(2).map(|pair| pair[1].0 - pair[0].0).filter(|silent| *silent > GAP_S).sum()
    }

    /// When the first gap starts.
    pub fn first_gap_s(&self) -> Option<f64> {
        self.0.windows(2).find(|pair| pair[1].0 - pair[0].0 > GAP_S).map(|pair| pair[0].0)
    }

    /// From one moment to another. Where an end lies between two readings it is on the straight line between them, but
    /// in a gap it is nowhere.
    pub fn between(&self, start_s: f64, end_s: f64) -> Self {
        let inside = self.0.iter().copied().filter(|(t, _)| (start_s..=end_s).contains(t));
        let mut points: Vec<(f64, f64)> = inside.collect();
        if let Some(start) = self.on_the_line(start_s) {
            points.insert(0, start);
        }
        points.extend(self.on_the_line(end_s));
        Self(points)
    }

    /// The point at a moment that has no reading of its own.
    fn on_the_line(&self, at_s: f64) -> Option<(f64, f64)> {
        let after = self.0.partition_point(|(t, _)| *t < at_s);
        let (before, after) = (*self.0.get(after.checked_sub(1)?)?, *self.0.get(after)?);
        if after.0 == at_s || after.0 - before.0 > GAP_S {
            return None;
        }
        let share = (at_s - before.0) / (after.0 - before.0);
        Some((at_s, before.1 + share * (after.1 - before.1)))
    }
}

/// What the judge of histories takes. `None` where there is no reading.
pub(super) fn history(points: &[(f64, f64)]) -> Option<History> {
    History::from_celsius(points.iter().copied()).ok()
}
