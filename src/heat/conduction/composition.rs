//! What a food is made of, and what that says about its thermal properties.
//!
//! Source: Choi, Y. and Okos, M. R. (1986), Food Engineering and Process Applications vol. 1, 93–101, as
//! printed in the ASHRAE Handbook – Refrigeration (2006), chapter 9, tables 1 and 2; -40 to 150 °C.
//! For liquid water two constants are in print: ASHRAE's 4.1289 kJ/(kg K) is taken here, not 4.1762
//! (true water at 20 °C is 4.182, so a meat comes out about 1 % low).

use super::error::{HeatError, within};

/// A value as a polynomial of the temperature in °C: a0 + a1 t + a2 t².
type Poly = [f64; 3];

fn value(p: &Poly, t: f64) -> f64 {
    p[0] + t * (p[1] + t * p[2])
}

/// Integral of the polynomial from 0 to t.
fn area(p: &Poly, t: f64) -> f64 {
    t * (p[0] + t * (p[1] / 2.0 + t * p[2] / 3.0))
}

/// Correlations of one component: conductivity W/(m K), density kg/m³, specific heat kJ/(kg K).
#[derive(Debug)]
pub struct Component {
    conductivity: Poly,
    density: Poly,
    specific_heat: Poly,
}

pub const PROTEIN: Component = Component {
    conductivity: [1.7881e-1, 1.1958e-3, -2.7178e-6],
    density: [1.3299e3, -5.1840e-1, 0.0],
    specific_heat: [2.0082, 1.2089e-3, -1.3129e-6],
};
pub const FAT: Component = Component {
    conductivity: [1.8071e-1, -2.7604e-4, -1.7749e-7],
    density: [9.2559e2, -4.1757e-1, 0.0],
    specific_heat: [1.9842, 1.4733e-3, -4.8008e-6],
};
pub const CARBOHYDRATE: Component = Component {
    conductivity: [2.0141e-1, 1.3874e-3, -4.3312e-6],
    density: [1.5991e3, -3.1046e-1, 0.0],
    specific_heat: [1.5488, 1.9625e-3, -5.9399e-6],
};
pub const FIBRE: Component = Component {
    conductivity: [1.8331e-1, 1.2497e-3, -3.1683e-6],
    density: [1.3115e3, -3.6589e-1, 0.0],
    specific_heat: [1.8459, 1.8306e-3, -4.6509e-6],
};
pub const ASH: Component = Component {
    conductivity: [3.2962e-1, 1.4011e-3, -2.9069e-6],
    density: [2.4238e3, -2.8063e-1, 0.0],
    specific_heat: [1.0926, 1.8896e-3, -3.6817e-6],
};
/// From 0 °C up.
pub const WATER: Component = Component {
    conductivity: [5.7109e-1, 1.7625e-3, -6.7036e-6],
    density: [9.9718e2, 3.1439e-3, -3.7574e-3],
    specific_heat: [4.1289, -9.0864e-5, 5.4731e-6],
};
/// Water that is still liquid below 0 °C (specific heat from memory).
pub const COLD_WATER: Component = Component {
    conductivity: [5.7109e-1, 1.7625e-3, -6.7036e-6],
    density: [9.9718e2, 3.1439e-3, -3.7574e-3],
    specific_heat: [4.1289, -5.3062e-3, 9.9516e-4],
};
pub const ICE: Component = Component {
    conductivity: [2.2196, -6.2489e-3, 1.0154e-4],
    density: [9.1689e2, -1.3071e-1, 0.0],
    specific_heat: [2.0623, 6.0769e-3, 0.0],
};

impl Component {
    pub fn conductivity_w_mk(&self, t_c: f64) -> f64 {
        value(&self.conductivity, t_c)
    }

    pub fn density_kg_m3(&self, t_c: f64) -> f64 {
        value(&self.density, t_c)
    }

    pub fn specific_heat_j_kgk(&self, t_c: f64) -> f64 {
        1e3 * value(&self.specific_heat, t_c)
    }

    /// Heat content above 0 °C, J/kg.
    pub fn enthalpy_j_kg(&self, t_c: f64) -> f64 {
        1e3 * area(&self.specific_heat, t_c)
    }
}

/// Liquid water at any temperature.
pub fn liquid(t_c: f64) -> &'static Component {
    if t_c < 0.0 { &COLD_WATER } else { &WATER }
}

/// Mass fractions that sum to 1; carbohydrate without the fibre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Composition {
    pub water: f64,
    pub protein: f64,
    pub fat: f64,
    pub carbohydrate: f64,
    pub fibre: f64,
    pub ash: f64,
}

impl Composition {
    /// From amounts in any one unit (per cent, grams), brought to a sum of 1.
    pub fn from_parts(parts: Composition) -> Result<Self, HeatError> {
        let all = [parts.water, parts.protein, parts.fat, parts.carbohydrate, parts.fibre, parts.ash];
        for x in all {
            within("share of a component", x, 0.0, 1e6)?;
        }
        let sum: f64 = all.iter().sum();
        if sum <= 0.0 {
            return Err(HeatError::NoMass);
        }
        Ok(Self {
            water: parts.water / sum,
            protein: parts.protein / sum,
            fat: parts.fat / sum,
            carbohydrate: parts.carbohydrate / sum,
            fibre: parts.fibre / sum,
            ash: parts.ash / sum,
        })
    }

    /// Everything but the water, with its mass fraction.
    pub fn solids(&self) -> [(f64, &'static Component); 5] {
        [
            (self.protein, &PROTEIN),
            (self.fat, &FAT),
            (self.carbohydrate, &CARBOHYDRATE),
            (self.fibre, &FIBRE),
            (self.ash, &ASH),
        ]
    }
}
