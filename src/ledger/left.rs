//! What is left over at the end.

use super::account::Ledger;
use super::stuff::{Weight, same_word, sum};
use super::take::ROUNDING;
use crate::cook::{Amount, Cook, ItemId, Origin, Part};
use crate::findings::{Code, Finding};
use crate::say;
use crate::text::Span;

/// One note for all that was begun and not finished. What was never touched is an idle name, which is
/// said elsewhere.
pub(super) fn over(cook: &Cook, ledger: &Ledger, beside: &[(ItemId, Weight)]) -> Option<Finding> {
    if cook.phases.iter().any(|phase| phase.damaged) {
        return None;
    }
    let touched = touched(cook);
    let mut all: Vec<(Span, String, String)> = Vec::new();
    for (id, item) in cook.items() {
        let mut say = |said: String| all.push((item.span, said, item.name.clone()));
        let left = left_of(cook, ledger, id).filter(|_| touched[id.0 as usize]);
        let is_left = left.is_some();
        left.map(&mut say);
        let beside = beside.iter().filter(|(of, weight)| *of == id && weight.mass.kg() > 0.0);
        if let Some(weight) = sum(beside.map(|(_, weight)| Some(*weight))) {
            // The pieces and what dividing left beside them stand in two places.
            let pieces = if is_left { " beside the pieces" } else { "" };
            say(format!("{} of {}{pieces}", weight.show(), item.name));
        }
    }
    let (first, _, name) = all.first()?.clone();
    let list: Vec<&str> = all.iter().map(|(_, said, _)| said.as_str()).collect();
    let mut finding = Finding::new(
        Code::StockLeft,
        first,
        say![format!("Left over at the end: {}.", list.join(", "))],
        say!["Nothing to mend if you keep it. Else buy less, or use it (`use the rest of …`)."],
    )
    .about_food(name);
    for (span, said, _) in all.into_iter().skip(1) {
        finding = finding.also(span, say![format!("{said} is left.")]);
    }
    Some(finding)
}

/// "70 g of salt", "2 vacuum bags": what is counted may be the name itself.
fn of(amount: &Amount, name: &str) -> String {
    match amount {
        Amount::Count { word, .. }
            if word.split(' ').next_back().is_some_and(|last| same_word(last, name)) =>
        {
            if word.is_empty() {
                format!("{} {name}", amount.show())
            } else {
                amount.show()
            }
        }
        _ => format!("{} of {name}", amount.show()),
    }
}

/// What is left of an item, in words; rounding is nothing.
fn left_of(cook: &Cook, ledger: &Ledger, id: ItemId) -> Option<String> {
    let account = ledger.item(id);
    if account.left_share <= ROUNDING || endless(cook, id) {
        return None;
    }
    let name = &cook.item(id).name;
    Some(match (account.left.mass, account.left.amount()?) {
        (Some(weight), _) => format!("{} of {name}", weight.show()),
        (None, amount) => of(&amount, name),
    })
}

fn endless(cook: &Cook, id: ItemId) -> bool {
    match &cook.item(id).origin {
        Origin::Food(stock) | Origin::Ingredient(stock) => stock.to_taste.is_some(),
        Origin::OnTap => true,
        Origin::Made(_) | Origin::Collected { .. } => false,
    }
}

/// Of which items something was drawn or parted off, or which are foods that went through a phase.
/// Where nothing is ever served, a food that stays is no surprise.
fn touched(cook: &Cook) -> Vec<bool> {
    let mut touched = vec![false; cook.items.len()];
    let eats = cook.phases.iter().any(|phase| phase.service.is_some());
    for phase in &cook.phases {
        let smoke = phase.smoke.as_ref().and_then(|smoke| smoke.draw.as_ref());
        let lie_in = phase.lie_in.as_ref().and_then(|lie_in| lie_in.item);
        let drawn = phase.uses.iter().chain(smoke).map(|draw| draw.item);
        let placed = phase.placings.iter().filter(|placing| eats || placing.part != Part::Whole);
        for item in drawn.chain(lie_in).chain(placed.map(|placing| placing.item)) {
            touched[item.0 as usize] = true;
        }
    }
    touched
}
