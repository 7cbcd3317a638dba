//! A timeline as text for people and as JSON for tools.

mod json;
mod page;
mod picture;
mod text;

pub use json::{JobJson, PhaseJson, ServingJson, Stamp, TimelineJson, json};
pub(super) use page::day_name;
pub use text::text;
