//! From what a cook knows of a piece (thickness, mass, other sides, a word) to half thickness and β.

use super::error::{HeatError, within};

/// A body for the solver. β is 0 for a slab, 1 for a long cylinder, 2 for a ball, and between.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Form {
    /// From the core to the surface, m: half the thickness, or the depth where one face is insulated.
    pub half_thickness_m: f64,
    pub beta: f64,
    /// Kept at one temperature throughout by stirring.
    pub stirred: bool,
}

impl Form {
    /// `half_thickness_m` from 0.5 mm to 0.5 m, `beta` from 0 to 2.
    pub fn new(half_thickness_m: f64, beta: f64) -> Result<Self, HeatError> {
        Ok(Self {
            half_thickness_m: within("half thickness, m", half_thickness_m, 0.0005, 0.5)?,
            beta: within("shape factor", beta, 0.0, 2.0)?,
            stirred: false,
        })
    }

    pub fn stirred(self) -> Self {
        Self { stirred: true, ..self }
    }
}
