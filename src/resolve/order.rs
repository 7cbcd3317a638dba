//! Order clauses: `starts`/`ends` and a moment.

use super::builder::Builder;
use crate::cook::{Day, Edge, Moment, Order, OrderBound, PhaseId, When};
use crate::findings::{Code, Finding};
use crate::quantity::ClockTime;
use crate::say;
use crate::syntax::{MomentWords, Nearness, WhenWords};
use crate::text::Span;

/// Types one order clause of phase `id`.
pub fn order(
    builder: &mut Builder<'_>,
    id: PhaseId,
    edge: Edge,
    nearness: &Nearness,
    moment: &MomentWords,
    span: Span,
) -> Option<Order> {
    let bound = match (nearness, moment) {
        (Nearness::OnDay, MomentWords::When(words)) => OrderBound::OnDay(builder.units.day(words)?),
        (nearness, moment) => {
            let (early, late) = self::moment(builder, id, moment)?;
            match nearness {
                Nearness::After => OrderBound::NoSooner(early),
                Nearness::NoLater => OrderBound::NoLater(late),
                Nearness::Before { by, at_least } => {
                    OrderBound::Before { by: builder.units.duration(by)?, at_least: *at_least, moment: early }
                }
                Nearness::AfterBy { by, at_least } => {
                    OrderBound::After { by: builder.units.duration(by)?, at_least: *at_least, moment: late }
                }
                Nearness::When | Nearness::OnDay => OrderBound::When(early),
            }
        }
    };
    Some(Order { edge, bound, span })
}

/// The moment as its earliest and latest reading: a bare day runs from midnight to midnight.
fn moment(builder: &mut Builder<'_>, id: PhaseId, words: &MomentWords) -> Option<(Moment, Moment)> {
    let moment = match words {
        // The serving itself is found once all phases are known.
        MomentWords::Serving(_) => Moment::Serving(id),
        MomentWords::Phase { name, edge } => {
            let phase = builder.find_phase(*name)?;
            if phase == id {
                builder.report(Finding::new(
                    Code::FoodUnclear,
                    *name,
                    say!["A phase cannot be ordered by itself."],
                    say!["Name another phase, a clock time, or `serving`."],
                ));
                return None;
            }
            if *edge == Edge::Start { Moment::Starts(phase) } else { Moment::Ends(phase) }
        }
        MomentWords::When(words) if words.clock.is_none() => return whole_day(builder, words),
        MomentWords::When(words) => Moment::Clock(builder.units.when(words)?),
    };
    Some((moment, moment))
}

fn whole_day(builder: &mut Builder<'_>, words: &WhenWords) -> Option<(Moment, Moment)> {
    let day: Day = builder.units.day(words)?;
    let at = |hour| Some(When { day: Some(day), time: ClockTime::new(hour, 0)?, zone: None });
    Some((Moment::Clock(at(0)?), Moment::Clock(at(24)?)))
}
