//! Findings: what the compiler has to say, as data.
//!
//! A finding keeps facts and typed figures; the sentence is put together when it is shown, in the
//! reader's temperature scale. Every kind of finding is one row of the [catalogue](Code), with a long
//! text of its own in `texts/`.

mod catalogue;
mod cure;
mod finding;
mod text;
mod words;

pub use catalogue::{ALL, Code, Severity, Stage};
pub use cure::{Cure, Edit};
pub use finding::{CitedRule, Finding, OtherLength};
pub use text::{Example, Explained, HEADINGS};
pub use words::{Piece, Text};
