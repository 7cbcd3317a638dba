//! Stuff that food is wrapped or sealed in, and that no line takes from the store.

use super::stuff::same_word;
use crate::cook::{Cook, Item, Origin, Phase, Stock};
use crate::findings::{Code, Finding};
use crate::say;

/// Says of what is bought for a cover that nobody knows whether it is enough: a cover draws nothing by
/// itself. Named again further down, it may be the same piece.
pub(super) fn not_drawn(cook: &Cook) -> Vec<Finding> {
    if cook.phases.iter().any(|phase| phase.damaged) {
        return Vec::new();
    }
    let mut findings = Vec::new();
    for (item, stock) in bought(cook) {
        let covers = cook.phases.iter().flat_map(|phase| &phase.shape.covers);
        let of_it = |name: &str| same_word(name, &item.name);
        let Some((cover, stuff)) = covers
            .filter_map(|cover| Some((cover, cover.stuff.as_ref()?)))
            .find(|(_, stuff)| of_it(&stuff.value))
        else {
            continue;
        };
        if stock.to_taste.is_some() || cook.phases.iter().any(|phase| draws(cook, phase, item)) {
            continue;
        }
        let name = &item.name;
        let some = match &stock.amount {
            Some(amount) => amount.value.show(),
            None => "1 m".into(),
        };
        findings.push(
            Finding::new(
                Code::CoverNotDrawn,
                cover.span,
                say![format!(
                    "No line says how much {} this takes, so it is not known to be enough.",
                    stuff.value
                )],
                say![format!(
                    "Add it below: `use all {name}`, or as much as it takes, such as `use {some} of {name}`."
                )],
            )
            .about_food(name),
        );
    }
    findings
}

fn bought(cook: &Cook) -> impl Iterator<Item = (&Item, &Stock)> {
    cook.items.iter().filter_map(|item| match &item.origin {
        Origin::Food(stock) | Origin::Ingredient(stock) => Some((item, &**stock)),
        Origin::Made(_) | Origin::Collected { .. } | Origin::OnTap => None,
    })
}

fn draws(cook: &Cook, phase: &Phase, item: &Item) -> bool {
    let smoke = phase.smoke.as_ref().and_then(|smoke| smoke.draw.as_ref());
    let placed = phase.placings.iter().map(|placing| placing.item);
    let mut drawn = phase.uses.iter().chain(smoke).map(|draw| draw.item).chain(placed);
    drawn.any(|id| std::ptr::eq(cook.item(id), item))
}
