//! The blocks that a clause belongs in, for those that belong in more than one or in one that many do.

pub const COOK: &[&str] = &["cook"];
pub const KIT: &[&str] = &["kit"];
pub const FOOD: &[&str] = &["food"];
pub const INGREDIENT: &[&str] = &["ingredient"];
pub const STOCK: &[&str] = &["food", "ingredient"];
pub const PHASE: &[&str] = &["phase"];
/// A serving is a phase like any other.
pub const SERVED: &[&str] = &["phase", "serve"];
pub const FOOD_ANYWHERE: &[&str] = &["food", "phase", "serve"];
pub const SERVE: &[&str] = &["serve"];
pub const CREW: &[&str] = &["crew"];
