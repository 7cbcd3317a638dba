//! A cook for another number of people.
//!
//! Amounts and counts grow, counts up to whole ones; times, thicknesses and kit do not. A food that is
//! bought by the piece comes in whole pieces, so it may grow by more than it was asked to; what is
//! made of it, divided or drawn from it grows as it did.

use super::balance::balance;
use super::counts::AllCounts;
use super::growth::{Growth, up};
use crate::cook::{Amount, Cook, ItemId, Lasts, Origin, Part, Phase, Pieces, Room, Stock};
use crate::findings::{Code, Finding};
use crate::quantity::Duration;
use crate::say;
use crate::text::Span;

/// Rewrites `cook` for `people`. A cook that does not say how many it serves stays as it is, with a
/// finding.
pub fn scale(cook: &mut Cook, people: u32) -> Vec<Finding> {
    let Some(before) = cook.serves.as_ref().map(|serves| serves.people).filter(|&before| before > 0) else {
        return vec![Finding::new(
            Code::ServesMissing,
            cook.title.span,
            say![format!("This cook cannot be made for {people}: it does not say how many it serves.")],
            say!["Add a line below the title: `serves 8`."],
        )];
    };
    if people == 0 || people == before {
        return Vec::new();
    }
    let factor = f64::from(people) / f64::from(before);
    let (ledger, _) = balance(cook);
    let growth = Growth::of(cook, &ledger, factor);
    let of_phases: Vec<f64> = cook.phases().map(|(id, _)| growth.of_phase(cook, &ledger, id)).collect();
    let in_pieces: Vec<bool> =
        ledger.phases.iter().map(|phase| phase.foods.iter().any(|food| food.pieces.is_some())).collect();

    let mut findings = Vec::new();
    let mut unscaled_hands = Vec::new();
    let mut counts = AllCounts::new(cook, |n| growth.item(ItemId(n as u32)));
    for n in 0..cook.phases.len() {
        let place = cook.phases[n].place.as_ref();
        let on_bench = place.is_some_and(|place| cook.kit(place.value).class.base_name() == "bench");
        let phase = &mut cook.phases[n];
        if on_bench && factor > 1.0 {
            unscaled_hands.extend(takes_hands(phase));
        }
        if !in_pieces[n] {
            findings.extend(deepen(phase, of_phases[n]));
        }
        scale_parts(phase, &growth, &mut counts);
        let before = phase.shape.pieces.as_ref().map(|pieces| pieces.count);
        scale_shape(phase, &growth, of_phases[n]);
        recount_food(phase, before, &mut counts);
    }
    for (n, item) in cook.items.iter_mut().enumerate() {
        if let Origin::Food(stock) | Origin::Ingredient(stock) = &mut item.origin {
            scale_stock(stock, growth.item(ItemId(n as u32)));
        }
    }
    findings.extend(hands_not_scaled(unscaled_hands, before, people));
    if let Some(serves) = &mut cook.serves {
        serves.people = people;
    }
    findings
}

fn scale_parts(phase: &mut Phase, growth: &Growth, counts: &mut AllCounts) {
    let placed = phase.placings.iter_mut().map(|placing| (placing.item, &mut placing.part));
    let used = phase.uses.iter_mut().map(|draw| (draw.item, &mut draw.part));
    let smoke =
        phase.smoke.iter_mut().flat_map(|smoke| &mut smoke.draw).map(|draw| (draw.item, &mut draw.part));
    for (item, part) in placed.chain(used).chain(smoke) {
        let factor = growth.item(item);
        match part {
            Part::Amount(Amount::Count { number, .. }) => {
                *number = counts.draw(item.0 as usize, *number, factor);
            }
            Part::Amount(amount) => *amount = amount.times(factor),
            Part::Whole | Part::Fraction(_) | Part::Rest => {}
        }
    }
}

/// The pieces that the food of a phase goes on in.
fn recount_food(phase: &Phase, before: Option<f64>, counts: &mut AllCounts) {
    let food = match (&phase.becomes, phase.placings.as_slice()) {
        (Some(becomes), [parent]) => {
            counts.rename(parent.item.0 as usize, becomes.item.0 as usize);
            becomes.item
        }
        (Some(becomes), _) => becomes.item,
        (None, [one]) => one.item,
        (None, _) => return,
    };
    if let (Some(before), Some(pieces)) = (before, &phase.shape.pieces) {
        counts.divide(food.0 as usize, before, pieces.count);
    }
}

