//! The typed cook: the value in the middle of the house.
//!
//! Names are resolved, figures are SI, and every part still points into the text. Whatever this type
//! has settled cannot be unsettled by a later stage. Stages before it ([`crate::syntax`]) know only
//! text; stages after it ([`crate::ledger`], [`crate::kit`], [`crate::safety`], [`crate::timing`]) are
//! pure functions of it.

mod kit;
mod phase;
mod stock;
mod when;

pub use kit::{Capacity, Kit, KitId, Medium, MediumRange};
pub use phase::{
    Becomes, Call, Check, Collect, Cover, CoverKind, Draw, Edge, Hands, Job, Lasts, LieIn, Moment, Order,
    OrderBound, Part, Phase, PhaseId, Placing, Purpose, Room, Service, Setting, Smoke, Test, Until,
};
pub use stock::{
    Allergen, Amount, Form, Item, ItemId, Origin, Pieces, ShapeClauses, StateWord, Stock, Structure,
};
pub use when::{Crew, Day, DayTime, Happened, When};

use crate::quantity::{Length, Scale};
use crate::text::{FileId, Span, Spanned};

/// What a file is.
#[derive(Debug)]
pub enum Document {
    Cook(Box<Cook>),
    Menu(Box<Menu>),
    /// A file that holds only kit, to be read by others.
    Kitchen(Vec<Kit>),
}

/// One cook.
#[derive(Debug)]
pub struct Cook {
    pub file: FileId,
    pub title: Spanned<String>,
    pub about: Option<Spanned<String>>,
    pub by: Option<Spanned<String>>,
    pub adapted_from: Option<Spanned<String>>,
    pub serves: Option<Serves>,
    /// The rule set the writer names.
    pub rules: Option<Spanned<String>>,
    pub vulnerable_guests: Option<Span>,
    pub elevation: Option<Spanned<Length>>,
    /// The scale most of the file's temperatures are written in.
    pub scale: Scale,
    pub crew: Option<Crew>,
    pub kit: Vec<Kit>,
    /// Everything that is ever in the store: bought, made and collected, in order of appearance.
    pub items: Vec<Item>,
    /// Phases and servings, in the order of the file.
    pub phases: Vec<Phase>,
    pub notes: Vec<Spanned<String>>,
    pub allows: Vec<Allow>,
}

/// `serves 16 with 170 g each`.
#[derive(Debug, Clone, PartialEq)]
pub struct Serves {
    pub people: u32,
    pub each: Option<Spanned<Amount>>,
    pub span: Span,
}

/// `allow CODE because "…"`.
#[derive(Debug, Clone, PartialEq)]
pub struct Allow {
    pub code: Spanned<crate::findings::Code>,
    pub because: String,
    /// The whole clause.
    pub span: Span,
    /// Which phase it stands in; `None` in the other blocks.
    pub phase: Option<PhaseId>,
    /// The block whose findings it silences.
    pub block: Span,
}

/// A meal of several cooks that share kit and hands.
#[derive(Debug)]
pub struct Menu {
    pub file: FileId,
    pub title: Spanned<String>,
    pub rules: Option<Spanned<String>>,
    pub serve: Option<Spanned<When>>,
    pub kit: Vec<Kit>,
    pub crew: Option<Crew>,
    pub dishes: Vec<Dish>,
}

/// `dish "FILE" for N, at WHEN`.
#[derive(Debug)]
pub struct Dish {
    pub span: Span,
    pub serves: Option<u32>,
    /// When this course is served, where it is not with the others.
    pub at: Option<Spanned<When>>,
    pub cook: Cook,
}

impl Cook {
    pub fn phase(&self, id: PhaseId) -> &Phase {
        &self.phases[id.0 as usize]
    }

    pub fn item(&self, id: ItemId) -> &Item {
        &self.items[id.0 as usize]
    }

    pub fn kit(&self, id: KitId) -> &Kit {
        &self.kit[id.0 as usize]
    }

    /// Phases with their ids, in the order of the file.
    pub fn phases(&self) -> impl Iterator<Item = (PhaseId, &Phase)> {
        self.phases.iter().enumerate().map(|(n, phase)| (PhaseId(n as u32), phase))
    }

    /// Items with their ids, in order of appearance.
    pub fn items(&self) -> impl Iterator<Item = (ItemId, &Item)> {
        self.items.iter().enumerate().map(|(n, item)| (ItemId(n as u32), item))
    }
}
