//! The plan as plain data: windows of minutes on the cook's own axis, and a [`Clock`] to read them by.

use super::clock::{Clock, Minute};
use super::outlook::{Branch, Outlook, Overrun};
use super::progress::State;
use crate::cook::Purpose;
use crate::findings::Text;

/// What the plan can promise.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum OnTime {
    /// Whatever nature does inside its ranges.
    Always,
    /// For some of what nature may do, and nobody is ever needed while away or asleep.
    IfLucky,
    /// For nothing that nature may do: there is no start that works.
    Never,
    /// No proof either way: it may be on time or late. Either something that a proof needs is missing,
    /// such as how long a phase takes, or several food lines get in each other's way and no plan was
    /// found in the tries that are made. Treat it as not promised.
    NotProved,
}

/// What the windows of phases and jobs are.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    serde::Serialize,
    serde::Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Windows {
    /// Both ends of each are reached in some outcome.
    Exact,
    /// Nothing falls outside them, but an end may never be reached, and not every minute inside is open
    /// once other things have happened. So with several food lines, or guests who come when they like.
    Bounds,
    /// One way it may go, with everything at its longest; nothing is promised.
    OneWay,
}

/// From the first minute to the last one, both included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Window {
    pub earliest: Minute,
    pub latest: Minute,
}

/// Who decides how long a phase takes.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "lowercase")]
pub enum DecidedBy {
    Fixed,
    Cook,
    Nature,
}

/// One meal.
#[derive(Debug, Clone, PartialEq)]
pub struct ServingLine {
    pub cook: String,
    pub foods: Vec<String>,
    /// The time that the file promises, grace included, or when it falls where the file says none.
    pub promised: Option<Window>,
    pub on_time: OnTime,
    /// Why it is not always on time; empty where it is.
    pub because: String,
}

/// One phase or serving, in the order of the file.
#[derive(Debug, Clone, PartialEq)]
pub struct PhaseLine {
    pub cook: String,
    pub name: String,
    pub purpose: Purpose,
    pub foods: Vec<String>,
    pub kit: Option<String>,
    /// `None` where nothing can be timed.
    pub start: Option<Window>,
    pub end: Option<Window>,
    pub decided_by: DecidedBy,
    /// Its length in words: "6 h", "8 h to 14 h".
    pub lasts: String,
    pub state: State,
}

/// Something to do, at a time.
#[derive(Debug, Clone, PartialEq)]
pub struct JobLine {
    pub at: Window,
    pub cook: String,
    pub phase: String,
    pub text: Text,
    /// How many people it takes; 0 where the kit does it, or where it falls in sleep.
    pub hands: u32,
    /// It keeps somebody busy or near at hand this long, where that is more than a moment.
    pub busy: Option<String>,
    /// It falls while nobody is awake, and is left out.
    pub dropped: bool,
    /// It falls while nobody is awake, and cannot be left out: somebody would have to be awake. Only in
    /// plans that are not always on time.
    pub breaks_sleep: bool,
}

/// The whole plan of one cook, or of all dishes of a menu.
#[derive(Debug, Clone, PartialEq)]
pub struct Timeline {
    pub title: String,
    pub clock: Clock,
    pub start: Option<Window>,
    pub on_time: OnTime,
    pub windows: Windows,
    /// Who has shared kit and hands first is decided as it goes.
    pub order_open: bool,
    /// `false` without a `crew`: then sleep and hands were not looked at.
    pub hands_judged: bool,
    pub servings: Vec<ServingLine>,
    pub phases: Vec<PhaseLine>,
    /// In the order of the clock.
    pub jobs: Vec<JobLine>,
    /// Where it was said what has happened: the plan is from this minute on.
    pub now: Option<Minute>,
    /// How it goes on after what nature may stretch; empty unless [`Options::outlook`](super::Options) asks for it.
    pub branches: Vec<Branch>,
    /// Until when what nature ends may take, in the order of the clock; as above.
    pub overruns: Vec<Overrun>,
    /// How many phases nature ends, where those are too many to say either of.
    pub too_many: Option<usize>,
    /// When nobody is awake, from the first minute to the last, while it lasts.
    pub asleep: Vec<(Minute, Minute)>,
}

impl Timeline {
    /// The same with what it may come to.
    pub(super) fn with(self, outlook: Outlook) -> Self {
        let Outlook { branches, overruns, too_many } = outlook;
        Self { branches, overruns, too_many, ..self }
    }

    /// Takes back every promise, for this reason.
    pub fn doubt(&mut self, because: &str) {
        (self.branches, self.overruns, self.too_many) = (Vec::new(), Vec::new(), None);
        (self.on_time, self.windows, self.order_open) = (OnTime::NotProved, Windows::OneWay, false);
        for serving in &mut self.servings {
            (serving.on_time, serving.because) = (OnTime::NotProved, because.to_owned());
        }
    }

    /// Whether it is of more than one dish.
    pub fn is_menu(&self) -> bool {
        self.phases.iter().any(|phase| phase.cook != self.phases[0].cook)
    }
}
