//! What each clause of a phase or serving says.

use super::super::blocks::Block;
use super::super::builder::Builder;
use super::super::flow::{Flow, Named};
use super::super::stock::find_kind;
use super::THROUGHOUT;
use super::checks::{check, test, two_readings};
use super::ends::{Ends, clock};
use super::parts::{draw, stuff_of, uses};
use crate::cook::{Call, Collect, Job, Lasts, LieIn, Phase, PhaseId, Room, Setting, Smoke, Until};
use crate::quantity::Duration;
use crate::syntax::{Clause, ClauseKind as K};
use crate::text::{Span, Spanned};

/// One clause of a phase or serving.
pub(super) fn one<'c>(
    builder: &mut Builder<'_>,
    flow: &mut Flow,
    block: &Block<'_>,
    clause: &'c Clause,
    id: PhaseId,
    phase: &mut Phase,
    ends: &mut Ends<'c>,
) {
    let span = clause.span;
    match &clause.kind {
        K::Place { .. } | K::Becomes { .. } => {}
        K::Setting { medium, measure } => {
            let scale = builder.units.typed_scale(measure);
            let setting = builder.units.temperature(measure).map(|(temperature, tolerance)| Setting {
                medium: *medium,
                temperature,
                tolerance,
                scale,
                span,
                kept: false,
            });
            if setting.is_none() {
                phase.damaged = true;
            }
            builder.set(&mut phase.setting, setting, clause, "the setting");
        }
        K::With { measure, name } => {
            let amount = builder.units.volume_or_mass(measure);
            let typed = builder.units.slice(*name).to_lowercase();
            let known = builder.items.find(&typed).is_some();
            let item = if !known && typed == "water" {
                Some(None)
            } else {
                stuff_of(builder, flow, *name, id).map(Some)
            };
            let value = amount.zip(item).map(|(amount, item)| LieIn { amount, item, span });
            builder.set(&mut phase.lie_in, value, clause, "what the food lies in");
        }
        K::Moisture(measure) => {
            let value = builder.units.share(measure).map(|share| Spanned::new(share, span));
            builder.set(&mut phase.moisture, value, clause, "the moisture");
        }
        K::Fan | K::Still => {
            let fan = Some(Spanned::new(matches!(clause.kind, K::Fan), span));
            builder.set(&mut phase.fan, fan, clause, "how the air moves");
        }
        K::Smoke(typed) => {
            let draw = draw(builder, flow, typed, id, true);
            builder.set(&mut phase.smoke, Some(Smoke { draw, span }), clause, "the smoke");
        }
        K::For(measure) => {
            let lasts = builder.units.duration_range(measure).map(|range| match range.high {
                None => Lasts::Fixed(range.low),
                high => Lasts::Chosen { low: range.low, high },
            });
            clock(builder, clause, lasts, ends);
        }
        K::ForUpTo(measure) => {
            let high = builder.units.duration(measure);
            let lasts = high.map(|high| Lasts::Chosen { low: Duration::ZERO, high: Some(high) });
            clock(builder, clause, lasts, ends);
        }
        K::ForAtLeast(measure) => {
            let low = builder.units.duration(measure);
            clock(builder, clause, low.map(|low| Lasts::Chosen { low, high: None }), ends);
        }
        K::Takes { measure, each } => {
            let lasts = builder.units.duration_range(measure).map(|range| Lasts::Nature {
                low: range.low,
                high: range.high.unwrap_or(range.low),
                each: *each,
            });
            ends.lost |= lasts.is_none();
            if ends.takes.is_some() {
                builder.twice(clause, "how long it takes");
            } else {
                ends.takes = lasts.map(|lasts| (clause, lasts));
            }
        }
        K::Until(typed) => {
            if ends.until.is_some() {
                builder.twice(clause, "until when");
                return;
            }
            let tests: Vec<_> = typed.iter().filter_map(|typed| test(builder, typed, span)).collect();
            if tests.len() < typed.len() {
                ends.lost = true;
                return;
            }
            ends.until = Some(clause);
            phase.until = Some(Until { tests, span });
        }
        K::Within(measure) => {
            let value = builder.units.duration(measure).map(|limit| Spanned::new(limit, span));
            builder.set(&mut phase.within, value, clause, "the limit");
        }
        K::Check { what, expect: false, .. } if phase.service.is_none() => {
            two_readings(builder, clause, *what);
            ends.lost = true;
        }
        K::Check { what, measure, bound, .. } => {
            if let Some(check) = check(builder, *what, measure, *bound) {
                phase.checks.push(Spanned::new(check, span));
            }
        }
        K::Use(draws) => uses(builder, flow, draws, id, phase),
        K::Collect { measure, name, kind, from } => {
            let amount = builder.units.amount(measure);
            let kind = kind.map(|kind| builder.text(kind)).and_then(|typed| find_kind(builder, &typed));
            let from = from.map(|from| builder.find_item(from));
            let from = match from {
                Some(None) => return,
                Some(from) => from,
                None => None,
            };
            let collected = flow.collect(builder, Named { name: *name, kind, span }, id, from, phase);
            if let (Some(amount), Some((item, from))) = (amount, collected) {
                phase.collects.push(Collect { item, amount, from, span });
            }
        }
        K::Do(text) => job(builder, phase, Call::Start, *text, span),
        K::AtEndDo(text) => job(builder, phase, Call::End, *text, span),
        K::AtCoreDo { core, text } => {
            if let Some((core, _)) = builder.units.temperature(core) {
                job(builder, phase, Call::AtCore(core), *text, span);
            }
        }
        K::EveryDo { every, text } => {
            if let Some(every) = builder.units.duration(every) {
                job(builder, phase, Call::Every(every), *text, span);
            }
        }
        K::HandsOn(measure) => {
            let on = match measure {
                None => Some(THROUGHOUT),
                Some(measure) => builder.units.duration(measure),
            };
            said_hands(builder, phase, clause, on);
        }
        K::Unattended => said_hands(builder, phase, clause, Some(Duration::ZERO)),
        K::LookIn(measure) => {
            let every = builder.units.duration(measure);
            builder.set(&mut phase.hands.look_in, every, clause, "how often somebody looks in");
        }
        K::Order { edge, nearness, moment } => {
            if let Some(order) = super::super::order::order(builder, id, *edge, nearness, moment, span) {
                phase.orders.push(order);
            }
        }
        K::Fills(measure) => {
            let shelf =
                measure.low().last().and_then(|figure| figure.unit).map(|unit| builder.units.slice(unit));
            let room =
                if shelf.is_some_and(|word| matches!(word.to_lowercase().as_str(), "shelf" | "shelves")) {
                    builder
                        .units
                        .number_range(measure, &["shelf", "shelves"])
                        .map(|count| Room::Shelves(count.low))
                } else {
                    builder.units.volume_or_mass(measure).map(Room::Amount)
                };
            builder.set(
                &mut phase.fills,
                room.map(|room| Spanned::new(room, span)),
                clause,
                "how much room it fills",
            );
        }
        K::Note(text) => {
            let note = builder.text(*text);
            phase.notes.push(note);
        }
        K::Allow { code, because } => builder.allow(clause, *code, *because, block.span, Some(id)),
        _ if phase.service.is_some() => super::super::serve::clause(builder, block, clause, phase),
        _ => builder.out_of_place(clause, block),
    }
}

fn said_hands(builder: &mut Builder<'_>, phase: &mut Phase, clause: &Clause, on: Option<Duration>) {
    if phase.hands.written.is_some() {
        builder.twice(clause, "who must be there");
    } else if let Some(on) = on {
        phase.hands.on = on;
        phase.hands.written = Some(clause.span);
    }
}

fn job(builder: &mut Builder<'_>, phase: &mut Phase, call: Call, text: Span, span: Span) {
    let text = builder.text(text);
    phase.jobs.push(Job { call, text, span });
}
