//! The pure judge of one temperature history by one rule set. It knows no cook.
//!
//! A history is the temperature of one place in the food: its core, or wherever it is coldest while it heats
//! and warmest while it cools. It may come from a probe, or be the cold bound of a predicted curve. It covers what
//! it was for, and no more: a history of cooling starts as the heat ends.

mod applies;
mod band;
mod bound;
mod fall;
mod heat;
mod reach;
mod record;
mod ruling;

pub use record::{History, Unusable};
pub use ruling::{Figure, Margin, Measured, Outcome, Way, overall};

use crate::quantity::Duration;
use crate::tables::{Aim, Course, Demand, FoodState, Point, Rule, RuleSet, Species};
use applies::{applies, came_from};
use ruling::Ruling;

/// What a rule asks about the food whose history is judged.
#[derive(Debug, Clone, PartialEq)]
pub struct Food {
    pub species: Species,
    pub state: FoodState,
    /// Where it is not known, the fattest column of a chart counts.
    pub fat_percent: Option<f64>,
    /// Of its row in the food table; may be empty.
    pub name: String,
    /// With enough curing salt to count as cured. `None` where nobody knows.
    pub cured: Option<bool>,
    /// The id of the cooking rule that it passed, for rules that hang on it.
    pub cooked_by: Option<String>,
    /// Bought ready to eat.
    pub bought_cooked: bool,
}

impl Food {
    pub fn new(species: Species, state: FoodState) -> Self {
        Self {
            species,
            state,
            fat_percent: None,
            name: String::new(),
            cured: None,
            cooked_by: None,
            bought_cooked: false,
        }
    }
}

/// Every rule of the set that is about this food and this aim, and how the history comes out by it.
///
/// The verdict on each is that of its figures alone: what else has to be so stands in the rule's `condition`.
/// [`overall`] puts them together.
pub fn judge<'r>(history: &History, food: &Food, aim: Aim, rules: &'r RuleSet) -> Vec<Outcome<'r>> {
    let cooked = || cooked_at(history, food, rules);
    rules
        .rules
        .iter()
        .filter(|rule| applies(rule, food, aim, history, rules))
        .map(|rule| {
            let ruling = rule_on(history, food, aim, rule, rules, &cooked);
            Outcome::new(rule, Way::of(rule, aim, came_from(history, rules)), ruling)
        })
        .collect()
}

fn rule_on(
    history: &History,
    food: &Food,
    aim: Aim,
    rule: &Rule,
    rules: &RuleSet,
    cooked: &dyn Fn() -> Option<Duration>,
) -> Ruling {
    let strict = rule.strict;
    match &rule.demand {
        Demand::Cook { points, .. } => reach::judge(history, food, points, strict),
        Demand::Reheat { points, points_of, window_s, window_from, .. } => {
            let points = points_of.as_deref().map_or(points.as_slice(), |of| points_of_rule(rules, of));
            let window = window_s.map(|s| (Duration::from_seconds(s), *window_from));
            reach::judge_reheat(history, food, points, strict, window)
        }
        Demand::HotHold { min, .. } => bound::at_least(history, *min, strict),
        Demand::ColdHold { max } | Demand::Thaw { max, .. } => bound::at_most(history, *max, strict),
        Demand::TimeAlone { max_s, out, .. } => {
            band::judge(history, out, Duration::from_seconds(*max_s), strict, aim, None)
        }
        Demand::Cool { to: Some(to), from, max_s, further } => {
            fall::judge(history, *from, *to, Duration::from_seconds(*max_s), *further)
        }
        Demand::Listed { .. } => match &rule.on_curve {
            Some(course) => on_curve(history, aim, course, strict, cooked),
            None => Ruling::not_judged("the temperature alone does not say it"),
        },
        Demand::CookSurface { .. } => Ruling::not_judged("it is about the outside of the food"),
        _ => Ruling::not_judged("it gives no temperature"),
    }
}

fn on_curve(
    history: &History,
    aim: Aim,
    course: &Course,
    strict: bool,
    cooked: &dyn Fn() -> Option<Duration>,
) -> Ruling {
    match course {
        Course::Heat { at, z_k, hold_s, credit } => {
            heat::judge(history, *at, *z_k, Duration::from_seconds(*hold_s), *credit)
        }
        Course::Between { band, max_s } => {
            let until = if band.until_cooked { cooked() } else { None };
            band::judge(history, band, Duration::from_seconds(*max_s), strict, aim, until)
        }
        Course::Fall { from, to, max_s, further } => {
            fall::judge(history, *from, *to, Duration::from_seconds(*max_s), *further)
        }
        Course::Anything {} => Ruling::nothing_asked(),
    }
}

fn points_of_rule<'r>(rules: &'r RuleSet, id: &str) -> &'r [Point] {
    match rules.rule(id) {
        Some(Rule { demand: Demand::Cook { points, .. }, .. }) => points,
        _ => &[],
    }
}

/// The moment at which the food satisfies some cooking rule that hangs on nothing else.
fn cooked_at(history: &History, food: &Food, rules: &RuleSet) -> Option<Duration> {
    let plain = rules.rules.iter().filter(|rule| rule.condition.is_none());
    plain
        .filter(|rule| applies(rule, food, Aim::Cook, history, rules))
        .filter_map(|rule| match &rule.demand {
            Demand::Cook { points, .. } => reach::cooked_at(history, food, points, rule.strict),
            _ => None,
        })
        .reduce(Duration::min)
}
