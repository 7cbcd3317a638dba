//! A timeline as text for people, as JSON for tools and as a calendar.

mod beside;
mod ics;
mod json;
pub(super) mod outlook;
mod page;
mod picture;
mod svg;
mod text;
pub(super) mod words;

pub use beside::{phase_times, reservation, short_dish_times, short_times, start_and_servings};
pub use ics::{Above, NoCalendar, ics};
pub use json::{
    BranchJson, CaseJson, GiveJson, JobJson, OverrunJson, PhaseJson, PhaseNameJson, ServingJson, Stamp,
    ThenJson, TimelineJson, json,
};
pub(super) use page::day_name;
pub use svg::svg;
pub(super) use svg::svg_pages;
pub use text::text;
