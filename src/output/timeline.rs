//! A timeline as text for people, as JSON for tools and as a calendar.

mod ics;
mod json;
mod page;
mod picture;
mod svg;
mod text;
pub(super) mod words;

pub use ics::{Above, NoCalendar, ics};
pub use json::{JobJson, PhaseJson, ServingJson, Stamp, TimelineJson, json};
pub(super) use page::day_name;
pub use svg::svg;
pub(super) use svg::svg_pages;
pub use text::text;
