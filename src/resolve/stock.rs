//! `food` and `ingredient` blocks, and clauses of shape wherever they stand.

use super::blocks::Block;
use super::builder::Builder;
use crate::cook::{Amount, Item, ItemId, Origin, Pieces, Stock};
use crate::findings::{Code, Finding};
use crate::quantity::Temperature;
use crate::say;
use crate::syntax::{ClauseKind as K, HeadKind, Measure};
use crate::text::{Span, Spanned};

mod allergens;
mod shape;

use allergens::allergen;
pub use shape::{ph, shape};

/// Types one block and appends it to `items`.
pub fn add(builder: &mut Builder<'_>, block: &Block<'_>, items: &mut Vec<Item>) {
    let (name, is_food) = match &block.head.kind {
        HeadKind::Food { name, .. } => (*name, true),
        HeadKind::Ingredient { name, .. } => (*name, false),
        _ => return,
    };
    let named = builder.new_name(name);
    let id = ItemId(items.len() as u32);
    if let Some(first) = builder.items.declare(&named, id) {
        let first = items.get(first.0 as usize).map(|item| item.span);
        builder.taken(name, first, "things in the store");
        return;
    }
    let mut stock = Stock::default();
    let mut kind = None;
    match &block.head.kind {
        HeadKind::Food { kind: typed, .. } => {
            let typed = builder.text(*typed);
            kind = find_kind(builder, &typed);
            stock.description = typed.value;
        }
        HeadKind::Ingredient { amount, words, text, .. } => {
            describe(builder, &mut stock, amount.as_ref(), *words, *text);
        }
        _ => {}
    }
    clauses(builder, block, &mut stock, is_food);
    frozen_is_cold(builder, &mut stock);
    let tried = block.clauses.iter().any(|clause| matches!(clause.kind, K::Amount { .. }));
    if stock.amount.is_none() && stock.to_taste.is_none() && !block.damaged && !tried {
        let header = block.head.span;
        if matches!(&block.head.kind, HeadKind::Ingredient { amount: None, .. }) || is_food {
            builder.report(Finding::new(
                Code::AmountMissing,
                header,
                say![format!("It is not said how much `{named}` there is.")],
                if is_food {
                    say!["Write the amount below it: `6 kg`, or `2 pieces of 3.2 kg`."]
                } else {
                    say!["Write the amount after `is`: `70 g sea salt`. If it does not matter, add `, to taste`."]
                },
            ));
        }
    }
    let origin = if is_food { Origin::Food(Box::new(stock)) } else { Origin::Ingredient(Box::new(stock)) };
    items.push(Item { name: named, span: name, kind, origin });
}

/// The row of the food table, or a finding that suggests the nearest.
pub fn find_kind(
    builder: &mut Builder<'_>,
    typed: &Spanned<String>,
) -> Option<Spanned<std::sync::Arc<crate::tables::FoodKind>>> {
    if let Some(kind) = builder.tables.foods.find(&typed.value) {
        return Some(Spanned::new(kind, typed.span));
    }
    if builder.tables.foods.is_left_out(&typed.value) {
        return None;
    }
    let near = builder.tables.foods.suggest(&typed.value);
    let remedy = if near.is_empty() {
        say!["`dwell foods` lists the kinds, for example `pork shoulder`, `beef short rib`, `potato`."]
    } else {
        let all: Vec<String> = near.iter().take(3).map(|name| format!("`{name}`")).collect();
        say![format!("The nearest kinds are {}. `dwell foods` lists them all.", all.join(", "))]
    };
    builder.report(Finding::new(
        Code::FoodKindUnknown,
        typed.span,
        say![format!("`{}` is not a kind of food that is known.", typed.value)],
        remedy,
    ));
    None
}

/// The amount and description of an ingredient: a word after the figure that is no unit counts, and
/// belongs to the description.
fn describe(
    builder: &mut Builder<'_>,
    stock: &mut Stock,
    amount: Option<&Measure>,
    words: Option<Span>,
    text: Option<Span>,
) {
    let mut parts: Vec<String> = Vec::new();
    if let Some(measure) = amount {
        if let Some(amount) = builder.units.amount(measure) {
            let amount = match amount {
                Amount::Count { number, word } => {
                    let rest = words.map(|span| builder.text(span).value).unwrap_or_default();
                    let counted = format!("{word} {rest}").trim().to_string();
                    parts.push(counted.clone());
                    Amount::Count { number, word: counted }
                }
                other => {
                    parts.extend(words.map(|span| builder.text(span).value));
                    other
                }
            };
            stock.amount = Some(Spanned::new(amount, measure.span));
        }
    } else {
        parts.extend(words.map(|span| builder.text(span).value));
    }
    parts.extend(text.map(|span| builder.text(span).value));
    parts.retain(|part| !part.is_empty());
    stock.description = parts.join(", ");
}

