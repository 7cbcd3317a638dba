//! The heat that crosses a food's surface: convection, radiation and evaporation.

use super::air::{SEA_LEVEL_PA, ZERO_C_K, humidity_ratio, ratio_from_relative, saturated_at_c, saturation};
use super::error::HeatError;

/// Stefan–Boltzmann constant, W/(m² K⁴) (CODATA 2018).
const SIGMA: f64 = 5.670_374_419e-8;
/// The surface's vapour pressure is capped at this share of the air's: the humidity ratio has no bound
/// as the surface nears boiling, and the law is meant for surfaces below about 95 °C.
const VAPOUR_CAP: f64 = 0.98;

/// Water in the air around the food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Humidity {
    /// kg vapour per kg dry air.
    Ratio(f64),
    /// Share (0 to 1) of saturation at the medium's temperature.
    Relative(f64),
}

/// The film coefficient, W/(m² K): known, or between two bounds with whichever passes the least or the most heat into
/// the food at its present surface temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Film {
    Known(f64),
    Least(f64, f64),
    Most(f64, f64),
}

impl Film {
    pub fn bounds(self) -> (f64, f64) {
        match self {
            Self::Known(film) => (film, film),
            Self::Least(low, high) | Self::Most(low, high) => (low, high),
        }
    }

    /// The one that counts where a film of 1 would pass `pull` W/m² into the food.
    fn for_pull(self, pull: f64) -> f64 {
        match self {
            Self::Known(film) => film,
            Self::Least(low, high) => {
                if pull > 0.0 {
                    low
                } else {
                    high
                }
            }
            Self::Most(low, high) => {
                if pull > 0.0 {
                    high
                } else {
                    low
                }
            }
        }
    }
}

/// The surface condition at one moment.
#[derive(Debug, Clone, Copy)]
pub struct Surface {
    pub medium_c: f64,
    film: Film,
    radiation: f64,
    wall_k4: f64,
    /// Evaporation per unit of film and of humidity ratio, kg K/J: Lewis relation with Le^(2/3) = 1,
    /// ASHRAE Handbook – Fundamentals, chapter 6 (from memory); moist air c_p = 1006 + 1860 W J/(kg K).
    drying: f64,
    air_ratio: f64,
    pressure_pa: f64,
    /// Where the vapour's cap is reached, °C. Above it evaporation stays as it is: were it less the hotter the
    /// surface is, as the latent heat alone would have it, one stage could have two answers.
    capped_c: f64,
}

impl Surface {
    /// Convection alone.
    pub fn convective(medium_c: f64, film: Film) -> Self {
        Self {
            medium_c,
            film,
            radiation: 0.0,
            wall_k4: 0.0,
            drying: 0.0,
            air_ratio: 0.0,
            pressure_pa: SEA_LEVEL_PA,
            capped_c: f64::INFINITY,
        }
    }

    /// With walls at `wall_c` seen with the given emissivity (0 to 1).
    pub fn radiating(self, emissivity: f64, wall_c: f64) -> Self {
        Self { radiation: emissivity * SIGMA, wall_k4: (wall_c + ZERO_C_K).powi(4), ..self }
    }

    /// With a share `wetness` (0 to 1) of the surface wet.
    pub fn wet(self, wetness: f64, humidity: Humidity, pressure_pa: f64) -> Result<Self, HeatError> {
        if wetness == 0.0 {
            return Ok(self);
        }
        let air_ratio = match humidity {
            Humidity::Ratio(w) => w,
            Humidity::Relative(r) => ratio_from_relative(r, self.medium_c, pressure_pa)?,
        };
        let drying = wetness / (1006.0 + 1860.0 * air_ratio);
        let capped_c = saturated_at_c(VAPOUR_CAP * pressure_pa);
        Ok(Self { drying, air_ratio, pressure_pa, capped_c, ..self })
    }

    /// Nothing crosses.
    pub fn is_insulated(&self) -> bool {
        self.film.bounds() == (0.0, 0.0) && self.radiation == 0.0
    }

