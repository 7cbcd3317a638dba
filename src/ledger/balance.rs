//! The walk through the phases, in the order of the file.

use super::account::{FoodAccount, ItemAccount, Ledger, PhaseAccount};
use super::divide::divide;
use super::flow::drawn_as;
use super::holding::{Holding, Run, store};
use super::stuff::{Stuff, Weight};
use super::{cover, left, loss, on_hand, prose, serving};
use crate::cook::{Amount, Cook, ItemId, Phase, PhaseId, Pieces, Purpose};
use crate::findings::Finding;
use crate::quantity::Mass;

/// Follows all amounts through the cook. What was not bought cannot be used, what is left over is
/// said, and nothing is guessed: a mass that is not known stays unknown.
pub fn balance(cook: &Cook) -> (Ledger, Vec<Finding>) {
    let mut walk = Walk::new(cook);
    for (id, phase) in cook.phases() {
        let account = walk.phase(id, phase);
        walk.ledger.phases.push(account);
    }
    walk.finish()
}

pub(super) struct Walk<'c> {
    pub cook: &'c Cook,
    pub holdings: Vec<Option<Holding>>,
    /// For each item, the phases that place it.
    placed_in: Vec<Vec<PhaseId>>,
    pub ledger: Ledger,
    /// What dividing left beside the pieces.
    pub beside: Vec<(ItemId, Weight)>,
    pub findings: Vec<Finding>,
}

impl<'c> Walk<'c> {
    fn new(cook: &'c Cook) -> Self {
        let mut placed_in = vec![Vec::new(); cook.items.len()];
        for (id, phase) in cook.phases() {
            for placing in &phase.placings {
                placed_in[placing.item.0 as usize].push(id);
            }
        }
        let holdings = store(cook);
        let items = holdings.iter().map(|holding| ItemAccount {
            came: holding.as_ref().map_or_else(Stuff::default, |holding| holding.whole.clone()),
            ..ItemAccount::default()
        });
        let ledger = Ledger { items: items.collect(), ..Ledger::default() };
        Self { cook, holdings, placed_in, ledger, beside: Vec::new(), findings: Vec::new() }
    }

    /// The next phase below `id` that places `item`.
    pub fn next(&self, item: ItemId, id: PhaseId) -> Option<PhaseId> {
        let phases = &self.placed_in[item.0 as usize];
        phases.get(phases.partition_point(|&phase| phase <= id)).copied()
    }

    pub fn holding(&mut self, item: ItemId) -> Option<&mut Holding> {
        self.holdings.get_mut(item.0 as usize)?.as_mut()
    }

    fn phase(&mut self, id: PhaseId, phase: &Phase) -> PhaseAccount {
        let mut account = PhaseAccount { trimmed: self.trim(phase), ..PhaseAccount::default() };
        self.change_what_it_lies_in(phase);
        self.begin_runs(phase);
        let placed = self.place(phase);
        let drawn = self.draw(phase);
        account.placed = placed.iter().map(|(item, taken)| drawn_as(*item, taken, true)).collect();
        account.drawn = drawn.iter().map(|(drawn, _)| drawn.clone()).collect();
        self.become_one(phase, &placed, &drawn);
        self.lie_in(phase, &mut account);

        let foods: Vec<ItemId> = match &phase.becomes {
            Some(becomes) => vec![becomes.item],
            None => phase.placings.iter().map(|placing| placing.item).collect(),
        };
        if let ([food], Some(pieces)) = (foods.as_slice(), &phase.shape.pieces)
            && phase.service.is_none()
        {
            self.divide(*food, phase, pieces);
        }
        for &food in &foods {
            let (start, pieces) = match self.holding(food) {
                Some(holding) => (holding.weight(), holding.now().count),
                None => (None, None),
            };
            account.foods.push(FoodAccount { item: food, start, end: start, lost: Mass::ZERO, pieces });
        }
        if let Some(service) = self.serve(id, phase) {
            account.served = Some(service);
        } else {
            for food in &mut account.foods {
                food.lost = food.lost + self.end(food.item, id, phase);
            }
            account.collected =
                phase.collects.iter().map(|c| self.collect(c, &foods, phase, &mut account.foods)).collect();
            for food in &mut account.foods {
                food.end = self.holding(food.item).and_then(|holding| holding.weight());
            }
        }
        account
    }

