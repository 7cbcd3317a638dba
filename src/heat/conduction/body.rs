//! A food as the solver sees it: a shape, a material and the heat in it.

use super::error::{HeatError, within};
use super::field::Field;
use super::material::Material;
use super::shape::Form;

/// Where a cook starts from.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    pub form: Form,
    pub material: Material,
    pub field: Field,
}

impl Body {
    /// At one temperature throughout, -60 to 250 °C.
    pub fn uniform(form: Form, material: Material, start_c: f64) -> Result<Self, HeatError> {
        let start_c = within("start temperature, °C", start_c, -60.0, 250.0)?;
        let field = Field::uniform(&material, start_c);
        Ok(Self { form, material, field })
    }

    /// A frozen food; refused above its freezing point. Constant properties cannot freeze.
    pub fn frozen(form: Form, material: Material, start_c: f64) -> Result<Self, HeatError> {
        let freezing_c = match &material {
            Material::Food { food, .. } => food.freezing_c(),
            Material::Constant { .. } => f64::NEG_INFINITY,
        };
        if start_c >= freezing_c {
            return Err(HeatError::NotFrozen { start_c, freezing_c });
        }
        Self::uniform(form, material, start_c)
    }
}