    /// Only convection, so the flux is a straight line in the surface temperature.
    pub fn is_linear(&self) -> bool {
        self.radiation == 0.0 && self.drying == 0.0 && matches!(self.film, Film::Known(_))
    }

    /// Heat into the food, W/m², and its slope by the surface temperature, W/(m² K).
    pub fn flux(&self, surface_c: f64) -> (f64, f64) {
        let mut pull = self.medium_c - surface_c;
        let mut rise_of_pull = -1.0;
        if self.drying > 0.0 {
            let (evaporation, rise) = self.evaporation(surface_c);
            pull -= evaporation;
            rise_of_pull -= rise;
        }
        let film = self.film.for_pull(pull);
        let mut q = film * pull;
        let mut slope = film * rise_of_pull;
        if self.radiation > 0.0 {
            let k = surface_c + ZERO_C_K;
            let k3 = k * k * k;
            q += self.radiation * (self.wall_k4 - k3 * k);
            slope -= 4.0 * self.radiation * k3;
        }
        (q, slope)
    }

    fn evaporation(&self, surface_c: f64) -> (f64, f64) {
        let at_c = surface_c.min(self.capped_c);
        let (vapour_pa, rise_pa) = saturation(at_c);
        let ratio = humidity_ratio(vapour_pa, self.pressure_pa);
        let excess = ratio - self.air_ratio;
        if excess <= 0.0 {
            return (0.0, 0.0); // never negative: no condensation
        }
        // Slope of the ASHRAE wet-bulb equation (Fundamentals 2017, eq. 33), J/kg.
        let latent = 2_501_000.0 - 2_326.0 * at_c;
        let taken = self.drying * excess * latent;
        if surface_c >= self.capped_c {
            return (taken, 0.0);
        }
        let ratio_rise = ratio * rise_pa * self.pressure_pa / (vapour_pa * (self.pressure_pa - vapour_pa));
        (taken, self.drying * (ratio_rise * latent - excess * 2_326.0))
    }

    /// The surface temperature, °C, at which nothing flows: what the whole food tends to.
    /// `None` for an insulated surface.
    pub fn equilibrium_c(&self) -> Option<f64> {
        if self.is_insulated() {
            return None;
        }
        let wall_c = if self.radiation > 0.0 { self.wall_k4.powf(0.25) - ZERO_C_K } else { self.medium_c };
        let (low, high) = (-150.0, self.medium_c.max(wall_c) + 1.0);
        Some(self.root(0.0, 0.0, 1.0, low, high, high))
    }

    /// Solves slope·T = known + weight·q(T) for the surface temperature, from a first guess: Newton,
    /// kept inside a bracket that shrinks, halved where Newton would leave it. Always ends; NaN where there
    /// is no solution between absolute zero and 2000 °C, which a shorter step will have.
    pub fn balance(&self, slope: f64, known: f64, weight: f64, guess_c: f64) -> f64 {
        if self.is_linear() {
            let pull = weight * self.film.bounds().0;
            return (known + pull * self.medium_c) / (slope + pull);
        }
        let (low, high) = (-270.0, 2_000.0);
        let surface_c = self.root(slope, known, weight, low, high, guess_c);
        if surface_c - low < 1e-6 || high - surface_c < 1e-6 { f64::NAN } else { surface_c }
    }

    fn root(&self, slope: f64, known: f64, weight: f64, low: f64, high: f64, guess_c: f64) -> f64 {
        let (mut low, mut high) = (low, high);
        let mut t = guess_c.clamp(low, high);
        for _ in 0..80 {
            let (q, rise) = self.flux(t);
            let over = slope * t - known - weight * q;
            if over > 0.0 {
                high = t
            } else {
                low = t
            }
            let next = t - over / (slope - weight * rise);
            let inside = next > low && next < high;
            let next = if inside { next } else { 0.5 * (low + high) };
            // Newton doubles the digits: a last move below 1e-6 K leaves an error near rounding.
            if (next - t).abs() < 1e-6 && inside || high - low < 1e-12 {
                return next;
            }
            t = next;
        }
        t
    }
}
