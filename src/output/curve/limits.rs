//! The limits of the rules in force that a curve is looked at against.

use crate::safety::Judged;
use crate::tables::{Demand, RuleSet, RuleSets};

/// What food in general is kept above or below: name and °C.
///
/// A limit for some food only, or for food with a history, would be wrong for the others, and is left to
/// the judge.
pub fn limits(sets: &[&RuleSet]) -> Vec<(String, f64)> {
    let mut limits = Vec::new();
    for set in sets {
        for rule in set.rules.iter().filter(|rule| rule.foods.is_empty()) {
            match &rule.demand {
                Demand::HotHold { min, after: None } => {
                    limits.push((format!("lowest hot hold, {}", set.title), min.lowest().celsius()));
                }
                Demand::ColdHold { max } => {
                    limits.push((format!("warmest cold hold, {}", set.title), max.highest().celsius()));
                }
                _ => {}
            }
        }
    }
    limits
}

/// Those of the built-in sets that judged a cook.
pub fn limits_in_force(judged: &[Judged]) -> Vec<(String, f64)> {
    let known = RuleSets::built_in();
    let judges = |id: &&str| judged.iter().any(|judged| judged.set == **id);
    let in_force = known.names().filter(judges).filter_map(|id| known.find(id));
    limits(&in_force.collect::<Vec<&RuleSet>>())
}
