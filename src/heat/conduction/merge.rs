//! Foods that are put together and stirred: one composition, one temperature, the same heat.

use super::composition::Composition;
use super::error::{HeatError, within};
use super::field::Field;
use super::freezing::Food;
use super::material::Material;

/// What goes in.
#[derive(Debug, Clone, Copy)]
pub struct Part<'a> {
    pub mass_kg: f64,
    pub material: &'a Material,
    pub field: &'a Field,
}

/// What comes out, at one temperature throughout.
#[derive(Debug, Clone, PartialEq)]
pub struct Merged {
    pub mass_kg: f64,
    pub material: Material,
    pub temperature_c: f64,
}

/// Puts the parts together. Composition goes by mass, the freezing point by the water each brings, heat by
/// enthalpy over the unfrozen food at 0 °C, so that ice melts where there is heat for it. If any part has
/// constant properties the whole has: specific heat by mass, density and conductivity by volume.
///
/// # Errors
/// No part, a mass that is not above 0, heat for more than the model's range.
pub fn merge(parts: &[Part]) -> Result<Merged, HeatError> {
    for part in parts {
        within("mass, kg", part.mass_kg, 1e-9, 1e5)?;
    }
    let mass_kg: f64 = parts.iter().map(|p| p.mass_kg).sum();
    if parts.is_empty() || mass_kg <= 0.0 {
        return Err(HeatError::NoMass);
    }
    let enthalpy_j_kg = parts.iter().map(|p| p.mass_kg * mean_enthalpy_j_kg(p)).sum::<f64>() / mass_kg;
    let material = mixture(parts, mass_kg)?;
    let temperature_c = temperature_c(&material, enthalpy_j_kg)?;
    Ok(Merged { mass_kg, material, temperature_c })
}

/// Heat of a part, J/kg above 0 °C unfrozen: its layers by their shares.
pub fn mean_enthalpy_j_kg(part: &Part) -> f64 {
    let layers = part.field.layers().iter();
    layers.map(|l| l.share * part.material.enthalpy_j_kg(part.material.temperature_c(l.enthalpy_j_m3))).sum()
}

fn mixture(parts: &[Part], mass_kg: f64) -> Result<Material, HeatError> {
    let foods: Option<Vec<(f64, &Food)>> = parts
        .iter()
        .map(|p| match p.material {
            Material::Food { food, .. } => Some((p.mass_kg, food)),
            Material::Constant { .. } => None,
        })
        .collect();
    let Some(foods) = foods else {
        return constant_mixture(parts, mass_kg);
    };
    let by_mass =
        |of: fn(&Composition) -> f64| foods.iter().map(|(m, f)| m * of(f.composition())).sum::<f64>();
    let water = by_mass(|c| c.water);
    let composition = Composition {
        water,
        protein: by_mass(|c| c.protein),
        fat: by_mass(|c| c.fat),
        carbohydrate: by_mass(|c| c.carbohydrate),
        fibre: by_mass(|c| c.fibre),
        ash: by_mass(|c| c.ash),
    };
    let freezing = |(m, f): &(f64, &Food)| m * f.composition().water * f.freezing_c();
    let freezing_c =
        if water > 0.0 { foods.iter().map(freezing).sum::<f64>() / water } else { foods[0].1.freezing_c() };
    Ok(Material::food(Food::new(composition, freezing_c)?))
}

fn constant_mixture(parts: &[Part], mass_kg: f64) -> Result<Material, HeatError> {
    // A food by composition enters with its properties at 20 °C, above anything frozen.
    const AT_C: f64 = 20.0;
    let (mut heat, mut volume, mut k_volume) = (0.0, 0.0, 0.0);
    for part in parts {
        let state = part.material.state(AT_C);
        let part_m3 = part.mass_kg / part.material.density_kg_m3(AT_C);
        heat += state.c * part_m3;
        volume += part_m3;
        k_volume += state.k * part_m3;
    }
    Material::constant(k_volume / volume, mass_kg / volume, heat / mass_kg)
}

/// The temperature at which the material holds this heat: bisection, the enthalpy rises throughout.
fn temperature_c(material: &Material, enthalpy_j_kg: f64) -> Result<f64, HeatError> {
    let (mut low, mut high) = (-60.0, 400.0);
    let lowest = material.enthalpy_j_kg(low);
    within("enthalpy, J/kg", enthalpy_j_kg, lowest, material.enthalpy_j_kg(high))?;
    for _ in 0..64 {
        let middle = 0.5 * (low + high);
        if material.enthalpy_j_kg(middle) < enthalpy_j_kg { low = middle } else { high = middle }
    }
    Ok(0.5 * (low + high))
}
