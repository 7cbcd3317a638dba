//! Food that goes into another one without having been followed, and what it may be.

use std::collections::BTreeSet;

use super::Walker;
use crate::cook::{Item, ItemId, Origin, Phase, PhaseId};
use crate::heat::band::Band;
use crate::heat::food::FROZEN_C;
use crate::heat::medium::{ROOM_C, extremes_c};
use crate::heat::mix::Stock;
use crate::heat::schedule::befores;
use crate::tables::FoodState;

/// Stock without a temperature of its own, °C: from the fridge or from the shelf. Common practice, no source.
const STOCK_C: Band = Band::new(4.0, 15.0, 25.0);
/// Hotter than a pan gets no fat, °C.
const HOTTEST_FAT_C: f64 = 260.0;

impl Walker<'_> {
    /// `kg` of `item`, which came out of `before`, as it goes into `pot`. It lies between the store and all that it, and
    /// whatever it was made or ran from, has been in: heat runs from warm to cold.
    pub(super) fn unfollowed(&self, item: ItemId, before: Option<PhaseId>, kg: f64, pot: &str) -> Stock {
        let food = self.cook.item(item);
        let Some(last) = before else {
            let at_c = stored_c(food);
            let assumed = format!("what goes into `{pot}` from the store at {:.0} °C", at_c.typical);
            return Stock { kg, at_c, assumed };
        };
        let mut at_c = stored_c(food);
        let (mut to_see, mut seen) = (vec![last], BTreeSet::new());
        while let Some(id) = to_see.pop() {
            if !seen.insert(id) {
                continue;
            }
            let phase = self.cook.phase(id);
            at_c = at_c.widened(self.around_c(phase));
            let placed = phase.placings.iter().map(|placing| placing.item);
            for item in placed.chain(phase.uses.iter().map(|draw| draw.item)) {
                at_c = at_c.widened(stored_c(self.cook.item(item)));
            }
            to_see.extend(befores(phase));
        }
        let is_fat = food.kind.as_ref().is_some_and(|kind| kind.value.state == FoodState::Fat);
        let most_c = if is_fat { HOTTEST_FAT_C } else { self.boiling_c() };
        let high = at_c.high.min(most_c).max(at_c.low);
        let usual = self.out_of_c(item, last).clamp(at_c.low, high);
        let assumed = format!(
            "`{}` at {usual:.0} °C as it goes into `{pot}`, where it may be at {:.0} to {high:.0} °C: it is not followed",
            food.name, at_c.low
        );
        Stock { kg, at_c: Band::new(at_c.low, usual, high), assumed }
    }

    /// How warm it usually comes out of a phase, °C: as the food that it ran from, else as what was around it.
    fn out_of_c(&self, item: ItemId, last: PhaseId) -> f64 {
        let phase = self.cook.phase(last);
        let beside = phase.placings.iter().filter(|placing| placing.item != item);
        let mut followed = beside.filter_map(|placing| self.foods.get(&(placing.item, last))?.as_ref().ok());
        followed.next().map_or_else(|| self.around_c(phase).typical, |food| food.core_c())
    }

    /// What is around food in a phase, as far as that is known, °C.
    fn around_c(&self, phase: &Phase) -> Band {
        match &phase.place {
            None => ROOM_C,
            Some(place) => extremes_c(phase, self.cook.kit(place.value)).unwrap_or(Band::new(
                STOCK_C.low,
                self.boiling_c(),
                HOTTEST_FAT_C,
            )),
        }
    }
}

/// As it comes out of the store, °C.
fn stored_c(item: &Item) -> Band {
    let (Origin::Food(stock) | Origin::Ingredient(stock)) = &item.origin else { return STOCK_C };
    match (&stock.starts_at, stock.frozen) {
        (Some(at), _) => Band::exact(at.value.celsius()),
        (None, Some(_)) => FROZEN_C,
        (None, None) => STOCK_C,
    }
}
