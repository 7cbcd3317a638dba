//! When the phases are, if each lasts as long as it usually does.
//!
//! Only what heat needs: one axis for all foods of a cook, on which each phase follows the ones that its foods come out
//! of. When to start on the clock is for [`crate::timing`] to say.

use super::band::Band;
use crate::cook::{Cook, Edge, Moment, Order, OrderBound, Phase, PhaseId};

/// Order clauses are followed through this often; chains of them that are longer are rare and only shift a curve.
const PASSES: usize = 4;

/// Start and end of a phase, in seconds: the earliest, the usual and the latest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slot {
    pub start_s: Band,
    pub end_s: Band,
}

/// A slot for each phase whose length (in seconds) is in `lengths`, both in the order of the file.
pub fn schedule(cook: &Cook, lengths: &[Band]) -> Vec<Slot> {
    let nothing = Band::exact(0.0);
    let mut starts = vec![nothing; lengths.len()];
    let end = |starts: &[Band], id: PhaseId| {
        let at = id.0 as usize;
        starts.get(at).copied().unwrap_or(nothing).plus(lengths.get(at).copied().unwrap_or(nothing))
    };
    for _ in 0..PASSES {
        for (id, phase) in cook.phases() {
            let at = id.0 as usize;
            let Some(&length) = lengths.get(at) else { continue };
            let mut start = nothing;
            for before in befores(phase) {
                start = later(start, end(&starts, before));
            }
            for order in &phase.orders {
                if let Some(bound) = bound(
                    order,
                    |id| starts.get(id.0 as usize).copied().unwrap_or(nothing),
                    |id| end(&starts, id),
                    length,
                ) {
                    start = later(start, bound);
                }
            }
            starts[at] = start;
        }
    }
    // A food is always somewhere: what only waits for another food starts as late as it can.
    for (id, _) in cook.phases().collect::<Vec<_>>().into_iter().rev() {
        let next = cook.phases().filter(|(_, later)| befores(later).any(|before| before == id));
        let next = next.filter_map(|(later, _)| starts.get(later.0 as usize)).map(|start| start.typical);
        let next = next.fold(f64::INFINITY, f64::min);
        let gap = next - end(&starts, id).typical;
        if gap.is_finite()
            && gap > 0.0
            && let Some(start) = starts.get_mut(id.0 as usize)
        {
            *start = start.plus(Band::exact(gap));
        }
    }
    let first = starts.iter().map(|start| start.typical).fold(f64::INFINITY, f64::min);
    let shift = if first.is_finite() { Band::exact(-first) } else { nothing };
    let slots = starts.iter().zip(lengths);
    slots
        .map(|(&start, &length)| Slot { start_s: start.plus(shift), end_s: start.plus(shift).plus(length) })
        .collect()
}

/// The phases that the foods of `phase` come out of.
pub(super) fn befores(phase: &Phase) -> impl Iterator<Item = PhaseId> + '_ {
    let placed = phase.placings.iter().filter_map(|placing| placing.before);
    placed.chain(phase.uses.iter().filter_map(|draw| draw.before))
}

fn later(one: Band, other: Band) -> Band {
    Band::new(one.low.max(other.low), one.typical.max(other.typical), one.high.max(other.high))
}

/// The soonest start that an order clause leaves; times of day are not heat's concern.
fn bound(
    order: &Order,
    start_of: impl Fn(PhaseId) -> Band,
    end_of: impl Fn(PhaseId) -> Band,
    length: Band,
) -> Option<Band> {
    let moment = |moment: Moment| match moment {
        Moment::Starts(id) => Some(start_of(id)),
        Moment::Ends(id) => Some(end_of(id)),
        Moment::Serving(_) | Moment::Clock(_) => None,
    };
    let at = match order.bound {
        OrderBound::When(at) | OrderBound::NoSooner(at) => moment(at)?,
        OrderBound::After { by, moment: at, .. } => moment(at)?.plus(Band::exact(by.seconds())),
        OrderBound::NoLater(_) | OrderBound::Before { .. } | OrderBound::OnDay(_) => return None,
    };
    Some(match order.edge {
        Edge::Start => at,
        Edge::End => at.plus(Band::exact(-length.typical)),
    })
}
