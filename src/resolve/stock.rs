//! `food` and `ingredient` blocks, and clauses of shape wherever they stand.

use super::blocks::Block;
use super::builder::Builder;
use crate::cook::{Allergen, Amount, Cover, Form, Item, ItemId, Origin, Pieces, ShapeClauses, Stock};
use crate::findings::{Code, Finding};
use crate::quantity::Dimension;
use crate::say;
use crate::syntax::{Checked, Clause, ClauseKind as K, HeadKind, Measure};
use crate::text::{Span, Spanned};

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

/// Other words for an allergen, from the examples of Regulation (EU) No 1169/2011, annex II, and from
/// common practice.
const ALLERGEN_WORDS: &[(&str, Allergen)] = &[
    ("wheat rye barley oat spelt flour", Allergen::Gluten),
    ("crustacean shellfish prawn shrimp crab lobster crayfish", Allergen::Crustaceans),
    ("peanut groundnut", Allergen::Peanuts),
    ("soy soybean soyabean tofu", Allergen::Soya),
    ("dairy lactose butter cheese cream", Allergen::Milk),
    ("almond hazelnut walnut cashew pecan pistachio macadamia treenut", Allergen::Nuts),
    ("celeriac", Allergen::Celery),
    ("sulphite sulfite sulphur sulfur sulfites", Allergen::Sulphites),
    ("mollusc mollusk mussel clam oyster squid scallop snail", Allergen::Molluscs),
];

fn allergen(builder: &mut Builder<'_>, span: Span) -> Option<Spanned<Allergen>> {
    let typed = builder.units.slice(span);
    let lower = typed.to_lowercase();
    // Plurals and the commonest other words; the list itself is closed.
    let known = Allergen::ALL
        .iter()
        .find(|(_, word)| *word == lower || word.trim_end_matches('s') == lower.trim_end_matches('s'));
    if let Some((allergen, _)) = known {
        return Some(Spanned::new(*allergen, span));
    }
    let meant = ALLERGEN_WORDS.iter().find(|(words, _)| {
        words.split(' ').any(|word| word == lower || lower.strip_suffix('s') == Some(word))
    });
    let all: Vec<&str> = Allergen::ALL.iter().map(|(_, word)| *word).collect();
    let near = all
        .iter()
        .map(|word| (strsim::osa_distance(word, &lower), *word))
        .min()
        .filter(|(distance, _)| *distance <= 2);
    let remedy = match (meant, near) {
        (Some((_, allergen)), _) => say![format!("Write `contains {}`.", allergen.word())],
        (None, Some((_, near))) => say![format!("Did you mean `{near}`?")],
        (None, None) => say![format!("They are {}. Anything else goes in a `note`.", all.join(", "))],
    };
    builder.report(Finding::new(
        Code::AllergenUnknown,
        span,
        say![format!("`{typed}` is not one of the allergens that are kept track of.")],
        remedy,
    ));
    None
}

/// Reads a clause of shape or state into `shape`; `false` if it is not one.
pub fn shape(builder: &mut Builder<'_>, clause: &Clause, shape: &mut ShapeClauses) -> bool {
    match &clause.kind {
        K::Amount { measure, of, each } => amount(builder, clause, measure, of.as_ref(), *each, shape),
        K::Thickness(measure) => {
            if let Some((length, tolerance)) = builder.units.length(measure) {
                if shape.thickness.is_none() {
                    shape.thickness_tolerance = tolerance;
                }
                builder.set(
                    &mut shape.thickness,
                    Some(Spanned::new(length, clause.span)),
                    clause,
                    "the thickness",
                );
            }
        }
        K::Depth(measure) => {
            let value = builder.units.length(measure).map(|(length, _)| Spanned::new(length, clause.span));
            builder.set(&mut shape.depth, value, clause, "the depth");
        }
        K::Shape(name) => {
            let typed = builder.units.slice(*name);
            let form = match typed.to_lowercase().as_str() {
                "slab" => Some(Form::Slab),
                "cylinder" => Some(Form::Cylinder),
                "ball" => Some(Form::Ball),
                _ => None,
            };
            if form.is_none() {
                builder.report(Finding::new(
                    Code::NameUnknown,
                    *name,
                    say![format!("`{typed}` is not a shape that is known.")],
                    say!["Write `shape slab`, `shape cylinder` or `shape ball`."],
                ));
            }
            let value = form.map(|form| Spanned::new(form, clause.span));
            builder.set(&mut shape.form, value, clause, "the shape");
        }
        K::Structure(structure) => {
            builder.set(
                &mut shape.structure,
                Some(Spanned::new(*structure, clause.span)),
                clause,
                "the state",
            );
        }
        K::Check { what: Checked::Salt, measure, bound: None, expect: false } => {
            let value = builder.units.share(measure).map(|share| Spanned::new(share, clause.span));
            builder.set(&mut shape.salt, value, clause, "the salt");
        }
        K::Check { what: Checked::Ph, measure, bound: None, expect: false } => {
            let value = ph(builder, measure).map(|value| Spanned::new(value, clause.span));
            builder.set(&mut shape.ph, value, clause, "the pH");
        }
        K::Cover { kind, stuff } => {
            let stuff = stuff.map(|span| builder.text(span));
            shape.covers.push(Cover { kind: *kind, stuff, span: clause.span });
        }
        _ => return false,
    }
    true
}

/// A pH from 0 to 14.
pub fn ph(builder: &mut Builder<'_>, measure: &Measure) -> Option<f64> {
    let value = builder.units.number_range(measure, &[])?.low;
    if value > 14.0 {
        builder.units.impossible(measure.span, "pH runs from 0 to 14");
        return None;
    }
    Some(value)
}

/// `6 kg`, `2 pieces of 3.2 kg`; a temperature alone is asked what it is of.
fn amount(
    builder: &mut Builder<'_>,
    clause: &Clause,
    measure: &Measure,
    of: Option<&Measure>,
    each: bool,
    shape: &mut ShapeClauses,
) {
    if of.is_none() && builder.units.is(measure, Dimension::Temperature) {
        builder.temperature_of_what(clause, measure);
        return;
    }
    let Some(first) = builder.units.amount(measure) else { return };
    let Some(of) = of else {
        match first {
            Amount::Mass(_) | Amount::Volume(_) if !each => {
                builder.set(&mut shape.amount, Some(Spanned::new(first, clause.span)), clause, "the amount");
            }
            _ => {
                let typed = builder.text(measure.span).value;
                builder.report(Finding::new(
                    Code::UnitMismatch,
                    clause.span,
                    say![format!("`{typed}` alone does not say how heavy it is.")],
                    say![format!(
                        "Write the weight of one with it: `{typed} of 75 g`, or the weight of all: `2.5 kg`."
                    )],
                ));
            }
        }
        return;
    };
    let Amount::Count { number, word } = first else {
        builder.report(Finding::new(
            Code::UnitMismatch,
            measure.span,
            say!["Before `of` stands how many there are."],
            say!["Write `2 pieces of 3.2 kg`."],
        ));
        return;
    };
    let Some(each) = builder.units.volume_or_mass(of) else { return };
    let pieces = Pieces { count: number, word, each, span: clause.span };
    builder.set(&mut shape.pieces, Some(pieces), clause, "the pieces");
}
