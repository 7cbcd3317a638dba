//! How hot a phase leaves its food.

use super::super::declared::{core_checks, core_end};
use super::super::report::{About, Report};
use super::track::part;
use crate::heat::Stay;
use crate::quantity::Temperature;

/// The middle of a food as a phase ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftAt {
    pub usual: Temperature,
    /// At the cold end of what is predicted, however long the phase lasts.
    pub least: Temperature,
}

/// What a probe ends or checks the phase by counts as seen. `None` where the food is not followed there, and nothing is to
/// be read.
pub fn left_at(report: &Report, step: About) -> Option<LeftAt> {
    let phase = report.cook.phase(step.phase);
    let checked = core_checks(phase).filter_map(|(low, _, _)| low);
    let read = core_end(phase).map(|end| end.at).into_iter().chain(checked).reduce(Temperature::max);
    let predicted = part(report, &step).ok().and_then(|(_, stay)| predicted(stay));
    match (read, predicted) {
        (Some(read), Some(LeftAt { usual, least })) => {
            Some(LeftAt { usual: usual.max(read), least: least.max(read) })
        }
        (Some(read), None) => Some(LeftAt { usual: read, least: read }),
        (None, predicted) => predicted,
    }
}

fn predicted(stay: &Stay) -> Option<LeftAt> {
    let lasts = stay.lasts_s;
    let usual = stay.along(lasts.typical, 1.0, |instant| instant.core_c).last()?.1;
    let shortest = stay.along(lasts.low, 1.0, |instant| instant.low_c).last()?.1;
    let longer = stay.along(lasts.high, 1.0, |instant| instant.low_c);
    let longer = longer.into_iter().filter(|(tau_s, _)| *tau_s > lasts.low);
    let least = longer.map(|(_, celsius)| celsius).fold(shortest, f64::min);
    Some(LeftAt { usual: Temperature::from_celsius(usual), least: Temperature::from_celsius(least) })
}
