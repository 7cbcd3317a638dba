//! The foods of a phase as it starts: found or mixed, in the shape they have by then, and what lies around them.

use std::collections::BTreeMap;

use super::{Known, MOST_PHASES, Walker, too_long};
use crate::cook::{ItemId, Phase, PhaseId};
use crate::heat::conduction::field::Field;
use crate::heat::following::LeftKit;
use crate::heat::food::Food;
use crate::heat::mix::{Share, mix};
use crate::heat::stop::{Stop, stop};
use crate::heat::surroundings::{Surroundings, surroundings};

impl Walker<'_> {
    /// A food that could not be followed, but comes out of the phase at a temperature that the file names.
    pub(super) fn found_at(&self, item: ItemId, phase: &Phase) -> Option<Food> {
        let Stop::Heat { core: true, target_c, .. } = stop(phase) else { return None };
        // The first pieces have cooled again by the time the last is there.
        if phase.in_turn {
            return None;
        }
        let mut food = Food::at(item, self.cook.item(item), target_c).ok()?;
        food.piece.take(&phase.shape);
        Some(food)
    }

    /// The foods of a phase as it starts, mixed where it makes one of them.
    pub(super) fn present(&self, id: PhaseId, phase: &Phase) -> Vec<(ItemId, Known)> {
        let account = self.ledger.phase(id);
        let placed: Vec<(ItemId, Known)> = phase
            .placings
            .iter()
            .map(|placing| (placing.item, self.find(placing.item, placing.before)))
            .collect();
        let Some(becomes) = &phase.becomes else { return placed };
        if id.0 >= MOST_PHASES {
            return vec![(becomes.item, Err(too_long()))];
        }
        let kg_of = |item: ItemId| {
            let placed = account.placed.iter().chain(account.drawn.iter().filter(|drawn| drawn.joins));
            placed
                .filter(|drawn| drawn.item == item)
                .filter_map(|drawn| drawn.weight)
                .map(|w| w.mass.kg())
                .sum::<f64>()
        };
        let joins = |item: ItemId| account.drawn.iter().any(|drawn| drawn.item == item && drawn.joins);
        // Whatever is drawn on several times is there once, with all that was drawn.
        let used: BTreeMap<ItemId, Option<PhaseId>> =
            phase.uses.iter().rev().map(|draw| (draw.item, draw.before)).collect();
        let mut foods = Vec::new();
        let mut stock = Vec::new();
        for (item, known) in placed {
            match known {
                Ok(food) => foods.push((food, kg_of(item))),
                Err(because) => return vec![(becomes.item, Err(because))],
            }
        }
        let pot = &self.cook.item(becomes.item).name;
        for (item, before) in used {
            match self.find(item, before) {
                Ok(food) => foods.push((food, kg_of(item))),
                Err(_) if before.is_some() && joins(item) && kg_of(item) == 0.0 => {
                    let name = &self.cook.item(item).name;
                    let because = format!("say how many grams of `{name}` go into `{pot}`");
                    return vec![(becomes.item, Err(because))];
                }
                Err(_) => stock.push(self.unfollowed(item, before, kg_of(item), pot)),
            }
        }
        let known = match foods.as_slice() {
            // Only another name.
            [(food, _)] if stock.iter().all(|stock| stock.kg == 0.0) => {
                let kind = self.cook.item(becomes.item).kind.as_ref();
                let state = kind.map_or(food.state, |kind| kind.value.state);
                Ok(food.called(becomes.item, state))
            }
            _ => {
                let shares: Vec<Share<'_>> = foods.iter().map(|(food, kg)| Share { food, kg: *kg }).collect();
                mix(self.cook, becomes.item, &shares, &stock)
            }
        };
        vec![(becomes.item, known)]
    }

    fn find(&self, item: ItemId, before: Option<PhaseId>) -> Known {
        match before.and_then(|before| self.foods.get(&(item, before))) {
            Some(known) => known.clone(),
            None => {
                let start_share = self.trial.and_then(|trial| trial.start(item));
                Food::bought(item, self.cook.item(item), start_share)
            }
        }
    }

    /// Gives the food the shape that it has in this phase, and says what lies around it.
    pub(super) fn ready(&self, food: &mut Food, id: PhaseId, phase: &Phase) -> Result<Surroundings, String> {
        let shape = &phase.shape;
        food.piece.take(shape);
        // Cut up, pulled or trayed up, nothing stays where it was.
        if shape.pieces.is_some() || shape.depth.is_some() {
            food.fields = food.fields.iter().map(Field::mixed).collect();
        }
        let account = self.ledger.phase(id).foods.iter().find(|account| account.item == food.item);
        if let Some(account) = account {
            let kg = account.start.map(|start| start.mass.kg());
            let count = account.pieces.as_ref().map(|(count, _)| *count).or(food.piece.count).unwrap_or(1.0);
            food.piece_kg = kg.map(|kg| kg / count.max(1.0));
        }
        food.doubt_thickness();
        let left = self.left(food, id, phase);
        let around = surroundings(self.cook, phase, &food.piece, food.state, self.pressure_pa, left)?;
        let around = match self.trial {
            Some(trial) => trial.around(around, phase, food.item),
            None => around,
        };
        for assumed in &around.assumed {
            if !food.assumed.contains(assumed) {
                food.assumed.push(assumed.clone());
            }
        }
        Ok(around)
    }

    /// The kit of this phase as the food saw it last, where it may still be on its way from there.
    fn left<'f>(&self, food: &'f Food, id: PhaseId, phase: &Phase) -> Option<&'f LeftKit> {
        let place = phase.place?.value;
        let left = food.kits.get(&place)?;
        // On a hob what comes back may be put into another pan.
        let other_pan = self.cook.kit(place).class.own_settings && left.away_s.high > 0.0;
        // Where other food had the kit meanwhile, the plan gives it its time to come to the setting.
        let meanwhile = |(other, phase): (PhaseId, &Phase)| {
            left.phase < other && other < id && phase.place.is_some_and(|other| other.value == place)
        };
        (!other_pan && !self.cook.phases().any(meanwhile)).then_some(left)
    }
}
