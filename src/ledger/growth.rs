//! By how much each item grows when a cook is scaled.

use super::account::Ledger;
use crate::cook::{Cook, ItemId, Origin, PhaseId, Stock};

/// How many times what it was each item becomes.
pub(super) struct Growth {
    items: Vec<f64>,
    factor: f64,
}

/// Up to whole ones; a hair above a whole one is that one.
pub(super) fn up(number: f64) -> f64 {
    (number - 1e-6).ceil().max(1.0)
}

impl Growth {
    /// `ledger` is that of the cook as it was written.
    pub fn of(cook: &Cook, ledger: &Ledger, factor: f64) -> Self {
        let items = cook.items.iter().map(|item| match &item.origin {
            Origin::Food(stock) | Origin::Ingredient(stock) => of_stock(stock, factor),
            Origin::Made(_) | Origin::Collected { .. } | Origin::OnTap => factor,
        });
        let mut growth = Self { items: items.collect(), factor };
        // Parents stand above what is made of them.
        for (id, phase) in cook.phases() {
            let account = ledger.phase(id);
            if let Some(becomes) = &phase.becomes {
                let drawn = account.drawn.iter().filter(|drawn| drawn.joins);
                let parents = account.placed.iter().chain(drawn);
                let weights = parents.filter_map(|part| Some((part.item, part.weight?.mass.kg())));
                growth.items[becomes.item.0 as usize] = growth.mean(weights);
            }
            for collect in &phase.collects {
                growth.items[collect.item.0 as usize] = match collect.from {
                    Some(parent) => growth.item(parent),
                    None => growth.of_phase(cook, ledger, id),
                };
            }
        }
        growth
    }

    pub fn item(&self, item: ItemId) -> f64 {
        self.items[item.0 as usize]
    }

    /// That of the food, or foods, of a phase.
    pub fn of_phase(&self, cook: &Cook, ledger: &Ledger, id: PhaseId) -> f64 {
        if let Some(becomes) = &cook.phase(id).becomes {
            return self.item(becomes.item);
        }
        match ledger.phase(id).foods.as_slice() {
            [one] => self.item(one.item),
            foods => self.mean(foods.iter().filter_map(|food| Some((food.item, food.start?.mass.kg())))),
        }
    }

    /// The growth of a sum of parts.
    fn mean(&self, parts: impl Iterator<Item = (ItemId, f64)>) -> f64 {
        let (grown, sum) =
            parts.fold((0.0, 0.0), |(grown, sum), (item, kg)| (grown + kg * self.item(item), sum + kg));
        if sum > 0.0 { grown / sum } else { self.factor }
    }
}

/// Food that is bought by the piece comes in whole pieces.
fn of_stock(stock: &Stock, factor: f64) -> f64 {
    match &stock.shape.pieces {
        _ if stock.same_for_any_number.is_some() => 1.0,
        Some(pieces) if pieces.count > 0.0 => up(pieces.count * factor) / pieces.count,
        _ => factor,
    }
}
