//! The store: food and ingredients bought, foods made, and what is collected on the way.

use std::sync::Arc;

use super::phase::{Cover, PhaseId};
use crate::quantity::{Length, Mass, Share, Temperature, Volume, plain_number};
use crate::tables::FoodKind;
use crate::text::{Span, Spanned};

/// Index into [`Cook::items`](super::Cook::items).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ItemId(pub u32);

/// An amount of something. `word` is what a bare count counts ("buns", "vacuum bags"), as typed.
#[derive(Debug, Clone, PartialEq)]
pub enum Amount {
    Mass(Mass),
    Volume(Volume),
    Length(Length),
    Count { number: f64, word: String },
}

impl Amount {
    /// As people read it, in the units it was written in: `70 g`, `250 ml`, `1.6 m`, `7 lb`, `8 vacuum
    /// bags`.
    pub fn show(&self) -> String {
        match self {
            Self::Mass(mass) => mass.show(),
            Self::Volume(volume) => volume.show(),
            Self::Length(length) => length.show(),
            Self::Count { number, word } => {
                let number = plain_number(*number, 2);
                if word.is_empty() { number } else { format!("{number} {word}") }
            }
        }
    }

    /// As [`show`](Self::show), never less than it is: for who buys it.
    pub fn show_enough(&self) -> String {
        match self {
            Self::Mass(mass) => mass.show_enough(),
            Self::Volume(volume) => volume.show_enough(),
            Self::Length(length) => length.show_enough(),
            Self::Count { .. } => self.show(),
        }
    }

    /// This much, `factor` times.
    pub fn times(&self, factor: f64) -> Self {
        match self {
            Self::Mass(mass) => Self::Mass(*mass * factor),
            Self::Volume(volume) => Self::Volume(*volume * factor),
            Self::Length(length) => Self::Length(*length * factor),
            Self::Count { number, word } => Self::Count { number: number * factor, word: word.clone() },
        }
    }
}

/// `2 pieces of 3.2 kg`.
#[derive(Debug, Clone, PartialEq)]
pub struct Pieces {
    pub count: f64,
    /// As typed: "pieces", "trays".
    pub word: String,
    /// What one of them holds: a mass or a volume.
    pub each: Amount,
    pub span: Span,
}

/// One thing in the store.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    pub name: String,
    /// Where the name is declared.
    pub span: Span,
    /// The row of the food table, where one is named; made foods may have none.
    pub kind: Option<Spanned<Arc<FoodKind>>>,
    pub origin: Origin,
}

/// Where an item comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum Origin {
    /// `food NAME is KIND`: its temperature matters, and it can be placed.
    Food(Box<Stock>),
    /// `ingredient NAME is …`: only drawn on.
    Ingredient(Box<Stock>),
    /// `becomes NAME`: made as this phase starts.
    Made(PhaseId),
    /// `collect … of NAME`: made as this phase ends, from `from` where one food is meant.
    Collected { phase: PhaseId, from: Option<ItemId> },
    /// Water, ice and foil, which need no stock line.
    OnTap,
}

/// What is said of bought stock.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stock {
    /// The words after the amount ("coarse sea salt") or the kind as typed.
    pub description: String,
    /// The total, pieces multiplied out; `None` for `to taste`.
    pub amount: Option<Spanned<Amount>>,
    pub shape: ShapeClauses,
    pub starts_at: Option<Spanned<Temperature>>,
    pub frozen: Option<Span>,
    pub cooked: Option<Span>,
    pub trim_loss: Option<Spanned<Share>>,
    pub cooked_yield: Option<Spanned<Share>>,
    pub contains: Vec<Spanned<Allergen>>,
    pub supplier: Option<Spanned<String>>,
    pub on_hand: Option<Spanned<Amount>>,
    pub same_for_any_number: Option<Span>,
    pub to_taste: Option<Span>,
    pub nitrite: Option<Spanned<Share>>,
}

/// Clauses of shape and state. In a phase they hold from its start until said otherwise.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ShapeClauses {
    pub pieces: Option<Pieces>,
    /// A plain amount (`21 kg`); in a phase with `becomes`, the mass at its end.
    pub amount: Option<Spanned<Amount>>,
    pub thickness: Option<Spanned<Length>>,
    pub thickness_tolerance: Option<Length>,
    pub depth: Option<Spanned<Length>>,
    pub form: Option<Spanned<Form>>,
    pub structure: Option<Spanned<Structure>>,
    /// In a phase these two are checkpoints at its end.
    pub salt: Option<Spanned<Share>>,
    pub ph: Option<Spanned<f64>>,
    pub covers: Vec<Cover>,
}

/// `shape slab`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Form {
    Slab,
    Cylinder,
    Ball,
}

impl Form {
    /// As they stand after `shape`.
    pub const ALL: [(Self, &'static str); 3] =
        [(Self::Slab, "slab"), (Self::Cylinder, "cylinder"), (Self::Ball, "ball")];

    /// In any letter case.
    pub fn find(word: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, known)| known.eq_ignore_ascii_case(word)).map(|(form, _)| *form)
    }
}

/// What has been done to the muscle; decides which cooking table applies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Structure {
    Intact,
    Ground,
    Tenderised,
    Injected,
}

/// Words for how stock is bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum StateWord {
    Frozen,
    Cooked,
}

/// The closed list of allergens: the fourteen of Regulation (EU) No 1169/2011, annex II.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Allergen {
    Gluten,
    Crustaceans,
    Egg,
    Fish,
    Peanuts,
    Soya,
    Milk,
    Nuts,
    Celery,
    Mustard,
    Sesame,
    Sulphites,
    Lupin,
    Molluscs,
}

impl Allergen {
    pub const ALL: [(Self, &'static str); 14] = [
        (Self::Gluten, "gluten"),
        (Self::Crustaceans, "crustaceans"),
        (Self::Egg, "egg"),
        (Self::Fish, "fish"),
        (Self::Peanuts, "peanuts"),
        (Self::Soya, "soya"),
        (Self::Milk, "milk"),
        (Self::Nuts, "nuts"),
        (Self::Celery, "celery"),
        (Self::Mustard, "mustard"),
        (Self::Sesame, "sesame"),
        (Self::Sulphites, "sulphites"),
        (Self::Lupin, "lupin"),
        (Self::Molluscs, "molluscs"),
    ];

    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(allergen, _)| *allergen == self).map_or("", |(_, word)| word)
    }

    pub fn find(word: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, known)| *known == word).map(|(allergen, _)| *allergen)
    }
}
