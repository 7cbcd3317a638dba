//! Can the kit do it?
//!
//! Each phase is held against the place it stands in: settings, media, room, ventilation, bags, and
//! the thermometer that its ends and checkpoints need. What only a plan of the whole meal can tell
//! (whose turn it is in the oven) is left to timing; here two phases meet only where the text itself
//! ties them together.

mod bags;
mod fitness;
mod moments;
mod probe;
mod room;
mod settings;
mod sharing;
mod smoke;
mod unset;

pub use room::{BRIM, Measure, Taken, taken};

use crate::cook::{Cook, Kit, Medium, MediumRange, Phase, PhaseId};
use crate::findings::Finding;
use crate::ledger::Ledger;

/// Everything the kit of a cook cannot do, in the order of the file.
pub fn check(cook: &Cook, ledger: &Ledger) -> Vec<Finding> {
    let moments = moments::Moments::of(cook);
    let mut findings: Vec<Finding> = [
        settings::check(cook),
        unset::check(cook),
        fitness::check(cook),
        smoke::check(cook),
        bags::check(cook),
        probe::check(cook).into_iter().collect(),
        sharing::check(cook, &moments),
        room::check(cook, ledger, &moments),
    ]
    .into_iter()
    .flatten()
    .collect();
    findings.sort_by_key(|finding| finding.span);
    findings
}

/// What cannot be so of kit by itself, before anything is cooked in it.
pub fn check_kitchen(kit: &[Kit]) -> Vec<Finding> {
    settings::ranges(kit)
}

/// Every phase that stands in a piece of kit, and that kit.
fn placed(cook: &Cook) -> impl Iterator<Item = (PhaseId, &Phase, &Kit)> {
    cook.phases().filter_map(|(id, phase)| Some((id, phase, cook.kit(phase.place.as_ref()?.value))))
}

/// A name as it stands in a sentence.
fn quoted(name: &str) -> String {
    format!("`{name}`")
}

/// "an oven", "a water bath".
fn one(class: &str) -> String {
    let article = if class.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {class}")
}

/// What a kit can be set to in one medium.
fn range(kit: &Kit, medium: Medium) -> Option<&MediumRange> {
    kit.ranges.iter().find(|range| range.medium == medium)
}

/// One figure instead of a range: it cannot be set at all.
fn is_fixed(range: &MediumRange) -> bool {
    range.low == range.high
}
