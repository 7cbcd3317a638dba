//! Published and common-practice tables, embedded as data: foods, kit classes, rule sets.

mod foods;
mod kit;

pub use foods::{Composition, FoodKind, FoodState, Foods, Species};
pub use kit::{ClassRange, KitClass, KitClasses};
