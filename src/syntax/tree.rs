//! The tree: lines, and the clauses in them, as spans into the text.
//!
//! Figures are read as numbers; whether a unit exists and fits is for the next stage to say.

use std::ops::Range;

use crate::cook::{CoverKind, Edge, Medium, Structure};
use crate::text::{FileId, Span};

/// A file as lines. Concatenating [`Tree::whole`] over all lines gives the file back.
#[derive(Debug, Default)]
pub struct Tree {
    pub file: FileId,
    pub lines: Vec<Line>,
    /// The clauses of all lines, in order; each line holds a range of them.
    pub clauses: Vec<Clause>,
    pub heads: Vec<Head>,
}

/// One line of the file.
#[derive(Debug, Clone)]
pub struct Line {
    /// Without the bytes that end the line.
    pub span: Span,
    /// Where the next line starts.
    pub next: u32,
    pub kind: LineKind,
    pub comment: Option<Span>,
}

#[derive(Debug, Clone, PartialEq)]
pub enum LineKind {
    /// Nothing, or only a comment.
    Blank,
    /// Clauses, after a block head where there is one.
    Read { head: Option<u32>, clauses: Range<u32> },
    /// It could not be read, and has no effect. `block` is the word of the block that it starts;
    /// `name` is the word after it.
    Bad { block: Option<Span>, name: Option<Span> },
}

/// The line that opens a block.
#[derive(Debug, Clone)]
pub struct Head {
    pub span: Span,
    pub kind: HeadKind,
}

#[derive(Debug, Clone)]
pub enum HeadKind {
    Edition { number: Span },
    Cook { title: Span },
    Menu { title: Span },
    KitFrom { file: Span },
    Kit { name: Span, class: Span },
    Food { name: Span, kind: Span, quoted: bool },
    Ingredient { name: Span, amount: Option<Measure>, words: Option<Span>, text: Option<Span> },
    Phase { name: Span, purpose: Option<Span> },
    Serve { parts: Vec<Draw> },
    ServeMenu { when: WhenWords },
    Crew,
    Dish { file: Span, serves: Option<Measure> },
}

/// One fact.
#[derive(Debug, Clone)]
pub struct Clause {
    pub span: Span,
    pub kind: ClauseKind,
}

/// Figures as typed: `1 h 30 min to 2 h`, `110 °C (230 °F) ± 5 °C`.
#[derive(Debug, Clone, Default)]
pub struct Measure {
    pub span: Span,
    /// Low end, high end, twin (low and high) and tolerance, one after the other.
    pub figures: Vec<Figure>,
    pub low: u8,
    pub high: u8,
    pub twin: u8,
    pub twin_high: u8,
    pub tolerance: u8,
}

impl Measure {
    pub fn low(&self) -> &[Figure] {
        self.part(0, self.low)
    }

    pub fn high(&self) -> &[Figure] {
        self.part(self.low, self.high)
    }

    pub fn twin(&self) -> &[Figure] {
        self.part(self.low + self.high, self.twin)
    }

    pub fn twin_high(&self) -> &[Figure] {
        self.part(self.low + self.high + self.twin, self.twin_high)
    }

    pub fn tolerance(&self) -> &[Figure] {
        self.part(self.low + self.high + self.twin + self.twin_high, self.tolerance)
    }

    fn part(&self, start: u8, length: u8) -> &[Figure] {
        let start = usize::from(start);
        self.figures.get(start..start + usize::from(length)).unwrap_or(&[])
    }
}

/// A number and the word after it, which may be a unit or what a bare count counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    pub value: f64,
    pub span: Span,
    pub unit: Option<Span>,
}

/// `half of stock`, `3 trays of chilli`, `all salt`, `65 buns`.
#[derive(Debug, Clone)]
pub struct Draw {
    pub span: Span,
    pub part: DrawPart,
    /// `None` only for [`DrawPart::Measure`], where the unit word is the name.
    pub name: Option<Span>,
}

#[derive(Debug, Clone)]
pub enum DrawPart {
    /// A bare name.
    Plain,
    All,
    Half,
    Rest,
    /// `40 g of`, `1/3 of`.
    Amount(Measure),
    /// `65 buns`.
    Measure(Measure),
}

/// A clock time as typed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WhenWords {
    pub span: Span,
    pub weekday: Option<Span>,
    pub date: Option<Span>,
    pub clock: Option<Span>,
    pub zone: Option<Span>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MomentWords {
    Serving(Span),
    Phase { name: Span, edge: Edge },
    When(WhenWords),
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

impl Tree {
    /// The bytes of a line with those that end it.
    pub fn whole(&self, line: &Line) -> Range<usize> {
        line.span.start as usize..line.next as usize
    }

    pub fn clauses_of(&self, line: &Line) -> &[Clause] {
        match &line.kind {
            LineKind::Read { clauses, .. } => {
                self.clauses.get(clauses.start as usize..clauses.end as usize).unwrap_or(&[])
            }
            _ => &[],
        }
    }

    pub fn head_of(&self, line: &Line) -> Option<&Head> {
        match line.kind {
            LineKind::Read { head: Some(head), .. } => self.heads.get(head as usize),
            _ => None,
        }
    }
}
