//! The phases of a cook, in the order of the file.

use super::super::blocks::Block;
use super::super::builder::Builder;
use super::super::flow::Flow;
use super::super::phase;
use crate::cook::{Kit, Moment, OrderBound, Phase, PhaseId, Purpose};
use crate::findings::{Code, Finding};
use crate::say;
use crate::syntax::HeadKind;
use crate::text::Span;

/// Types the phases in the order of the file, following each food.
pub(super) fn phases(
    builder: &mut Builder<'_>,
    blocks: &[&Block<'_>],
    items: Vec<crate::cook::Item>,
    kit: &[Kit],
    serving_lost: bool,
) -> (Vec<crate::cook::Item>, Vec<Phase>) {
    for (nth, block) in blocks.iter().enumerate() {
        if let HeadKind::Phase { name, .. } = block.head.kind {
            // `phase cook` is named after its purpose, like any other.
            let named = builder.units.slice(name);
            let named = if named.eq_ignore_ascii_case(Purpose::Cook.words()) {
                named.to_string()
            } else {
                builder.new_name(name)
            };
            if builder.phases.declare(&named, PhaseId(nth as u32)).is_some() {
                builder.taken(name, None, "phases");
            }
        }
        builder.note_made_names(block);
    }
    let mut flow = Flow::new(items);
    let mut phases: Vec<Phase> = Vec::with_capacity(blocks.len());
    for (nth, block) in blocks.iter().enumerate() {
        phases.push(phase::build(builder, &mut flow, block, PhaseId(nth as u32), kit));
    }
    point_to_servings(builder, &mut phases);
    flow.idle(builder);
    if !phases.is_empty() && !phases.iter().any(|phase| phase.service.is_some()) && !serving_lost {
        let last = phases.last().map_or(Span::default(), |phase| phase.span);
        builder.report(Finding::new(
            Code::NothingServed,
            last,
            say!["Nothing is ever served, so there is no time to work back from."],
            say!["Add `serve` with the name of the food, and below it the time: `at 18:30`."],
        ));
    }
    (flow.items, phases)
}

/// `serving` is the first `serve` below the phase that names it.
fn point_to_servings(builder: &mut Builder<'_>, phases: &mut [Phase]) {
    let servings: Vec<usize> = (0..phases.len()).filter(|&nth| phases[nth].service.is_some()).collect();
    for (nth, phase) in phases.iter_mut().enumerate() {
        let below = servings.iter().copied().find(|&serving| serving > nth);
        let mut lost = Vec::new();
        for order in &mut phase.orders {
            let moment = match &mut order.bound {
                OrderBound::When(moment) | OrderBound::NoSooner(moment) | OrderBound::NoLater(moment) => {
                    moment
                }
                OrderBound::Before { moment, .. } | OrderBound::After { moment, .. } => moment,
                OrderBound::OnDay(_) => continue,
            };
            if let Moment::Serving(serving) = moment {
                match below {
                    Some(below) => *serving = PhaseId(below as u32),
                    None => lost.push(order.span),
                }
            }
        }
        for span in lost {
            phase.orders.retain(|order| order.span != span);
            builder.report(Finding::new(
                Code::NameUnknown,
                span,
                say!["There is no `serve` below this, so `serving` means nothing here."],
                say!["Add a `serve` block below, or name a phase or a clock time."],
            ));
        }
    }
}
