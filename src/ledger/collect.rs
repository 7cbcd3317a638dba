//! What is collected as a phase ends: drippings, juices, stock off the bones.

use super::account::{Drawn, FoodAccount};
use super::balance::Walk;
use super::holding::{Holding, weight_of};
use super::stuff::{Stuff, Weight};
use super::take::ROUNDING;
use crate::cook::{Collect, ItemId, Phase};
use crate::findings::{Code, Finding};
use crate::quantity::Mass;
use crate::say;

impl Walk<'_> {
    /// What is collected comes from what the food lies in, then from what cooking drove out of it
    /// (the cooked yield allows for it), and only then from the food itself.
    pub(super) fn collect(
        &mut self,
        collect: &Collect,
        foods: &[ItemId],
        phase: &Phase,
        accounts: &mut [FoodAccount],
    ) -> Drawn {
        let stuff = Stuff::of(&collect.amount);
        let weight = weight_of(&stuff);
        let parent = collect.from.or(foods.first().copied());
        if let (Some(parent), Some(weight)) = (parent, weight) {
            let from_food = self.collect_from(parent, weight, collect, phase);
            if let Some(account) = accounts.iter_mut().find(|account| account.item == parent) {
                account.lost = account.lost - (weight.mass - from_food);
            }
        }
        let item = self.cook.item(collect.item);
        self.ledger.items[collect.item.0 as usize].came = stuff.clone();
        self.holdings[collect.item.0 as usize] = Some(Holding::made(stuff, item));
        Drawn { item: collect.item, amount: Some(collect.amount.clone()), weight, joins: false }
    }

    /// Returns the mass that came from the food itself.
    fn collect_from(&mut self, parent: ItemId, wanted: Weight, collect: &Collect, phase: &Phase) -> Mass {
        let Some(holding) = self.holdings[parent.0 as usize].as_mut() else { return Mass::ZERO };
        let mut wanted_mass = wanted.mass;
        if let Some(liquor) = holding.lies_in.as_ref().and_then(weight_of) {
            let out = wanted_mass.min(liquor.mass);
            wanted_mass = wanted_mass - out;
            holding.lies_in =
                Some(Stuff { mass: Some(Weight::about(liquor.mass - out)), ..Stuff::default() });
        }
        let out = wanted_mass.min(holding.juices);
        holding.juices = holding.juices - out;
        wanted_mass = wanted_mass - out;
        let Some(there) = holding.weight() else { return Mass::ZERO };
        if wanted_mass > there.mass * (1.0 + ROUNDING) {
            let food = &self.cook.item(parent).name;
            let finding = Finding::new(
                Code::StockOverdrawn,
                collect.span,
                say![format!(
                    "{} is collected here; there is only {} of {food}.",
                    collect.amount.show(),
                    there.show()
                )],
                say!["Collect less: what is collected comes out of the food."],
            );
            self.findings.push(finding.in_phase(&phase.name).about_food(food));
        }
        let out = wanted_mass.min(there.mass);
        if out > Mass::ZERO {
            holding.renew();
            holding.shrink(1.0 - out / there.mass);
            holding.whole.mass =
                holding.whole.mass.map(|mass| Weight { about: mass.about || wanted.about, ..mass });
        }
        out
    }
}
