//! An independent witness: the same heat equation, solved in the simplest way there is.
//!
//! Explicit finite volumes on an even grid. ρc ∂T/∂t = r^−β ∂(r^β k ∂T/∂r)/∂r; at the surface
//! k ∂T/∂r = h (T_m − T_s) + ε σ (T_m⁴ − T_s⁴) − w h / (1006 + 1860 W) (W_s − W) (2501000 − 2326 T_s), the last term never
//! negative. Steps of a sixth of Δr²/α, at which the errors of space and time of a slab cancel;
//! shorter ones where the surface moves fast.

pub const CONDUCTIVITY_W_MK: f64 = 0.48;
pub const DENSITY_KG_M3: f64 = 1050.0;
pub const SPECIFIC_HEAT_J_KGK: f64 = 3400.0;
const CELLS: usize = 16;
/// The surface moves no more than this in one step, K.
const LARGEST_K: f64 = 5.0;
const SIGMA: f64 = 5.670_374e-8;
const SEA_LEVEL_PA: f64 = 101_325.0;

/// What one body meets in one phase.
#[derive(Debug, Clone, Copy)]
pub struct Around {
    /// °C at the start and later, and how fast it gets there, K/s.
    pub from_c: f64,
    pub medium_c: f64,
    pub rate_k_s: f64,
    pub film_w_m2k: f64,
    pub emissivity: f64,
    pub wetness: f64,
    /// kg of vapour per kg of dry air.
    pub humidity: f64,
}

/// Saturation pressure, Pa: Wagner and Pruss 1993 over water, Magnus over ice (both from memory).
pub fn saturation_pa(t_c: f64) -> f64 {
    if t_c < 0.01 {
        return 611.15 * (22.452 * t_c / (272.55 + t_c)).exp();
    }
    let kelvin = t_c + 273.15;
    let u = 1.0 - kelvin / 647.096;
    let sum = -7.859_517_83 * u + 1.844_082_59 * u.powf(1.5) - 11.786_649_7 * u.powi(3)
        + 22.680_741_1 * u.powf(3.5)
        - 15.961_871_9 * u.powi(4)
        + 1.801_225_02 * u.powf(7.5);
    22.064e6 * (647.096 / kelvin * sum).exp()
}

pub fn humidity_ratio(vapour_pa: f64) -> f64 {
    0.621_945 * vapour_pa / (SEA_LEVEL_PA - vapour_pa)
}

impl Around {
    /// Seconds after the start, °C.
    pub fn medium(&self, t_s: f64) -> f64 {
        let way = self.medium_c - self.from_c;
        if way == 0.0 || self.rate_k_s * t_s >= way.abs() {
            return self.medium_c;
        }
        self.from_c + way.signum() * self.rate_k_s * t_s
    }

    /// Into the food, W/m².
    fn flux(&self, medium_c: f64, surface_c: f64) -> f64 {
        let fourth = |t_c: f64| (t_c + 273.15).powi(4);
        let radiation = self.emissivity * SIGMA * (fourth(medium_c) - fourth(surface_c));
        let mut evaporation = 0.0;
        if self.wetness > 0.0 {
            let wet = humidity_ratio(saturation_pa(surface_c).min(0.98 * SEA_LEVEL_PA));
            let latent = 2_501_000.0 - 2326.0 * surface_c;
            let transfer = self.wetness * self.film_w_m2k / (1006.0 + 1860.0 * self.humidity);
            evaporation = (transfer * (wet - self.humidity) * latent).max(0.0);
        }
        self.film_w_m2k * (medium_c - surface_c) + radiation - evaporation
    }
}

/// A body on its way.
pub struct Body {
    volumes: Vec<f64>,
    /// Area over distance to the next node outwards.
    links: Vec<f64>,
    temperatures: Vec<f64>,
    spacing_m: f64,
    pub t_s: f64,
}

impl Body {
    pub fn new(half_thickness_m: f64, beta: f64, start_c: f64) -> Self {
        let spacing_m = half_thickness_m / CELLS as f64;
        let scale = half_thickness_m.powf(beta); // per m² of surface
        let face =
            |i: usize| if i > CELLS { half_thickness_m } else { (i as f64 - 0.5).max(0.0) * spacing_m };
        let within = |r: f64| r.powf(beta + 1.0) / (beta + 1.0) / scale;
        Self {
            volumes: (0..=CELLS).map(|i| within(face(i + 1)) - within(face(i))).collect(),
            links: (0..CELLS).map(|i| face(i + 1).powf(beta) / scale / spacing_m).collect(),
            temperatures: vec![start_c; CELLS + 1],
            spacing_m,
            t_s: 0.0,
        }
    }

    pub fn core_c(&self) -> f64 {
        self.temperatures[0]
    }

    /// Steps on until `ends(seconds into the phase, core)` or `longest_s`; every step is told to `seen`. True if `ends`.
    pub fn stay(
        &mut self,
        around: &Around,
        longest_s: f64,
        ends: impl Fn(f64) -> bool,
        mut seen: impl FnMut(f64, f64),
    ) -> bool {
        let heat = DENSITY_KG_M3 * SPECIFIC_HEAT_J_KGK;
        let usual_s = self.spacing_m * self.spacing_m * heat / (6.0 * CONDUCTIVITY_W_MK);
        let (began_s, last) = (self.t_s, CELLS);
        loop {
            let into_s = self.t_s - began_s;
            seen(self.t_s, self.core_c());
            if ends(self.core_c()) {
                return true;
            }
            if longest_s - into_s < 1e-6 {
                return false;
            }
            let medium_c = around.medium(into_s);
            let surface_c = self.temperatures[last];
            let flux = around.flux(medium_c, surface_c);
            let slope = (flux - around.flux(medium_c, surface_c + 0.01)) / 0.01;
            let pull = self.links[last - 1] * CONDUCTIVITY_W_MK + slope.max(0.0);
            // Where water boils off, the slope says nothing of how fast the surface falls.
            let falls_s = LARGEST_K * self.volumes[last] * heat / flux.abs().max(1e-9);
            let step_s =
                usual_s.min(0.5 * self.volumes[last] * heat / pull).min(falls_s).min(longest_s - into_s);
            let mut inflow = 0.0; // from the next node inwards, W per m² of surface
            for i in 0..=last {
                let outflow = if i == last {
                    -flux
                } else {
                    self.links[i] * CONDUCTIVITY_W_MK * (self.temperatures[i] - self.temperatures[i + 1])
                };
                self.temperatures[i] += step_s * (inflow - outflow) / (self.volumes[i] * heat);
                inflow = outflow;
            }
            self.t_s += step_s;
        }
    }
}
