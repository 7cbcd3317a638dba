//! The tree: lines, and the clauses in them, as spans into the text.
//!
//! Figures are read as numbers; whether a unit exists and fits is for the next stage to say.

mod clause;
mod parts;
mod words;

use std::ops::Range;

pub use clause::{Bound, Checked, Clause, ClauseKind, Nearness, Test};
pub use parts::Said;
pub use words::{Draw, DrawPart, Figure, Measure, MomentWords, WhenWords};

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
