//! The food table: composition, species and usual state of each kind of food.

use std::sync::{Arc, OnceLock};

use serde::{Deserialize, Serialize};

/// What an animal or plant a food comes from; selects the rules that judge it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Species {
    Beef,
    Pork,
    Lamb,
    Game,
    Poultry,
    Fish,
    Shellfish,
    Egg,
    Dairy,
    Grain,
    Vegetable,
    Other,
}

/// The state a kind is usually in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum FoodState {
    /// Raw, a whole piece.
    Intact,
    /// Raw, minced or mixed through.
    Ground,
    /// Pours and convects.
    Liquid,
    /// Stirred, hardly convects.
    Thick,
    /// Cooked or ready to eat, solid.
    Cooked,
    Dough,
    Baked,
    /// Melts.
    Fat,
    /// Raw, needled or cut to make it tender.
    Tenderised,
    /// Raw, with brine put into it.
    Injected,
}

/// Shares of the edible part by mass, in per cent, as published (not normalised).
/// Carbohydrate includes fibre.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Composition {
    pub water_percent: f64,
    pub protein_percent: f64,
    pub fat_percent: f64,
    pub carbohydrate_percent: f64,
    pub fibre_percent: f64,
    pub ash_percent: f64,
}

/// One row of the food table.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FoodKind {
    pub name: String,
    pub species: Species,
    #[serde(rename = "default_state")]
    pub state: FoodState,
    #[serde(flatten)]
    pub composition: Composition,
    pub source_id: String,
    pub source_description: String,
    pub source_edition: String,
    pub status: String,
    #[serde(default)]
    pub note: Option<String>,
}

/// All kinds of food that a cook may name.
#[derive(Debug)]
pub struct Foods {
    kinds: Vec<Arc<FoodKind>>,
}

#[derive(Deserialize)]
struct FoodFile {
    food: Vec<FoodKind>,
}

impl Foods {
    /// The table that is built in.
    pub fn built_in() -> &'static Self {
        static TABLE: OnceLock<Foods> = OnceLock::new();
        TABLE.get_or_init(|| {
            let file: FoodFile = toml::from_str(include_str!("data/foods.toml"))
                .expect("the embedded food table is read by a test");
            Foods { kinds: file.food.into_iter().map(Arc::new).collect() }
        })
    }

    pub fn kinds(&self) -> &[Arc<FoodKind>] {
        &self.kinds
    }

    /// The kind called `name`, in any letter case, commas or not.
    pub fn find(&self, name: &str) -> Option<Arc<FoodKind>> {
        self.kinds.iter().find(|kind| kind.name.eq_ignore_ascii_case(name)).cloned()
    }
}
