//! What surrounds the food during one phase, and when the phase ends.

use super::air::SEA_LEVEL_PA;
use super::error::HeatError;
use super::ramp::Ramp;
use super::surface::{Film, Humidity, Surface};

/// Where a temperature is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    Core,
    Surface,
}

/// From which side a temperature is waited for. A phase whose food is past it already ends at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Goal {
    AtLeast,
    AtMost,
}

/// A temperature that ends a phase.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Until {
    pub place: Place,
    pub goal: Goal,
    pub target_c: f64,
}

/// A duration, a temperature, or a temperature waited for no longer than a duration.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct End {
    pub duration_s: Option<f64>,
    pub until: Option<Until>,
}

/// One phase. Emissivity and wetness from 0 to 1.
#[derive(Debug, Clone, PartialEq)]
pub struct PhaseHeat {
    pub medium_c: Ramp,
    pub film: Film,
    pub emissivity: f64,
    /// Walls the food sees; the medium's temperature when `None`.
    pub wall_c: Option<f64>,
    /// Share of the surface that is wet, over time: it falls as the surface dries.
    pub wetness: Ramp,
    pub humidity: Humidity,
    pub pressure_pa: f64,
    pub end: End,
}

impl PhaseHeat {
    /// Convection alone, dry, at sea level.
    pub fn convective(medium_c: Ramp, film_w_m2k: f64, end: End) -> Self {
        Self {
            medium_c,
            film: Film::Known(film_w_m2k),
            emissivity: 0.0,
            wall_c: None,
            wetness: Ramp::constant(0.0),
            humidity: Humidity::Ratio(0.0),
            pressure_pa: SEA_LEVEL_PA,
            end,
        }
    }

    /// The surface condition at `t_s` in the stretch between corners that begins at or before `from_s`.
    pub fn surface_at(&self, t_s: f64, from_s: f64) -> Result<Surface, HeatError> {
        self.surface(self.medium_c.at(t_s, from_s), self.wetness.at(t_s, from_s))
    }

    pub fn surface(&self, medium_c: f64, wetness: f64) -> Result<Surface, HeatError> {
        let surface = Surface::convective(medium_c, self.film);
        let wall_c = self.wall_c.unwrap_or(medium_c);
        surface.radiating(self.emissivity, wall_c).wet(wetness, self.humidity, self.pressure_pa)
    }

    /// Nothing outside changes.
    pub fn is_steady(&self) -> bool {
        self.medium_c.is_constant() && self.wetness.is_constant()
    }

    /// The next corner of any setting after `t_s`, and whether it jumps there.
    pub fn next_corner(&self, t_s: f64) -> Option<(f64, bool)> {
        match (self.medium_c.next_corner(t_s), self.wetness.next_corner(t_s)) {
            (Some(a), Some(b)) if a.0 == b.0 => Some((a.0, a.1 || b.1)),
            (Some(a), Some(b)) => Some(if a.0 < b.0 { a } else { b }),
            (a, b) => a.or(b),
        }
    }
}
