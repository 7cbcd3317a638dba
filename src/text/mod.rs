//! The text of a file and places in it.
//!
//! Knows nothing of the language: only bytes, lines and columns.

mod source;
mod span;

pub use source::{FileProblem, Files, Source, Sources};
pub use span::{FileId, Span, Spanned};
