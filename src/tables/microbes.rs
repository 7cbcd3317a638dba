//! The table of microbes: how fast heat kills each and how fast warmth lets it grow.

use std::sync::OnceLock;

use serde::Deserialize;

use super::{FoodState, Species};

/// The whole table. Read when somebody first asks for it.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Microbes {
    pub credit: Credit,
    pub ceiling: Ceiling,
    outside: Outside,
    #[serde(rename = "organism")]
    pub organisms: Vec<Organism>,
}

/// From where on killing counts.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Credit {
    /// °C.
    pub min_c: f64,
    pub source: String,
    pub status: String,
}

/// What no population exceeds.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ceiling {
    /// log10 above the start.
    pub log10: f64,
    pub source: String,
    pub status: String,
}

/// Food that the figures of growth were not measured in.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
struct Outside {
    kinds: Vec<String>,
}

/// One organism.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Organism {
    pub name: String,
    pub survives: Option<Survives>,
    /// Any of these kinds of food.
    pub applies: Vec<Of>,
    pub applies_note: Option<String>,
    /// None where no figure is good enough to be used.
    #[serde(default)]
    pub lethality: Vec<LethalitySet>,
    pub growth: Growth,
    /// None where nobody has published one.
    pub limit: Option<GrowthLimit>,
}

/// The most growth that is published as tolerable.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GrowthLimit {
    pub log10: f64,
    pub counts: Counts,
    pub source: String,
    pub status: String,
}

/// Which growth a limit is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Counts {
    /// All of it: heat does not undo it.
    Always,
    /// At its highest since the last heat that leaves nothing of it.
    AfterHeat,
    /// Since that heat, as it is eaten.
    WhenEaten,
}

/// What heat does not undo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Survives {
    Spores,
    Toxin,
}

/// Kinds of food, by species and state; a list left out means any.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Of {
    species: Option<Vec<Species>>,
    states: Option<Vec<FoodState>>,
}

impl Of {
    pub fn includes(&self, species: Species, state: FoodState) -> bool {
        self.species.as_ref().is_none_or(|listed| listed.contains(&species))
            && self.states.as_ref().is_none_or(|listed| listed.contains(&state))
    }
}

/// How fast heat kills, in some foods.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LethalitySet {
    pub of: Of,
    /// In rising order of `from_c`.
    pub lines: Vec<DeathLine>,
    pub source: String,
    pub status: String,
    pub note: Option<String>,
}

/// A straight line on a plot of log D against temperature.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DeathLine {
    /// It holds from here up to where the next line starts, °C; the first holds below as well.
    pub from_c: Option<f64>,
    /// Minutes at `t_ref_c` for one log10 reduction.
    pub d_ref_min: f64,
    /// °C.
    pub t_ref_c: f64,
    /// Kelvin that change D tenfold.
    pub z_c: f64,
}

/// How fast it grows.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Growth {
    /// Natural logarithms an hour, at `t_opt_c`.
    pub mu_opt_per_h: f64,
    /// No growth at or below, °C.
    pub t_min_c: f64,
    /// Fastest here, °C.
    pub t_opt_c: f64,
    /// No growth at or above, °C.
    pub t_max_c: f64,
    /// How ready the cells are at the start; `None`: ready, no wait is credited.
    pub q0: Option<f64>,
    pub source: String,
    pub status: String,
    pub note: Option<String>,
}

impl Microbes {
    /// A kind of food whose salt or acid is outside what growth was measured in.
    pub fn not_in(&self, kind: &str) -> bool {
        self.outside.kinds.iter().any(|listed| listed == kind)
    }

    /// The table that is built in.
    pub fn built_in() -> &'static Self {
        static MICROBES: OnceLock<Microbes> = OnceLock::new();
        MICROBES.get_or_init(|| {
            toml::from_str(include_str!("data/microbes.toml")).expect("a test reads the embedded table")
        })
    }
}
