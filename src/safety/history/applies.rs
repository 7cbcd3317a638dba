//! Which rules of a set are about a food and an aim.

use super::Food;
use super::record::History;
use super::ruling::{cold_edge, hot_edge};
use crate::cook::{Medium, Structure};
use crate::tables::{Aim, Demand, FoodState, Rule, RuleSet, Served, Side, Subject};

pub(super) fn applies(rule: &Rule, food: &Food, aim: Aim, history: &History, rules: &RuleSet) -> bool {
    let after = |of: &Option<String>| of.is_none() || *of == food.cooked_by;
    let about = |rule: &Rule| rule.is_about(subject(food));
    if !aims(rule).contains(&aim) || !about(rule) {
        return false;
    }
    match &rule.demand {
        Demand::HotHold { after: of, .. } => after(of),
        Demand::Reheat { after: of, bought_cooked, .. } => {
            after(of) && (!bought_cooked || food.bought_cooked)
        }
        Demand::TimeAlone { side: Some(side), .. } => {
            came_from(history, rules).is_none_or(|from| from == *side)
        }
        // A rule about some food stands in place of the general one.
        Demand::ColdHold { .. } if rule.foods.is_empty() => {
            let special = |other: &&Rule| {
                matches!(other.demand, Demand::ColdHold { .. }) && !other.foods.is_empty() && about(other)
            };
            !rules.rules.iter().any(|other| special(&other))
        }
        _ => true,
    }
}

/// What a history is looked at for by a rule: what it says, else what follows from its kind.
fn aims(rule: &Rule) -> &[Aim] {
    if let Some(aims) = &rule.aims {
        return aims;
    }
    match &rule.demand {
        Demand::Cook { .. } | Demand::CookSurface { .. } => &[Aim::Cook],
        Demand::HotHold { .. } => &[Aim::HotHold],
        Demand::ColdHold { .. } => &[Aim::ColdHold],
        Demand::TimeAlone { .. } => &[Aim::TimeControl],
        Demand::Cool { .. } => &[Aim::Cool],
        Demand::Reheat { served: Some(Served::Now), .. } => &[Aim::ReheatNow],
        Demand::Reheat { served: Some(Served::Held), .. } => &[Aim::ReheatToHold],
        Demand::Reheat { served: None, .. } => &[Aim::ReheatNow, Aim::ReheatToHold],
        // In water it is the water that has a limit, not the food.
        Demand::Thaw { media, .. } if media.contains(&Medium::Air) => &[Aim::Thaw],
        _ => &[],
    }
}

fn subject(food: &Food) -> Subject<'_> {
    let structure = match food.state {
        FoodState::Intact => Some(Structure::Intact),
        FoodState::Ground => Some(Structure::Ground),
        FoodState::Tenderised => Some(Structure::Tenderised),
        FoodState::Injected => Some(Structure::Injected),
        _ => None,
    };
    Subject { species: food.species, structure, name: &food.name, cured: food.cured }
}

/// Does the food come out of the heat, or out of the cold, as the set has it? `None`: out of neither.
pub(super) fn came_from(history: &History, rules: &RuleSet) -> Option<Side> {
    let first = history.first();
    let general = || rules.rules.iter().filter(|rule| rule.foods.is_empty());
    let hot = |rule: &Rule| match &rule.demand {
        Demand::HotHold { min, after: None } => first >= hot_edge(*min, rule.strict),
        _ => false,
    };
    let cold = |rule: &Rule| match &rule.demand {
        Demand::ColdHold { max } => first <= cold_edge(*max, rule.strict),
        _ => false,
    };
    if general().any(hot) {
        Some(Side::Hot)
    } else if general().any(cold) {
        Some(Side::Cold)
    } else {
        None
    }
}
