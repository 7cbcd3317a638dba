//! What goes into a phase: foods placed, stock drawn, and what they become.

use super::account::{Drawn, PhaseAccount};
use super::balance::Walk;
use super::holding::{Holding, Run};
use super::stuff::{Stuff, sum};
use super::take::{Taken, Way, take};
use crate::cook::{Draw, ItemId, Part, Phase, Purpose};
use crate::quantity::{Mass, Share};

impl Walk<'_> {
    /// Parts that go their own way leave the old name; everything else stays where it is.
    pub(super) fn place(&mut self, phase: &Phase) -> Vec<(ItemId, Taken)> {
        let mut all = Vec::new();
        for placing in &phase.placings {
            let item = self.cook.item(placing.item);
            let Some(holding) = self.holding(placing.item) else { continue };
            let taken = if phase.becomes.is_some() {
                let (taken, finding) = take(holding, &placing.part, item, Way::Place, placing.span, phase);
                self.findings.extend(finding);
                taken
            } else {
                let stuff = holding.now();
                Taken { stuff, ..Taken::default() }
            };
            all.push((placing.item, taken));
        }
        all
    }

    pub(super) fn draw(&mut self, phase: &Phase) -> Vec<(Drawn, Taken)> {
        let joins = phase.becomes.is_some();
        let smoke = phase.smoke.as_ref().and_then(|smoke| smoke.draw.as_ref());
        let mut all = Vec::new();
        for draw in &phase.uses {
            all.extend(self.draw_one(draw, phase, joins));
        }
        all.extend(smoke.and_then(|draw| self.draw_one(draw, phase, false)));
        all
    }

    fn draw_one(&mut self, draw: &Draw, phase: &Phase, joins: bool) -> Option<(Drawn, Taken)> {
        let item = self.cook.item(draw.item);
        let holding = self.holdings.get_mut(draw.item.0 as usize)?.as_mut()?;
        let (taken, finding) = take(holding, &draw.part, item, Way::Use, draw.span, phase);
        let mut drawn = drawn_as(draw.item, &taken, joins);
        if let Part::Amount(amount) = &draw.part {
            drawn.amount = Some(amount.clone());
        }
        self.findings.extend(finding);
        Some((drawn, taken))
    }

    /// From the start of the phase, all that is placed or used in it is one food.
    pub(super) fn become_one(&mut self, phase: &Phase, placed: &[(ItemId, Taken)], drawn: &[(Drawn, Taken)]) {
        let Some(becomes) = &phase.becomes else { return };
        let item = self.cook.item(becomes.item);
        let drawn = drawn.iter().map(|(drawn, taken)| (drawn.item, taken));
        let parents: Vec<(ItemId, &Taken)> =
            placed.iter().map(|(item, taken)| (*item, taken)).chain(drawn).collect();
        let whole = match parents.as_slice() {
            // One food under a new name keeps every measure.
            [(_, only)] => only.stuff.clone(),
            _ => Stuff { mass: sum(parents.iter().map(|(_, taken)| taken.weight())), ..Stuff::default() },
        };
        let mut made = Holding::made(whole.clone(), item);
        made.to_go = parents.iter().map(|(_, taken)| taken.to_go).sum();
        made.juices = parents.iter().map(|(_, taken)| taken.juices).sum();
        if let [(only, _)] = parents.as_slice() {
            made.lies_in = self.holding(*only).and_then(|holding| holding.lies_in.clone());
        }
        let running = |item: ItemId| {
            self.holdings[item.0 as usize].as_ref().is_some_and(|holding| holding.run == Run::Cooking)
        };
        if parents.iter().any(|(item, _)| running(*item)) {
            made.run = Run::Cooking;
        }
        if phase.purpose != Purpose::Cook {
            self.keep_what_cooking_will_do(&parents, &mut made);
        }
        self.ledger.items[becomes.item.0 as usize].came = whole;
        self.holdings[becomes.item.0 as usize] = Some(made);
    }

    /// Trimming and yield that have not come yet go on in the new food, each for its part of it.
    fn keep_what_cooking_will_do(&self, parents: &[(ItemId, &Taken)], made: &mut Holding) {
        let Some(total) = made.whole.mass.filter(|weight| weight.mass > Mass::ZERO) else { return };
        let (mut trim, mut lost, mut waiting) = (0.0, 0.0, false);
        for (parent, taken) in parents {
            let (Some(parent), Some(weight)) = (&self.holdings[parent.0 as usize], taken.weight()) else {
                continue;
            };
            let part = weight.mass / total.mass;
            trim += part * parent.trim.fraction();
            if let (Run::NotYet, Some(share)) = (parent.run, parent.cooked_yield) {
                lost += part * (1.0 - share.fraction());
                waiting = true;
            }
        }
        made.trim = Share::from_fraction(trim);
        if waiting {
            made.run = Run::NotYet;
            made.cooked_yield = Some(Share::from_fraction(1.0 - lost));
        }
    }

    /// `with 2 l of oil`: the food lies in it; it is not part of the food's mass.
    pub(super) fn lie_in(&mut self, phase: &Phase, account: &mut PhaseAccount) {
        let Some(lie_in) = &phase.lie_in else { return };
        if let Some(item) = lie_in.item {
            let part = Part::Amount(lie_in.amount.clone());
            let draw = Draw { item, part, span: lie_in.span, before: None };
            account.drawn.extend(self.draw_one(&draw, phase, false).map(|(drawn, _)| drawn));
        }
        let food = match &phase.becomes {
            Some(becomes) => Some(becomes.item),
            None => phase.placings.first().map(|placing| placing.item),
        };
        if let Some(holding) = food.and_then(|food| self.holding(food)) {
            holding.lies_in = Some(Stuff::of(&lie_in.amount));
        }
    }
}

pub(super) fn drawn_as(item: ItemId, taken: &Taken, joins: bool) -> Drawn {
    Drawn { item, amount: taken.stuff.amount(), weight: taken.weight(), joins }
}
