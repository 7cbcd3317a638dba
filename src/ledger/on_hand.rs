//! What is on hand already has to be measured like what is needed, or it cannot be taken off.

use super::stuff::Stuff;
use crate::cook::{Amount, Cook, Item, Origin, Stock};
use crate::findings::{Code, Finding};
use crate::say;

pub(super) fn unrelated(cook: &Cook) -> Vec<Finding> {
    let one = |item: &Item| match &item.origin {
        Origin::Food(stock) | Origin::Ingredient(stock) => of_stock(&item.name, stock),
        Origin::OnTap | Origin::Made(_) | Origin::Collected { .. } => None,
    };
    cook.items.iter().filter_map(one).collect()
}

fn of_stock(name: &str, stock: &Stock) -> Option<Finding> {
    let (needed, had) = (stock.amount.as_ref()?, stock.on_hand.as_ref()?);
    let relates = match (&needed.value, &had.value) {
        // Both count this stock, whatever the words.
        (Amount::Count { .. }, Amount::Count { .. }) => true,
        (needed, had) => Stuff::of(needed).share(had, false).is_some(),
    };
    (!relates).then(|| {
        Finding::new(
            Code::UnitsUnrelated,
            had.span,
            say![format!(
                "{} of {name} on hand cannot be taken off {}: nothing says how much one is of the other.",
                had.value.show(),
                needed.value.show()
            )],
            say!["Say what is on hand in the unit that is bought."],
        )
        .also(needed.span, say!["This much is needed."])
        .about_food(name)
    })
}
