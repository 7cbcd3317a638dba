//! The food table: composition, species and usual state of each kind of food.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::entry::Entry;
use super::names::{NameIndex, nearest};

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

impl Species {
    /// As it stands in the tables and in `dwell.toml`.
    pub const ALL: [(Self, &'static str); 12] = [
        (Self::Beef, "beef"),
        (Self::Pork, "pork"),
        (Self::Lamb, "lamb"),
        (Self::Game, "game"),
        (Self::Poultry, "poultry"),
        (Self::Fish, "fish"),
        (Self::Shellfish, "shellfish"),
        (Self::Egg, "egg"),
        (Self::Dairy, "dairy"),
        (Self::Grain, "grain"),
        (Self::Vegetable, "vegetable"),
        (Self::Other, "other"),
    ];

    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(species, _)| *species == self).map_or("", |(_, word)| word)
    }
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

impl FoodState {
    /// As it stands in the tables and in `dwell.toml`.
    pub const ALL: [(Self, &'static str); 10] = [
        (Self::Intact, "intact"),
        (Self::Ground, "ground"),
        (Self::Tenderised, "tenderised"),
        (Self::Injected, "injected"),
        (Self::Liquid, "liquid"),
        (Self::Thick, "thick"),
        (Self::Cooked, "cooked"),
        (Self::Dough, "dough"),
        (Self::Baked, "baked"),
        (Self::Fat, "fat"),
    ];

    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(state, _)| *state == self).map_or("", |(_, word)| word)
    }
}

/// Shares of the edible part by mass, in per cent, as published (not normalised).
/// Carbohydrate includes fibre.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Composition {
    pub water_percent: f64,
    pub protein_percent: f64,
    pub fat_percent: f64,
    pub carbohydrate_percent: f64,
    pub fibre_percent: f64,
    pub ash_percent: f64,
}

/// What heat needs to know of a food.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Properties {
    /// The properties follow from what it is made of.
    Composition(Composition),
    /// They were measured.
    Measured { conductivity_w_mk: f64, density_kg_m3: f64, specific_heat_j_kgk: f64 },
}

/// One row of the food table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FoodKind {
    pub name: String,
    /// Other names of the same food. Common practice, no source.
    pub also: Vec<String>,
    /// What was chosen where one of those names could mean more than this food.
    pub also_note: Option<String>,
    pub species: Species,
    pub state: FoodState,
    #[serde(flatten)]
    pub properties: Properties,
    pub source_id: String,
    pub source_description: String,
    pub source_edition: String,
    pub status: String,
    pub note: Option<String>,
}

/// A row as it stands in the data file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    name: String,
    #[serde(default)]
    also: Vec<String>,
    also_note: Option<String>,
    species: Species,
    state: FoodState,
    water_percent: f64,
    protein_percent: f64,
    fat_percent: f64,
    carbohydrate_percent: f64,
    fibre_percent: f64,
    ash_percent: f64,
    source_id: String,
    source_description: String,
    source_edition: String,
    status: String,
    note: Option<String>,
}

impl From<Row> for FoodKind {
    fn from(row: Row) -> Self {
        Self {
            name: row.name,
            also: row.also,
            also_note: row.also_note,
            species: row.species,
            state: row.state,
            properties: Properties::Composition(Composition {
                water_percent: row.water_percent,
                protein_percent: row.protein_percent,
                fat_percent: row.fat_percent,
                carbohydrate_percent: row.carbohydrate_percent,
                fibre_percent: row.fibre_percent,
                ash_percent: row.ash_percent,
            }),
            source_id: row.source_id,
            source_description: row.source_description,
            source_edition: row.source_edition,
            status: row.status,
            note: row.note,
        }
    }
}

fn read(text: &'static str) -> FoodKind {
    let row: Row = toml::from_str(text).expect("a test reads every row of the embedded table");
    row.into()
}

/// All kinds of food that a cook may name.
#[derive(Debug, Clone)]
pub struct Foods {
    entries: Vec<Entry<FoodKind>>,
    index: NameIndex,
    /// Own rows with a fault.
    left_out: NameIndex,
}

impl Foods {
    /// The table that is built in.
    pub(super) fn embedded() -> Self {
        let mut foods =
            Self { entries: Vec::new(), index: NameIndex::default(), left_out: NameIndex::default() };
        for text in include_str!("data/foods.toml").split("[[food]]\n").skip(1) {
            foods.push(Entry::embedded(text, read));
        }
        foods
    }

    /// Lays own kinds over the table.
    pub(super) fn add(&mut self, own: Vec<FoodKind>) {
        for kind in own {
            let (name, also) = (kind.name.clone(), kind.also.clone());
            self.push(Entry::own(name, also, kind, read));
        }
    }

    fn push(&mut self, entry: Entry<FoodKind>) {
        for name in entry.also.iter().chain([&entry.name]) {
            self.index.insert(name, self.entries.len());
        }
        self.entries.push(entry);
    }

    /// Every kind, in the order of the table.
    pub fn kinds(&self) -> Vec<Arc<FoodKind>> {
        self.entries.iter().map(Entry::row).collect()
    }

    /// The kind called `name`: any letter case and order of words, with commas or without, one or
    /// many, by its trade name or the other side of the ocean's.
    pub fn find(&self, name: &str) -> Option<Arc<FoodKind>> {
        // The table gives the edible part, raw where it does not say cooked.
        let row = self.index.get_without(name, &["raw", "fresh", "boneless"])?;
        self.entries.get(row).map(Entry::row)
    }

    /// An own row of this name has a fault, which is said where it stands.
    pub(super) fn leave_out(&mut self, name: &str) {
        self.left_out.insert(name, 0);
    }

    /// Is this the name of an own row with a fault?
    pub fn is_left_out(&self, name: &str) -> bool {
        self.left_out.get(name).is_some()
    }

    /// The names nearest to one that is not in the table, the nearest first.
    pub fn suggest(&self, name: &str) -> Vec<&str> {
        nearest(name, self.entries.iter().map(|entry| (entry.name.as_str(), entry.also.as_slice())))
    }
}
