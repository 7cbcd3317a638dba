//! What bought food is, before anything happens to it: raw or ready, and how it keeps.

use std::sync::Arc;

use super::lot::Keeping;
use crate::cook::Structure;
use crate::tables::{FoodKind, FoodState, Species, Tables};

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

/// The food that the words of an ingredient name: all of them, or the last ones ("large eggs").
pub(super) fn described(description: &str) -> Option<Arc<FoodKind>> {
    let words: Vec<&str> =
        description.split(|c: char| c.is_whitespace() || c == ',').filter(|w| !w.is_empty()).collect();
    (0..words.len()).find_map(|from| Tables::built_in().foods.find(&words.get(from..)?.join(" ")))
}
