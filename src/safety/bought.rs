//! A food as it comes from the store: what its line says of it, and what its kind is.

use super::declared::is_bag;
use super::lot::{Keeping, Lot};
use super::need::Need;
use super::stock::{Recognised, is_oil, keeping, raw_structure, recognise, words_of};
use crate::cook::{Cook, Item, ItemId, Origin, Stock};
use crate::quantity::Temperature;
use crate::tables::Species;

impl Lot {
    /// Stock as it comes from the store.
    pub fn bought(cook: &Cook, id: ItemId) -> Self {
        let item = cook.item(id);
        match &item.origin {
            Origin::Food(stock) | Origin::Ingredient(stock) => Self::from_stock(id, item, stock),
            Origin::OnTap => Self::new(Keeping::Dry),
            // Used before it was made: a finding has said so.
            Origin::Made(_) | Origin::Collected { .. } => {
                Self { unsure: true, ..Self::new(Keeping::Controlled) }
            }
        }
    }

    fn from_stock(id: ItemId, item: &Item, stock: &Stock) -> Self {
        let ingredient = matches!(item.origin, Origin::Ingredient(_));
        let kind = item.kind.as_ref().map(|kind| kind.value.clone());
        let recognised = kind.map(Recognised::Kind).or_else(|| recognise(words_of(item, stock)));
        let salted = salted(&item.name, stock);
        let raw_milk = matches!(&recognised, Some(Recognised::Kind(kind)) if kind.species == Species::Dairy);
        let raw_milk = (raw_milk && said_raw(stock)).then_some(id);
        let kind = match recognised {
            Some(Recognised::Kind(kind)) => kind,
            Some(Recognised::Plant | Recognised::Pantry) if said_cooked(stock) => {
                return Self {
                    cooked: true,
                    bought_cooked: true,
                    leftover: true,
                    past_words: true,
                    ..Self::new(Keeping::Controlled)
                };
            }
            Some(Recognised::Plant) => {
                return Self { plant: !dried(stock), salted, ..Self::new(Keeping::RawPlant) };
            }
            Some(Recognised::Pantry) => {
                return Self { salted, oil: says(stock, &["oil"]), ..Self::new(Keeping::RawPlant) };
            }
            None if ingredient => {
                return Self { unrecognised: Some(id), salted, ..Self::new(Keeping::RawPlant) };
            }
            None => return Self::new(Keeping::Controlled),
        };
        let words = stock.description.to_lowercase();
        let cooked = said_cooked(stock);
        let mut lot = Self { salted, raw_milk, oil: is_oil(&kind), ..Self::new(keeping(&kind)) };
        lot.ph = stock.shape.ph.as_ref().map(|ph| ph.value);
        if let Some(structure) = raw_structure(&kind).filter(|_| !cooked) {
            let structure = stock.shape.structure.as_ref().map_or(structure, |said| said.value);
            lot.needs.push(Need {
                item: id,
                species: kind.species,
                structure,
                name: kind.name.clone(),
                heats: Vec::new(),
                freezes: Vec::new(),
                met: None,
            });
        } else {
            lot.cooked = lot.keeping == Keeping::Controlled;
            lot.bought_cooked = lot.cooked;
            lot.leftover = lot.cooked;
            lot.past_words = lot.cooked && kind.species != Species::Dairy;
        }
        lot.bagged = stock.shape.covers.iter().any(is_bag);
        let below_zero = |at: Temperature| at < Temperature::from_celsius(0.0);
        lot.frozen = stock.frozen.is_some()
            || words.contains("frozen")
            || stock.starts_at.as_ref().is_some_and(|starts| below_zero(starts.value));
        lot
    }
}

fn said_cooked(stock: &Stock) -> bool {
    let words = stock.description.to_lowercase();
    let says = |word: &str| words.contains(word) && !words.contains(&format!("un{word}"));
    stock.cooked.is_some() || says("cooked") || says("pasteuris") || says("pasteuriz")
}

/// Milk of which it is said that nobody has heated it.
fn said_raw(stock: &Stock) -> bool {
    let words = stock.description.to_lowercase();
    words.split_whitespace().any(|word| word == "raw") || words.contains("unpasteur")
}

/// It is salt, curing salt or brine.
fn salted(name: &str, stock: &Stock) -> bool {
    let words = format!("{name} {}", stock.description).to_lowercase();
    let mut words = words.split(|letter: char| !letter.is_alphabetic());
    stock.nitrite.is_some() || words.any(|word| ["salt", "salts", "brine", "cure"].contains(&word))
}

fn dried(stock: &Stock) -> bool {
    says(stock, &["dried", "dry"])
}

fn says(stock: &Stock, any: &[&str]) -> bool {
    let words = stock.description.to_lowercase();
    words.split(|letter: char| !letter.is_alphabetic()).any(|word| any.contains(&word))
}
