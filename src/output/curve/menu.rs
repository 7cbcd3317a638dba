//! The dishes of a menu in one table: each on its own clock, everything named with its dish.

use crate::cook::PhaseId;
use crate::heat::Curves;

/// One after the other, the curves of dishes with their titles.
pub fn together<'c>(dishes: impl IntoIterator<Item = (&'c str, &'c Curves)>) -> Curves {
    let mut all = Curves::default();
    // The phases of every dish count from nought.
    let mut taken = 0;
    for (title, curves) in dishes {
        let Curves { mut phases, mut foods, mut unpredicted } = curves.clone();
        let first_free = phases.iter().map(|phase| phase.phase.0 + 1).max().unwrap_or(0);
        let named = |name: &str| format!("{title}: {name}");
        let moved = |phase: PhaseId| PhaseId(taken + phase.0);
        for phase in &mut phases {
            (phase.name, phase.phase) = (named(&phase.name), moved(phase.phase));
        }
        for food in &mut foods {
            food.name = named(&food.name);
            food.samples.iter_mut().for_each(|sample| sample.phase = moved(sample.phase));
            food.exits.iter_mut().for_each(|(phase, _)| *phase = moved(*phase));
        }
        for food in &mut unpredicted {
            (food.name, food.phase) = (named(&food.name), moved(food.phase));
        }
        all.phases.extend(phases);
        all.foods.extend(foods);
        all.unpredicted.extend(unpredicted);
        taken += first_free;
    }
    all
}
