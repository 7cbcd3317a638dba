//! A change of the text that was tried.

use super::Text;
use crate::text::Span;

/// What to change so that a finding goes away, found by compiling the changed text.
#[derive(Debug, Clone, PartialEq)]
pub struct Cure {
    /// A sentence that names the change and the blocks it stands in.
    pub text: Text,
    /// All of them together, in the order of the file. None overlaps another.
    pub edits: Vec<Edit>,
}

/// What stands at a place is replaced by `text`; an empty place is where it is put in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    pub span: Span,
    pub text: String,
}

impl Edit {
    /// `text` with all `edits`, which have to be in order.
    pub fn apply(text: &str, edits: &[Edit]) -> String {
        let (mut changed, mut at) = (String::with_capacity(text.len() + 64), 0);
        for edit in edits {
            changed.push_str(text.get(at..edit.span.start as usize).unwrap_or(""));
            changed.push_str(&edit.text);
            at = edit.span.end as usize;
        }
        changed.push_str(text.get(at..).unwrap_or(""));
        changed
    }
}
