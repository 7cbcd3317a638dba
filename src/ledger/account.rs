//! What the ledger hands on.

use super::stuff::{Stuff, Weight};
use crate::cook::{Amount, ItemId, PhaseId};
use crate::quantity::Mass;

/// The amounts of everything in a cook.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ledger {
    /// One for each phase, in the order of [`Cook::phases`](crate::cook::Cook::phases).
    pub phases: Vec<PhaseAccount>,
    /// One for each item, in the order of [`Cook::items`](crate::cook::Cook::items).
    pub items: Vec<ItemAccount>,
    pub serving: ServingTotal,
}

/// What goes into a phase and comes out of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PhaseAccount {
    /// The foods that are in it from its start to its end; of parents that become one food, that food.
    pub foods: Vec<FoodAccount>,
    /// What is placed in it, before anything becomes something else.
    pub placed: Vec<Drawn>,
    /// What is drawn from the store: `use`, `smoke from`, `with`.
    pub drawn: Vec<Drawn>,
    pub collected: Vec<Drawn>,
    /// What is cut off as the phase starts, before anything else.
    pub trimmed: Vec<(ItemId, Mass)>,
    /// `Some` in a serving.
    pub served: Option<Served>,
}

/// One food in one phase.
#[derive(Debug, Clone, PartialEq)]
pub struct FoodAccount {
    pub item: ItemId,
    /// What there is as the phase starts, trimming done.
    pub start: Option<Weight>,
    /// What there is as it ends, after anything is collected.
    pub end: Option<Weight>,
    /// What has gone from start to end: driven off, as a rule. Below zero where the food gains (water in
    /// a dough), or where juices that the ledger had written off are collected.
    pub lost: Mass,
    /// How many pieces there are, and what they are called.
    pub pieces: Option<(f64, String)>,
}

/// An amount that changes hands.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    pub item: ItemId,
    /// As people measure it; `None` for `to taste`, and where it is not known.
    pub amount: Option<Amount>,
    pub weight: Option<Weight>,
    /// Its mass becomes part of a food.
    pub joins: bool,
}

/// What a serving takes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Served {
    pub foods: Vec<(ItemId, Option<Weight>)>,
    /// Where a food is in pieces, how many are eaten, and what they are called.
    pub counts: Vec<(ItemId, f64, String)>,
}

/// What all servings give, beside what was promised.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ServingTotal {
    pub served: Option<Weight>,
    /// `serves N with Q each`: N × Q.
    pub promised: Option<Weight>,
}

/// One item over the whole cook.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ItemAccount {
    /// What was bought, made or collected.
    pub came: Stuff,
    /// What remains after the last phase, in every measure that is known of it.
    pub left: Stuff,
    /// The share of it that remains, 0 to 1.
    pub left_share: f64,
    /// What dividing it left beside the pieces.
    pub beside: Mass,
}

impl Ledger {
    pub fn phase(&self, id: PhaseId) -> &PhaseAccount {
        &self.phases[id.0 as usize]
    }

    pub fn item(&self, id: ItemId) -> &ItemAccount {
        &self.items[id.0 as usize]
    }
}
