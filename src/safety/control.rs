//! Which food needs temperature or time control, and which is acid enough to need none.

use super::lot::{Keeping, Lot};
use super::report::Report;
use crate::cook::{Check, Phase, Test};
use crate::tables::Demand;

/// It needs temperature or time control, as far as the set says.
pub(super) fn controlled(report: &Report, lot: &Lot) -> bool {
    lot.keeping == Keeping::Controlled && !lot.ph.is_some_and(|ph| acid_enough(report, ph))
}

fn acid_enough(report: &Report, ph: f64) -> bool {
    report.rules().any(|rule| matches!(rule.demand, Demand::NeedsNoControl { ph_below } if ph < ph_below))
}

/// A ferment that is to end on a measured figure this acid is the writer's word, and not judged.
pub(super) fn ends_sour(report: &Report, phase: &Phase) -> bool {
    let sour = |ph: f64| {
        report.rules().any(|rule| matches!(rule.demand, Demand::FermentEnd { ph_max } if ph <= ph_max))
    };
    declared_ph(phase).is_some_and(sour)
}

/// How acid it is by the end, on the writer's word.
pub(super) fn declared_ph(phase: &Phase) -> Option<f64> {
    let until = phase.until.iter().flat_map(|until| &until.tests).find_map(|test| match test.value {
        Test::Ph(ph) => Some(ph),
        _ => None,
    });
    let checked = phase.checks.iter().find_map(|check| match check.value {
        Check::Ph { high, .. } => Some(high),
        _ => None,
    });
    until.or(checked).or(phase.shape.ph.as_ref().map(|ph| ph.value))
}
