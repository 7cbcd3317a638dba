//! Foods that become one: the masses add up, and so does the heat.

use super::conduction::field::Field;
use super::conduction::material::Material;
use super::food::{Food, material};
use super::lines::{LINES, Side};
use crate::cook::{Cook, ItemId};

/// Stock without a temperature of its own, °C: from the fridge or from the shelf. Common practice, no source.
const STOCK_C: [f64; 3] = [4.0, 15.0, 25.0];

/// A food and how much of it goes in, kg.
pub struct Share<'f> {
    pub food: &'f Food,
    pub kg: f64,
}

/// What `foods` and `stock_kg` of other stock become: `name`, mixed through.
///
/// # Errors
/// What is missing, in a cook's words.
pub fn mix(cook: &Cook, name: ItemId, foods: &[Share<'_>], stock_kg: f64) -> Result<Food, String> {
    let heaviest = foods.iter().max_by(|a, b| a.kg.total_cmp(&b.kg));
    let kind = cook.item(name).kind.as_ref().map(|kind| &kind.value);
    let (made, state) = match (kind, heaviest) {
        (Some(kind), _) => (material(kind)?, kind.state),
        (None, Some(share)) => (share.food.material.clone(), share.food.state),
        (None, None) => return Err(format!("say what kind of food `{}` is", cook.item(name).name)),
    };
    let fields = LINES
        .iter()
        .enumerate()
        .map(|(nth, line)| {
            let stock_c = match line.side {
                Side::Cold => STOCK_C[0],
                Side::Usual => STOCK_C[1],
                Side::Warm => STOCK_C[2],
            };
            // Stock is mostly water; so is nearly every pot.
            let (mut heat, mut capacity) =
                (stock_kg * per_kg(&made, stock_c) * stock_c, stock_kg * per_kg(&made, stock_c));
            for share in foods {
                let Food { material, fields, .. } = share.food;
                let at_c = material.temperature_c(fields[nth].mean_enthalpy_j_m3());
                let holds = share.kg * per_kg(material, at_c);
                heat += holds * at_c;
                capacity += holds;
            }
            Field::uniform(&made, if capacity > 0.0 { heat / capacity } else { stock_c })
        })
        .collect();
    let piece = heaviest.map(|share| share.food.piece.clone()).unwrap_or_default();
    let assumed = foods.iter().flat_map(|share| share.food.assumed.clone()).collect();
    Ok(Food {
        item: name,
        material: made,
        state,
        piece,
        piece_kg: None,
        fields,
        dried_s: 0.0,
        place: None,
        assumed,
    })
}

/// J/(kg K).
fn per_kg(material: &Material, at_c: f64) -> f64 {
    material.state(at_c).c / material.density_kg_m3(at_c)
}
