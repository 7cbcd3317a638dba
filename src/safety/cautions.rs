//! The cautions that a cook calls for, whatever the rules say of it.

use super::declared::is_bag;
use crate::cook::Cook;
use crate::tables::Species;
use crate::tables::cautions::{Caution, When, all};

/// In the order in which they are printed.
pub fn cautions(cook: &Cook) -> Vec<&'static Caution> {
    let applies = |caution: &&Caution| match caution.when {
        When::Always => true,
        When::Smoke => smokes(cook),
        When::Sealed => cook.phases.iter().any(|phase| phase.shape.covers.iter().any(is_bag)),
        When::AnimalFood => has_animal_food(cook),
        When::VulnerableGuests => cook.vulnerable_guests.is_some(),
        When::OtherGuests => has_animal_food(cook) && cook.vulnerable_guests.is_none(),
    };
    all().iter().filter(applies).collect()
}

fn smokes(cook: &Cook) -> bool {
    let in_smoker = |place| cook.kit(place).class.base_name() == "smoking cabinet";
    let smokes = |phase: &crate::cook::Phase| {
        phase.smoke.is_some() || phase.place.is_some_and(|place| in_smoker(place.value))
    };
    cook.phases.iter().any(smokes)
}

/// Where nobody knows what it is, it counts.
fn has_animal_food(cook: &Cook) -> bool {
    cook.items.iter().any(|item| match &item.kind {
        Some(kind) => !matches!(kind.value.species, Species::Grain | Species::Vegetable),
        None => matches!(item.origin, crate::cook::Origin::Food(_)),
    })
}
