//! The store: what is bought, made and collected.

use schemars::JsonSchema;
use serde::Serialize;

use super::Place;
use super::amounts::{Amount, Shape};
use crate::cook;
use crate::text::Sources;

#[derive(Serialize, JsonSchema)]
pub(super) struct Item {
    name: String,
    /// The row of the food table.
    kind: Option<String>,
    origin: Origin,
    place: Place,
}

/// Where an item comes from.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum Origin {
    /// Its temperature matters, and it can be placed.
    Food(Box<Stock>),
    /// It is only drawn on.
    Ingredient(Box<Stock>),
    /// Tap water, ice, foil: there without being bought.
    #[serde(rename = "on-tap")]
    OnTap,
    /// Made as a phase starts.
    Made { phase: String },
    /// Made as a phase ends.
    Collected { phase: String, from: Option<String> },
}

/// What is said of bought stock.
#[derive(Serialize, JsonSchema)]
struct Stock {
    description: String,
    /// None for what is used to taste.
    amount: Option<Amount>,
    shape: Shape,
    starts_at_c: Option<f64>,
    frozen: bool,
    cooked: bool,
    trim_loss_fraction: Option<f64>,
    cooked_yield_fraction: Option<f64>,
    contains: Vec<String>,
    supplier: Option<String>,
    on_hand: Option<Amount>,
    same_for_any_number: bool,
    to_taste: bool,
    nitrite_fraction: Option<f64>,
}

impl Item {
    pub(super) fn new(sources: &Sources, cook: &cook::Cook, item: &cook::Item) -> Self {
        Self {
            name: item.name.clone(),
            kind: item.kind.as_ref().map(|kind| kind.value.name.clone()),
            origin: match &item.origin {
                cook::Origin::Food(stock) => Origin::Food(Box::new(Stock::new(sources, stock))),
                cook::Origin::Ingredient(stock) => Origin::Ingredient(Box::new(Stock::new(sources, stock))),
                cook::Origin::OnTap => Origin::OnTap,
                cook::Origin::Made(phase) => Origin::Made { phase: cook.phase(*phase).name.clone() },
                cook::Origin::Collected { phase, from } => Origin::Collected {
                    phase: cook.phase(*phase).name.clone(),
                    from: from.map(|item| cook.item(item).name.clone()),
                },
            },
            place: Place::new(sources, item.span),
        }
    }
}

impl Stock {
    fn new(sources: &Sources, stock: &cook::Stock) -> Self {
        Self {
            description: stock.description.clone(),
            amount: stock.amount.as_ref().map(|amount| (&amount.value).into()),
            shape: Shape::new(sources, &stock.shape),
            starts_at_c: stock.starts_at.map(|temperature| temperature.value.celsius()),
            frozen: stock.frozen.is_some(),
            cooked: stock.cooked.is_some(),
            trim_loss_fraction: stock.trim_loss.map(|share| share.value.fraction()),
            cooked_yield_fraction: stock.cooked_yield.map(|share| share.value.fraction()),
            contains: stock.contains.iter().map(|allergen| allergen.value.word().to_owned()).collect(),
            supplier: stock.supplier.as_ref().map(|supplier| supplier.value.clone()),
            on_hand: stock.on_hand.as_ref().map(|amount| (&amount.value).into()),
            same_for_any_number: stock.same_for_any_number.is_some(),
            to_taste: stock.to_taste.is_some(),
            nitrite_fraction: stock.nitrite.map(|share| share.value.fraction()),
        }
    }
}
