//! The text of a file and places in it.
//!
//! Knows nothing of the language: only bytes, lines and columns.

mod invisible;
mod source;
mod span;

pub use invisible::{is_invisible, plain_blanks};
pub use source::{FileProblem, Files, Source, Sources};
pub use span::{FileId, Span, Spanned};
