//! Text to tree, and tree to text in canonical layout.
//!
//! The tree keeps every byte of the file: what is not in a clause is a blank, a comment or a line
//! that could not be read, and stays where it was. Nothing here knows what a name means.

mod comma;
mod explain;
mod format;
pub mod forms;
mod habits;
mod heads;
mod parse;
mod pieces;
mod plain;
mod reader;
mod tree;

pub use format::{format, laid_out};
pub use parse::{LONGEST_LINE, parse};
pub use pieces::outside_quotes;
pub use tree::{
    Bound, Checked, Clause, ClauseKind, Draw, DrawPart, Figure, Head, HeadKind, Line, LineKind, Measure,
    MomentWords, Nearness, Said, Test, Tree, WhenWords,
};
