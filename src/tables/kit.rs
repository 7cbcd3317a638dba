//! Kit classes: what a kind of kit can do unless a cook says otherwise.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::entry::Entry;
use super::names::{NameIndex, nearest};
use crate::cook::Medium;

/// The temperatures a class can be set to, in degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClassRange {
    pub medium: Medium,
    pub low_c: f64,
    pub high_c: f64,
}

/// What a class must not be used for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum UnfitUse {
    /// Food that goes in frozen.
    Frozen,
    Cook,
    Reheat,
}

/// One use a class is unfit for, and who says so.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Unfit {
    #[serde(rename = "use")]
    pub used_for: UnfitUse,
    /// Whole sentences, for a cook.
    pub because: String,
    pub source: String,
    pub status: String,
}

/// Where a figure comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FigureSource {
    pub source: String,
    pub status: String,
}

/// How well heat passes between a medium and the surface of food in it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Film {
    pub medium: Medium,
    pub low_w_m2k: f64,
    pub typical_w_m2k: f64,
    pub high_w_m2k: f64,
    /// Hot walls add to it.
    pub radiates: bool,
    pub source: String,
    pub status: String,
}

/// What a pan is when nothing says how hot it is, in degrees Celsius.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Unset {
    pub medium: Medium,
    pub low_c: f64,
    pub typical_c: f64,
    pub high_c: f64,
    pub source: String,
    pub status: String,
}

/// One class of kit. Keys end in their unit: `_k` kelvin, `_min` minutes, `_percent` of saturation,
/// `_w_m2k` watts per square metre and kelvin, `_k_min` kelvin per minute.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KitClass {
    pub name: String,
    /// Other names in the trade. Common practice, no source.
    #[serde(default)]
    pub also: Vec<String>,
    /// What such kit is, in a sentence.
    pub means: String,
    /// The built-in class that an own class goes by.
    #[serde(skip_deserializing)]
    pub base: Option<String>,
    #[serde(default)]
    pub ranges: Vec<ClassRange>,
    pub swing_k: Option<f64>,
    pub preheat_min: Option<f64>,
    pub cools_down_min: Option<f64>,
    pub moisture_percent: Option<f64>,
    /// The driest and the most humid that the hot air may be.
    pub moisture_range_percent: Option<[f64; 2]>,
    /// All heat to a dry surface, radiation and all: an own class that was measured.
    pub film_w_m2k: Option<f64>,
    #[serde(default)]
    pub films: Vec<Film>,
    pub unset: Option<Unset>,
    pub heats_k_min: Option<f64>,
    pub cools_k_min: Option<f64>,
    /// It is a place for food, not a thermometer.
    pub holds_food: bool,
    /// Food in it is cooled, not heated.
    #[serde(default)]
    pub cold: bool,
    /// It keeps a setting by itself, so that the setting has to be known.
    #[serde(default)]
    pub thermostat: bool,
    /// Every pan on it has a setting of its own.
    #[serde(default)]
    pub own_settings: bool,
    /// It can make smoke.
    #[serde(default)]
    pub smokes: bool,
    /// Smoke and fumes are led outside.
    #[serde(default)]
    pub vented: bool,
    #[serde(default)]
    pub unfit: Vec<Unfit>,
    pub source: String,
    pub status: String,
    /// The figures that have a source of their own, by key.
    #[serde(default)]
    pub sources: BTreeMap<String, FigureSource>,
}

impl KitClass {
    /// Where the figure under `key` comes from, and how well that is known.
    pub fn source_of(&self, key: &str) -> (&str, &str) {
        self.sources.get(key).map_or((&self.source, &self.status), |figure| (&figure.source, &figure.status))
    }

    /// The built-in class it is or goes by.
    pub fn base_name(&self) -> &str {
        self.base.as_deref().unwrap_or(&self.name)
    }

    pub fn range(&self, medium: Medium) -> Option<&ClassRange> {
        self.ranges.iter().find(|range| range.medium == medium)
    }
}

/// All classes of kit that a cook may name.
#[derive(Debug, Clone)]
pub struct KitClasses {
    entries: Vec<Entry<KitClass>>,
    index: NameIndex,
    /// Own rows with a fault.
    left_out: NameIndex,
}

const HEAD: &str = "[[class]]\n";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct KitFile {
    class: [KitClass; 1],
}

/// A block of the embedded table, with its own blocks inside.
fn read(text: &'static str) -> KitClass {
    let file: KitFile =
        toml::from_str(&format!("{HEAD}{text}")).expect("a test reads every row of the embedded table");
    let [class] = file.class;
    class
}

impl KitClasses {
    /// The table that is built in.
    pub(super) fn embedded() -> Self {
        let mut table =
            Self { entries: Vec::new(), index: NameIndex::default(), left_out: NameIndex::default() };
        for text in include_str!("data/kit.toml").split(HEAD).skip(1) {
            table.push(Entry::embedded(text, read));
        }
        table
    }

    /// Lays own classes over the table.
    pub(super) fn add(&mut self, own: Vec<KitClass>) {
        for class in own {
            self.push(Entry::own(class.name.clone(), class.also.clone(), class, read));
        }
    }

    fn push(&mut self, entry: Entry<KitClass>) {
        for name in entry.also.iter().chain([&entry.name]) {
            self.index.insert(name, self.entries.len());
        }
        self.entries.push(entry);
    }

    /// Every class, in the order of the table.
    pub fn classes(&self) -> Vec<Arc<KitClass>> {
        self.entries.iter().map(Entry::row).collect()
    }

    /// The class called `name`, in any letter case, or by its other name in the trade.
    pub fn find(&self, name: &str) -> Option<Arc<KitClass>> {
        self.index.get(name).and_then(|row| self.entries.get(row)).map(Entry::row)
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
