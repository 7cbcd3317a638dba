//! Foods that become one: the masses add up, and so does the heat.

use super::band::Band;
use super::conduction::field::Field;
use super::conduction::merge::{Part, merge};
use super::food::{Food, material};
use super::lines::LINES;
use crate::cook::{Cook, ItemId};

/// A food and how much of it goes in, kg.
pub struct Share<'f> {
    pub food: &'f Food,
    pub kg: f64,
}

/// What goes in beside them without having been followed.
pub struct Stock {
    pub kg: f64,
    pub at_c: Band,
    /// In a cook's words.
    pub assumed: String,
}

/// What `foods` and `stock` become: `name`, mixed through.
///
/// # Errors
/// What is missing, in a cook's words.
pub fn mix(cook: &Cook, name: ItemId, foods: &[Share<'_>], stock: &[Stock]) -> Result<Food, String> {
    let heaviest = foods.iter().max_by(|a, b| a.kg.total_cmp(&b.kg));
    let kind = cook.item(name).kind.as_ref().map(|kind| &kind.value);
    let (made, state) = match (kind, heaviest) {
        (Some(kind), _) => (material(kind)?, kind.state),
        (None, Some(share)) => (share.food.material.clone(), share.food.state),
        (None, None) => return Err(format!("say what kind of food `{}` is", cook.item(name).name)),
    };
    let lines = foods.iter().map(|share| share.food.fields.len()).min().unwrap_or(LINES.len());
    let fields = LINES[..lines]
        .iter()
        .enumerate()
        .map(|(nth, line)| {
            // Stock is mostly water; so is nearly every pot.
            let fields: Vec<Field> =
                stock.iter().map(|stock| Field::uniform(&made, line.side.of(stock.at_c))).collect();
            let mut parts: Vec<Part<'_>> = foods
                .iter()
                .map(|share| Part {
                    mass_kg: share.kg,
                    material: &share.food.material,
                    field: &share.food.fields[nth],
                })
                .collect();
            parts.extend(
                stock.iter().zip(&fields).filter(|(stock, _)| stock.kg > 0.0).map(|(stock, field)| Part {
                    mass_kg: stock.kg,
                    material: &made,
                    field,
                }),
            );
            let merged =
                merge(&parts).map_err(|_| format!("say how much goes into `{}`", cook.item(name).name))?;
            Ok(Field::uniform(&made, merged.temperature_c))
        })
        .collect::<Result<_, String>>()?;
    let piece = heaviest.map(|share| share.food.piece.clone()).unwrap_or_default();
    let mut assumed: Vec<String> = foods.iter().flat_map(|share| share.food.assumed.clone()).collect();
    for stock in stock.iter().filter(|stock| stock.kg > 0.0) {
        if !assumed.contains(&stock.assumed) {
            assumed.push(stock.assumed.clone());
        }
    }
    Ok(Food::new(name, made, state, piece, fields, assumed))
}
