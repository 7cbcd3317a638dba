//! Clauses: one fact each.

use super::words::{Draw, Measure, MomentWords, WhenWords};
use crate::cook::{CoverKind, Edge, Medium, Structure};
use crate::text::Span;

/// One fact.
#[derive(Debug, Clone)]
pub struct Clause {
    pub span: Span,
    pub kind: ClauseKind,
}

/// Every clause of the language.
#[derive(Debug, Clone)]
pub enum ClauseKind {
    // The cook.
    Serves {
        people: Measure,
        each: Option<Measure>,
    },
    Rules(Span),
    About(Span),
    By(Span),
    AdaptedFrom(Span),
    Measures(Span),
    Elevation(Measure),
    VulnerableGuests,
    // Kit, and what a phase overrides.
    Setting {
        medium: Medium,
        measure: Measure,
    },
    Swing(Measure),
    Preheat(Measure),
    CoolsDown(Measure),
    Shelves(Measure),
    Holds(Measure),
    Moisture(Measure),
    Room(Measure),
    Vented,
    Programmable,
    Fan,
    Still,
    // Stock, and shape and state in a phase.
    Amount {
        measure: Measure,
        of: Option<Measure>,
        each: bool,
    },
    Thickness(Measure),
    Depth(Measure),
    Shape(Span),
    StartsAt(Measure),
    Frozen,
    Cooked,
    TrimLoss(Measure),
    CookedYield(Measure),
    Structure(Structure),
    Contains(Vec<Span>),
    Supplier(Span),
    OnHand(Measure),
    SameForAnyNumber,
    ToTaste,
    Nitrite(Measure),
    // A phase.
    Place {
        parts: Vec<Draw>,
        place: Span,
    },
    Becomes {
        name: Span,
        kind: Option<Span>,
    },
    Cover {
        kind: CoverKind,
        stuff: Option<Span>,
    },
    With {
        measure: Measure,
        name: Span,
    },
    Smoke(Draw),
    For(Measure),
    ForUpTo(Measure),
    ForAtLeast(Measure),
    Takes {
        measure: Measure,
        each: bool,
    },
    Until(Vec<Test>),
    Within(Measure),
    /// `expect` or a bare checkpoint; in a `food` block, what it starts with.
    Check {
        what: Checked,
        measure: Measure,
        bound: Option<Bound>,
        expect: bool,
    },
    Use(Vec<Draw>),
    Collect {
        measure: Measure,
        name: Span,
        kind: Option<Span>,
        from: Option<Span>,
    },
    Do(Span),
    AtEndDo(Span),
    AtCoreDo {
        core: Measure,
        text: Span,
    },
    EveryDo {
        every: Measure,
        text: Span,
    },
    HandsOn(Option<Measure>),
    LookIn(Measure),
    Unattended,
    Order {
        edge: Edge,
        nearness: Nearness,
        moment: MomentWords,
    },
    Fills(Measure),
    Note(Span),
    Allow {
        code: Span,
        because: Option<Span>,
    },
    // A serving.
    At(WhenWords),
    UpToLate(Measure),
    FromTo(WhenWords, WhenWords),
    Guests(WhenWords, WhenWords),
    // The crew.
    Asleep(Span, Span),
    Away(Span, Span),
}

/// How an order clause ties an edge to its moment.
#[derive(Debug, Clone)]
pub enum Nearness {
    When,
    After,
    NoLater,
    Before { by: Measure, at_least: bool },
    AfterBy { by: Measure, at_least: bool },
    OnDay,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Checked {
    Core,
    Surface,
    Weight,
    Ph,
    Salt,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    OrMore,
    OrLess,
}

#[derive(Debug, Clone)]
pub enum Test {
    Figure { what: Checked, measure: Measure },
    Spoken(Span),
}
