//! `phase` and `serve` blocks.

use super::blocks::Block;
use super::builder::Builder;
use super::flow::{Flow, Named};
use super::stock::{find_kind, shape};
use crate::cook::{Hands, Kit, Lasts, Phase, PhaseId, Purpose, Service};
use crate::findings::{Code, Finding};
use crate::quantity::{Dimension, Duration};
use crate::say;
use crate::syntax::{Clause, ClauseKind as K, HeadKind};
use crate::text::Spanned;

mod checks;
mod clauses;
mod ends;
mod parts;
mod purpose;

use clauses::one;
use ends::{Ends, who_decides};
use parts::{place_part, stuff_of};

/// Hands for as long as the phase lasts.
const THROUGHOUT: Duration = Duration::from_seconds(f64::INFINITY);

/// Types one block. `flow` knows where each food has been so far, and is moved on.
pub fn build(
    builder: &mut Builder<'_>,
    flow: &mut Flow,
    block: &Block<'_>,
    id: PhaseId,
    kit: &[Kit],
) -> Phase {
    let mut phase = header(builder, block);
    // What is placed and used comes first: the other clauses speak about it.
    if let HeadKind::Serve { parts } = &block.head.kind {
        for part in parts {
            place_part(builder, flow, part, id, &mut phase);
        }
    }
    let mut placed: Option<&Clause> = None;
    for clause in &block.clauses {
        if let K::Place { parts, place } = &clause.kind {
            if placed.is_some() {
                // `keep in fridge` looks like a second place, of a food called `keep`.
                let unknown = parts.iter().filter_map(|part| part.name);
                let unknown: Vec<_> =
                    unknown.filter(|name| builder.items.find(builder.units.slice(*name)).is_none()).collect();
                if unknown.is_empty() {
                    builder.twice(clause, "where the food is");
                }
                for name in unknown {
                    builder.find_item(name);
                }
                continue;
            }
            placed = Some(clause);
            phase.place = builder.find_kit(*place).map(|kit| Spanned::new(kit, *place));
            if phase.place.is_none() {
                phase.damaged = true;
            }
            for part in parts {
                place_part(builder, flow, part, id, &mut phase);
            }
        }
    }
    for clause in &block.clauses {
        if let K::Becomes { name, kind } = &clause.kind {
            if phase.becomes.is_some() {
                builder.twice(clause, "what the food becomes");
                continue;
            }
            let kind = kind.map(|kind| builder.text(kind)).and_then(|typed| find_kind(builder, &typed));
            phase.becomes = flow.make(builder, Named { name: *name, kind, span: clause.span }, id);
        }
    }
    let mut ends = Ends::default();
    // How late a serving may be is said of its time, on whichever line that stands.
    let is_late = |clause: &&&Clause| matches!(clause.kind, K::UpToLate(_));
    let in_order = block.clauses.iter().filter(|clause| !is_late(clause));
    for clause in in_order.chain(block.clauses.iter().filter(is_late)) {
        let alone = match &clause.kind {
            K::Amount { measure, of: None, .. } => Some(measure),
            _ => None,
        };
        if alone.is_some_and(|measure| builder.units.is(measure, Dimension::Duration)) {
            who_decides(builder, clause, &phase.name);
            ends.lost = true;
        } else if let Some(measure) =
            alone.filter(|measure| builder.units.is(measure, Dimension::Temperature))
        {
            builder.temperature_of_what(clause, measure);
            phase.damaged = true;
        } else if shape(builder, clause, &mut phase.shape) {
            if let K::Cover { stuff: Some(stuff), .. } = clause.kind {
                phase.damaged |= stuff_of(builder, flow, stuff, id).is_none();
            }
        } else {
            one(builder, flow, block, clause, id, &mut phase, &mut ends);
        }
    }
    ends.settle(builder, block, &mut phase);
    if placed.is_none() && phase.service.is_none() && !block.damaged {
        builder.report(Finding::new(
            Code::PlaceMissing,
            block.head.span,
            say![format!("It is not said which food `{}` is about, or where it is.", phase.name)],
            say!["Write it below: `shoulder in oven`, or `on hob` if it is made from stock alone."],
        ));
        phase.damaged = true;
    }
    flow.settle(builder, block, id, &mut phase);
    hands(&mut phase, kit);
    phase
}

fn header(builder: &mut Builder<'_>, block: &Block<'_>) -> Phase {
    let (name_span, purpose, service) = match &block.head.kind {
        HeadKind::Serve { .. } => (block.head.span, Purpose::Serve, Some(Service::Unsaid)),
        HeadKind::Phase { name, purpose } => (*name, purpose::purpose(builder, block, *name, *purpose), None),
        _ => (block.head.span, Purpose::Prep, None),
    };
    Phase {
        name: builder.text(name_span).value,
        name_span,
        span: block.head.span,
        block: block.span,
        purpose,
        service,
        placings: Vec::new(),
        place: None,
        becomes: None,
        shape: Default::default(),
        setting: None,
        lie_in: None,
        moisture: None,
        fan: None,
        smoke: None,
        lasts: Lasts::Unsaid,
        lasts_span: block.head.span,
        in_turn: false,
        until: None,
        within: None,
        checks: Vec::new(),
        uses: Vec::new(),
        collects: Vec::new(),
        jobs: Vec::new(),
        hands: Hands::default(),
        orders: Vec::new(),
        fills: None,
        notes: Vec::new(),
        damaged: block.damaged,
    }
}

/// Prep on a bench is hands-on unless it says otherwise.
fn hands(phase: &mut Phase, kit: &[Kit]) {
    let on_bench = phase
        .place
        .and_then(|place| kit.get(place.value.0 as usize))
        .is_some_and(|kit| kit.class.base_name() == "bench");
    if phase.hands.written.is_none() && phase.purpose == Purpose::Prep && on_bench {
        phase.hands.on = THROUGHOUT;
    }
}
