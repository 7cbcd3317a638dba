//! When a serving is.

use super::blocks::Block;
use super::builder::Builder;
use crate::cook::{Phase, Service};
use crate::syntax::{Clause, ClauseKind as K};
use crate::text::Spanned;

/// One clause that only a serving has.
pub fn clause(builder: &mut Builder<'_>, block: &Block<'_>, clause: &Clause, phase: &mut Phase) {
    let service = match &clause.kind {
        K::At(words) => builder
            .units
            .when(words)
            .map(|when| Service::At { at: Spanned::new(when, clause.span), late: None }),
        K::FromTo(from, to) => builder.units.when(from).zip(builder.units.when(to)).map(|(start, end)| {
            Service::Throughout { from: Spanned::new(start, from.span), to: Spanned::new(end, to.span) }
        }),
        K::Guests(from, to) => {
            builder.units.when(from).zip(builder.units.when(to)).map(|(start, end)| Service::Guests {
                from: Spanned::new(start, from.span),
                to: Spanned::new(end, to.span),
                late: None,
            })
        }
        K::UpToLate(measure) => {
            let minutes = builder.units.duration(measure);
            match &mut phase.service {
                Some(Service::At { late, .. } | Service::Guests { late, .. }) => {
                    if late.is_some() {
                        builder.twice(clause, "how late it may be");
                    } else {
                        *late = minutes;
                    }
                }
                // It belongs to a time that could not be read, and that is reported.
                _ if phase.damaged => {}
                _ => builder.out_of_place(clause, block),
            }
            return;
        }
        _ => {
            builder.out_of_place(clause, block);
            return;
        }
    };
    if matches!(phase.service, Some(Service::Unsaid)) {
        match service {
            Some(service) => phase.service = Some(service),
            None => phase.damaged = true,
        }
    } else {
        builder.twice(clause, "when it is served");
    }
}
