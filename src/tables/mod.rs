//! Published and common-practice tables, embedded as data: foods, kit classes, rule sets.
//!
//! A folder's `dwell.toml` lays rows of its own over them.

pub mod allergens;
pub mod cautions;
mod entry;
mod foods;
mod kit;
pub mod microbes;
mod names;
pub mod pantry;
mod project;
mod rules;

pub use foods::{Composition, FoodKind, FoodState, Foods, Properties, Species};
pub use kit::{ClassRange, FigureSource, Film, KitClass, KitClasses, Unfit, UnfitUse, Unset};
pub use project::{LeftOut, Project};
pub use rules::{
    ASSUMED, Aim, Band, Clock, Count, Course, CureWay, Demand, FoodClass, Limit, Point, Rule, RuleSet,
    RuleSets, Served, Side, Status, Subject,
};

use std::sync::OnceLock;

/// The tables in force for one run.
#[derive(Debug, Clone)]
pub struct Tables {
    pub foods: Foods,
    pub kit: KitClasses,
}

impl Tables {
    /// The tables without anybody's own rows.
    pub fn built_in() -> &'static Self {
        static TABLES: OnceLock<Tables> = OnceLock::new();
        TABLES.get_or_init(|| Self { foods: Foods::embedded(), kit: KitClasses::embedded() })
    }

    /// The built-in tables with own rows laid over them; an own row hides a built-in one of its name.
    pub fn with(foods: Vec<FoodKind>, kit: Vec<KitClass>, left_out: &LeftOut) -> Self {
        let mut tables = Self::built_in().clone();
        tables.foods.add(foods);
        tables.kit.add(kit);
        left_out.foods.iter().for_each(|name| tables.foods.leave_out(name));
        left_out.kit.iter().for_each(|name| tables.kit.leave_out(name));
        tables
    }
}
