//! Phases: what happens to food between two moments.

mod ends;
mod order;
mod purpose;

pub use ends::{Check, Lasts, Test, Until};
pub use order::{Edge, Moment, Order, OrderBound};
pub use purpose::Purpose;

use super::kit::{KitId, Medium};
use super::stock::{Amount, ItemId, ShapeClauses};
use super::when::When;
use crate::quantity::{Duration, Scale, Share, Temperature, TemperatureDifference};
use crate::text::{Span, Spanned};

/// Index into [`Cook::phases`](super::Cook::phases).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PhaseId(pub u32);

/// A phase, or a serving (which is a phase like any other).
#[derive(Debug, Clone, PartialEq)]
pub struct Phase {
    /// `serve FOOD and FOOD` is named "serve FOOD and FOOD".
    pub name: String,
    pub name_span: Span,
    /// The header line.
    pub span: Span,
    /// The header and all lines of the block.
    pub block: Span,
    pub purpose: Purpose,
    /// `Some` in a serving.
    pub service: Option<Service>,
    pub placings: Vec<Placing>,
    /// Where the food is: written, else where it was; `None` on the table.
    pub place: Option<Spanned<KitId>>,
    pub becomes: Option<Becomes>,
    pub shape: ShapeClauses,
    /// The setting in force: written here, or kept from the phase before in the same kit.
    pub setting: Option<Setting>,
    pub lie_in: Option<LieIn>,
    pub moisture: Option<Spanned<Share>>,
    /// `fan` is `Some(true)`, `still` is `Some(false)`.
    pub fan: Option<Spanned<bool>>,
    pub smoke: Option<Smoke>,
    pub lasts: Lasts,
    /// The clause that says so; the header where none does.
    pub lasts_span: Span,
    /// Its pieces are done one after another: each is in there for a part of the time.
    pub in_turn: bool,
    pub until: Option<Until>,
    pub within: Option<Spanned<Duration>>,
    /// Checkpoints at the end (in a serving: throughout).
    pub checks: Vec<Spanned<Check>>,
    pub uses: Vec<Draw>,
    pub collects: Vec<Collect>,
    pub jobs: Vec<Job>,
    pub hands: Hands,
    pub orders: Vec<Order>,
    pub fills: Option<Spanned<Room>>,
    pub notes: Vec<Spanned<String>>,
    /// A line of this block had no effect: what is missing here only follows from that.
    pub damaged: bool,
}

/// When a serving is.
#[derive(Debug, Clone, PartialEq)]
pub enum Service {
    /// `at 18:30, up to 15 min late`: the cook decides within the lateness.
    At { at: Spanned<When>, late: Option<Duration> },
    /// `from 12:00 to 14:00`: hot and there throughout.
    Throughout { from: Spanned<When>, to: Spanned<When> },
    /// `guests between 12:30 and 14:00, up to 30 min late`: they decide.
    Guests { from: Spanned<When>, to: Spanned<When>, late: Option<Duration> },
    /// Nothing is said of the time.
    Unsaid,
}

/// A food, or a part of it, put somewhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Placing {
    pub item: ItemId,
    pub part: Part,
    pub span: Span,
    /// The phase that had this food before; `None` straight from the store.
    pub before: Option<PhaseId>,
}

/// How much of something.
#[derive(Debug, Clone, PartialEq)]
pub enum Part {
    /// Bare name in a placing; `all` in a draw.
    Whole,
    /// `half of`, `1/3 of`, `40 % of`.
    Fraction(f64),
    /// `the rest of`: what is left.
    Rest,
    Amount(Amount),
}

/// `use 40 g of salt`.
#[derive(Debug, Clone, PartialEq)]
pub struct Draw {
    pub item: ItemId,
    pub part: Part,
    pub span: Span,
    /// The phase the item last came out of (made, placed or collected); `None` from the store.
    pub before: Option<PhaseId>,
}

/// `becomes pulled is pulled pork`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Becomes {
    pub item: ItemId,
    pub span: Span,
}

/// `air 110 °C ± 5 °C`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setting {
    pub medium: Medium,
    pub temperature: Temperature,
    pub tolerance: Option<TemperatureDifference>,
    /// The scale it is typed in.
    pub scale: Scale,
    pub span: Span,
    /// `true` when it only goes on from the phase before.
    pub kept: bool,
}

/// What lies around the food.
#[derive(Debug, Clone, PartialEq)]
pub struct Cover {
    pub kind: CoverKind,
    /// The stock or stuff it is made of (`wrapped in paper`), as typed.
    pub stuff: Option<Spanned<String>>,
    pub span: Span,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CoverKind {
    Uncovered,
    Covered,
    Wrapped,
    Sealed,
    Bagged,
    VacuumBagged,
}

/// `with 120 ml of water`: the food lies in it.
#[derive(Debug, Clone, PartialEq)]
pub struct LieIn {
    pub amount: Amount,
    /// `None` for tap water.
    pub item: Option<ItemId>,
    pub span: Span,
}

/// `smoke from 150 g of beech`.
#[derive(Debug, Clone, PartialEq)]
pub struct Smoke {
    pub draw: Option<Draw>,
    pub span: Span,
}

/// `collect 250 ml of drippings from shoulder`.
#[derive(Debug, Clone, PartialEq)]
pub struct Collect {
    pub item: ItemId,
    pub amount: Amount,
    pub from: Option<ItemId>,
    pub span: Span,
}

/// `at end do "…"`, and when.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    pub call: Call,
    pub text: Spanned<String>,
    pub span: Span,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Call {
    /// At the start.
    Start,
    End,
    AtCore(Temperature),
    Every(Duration),
}

/// Who must be there.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Hands {
    /// Hands are needed this long from the start; infinite for the whole phase; zero for none.
    pub on: Duration,
    /// A duty that does not sleep.
    pub look_in: Option<Duration>,
    /// A clause says so, rather than the default for the purpose.
    pub written: Option<Span>,
}

/// How much room a food takes (`fills 2 shelves`).
#[derive(Debug, Clone, PartialEq)]
pub enum Room {
    Shelves(f64),
    Amount(Amount),
}
