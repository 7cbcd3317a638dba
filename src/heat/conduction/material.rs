//! What conducts and stores the heat.

use std::sync::Arc;

use super::error::{HeatError, within};
use super::freezing::Food;
use super::table::{State, Table};

/// Constant properties, or those of a food by composition and temperature.
#[derive(Debug, Clone, PartialEq)]
pub enum Material {
    Constant {
        k_w_mk: f64,
        rho_kg_m3: f64,
        cp_j_kgk: f64,
    },
    /// The table is shared by all that is of the same stuff.
    Food {
        food: Food,
        table: Arc<Table>,
    },
}

impl Material {
    pub fn constant(k_w_mk: f64, rho_kg_m3: f64, cp_j_kgk: f64) -> Result<Self, HeatError> {
        Ok(Self::Constant {
            k_w_mk: within("conductivity, W/(m K)", k_w_mk, 1e-3, 1e3)?,
            rho_kg_m3: within("density, kg/m³", rho_kg_m3, 10.0, 2e4)?,
            cp_j_kgk: within("specific heat, J/(kg K)", cp_j_kgk, 50.0, 1e4)?,
        })
    }

    pub fn food(food: Food) -> Self {
        Self::Food { table: Arc::new(Table::new(&food)), food }
    }

    /// Enthalpy J/m³, heat capacity J/(m³ K), conductivity W/(m K).
    pub fn state(&self, t_c: f64) -> State {
        match self {
            Self::Constant { k_w_mk, rho_kg_m3, cp_j_kgk } => {
                let c = rho_kg_m3 * cp_j_kgk;
                State { h: c * t_c, c, k: *k_w_mk }
            }
            Self::Food { table, .. } => table.state(t_c),
        }
    }

    /// The temperature, °C, with this enthalpy in J/m³.
    pub fn temperature_c(&self, h: f64) -> f64 {
        match self {
            Self::Constant { rho_kg_m3, cp_j_kgk, .. } => h / (rho_kg_m3 * cp_j_kgk),
            Self::Food { table, .. } => table.temperature_c(h),
        }
    }

    /// kg/m³ at `t_c`.
    pub fn density_kg_m3(&self, t_c: f64) -> f64 {
        match self {
            Self::Constant { rho_kg_m3, .. } => *rho_kg_m3,
            Self::Food { food, .. } => food.density_kg_m3(t_c),
        }
    }

    /// J/kg above the unfrozen material at 0 °C.
    pub fn enthalpy_j_kg(&self, t_c: f64) -> f64 {
        match self {
            Self::Constant { cp_j_kgk, .. } => cp_j_kgk * t_c,
            Self::Food { food, .. } => food.enthalpy_j_kg(t_c),
        }
    }
}