    /// Trimmings come off as the first bench phase starts.
    fn trim(&mut self, phase: &Phase) -> Vec<(ItemId, Mass)> {
        if !on_bench(self.cook, phase) {
            return Vec::new();
        }
        let mut cut = Vec::new();
        for item in parents(phase) {
            if let Some(holding) = self.holding(item)
                && holding.trim.fraction() != 0.0
            {
                cut.push((item, holding.cut_trimmings()));
            }
        }
        cut
    }

    /// The first cooking drives off what the cooked yield says, from all that is in it.
    fn begin_runs(&mut self, phase: &Phase) {
        if phase.purpose == Purpose::Cook {
            for item in parents(phase) {
                if let Some(holding) = self.holding(item) {
                    holding.begin_run();
                }
            }
        }
    }

    /// What a food lies in stays until the cover or the count changes.
    fn change_what_it_lies_in(&mut self, phase: &Phase) {
        if phase.shape.covers.is_empty() && phase.shape.pieces.is_none() {
            return;
        }
        for placing in &phase.placings {
            if let Some(holding) = self.holding(placing.item) {
                holding.lies_in = None;
            }
        }
    }

    fn divide(&mut self, food: ItemId, phase: &Phase, pieces: &Pieces) {
        let item = self.cook.item(food);
        let Some(holding) = self.holdings[food.0 as usize].as_mut() else { return };
        let beside = divide(holding, pieces, item, phase, &mut self.findings);
        self.beside.extend(beside.map(|weight| (food, weight)));
    }

    /// The end of a phase for one food: the end of its run of cooking, or the mass that is written.
    /// Returns what was lost.
    fn end(&mut self, food: ItemId, id: PhaseId, phase: &Phase) -> Mass {
        let goes_on = self.next(food, id).is_some_and(|next| self.cook.phase(next).purpose == Purpose::Cook);
        let Some(holding) = self.holding(food) else { return Mass::ZERO };
        let mut lost = Mass::ZERO;
        if holding.run == Run::Cooking && !goes_on {
            lost = holding.end_run();
        }
        let one_food = phase.becomes.is_some() || phase.placings.len() == 1;
        if let Some(Amount::Mass(written)) = phase.shape.amount.as_ref().map(|amount| &amount.value)
            && one_food
        {
            let before = holding.weight().map_or(Mass::ZERO, |weight| weight.mass);
            holding.renew();
            if before > Mass::ZERO {
                holding.shrink(*written / before);
            }
            holding.whole.mass = Some(Weight::exact(*written));
            lost = lost + before - *written;
        }
        lost
    }

    fn finish(mut self) -> (Ledger, Vec<Finding>) {
        for (item, weight) in &self.beside {
            let beside = &mut self.ledger.items[item.0 as usize].beside;
            *beside = *beside + weight.mass;
        }
        for (account, holding) in self.ledger.items.iter_mut().zip(&self.holdings) {
            if let Some(holding) = holding {
                account.left = if holding.unclear { Stuff::default() } else { holding.now() };
                account.left_share = holding.left;
            }
        }
        self.findings.extend(loss::idle(self.cook));
        self.findings.extend(cover::not_drawn(self.cook));
        self.findings.extend(on_hand::unrelated(self.cook));
        self.findings.extend(serving::short(self.cook, &mut self.ledger));
        self.findings.extend(left::over(self.cook, &self.ledger, &self.beside));
        self.findings.extend(prose::amounts(self.cook));
        (self.ledger, self.findings)
    }
}

pub(super) fn on_bench(cook: &Cook, phase: &Phase) -> bool {
    phase.place.as_ref().is_some_and(|place| cook.kit(place.value).class.base_name() == "bench")
}

/// The foods that a phase works on: what is placed in it and, where it makes something, what is used.
pub(super) fn parents(phase: &Phase) -> impl Iterator<Item = ItemId> {
    let used = phase.uses.iter().filter(|_| phase.becomes.is_some()).map(|draw| draw.item);
    phase.placings.iter().map(|placing| placing.item).chain(used)
}
