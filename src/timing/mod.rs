//! When to do what: the cook as a game between the people, who choose, and the food, which does not ask.
//!
//! A cook, or all dishes of a menu, becomes a plain [`network`] of steps on an axis of elapsed minutes. One
//! food line is solved exactly, back from the serving; of [several](lines) a proof is looked for. Nothing here reads a clock: days and zones come from the file or
//! from [`Options`].

mod build;
pub mod chain;
mod circle;
mod clash;
mod clock;
mod courses;
mod cures;
mod guests;
mod heat;
mod jobs;
mod kitchen;
pub mod lines;
mod meal;
mod needs;
pub mod network;
mod outlook;
mod plan;
mod progress;
pub mod sets;
mod solution;
pub mod stnu;
mod timeline;
mod times;
mod verdict;
mod words;

pub use clock::{Clock, DAY, Minute, Reading, Wall};
pub use courses::{courses, zones};
pub use meal::{Dish, Planned, menu_strategy, plan_menu};
pub use outlook::{Branch, Case, Give, Named, Overrun, Then};
pub use plan::{plan, plan_with};
pub use progress::{Progress, State};
pub use timeline::{DecidedBy, JobLine, OnTime, PhaseLine, ServingLine, Timeline, Window, Windows};

use crate::cook::When;

/// What a run says about time beyond what the file says.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// `--serve WHEN`: where the first serving moves to, and everything written with it.
    pub serve: Option<When>,
    /// Of a dish: how long after that, on the clock on the wall, its own first serving is.
    pub course: Wall,
    /// The zone of a date that is written without one; without it such a date is read as UTC.
    pub zone: Option<chrono_tz::Tz>,
    /// What has happened so far: the plan is then from now on.
    pub progress: Progress,
    /// Also how the plan may go on, and until when each phase may last. That takes many more solves.
    pub outlook: bool,
}
