//! What really happened: the temperatures that a probe wrote down, judged as the cook's rules would have them.
//!
//! One probe sees one place. It may not sit where food is coldest as it heats, or warmest as it cools; it tells nothing of
//! toxins and spores; and what falls into a gap of the log is not judged.

mod line;
mod measured;
mod microbes;
mod readings;
mod stretches;
mod told;

pub use stretches::{Kind, Stretch};

use crate::cook::{Cook, ItemId, PhaseId};
use crate::findings::Finding;
use crate::heat::PhaseTimes;
use crate::log::Log;
use crate::safety::{Judged, Microbe};
use crate::tables::RuleSet;
use crate::text::Span;

/// A log, and what is known of how it lies to the cook. Times are those of the log, in seconds.
#[derive(Debug, Clone, Copy)]
pub struct Logged<'l> {
    pub log: &'l Log,
    /// The end of the log, where findings point to.
    pub end: Span,
    /// When the cook started. `None` where nobody knows.
    pub cook_starts_s: Option<f64>,
    /// Phases that are said to have ended, and when.
    pub done: &'l [(PhaseId, f64)],
    /// The whole log is of this phase.
    pub only: Option<PhaseId>,
    /// When phases were planned, since the start of the cook.
    pub planned: &'l [PhaseTimes],
}

/// How one food of a cook came out.
#[derive(Debug, Clone, PartialEq)]
pub struct Probed {
    pub item: ItemId,
    /// What part of the log was taken for what, in the order of time.
    pub stretches: Vec<Stretch>,
    /// Names of phases that a temperature judges, and that were not found in the log.
    pub missing: Vec<String>,
    /// Sets that ask nothing of what a stretch is judged as, and its phases.
    pub unruled: Vec<(String, String)>,
    pub judged: Vec<Judged>,
    pub findings: Vec<Finding>,
    pub microbes: Vec<Microbe>,
    /// It is known how the log lies to the plan.
    pub placed: bool,
    /// Some time in between nothing is known of.
    pub gaps: bool,
}

/// Does it go through anything that a temperature judges?
pub fn can_judge(cook: &Cook, item: ItemId) -> bool {
    line::phases(cook, &line::of(cook, item)).iter().any(|(_, phase)| Kind::of(phase.purpose).is_some())
}

/// Judges the log of one food by the rules of its cook.
pub fn judge(cook: &Cook, item: ItemId, rules: &[&RuleSet], logged: &Logged<'_>) -> Probed {
    let found = stretches::find(cook, item, rules, logged);
    let mut probed = Probed {
        item,
        missing: found.missing,
        stretches: found.stretches,
        unruled: Vec::new(),
        judged: Vec::new(),
        findings: found.early.into_iter().collect(),
        microbes: microbes::of(cook, item, logged.log),
        placed: logged.cook_starts_s.is_some(),
        gaps: readings::Readings::core(logged.log).has_gaps(),
    };
    for set in rules {
        measured::by(cook, item, set, logged.log, &mut probed);
    }
    probed
}
