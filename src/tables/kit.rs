//! Kit classes: what a kind of kit can do unless a cook says otherwise.

use std::sync::{Arc, OnceLock};

use serde::Deserialize;

use crate::cook::Medium;

/// The temperatures a class can be set to, in degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
pub struct ClassRange {
    pub medium: Medium,
    pub low_c: f64,
    pub high_c: f64,
}

/// One class of kit.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct KitClass {
    pub name: String,
    #[serde(default)]
    pub ranges: Vec<ClassRange>,
    #[serde(default)]
    pub swing_k: Option<f64>,
    #[serde(default)]
    pub preheat_min: Option<f64>,
    #[serde(default)]
    pub cools_down_min: Option<f64>,
    #[serde(default)]
    pub shelves: Option<f64>,
    /// It is a place for food, not a thermometer.
    pub holds_food: bool,
    /// Food in it is cooled, not heated.
    #[serde(default)]
    pub cold: bool,
    pub source: String,
}

/// All classes of kit that a cook may name.
#[derive(Debug)]
pub struct KitClasses {
    classes: Vec<Arc<KitClass>>,
}

#[derive(Deserialize)]
struct KitFile {
    class: Vec<KitClass>,
}

impl KitClasses {
    /// The table that is built in.
    pub fn built_in() -> &'static Self {
        static TABLE: OnceLock<KitClasses> = OnceLock::new();
        TABLE.get_or_init(|| {
            let file: KitFile = toml::from_str(include_str!("data/kit.toml"))
                .expect("the embedded kit table is read by a test");
            KitClasses { classes: file.class.into_iter().map(Arc::new).collect() }
        })
    }

    pub fn classes(&self) -> &[Arc<KitClass>] {
        &self.classes
    }

    /// The class called `name`, in any letter case.
    pub fn find(&self, name: &str) -> Option<Arc<KitClass>> {
        self.classes.iter().find(|class| class.name.eq_ignore_ascii_case(name)).cloned()
    }
}
