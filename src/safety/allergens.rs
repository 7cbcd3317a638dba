//! Which allergens are in what is served, and where they come from.

use std::collections::{BTreeMap, BTreeSet};

use crate::cook::{Allergen, Cook, ItemId, Origin, Phase, PhaseId, Purpose};
use crate::tables::allergens::named;

/// An allergen, and the stock that it comes from.
pub type Carried = BTreeMap<Allergen, BTreeSet<ItemId>>;

/// One food of one serving.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Served {
    pub phase: PhaseId,
    pub food: ItemId,
    pub holds: Carried,
}

/// What each serving holds, in the order of the file: what the file says, and what stock holds by its name.
///
/// Mixing adds up, `use` passes on, and what is collected holds all that was beside it.
pub fn served(cook: &Cook) -> Vec<Served> {
    let mut after: BTreeMap<(ItemId, PhaseId), Carried> = BTreeMap::new();
    let mut all = Vec::new();
    for (id, phase) in cook.phases() {
        let before = |item: ItemId, before: Option<PhaseId>| match before {
            Some(phase) => after.get(&(item, phase)).cloned().unwrap_or_else(|| of_stock(cook, item)),
            None => of_stock(cook, item),
        };
        let smoke = phase.smoke.as_ref().and_then(|smoke| smoke.draw.as_ref());
        let used: Vec<Carried> =
            phase.uses.iter().chain(smoke).map(|draw| before(draw.item, draw.before)).collect();
        let placed: Vec<(ItemId, Carried)> = phase
            .placings
            .iter()
            .map(|placing| (placing.item, before(placing.item, placing.before)))
            .collect();
        let whole = together(placed.iter().map(|(_, carried)| carried).chain(&used));
        for (item, carried) in &placed {
            let own = together(std::iter::once(carried).chain(&used));
            if phase.purpose == Purpose::Serve {
                all.push(Served { phase: id, food: *item, holds: own.clone() });
            }
            after.insert((*item, id), own);
        }
        for item in made(phase) {
            if phase.purpose == Purpose::Serve && phase.placings.is_empty() {
                all.push(Served { phase: id, food: item, holds: whole.clone() });
            }
            after.insert((item, id), whole.clone());
        }
    }
    all
}

fn made(phase: &Phase) -> impl Iterator<Item = ItemId> {
    phase.becomes.iter().map(|becomes| becomes.item).chain(phase.collects.iter().map(|collect| collect.item))
}

fn of_stock(cook: &Cook, item: ItemId) -> Carried {
    let it = cook.item(item);
    let (Origin::Food(stock) | Origin::Ingredient(stock)) = &it.origin else { return Carried::new() };
    let species = it.kind.as_ref().map(|kind| kind.value.species);
    let said = stock.contains.iter().map(|allergen| allergen.value);
    said.chain(named(&stock.description, species)).map(|one| (one, BTreeSet::from([item]))).collect()
}

fn together<'c>(all: impl Iterator<Item = &'c Carried>) -> Carried {
    let mut sum = Carried::new();
    for (allergen, items) in all.flatten() {
        sum.entry(*allergen).or_default().extend(items);
    }
    sum
}
