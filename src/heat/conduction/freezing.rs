//! A food of known composition at any temperature, frozen or not.
//!
//! Below its freezing point part of the water is ice. Unfrozen water: Miles's form, as in the ASHRAE
//! Handbook – Refrigeration, 'Thermal properties of foods' (from memory): ice = (water − bound)·(1 − tf/t),
//! with bound water 0.4 kg per kg of protein; latent heat of freezing 333.6 kJ/kg at 0 °C (same, from
//! memory). Enthalpy is a function of state, zero for the unfrozen food at 0 °C.

use super::composition::{Component, Composition, ICE, liquid};
use super::error::{HeatError, within};

/// Water that never freezes, kg per kg of protein.
const BOUND_PER_PROTEIN: f64 = 0.4;
/// Latent heat of fusion at 0 °C, J/kg.
const FUSION_J_KG: f64 = 333_600.0;
/// Beef sirloin, lean (ASHRAE Refrigeration, table 3): a fair guess for a food whose own is not known.
pub const USUAL_FREEZING_C: f64 = -1.7;

/// A composition and the temperature at which its first ice forms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Food {
    composition: Composition,
    freezing_c: f64,
}

impl Food {
    /// `freezing_c` from -20 to -0.1 °C; use -0.1 for thin broths and water.
    pub fn new(composition: Composition, freezing_c: f64) -> Result<Self, HeatError> {
        let composition = Composition::from_parts(composition)?;
        Ok(Self { composition, freezing_c: within("freezing point, °C", freezing_c, -20.0, -0.1)? })
    }

    pub fn composition(&self) -> &Composition {
        &self.composition
    }

    pub fn freezing_c(&self) -> f64 {
        self.freezing_c
    }

    /// Water that can freeze, kg/kg.
    fn freezable(&self) -> f64 {
        (self.composition.water - BOUND_PER_PROTEIN * self.composition.protein).max(0.0)
    }

    /// Ice, kg per kg of food.
    pub fn ice_fraction(&self, t_c: f64) -> f64 {
        if t_c < self.freezing_c { self.freezable() * (1.0 - self.freezing_c / t_c) } else { 0.0 }
    }

    /// All seven components at `t_c` with their mass fractions.
    fn parts(&self, t_c: f64) -> [(f64, &'static Component); 7] {
        let ice = self.ice_fraction(t_c);
        let [a, b, c, d, e] = self.composition.solids();
        [a, b, c, d, e, (self.composition.water - ice, liquid(t_c)), (ice, &ICE)]
    }

    /// kg/m³, no pores: 1 / Σ(x/ρ).
    pub fn density_kg_m3(&self, t_c: f64) -> f64 {
        1.0 / self.parts(t_c).iter().map(|(x, c)| x / c.density_kg_m3(t_c)).sum::<f64>()
    }

    /// W/(m K), the components side by side (parallel model): Σ v k by volume fractions.
    pub fn conductivity_w_mk(&self, t_c: f64) -> f64 {
        let parts = self.parts(t_c);
        let volume: f64 = parts.iter().map(|(x, c)| x / c.density_kg_m3(t_c)).sum();
        let product =
            parts.iter().map(|(x, c)| x / c.density_kg_m3(t_c) * c.conductivity_w_mk(t_c)).sum::<f64>();
        product / volume
    }

    /// J/(kg K), with the heat of the ice that melts per degree: the slope of [`Food::enthalpy_j_kg`].
    pub fn specific_heat_j_kgk(&self, t_c: f64) -> f64 {
        let sensible: f64 = self.parts(t_c).iter().map(|(x, c)| x * c.specific_heat_j_kgk(t_c)).sum();
        if t_c < self.freezing_c {
            let melting_per_k = -self.freezable() * self.freezing_c / (t_c * t_c);
            sensible + melting_per_k * Self::fusion_j_kg(t_c)
        } else {
            sensible
        }
    }

    /// J/kg above the unfrozen food at 0 °C.
    pub fn enthalpy_j_kg(&self, t_c: f64) -> f64 {
        let sensible: f64 = self.parts(t_c).iter().map(|(x, c)| x * c.enthalpy_j_kg(t_c)).sum();
        sensible - self.ice_fraction(t_c) * FUSION_J_KG
    }

    /// Heat of melting at `t_c`: what closes the loop through 0 °C.
    fn fusion_j_kg(t_c: f64) -> f64 {
        FUSION_J_KG + liquid(t_c).enthalpy_j_kg(t_c) - ICE.enthalpy_j_kg(t_c)
    }
}