/// What is said of the food of a phase, which grows `foods` times.
fn scale_shape(phase: &mut Phase, growth: &Growth, foods: f64) {
    if let Some(pieces) = &mut phase.shape.pieces {
        scale_pieces(pieces, foods);
    }
    if let Some(amount) = &mut phase.shape.amount {
        amount.value = amount.value.times(foods);
    }
    if let Some(lie_in) = &mut phase.lie_in {
        lie_in.amount = lie_in.amount.times(lie_in.item.map_or(foods, |item| growth.item(item)));
    }
    for collect in &mut phase.collects {
        collect.amount = collect.amount.times(growth.item(collect.item));
        if let Amount::Count { number, .. } = &mut collect.amount {
            *number = up(*number);
        }
    }
    match phase.fills.as_mut().map(|fills| &mut fills.value) {
        Some(Room::Shelves(shelves)) if shelves.fract() == 0.0 => *shelves = up(*shelves * foods),
        Some(Room::Shelves(shelves)) => *shelves *= foods,
        Some(Room::Amount(amount)) => *amount = amount.times(foods),
        None => {}
    }
}

/// More trays, each as full as before or a little less, so that the sum stays.
fn scale_pieces(pieces: &mut Pieces, growth: f64) {
    let total = pieces.count * growth;
    recount(pieces, up(total));
    pieces.each = pieces.each.times(total / pieces.count);
}

/// Words for pieces that take a plain `s` for more than one; others stay as they were typed.
const PLAIN_PLURALS: [&str; 14] = [
    "bag", "block", "bowl", "fillet", "jar", "joint", "pan", "pack", "piece", "portion", "pot", "slice",
    "tray", "tub",
];

/// A new count, and the word that goes with it: "1 piece", "3 pieces".
fn recount(pieces: &mut Pieces, count: f64) {
    let single = pieces.word.strip_suffix('s').unwrap_or(&pieces.word);
    if PLAIN_PLURALS.contains(&single) {
        pieces.word = if count == 1.0 { single.to_owned() } else { format!("{single}s") };
    }
    pieces.count = count;
}

fn scale_stock(stock: &mut Stock, growth: f64) {
    if stock.same_for_any_number.is_some() {
        return;
    }
    if let Some(pieces) = &mut stock.shape.pieces {
        // Whole pieces already: that is what the growth was rounded to.
        recount(pieces, (pieces.count * growth).round());
    } else if let Some(depth) = &mut stock.shape.depth {
        depth.value = depth.value * growth;
    }
    if let Some(amount) = &mut stock.amount {
        amount.value = match amount.value.times(growth) {
            Amount::Count { number, word } => Amount::Count { number: up(number), word },
            amount => amount,
        };
    }
}

/// The same pot, more in it: the depth grows with the amount.
fn deepen(phase: &mut Phase, growth: f64) -> Option<Finding> {
    let depth = phase.shape.depth.as_mut().filter(|_| phase.shape.pieces.is_none())?;
    let before = depth.value;
    depth.value = before * growth;
    (growth > 2.0 + 1e-9).then(|| {
        Finding::new(
            Code::PotTooDeep,
            depth.span,
            say!["The food would lie ", before * growth, " deep in this pot, instead of ", before, "."],
            say![
                "Divide it between more or wider pots. It will heat and cool far more slowly than the cook says: \
                 the times here do not grow with the amount."
            ],
        )
        .in_phase(&phase.name)
    })
}

/// A bench phase whose time is for the number it was written for: its name, and where the time stands.
fn takes_hands(phase: &Phase) -> Option<(String, Span)> {
    let timed = matches!(phase.lasts, Lasts::Nature { each: false, .. } | Lasts::Fixed(_));
    (timed && phase.hands.on > Duration::ZERO).then(|| (phase.name.clone(), phase.lasts_span))
}

/// Hands are no faster for more people, and nobody said how much longer they take.
fn hands_not_scaled(phases: Vec<(String, Span)>, before: u32, people: u32) -> Option<Finding> {
    let names: Vec<String> = phases.iter().map(|(name, _)| format!("`{name}`")).collect();
    let mut phases = phases.into_iter();
    let (name, span) = phases.next()?;
    let take = if names.len() == 1 { "takes" } else { "take" };
    let mut finding = Finding::new(
        Code::HandsNotScaled,
        span,
        say![format!("{} {take} as long for {people} people as for {before}.", names.join(", "))],
        say!["Say what one piece takes, and the time grows with the pieces: `takes 3 min to 5 min each`."],
    )
    .in_phase(name);
    for (name, span) in phases {
        finding = finding.also(span, say![format!("The time of `{name}` stays as well.")]);
    }
    Some(finding)
}
