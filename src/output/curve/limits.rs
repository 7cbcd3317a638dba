//! The limits of the rules in force that a curve is looked at against.

use crate::tables::{Demand, RuleSet};

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
