//! What the logged temperatures did to microbes.

use super::line;
use super::readings::Readings;
use crate::cook::{Cook, ItemId};
use crate::log::Log;
use crate::safety::history::History;
use crate::safety::microbes::{Exposure, exposure, organisms};
use crate::safety::{Line, Microbe, sorts};
use crate::tables::microbes::Organism;

/// Killing is taken from the core, and nothing is killed in a gap. Growth is taken where there is more of it, core or
/// surface, and is not known where the log of that place has a gap.
pub(super) fn of(cook: &Cook, item: ItemId, log: &Log) -> Vec<Microbe> {
    let last = line::of(cook, item).last().copied().unwrap_or(item);
    let sorts = sorts(cook, last);
    let (core, surface) = (Readings::core(log), Readings::surface(log));
    if core.points().is_empty() {
        return Vec::new();
    }
    let whole = !core.has_gaps() && !surface.has_gaps();
    let along = |organism: &Organism, readings: &Readings| -> Exposure {
        let none =
            Exposure { reduction_log10: (!organism.lethality.is_empty()).then_some(0.0), grown_ln: 0.0 };
        let parts = readings.unbroken().filter_map(|part| History::from_celsius(part.iter().copied()).ok());
        parts.map(|part| exposure(organism, &sorts, &part)).fold(none, |sum, more| Exposure {
            reduction_log10: sum.reduction_log10.zip(more.reduction_log10).map(|(sum, more)| sum + more),
            grown_ln: sum.grown_ln + more.grown_ln,
        })
    };
    organisms(&sorts)
        .map(|organism| {
            let (inside, outside) = (along(organism, &core), along(organism, &surface));
            let (grown, grows) = if outside.grown_ln > inside.grown_ln {
                (outside, Line::Surface)
            } else {
                (inside, Line::UsualCore)
            };
            Microbe {
                organism,
                reduction_log10: inside.reduction_log10,
                growth_log10: whole.then(|| grown.growth_log10(organism)),
                grows,
            }
        })
        .collect()
}
