//! What bought food is, before anything happens to it: raw or ready, and how it keeps.

use std::sync::Arc;

use super::lot::Keeping;
use crate::cook::{Item, Stock, Structure};
use crate::tables::{FoodKind, FoodState, Species, Tables, pantry};

pub(super) fn keeping(kind: &FoodKind) -> Keeping {
    match (kind.state, kind.species) {
        (FoodState::Baked | FoodState::Fat, _) => Keeping::Dry,
        (FoodState::Dough, _) => Keeping::Dough,
        (_, Species::Other) => Keeping::Dry,
        // Pressed and cooked in the making, though it is sold uncooked.
        (FoodState::Intact, Species::Vegetable) if kind.name.contains("tofu") => Keeping::Controlled,
        (FoodState::Intact, Species::Vegetable | Species::Grain) => Keeping::RawPlant,
        _ => Keeping::Controlled,
    }
}

/// How the muscle is, where the food is raw: animal or plant.
pub(super) fn raw_structure(kind: &FoodKind) -> Option<Structure> {
    let structure = match kind.state {
        FoodState::Intact => Structure::Intact,
        FoodState::Ground => Structure::Ground,
        FoodState::Tenderised => Structure::Tenderised,
        FoodState::Injected => Structure::Injected,
        FoodState::Liquid if kind.species == Species::Egg => Structure::Ground,
        FoodState::Thick | FoodState::Liquid if kind.name.contains("raw") => Structure::Ground,
        _ => return None,
    };
    let ready = matches!(kind.species, Species::Dairy | Species::Other);
    (!ready && keeping(kind) != Keeping::Dry).then_some(structure)
}

/// It pours and keeps the air out: oil, and no butter.
pub(super) fn is_oil(kind: &FoodKind) -> bool {
    kind.state == FoodState::Fat && kind.name.contains("oil")
}

/// What the words of an ingredient turn out to be.
pub(super) enum Recognised {
    /// A row of the food table.
    Kind(Arc<FoodKind>),
    /// A raw plant that the table has no row for.
    Plant,
    /// Stock that keeps in a cupboard, or no food at all.
    Pantry,
}

/// Words that stand between two foods.
const JOINERS: [&str; 8] = ["and", "in", "with", "on", "or", "plus", "&", "under"];

/// Names of foods are no longer than this; what stands before them describes.
const LONGEST_NAME: usize = 6;

/// The words that say what stock is: its description, else its name.
pub(super) fn words_of<'c>(item: &'c Item, stock: &'c Stock) -> &'c str {
    if stock.description.trim().is_empty() { &item.name } else { &stock.description }
}

/// The food that the words of an ingredient name: all of them, or the last ones ("large eggs"). Where
/// they name several, the animal one counts ("tuna in oil"); all that are joined have to be known.
pub(super) fn recognise(words: &str) -> Option<Recognised> {
    let mut first = None;
    for (nth, part) in words.split(',').enumerate() {
        match recognise_part(part) {
            Some(Recognised::Kind(kind)) if is_animal(&kind) => return Some(Recognised::Kind(kind)),
            found if nth == 0 => first = found,
            // "onions, quartered, roots on": what follows need not be a food.
            _ => {}
        }
    }
    // Of several foods that are joined, one is not known: what the last word says of it is nothing.
    let all: Vec<&str> = words.split([',', ' ']).filter(|word| !word.is_empty()).collect();
    let joined = all.iter().any(|word| JOINERS.contains(&word.to_lowercase().as_str()));
    first.or_else(|| last_words(&all).filter(|_| !joined))
}

fn recognise_part(part: &str) -> Option<Recognised> {
    let lower = part.to_lowercase();
    // "bones for stock" are bones.
    let words: Vec<&str> = lower.split_whitespace().take_while(|word| *word != "for").collect();
    let mut worst = None;
    for piece in words.split(|word| JOINERS.contains(word)) {
        match (last_words(piece)?, &worst) {
            (Recognised::Kind(kind), _) if is_animal(&kind) => return Some(Recognised::Kind(kind)),
            (found @ Recognised::Kind(_), Some(Recognised::Plant | Recognised::Pantry))
            | (found @ Recognised::Plant, Some(Recognised::Pantry))
            | (found, None) => worst = Some(found),
            _ => {}
        }
    }
    worst
}

fn last_words(words: &[&str]) -> Option<Recognised> {
    let tables = Tables::built_in();
    (words.len().saturating_sub(LONGEST_NAME)..words.len()).find_map(|from| {
        let (before, name) = words.split_at_checked(from)?;
        let name = name.join(" ");
        let found = if pantry::holds(&name) && tables.foods.find(&name).is_none() {
            if pantry::is_plant(&name) { Recognised::Plant } else { Recognised::Pantry }
        } else {
            Recognised::Kind(tables.foods.find(&name)?)
        };
        let animal = matches!(&found, Recognised::Kind(kind) if is_animal(kind));
        // "beef chilli" is no chilli.
        let hides = !animal && before.iter().any(|word| pantry::speaks_of_animals(word));
        (!hides).then_some(found)
    })
}

fn is_animal(kind: &FoodKind) -> bool {
    !matches!(kind.species, Species::Vegetable | Species::Grain | Species::Other)
}
