//! Which food, and how much of it, a phase places or draws.

use super::super::builder::Builder;
use super::super::flow::Flow;
use crate::cook::{Amount, Draw, Part, Phase, PhaseId, Placing};
use crate::findings::{Code, Finding};
use crate::say;
use crate::syntax::{Draw as TypedDraw, DrawPart, Measure};
use crate::text::Span;

/// What the food lies in or is wrapped in: out of the store, like all that is used.
pub(super) fn stuff_of(
    builder: &mut Builder<'_>,
    flow: &mut Flow,
    name: Span,
    id: PhaseId,
) -> Option<crate::cook::ItemId> {
    flow.on_tap(builder, name);
    let item = builder.find_item(name)?;
    flow.before(builder, item, name, id)?;
    Some(item)
}

/// A food, or a part of it, put in its place.
pub(super) fn place_part(
    builder: &mut Builder<'_>,
    flow: &mut Flow,
    typed: &TypedDraw,
    id: PhaseId,
    phase: &mut Phase,
) {
    let Some((item, part)) = part(builder, typed, true) else {
        phase.damaged = true;
        return;
    };
    let Some(before) = flow.before(builder, item, typed.span, id) else {
        phase.damaged = true;
        return;
    };
    if phase.placings.iter().any(|placing| placing.item == item) {
        let name = builder.text(typed.name.unwrap_or(typed.span)).value;
        builder.report(Finding::new(
            Code::ClauseTwice,
            typed.span,
            say![format!("`{name}` is placed twice in this phase.")],
            say!["A part that goes its own way needs a phase and a name of its own (`becomes`)."],
        ));
        return;
    }
    phase.placings.push(Placing { item, part, span: typed.span, before: before.phase });
}

/// The item and how much of it. Where only the amount is wrong, the item was meant to be used.
fn part(
    builder: &mut Builder<'_>,
    typed: &TypedDraw,
    bare_is_all: bool,
) -> Option<(crate::cook::ItemId, Part)> {
    let found = read_part(builder, typed, bare_is_all);
    if let (None, Some(name)) = (&found, typed.name)
        && builder.items.find(builder.units.slice(name)).is_some()
    {
        builder.forgive(name);
    }
    found
}

fn read_part(
    builder: &mut Builder<'_>,
    typed: &TypedDraw,
    bare_is_all: bool,
) -> Option<(crate::cook::ItemId, Part)> {
    match (&typed.part, typed.name) {
        (DrawPart::Measure(measure), _) => counted(builder, measure, typed.span),
        (DrawPart::Amount(measure), Some(name)) => {
            let item = builder.find_item(name)?;
            Some((item, fraction_or_amount(builder, measure)?))
        }
        (kind, Some(name)) => {
            let item = builder.find_item(name)?;
            let part = match kind {
                DrawPart::Half => Part::Fraction(0.5),
                DrawPart::Rest => Part::Rest,
                DrawPart::Plain if !bare_is_all => {
                    let word = builder.units.slice(name).to_string();
                    builder.units.report(
                        Code::UnitMissing,
                        typed.span,
                        say![format!("It is not said how much `{word}` is used.")],
                        say![format!("Write `use all {word}`, or an amount: `use 40 g of {word}`.")],
                    );
                    return None;
                }
                _ => Part::Whole,
            };
            Some((item, part))
        }
        _ => None,
    }
}

/// `65 buns`: the word after the figure is the name.
fn counted(builder: &mut Builder<'_>, measure: &Measure, span: Span) -> Option<(crate::cook::ItemId, Part)> {
    let last = measure.low().last()?;
    let amount = builder.units.amount(measure)?;
    match (amount, last.unit) {
        (Amount::Count { number, .. }, Some(name)) => {
            let item = builder.find_item(name)?;
            Some((item, Part::Amount(Amount::Count { number, word: builder.units.slice(name).to_string() })))
        }
        _ => {
            let typed = builder.text(span).value;
            builder.units.report(
                Code::UnitMissing,
                span,
                say![format!("It is not said of what `{typed}` is used.")],
                say![format!("Write `use {typed} of salt`.")],
            );
            None
        }
    }
}

/// `1/3 of` and `40 % of` are shares; everything else is an amount.
fn fraction_or_amount(builder: &mut Builder<'_>, measure: &Measure) -> Option<Part> {
    if let [figure] = measure.low() {
        let word = figure.unit.map(|unit| builder.units.slice(unit));
        if word.is_none() && figure.value > 0.0 && figure.value <= 1.0 && measure.high().is_empty() {
            return Some(Part::Fraction(figure.value));
        }
        if word == Some("%") {
            let share = builder.units.share(measure)?;
            return Some(Part::Fraction(share.fraction()));
        }
    }
    builder.units.amount(measure).map(Part::Amount)
}

/// A bare name after the first is meant like the first: `use all salt and pepper`.
pub(super) fn uses(
    builder: &mut Builder<'_>,
    flow: &mut Flow,
    draws: &[TypedDraw],
    id: PhaseId,
    phase: &mut Phase,
) {
    let all = matches!(draws.first().map(|draw| &draw.part), Some(DrawPart::All));
    for typed in draws {
        match draw(builder, flow, typed, id, all) {
            Some(draw) => phase.uses.push(draw),
            None => phase.damaged = true,
        }
    }
}

pub(super) fn draw(
    builder: &mut Builder<'_>,
    flow: &mut Flow,
    typed: &TypedDraw,
    id: PhaseId,
    bare_is_all: bool,
) -> Option<Draw> {
    if let Some(name) = typed.name {
        flow.on_tap(builder, name);
    }
    let (item, part) = part(builder, typed, bare_is_all)?;
    let before = flow.before(builder, item, typed.span, id)?;
    Some(Draw { item, part, span: typed.span, before: before.phase })
}