/// Above 0 °C nothing is frozen.
fn frozen_is_cold(builder: &mut Builder<'_>, stock: &mut Stock) {
    let thawed = |start: &Spanned<Temperature>| start.value > Temperature::from_celsius(0.0);
    if stock.frozen.is_some()
        && let Some(start) = stock.starts_at.take_if(|start| thawed(start))
    {
        builder.report(Finding::new(
            Code::FigureImpossible,
            start.span,
            say!["Food that is frozen cannot start at ", start.value, "."],
            say!["Write the temperature it is frozen at, such as `starts at -18 °C`, or take `frozen` away."],
        ));
    }
}

fn clauses(builder: &mut Builder<'_>, block: &Block<'_>, stock: &mut Stock, is_food: bool) {
    for clause in &block.clauses {
        if is_food && shape(builder, clause, &mut stock.shape) {
            continue;
        }
        match &clause.kind {
            K::StartsAt(measure) if is_food => {
                let value = builder.units.temperature(measure);
                let value = value.map(|(temperature, _)| Spanned::new(temperature, clause.span));
                builder.set(&mut stock.starts_at, value, clause, "the starting temperature");
            }
            K::Frozen if is_food => {
                builder.set(&mut stock.frozen, Some(clause.span), clause, "that it is frozen")
            }
            K::Cooked if is_food => {
                builder.set(&mut stock.cooked, Some(clause.span), clause, "that it is cooked")
            }
            K::TrimLoss(measure) if is_food => {
                let value = builder.units.share(measure).map(|share| Spanned::new(share, clause.span));
                builder.set(&mut stock.trim_loss, value, clause, "the trim loss");
            }
            K::CookedYield(measure) if is_food => {
                let value = builder.units.share(measure).map(|share| Spanned::new(share, clause.span));
                builder.set(&mut stock.cooked_yield, value, clause, "the cooked yield");
            }
            K::Contains(names) => {
                for &name in names {
                    stock.contains.extend(allergen(builder, name));
                }
            }
            K::Supplier(text) => {
                let value = Some(builder.text(*text));
                builder.set(&mut stock.supplier, value, clause, "the supplier");
            }
            K::OnHand(measure) => {
                let value = builder.units.amount(measure).map(|amount| Spanned::new(amount, clause.span));
                builder.set(&mut stock.on_hand, value, clause, "what is on hand");
            }
            K::SameForAnyNumber => {
                builder.set(
                    &mut stock.same_for_any_number,
                    Some(clause.span),
                    clause,
                    "that it does not scale",
                );
            }
            K::ToTaste if !is_food => {
                builder.set(&mut stock.to_taste, Some(clause.span), clause, "that it is to taste");
            }
            K::Nitrite(measure) if !is_food => {
                let value = builder.units.share(measure).map(|share| Spanned::new(share, clause.span));
                builder.set(&mut stock.nitrite, value, clause, "the nitrite");
            }
            K::Note(text) => {
                let note = builder.text(*text);
                builder.notes.push(note);
            }
            K::Allow { code, because } => builder.allow(clause, *code, *because, block.span, None),
            _ => builder.out_of_place(clause, block),
        }
    }
    if is_food {
        stock.amount = match (&stock.shape.pieces, &stock.shape.amount) {
            (Some(pieces), _) => total(pieces).map(|amount| Spanned::new(amount, pieces.span)),
            (None, Some(amount)) => Some(amount.clone()),
            _ => None,
        };
    }
}

/// Pieces multiplied out.
fn total(pieces: &Pieces) -> Option<Amount> {
    Some(match &pieces.each {
        Amount::Mass(mass) => Amount::Mass(*mass * pieces.count),
        Amount::Volume(volume) => Amount::Volume(*volume * pieces.count),
        _ => return None,
    })
}
