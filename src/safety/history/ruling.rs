//! How a history comes out by one rule, and by all of them together.

use super::super::Verdict;
use crate::quantity::{Duration, Temperature, TemperatureDifference};
use crate::tables::{Aim, Demand, Limit, Rule, Side, Status};

/// What rounding may cost: far less than any thermometer or clock shows.
const ROUNDING_K: f64 = 1e-9;
const ROUNDING_S: f64 = 1e-3;

/// The lowest temperature that counts as hot by a limit. `strict`: the figure itself is not enough.
pub(super) fn hot_edge(limit: Limit, strict: bool) -> Temperature {
    let rounding = TemperatureDifference::from_kelvin(if strict { ROUNDING_K } else { -ROUNDING_K });
    limit.lowest() + rounding
}

/// The highest temperature that counts as cold by a limit.
pub(super) fn cold_edge(limit: Limit, strict: bool) -> Temperature {
    let rounding = TemperatureDifference::from_kelvin(if strict { -ROUNDING_K } else { ROUNDING_K });
    limit.highest() + rounding
}

/// `strict`: less than, rather than at most.
pub(super) fn in_time(time: Duration, max: Duration, strict: bool) -> bool {
    let rounding = Duration::from_seconds(if strict { -ROUNDING_S } else { ROUNDING_S });
    time <= max + rounding
}

pub(super) fn long_enough(time: Duration, least: Duration) -> bool {
    time + Duration::from_seconds(ROUNDING_S) >= least
}

/// A figure that a history reaches, or that a rule asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Figure {
    Temperature(Temperature),
    Time(Duration),
}

/// The room between what is reached and what is required; below zero where it is missing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Margin {
    Temperature(TemperatureDifference),
    Time(Duration),
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    pub reached: Figure,
    pub required: Figure,
    pub margin: Margin,
}

impl Measured {
    pub(super) fn at_least(reached: Temperature, required: Temperature) -> Self {
        Self {
            reached: Figure::Temperature(reached),
            required: Figure::Temperature(required),
            margin: Margin::Temperature(reached - required),
        }
    }

    pub(super) fn at_most(reached: Temperature, required: Temperature) -> Self {
        Self { margin: Margin::Temperature(required - reached), ..Self::at_least(reached, required) }
    }

    pub(super) fn as_long_as(reached: Duration, required: Duration) -> Self {
        Self {
            reached: Figure::Time(reached),
            required: Figure::Time(required),
            margin: Margin::Time(reached - required),
        }
    }

    pub(super) fn no_longer_than(reached: Duration, required: Duration) -> Self {
        Self { margin: Margin::Time(required - reached), ..Self::as_long_as(reached, required) }
    }
}

/// What one rule says, before it is said which rule.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Ruling {
    pub verdict: Verdict,
    pub row: Option<String>,
    pub measured: Option<Measured>,
    pub moment: Option<Duration>,
    pub why: Option<&'static str>,
}

impl Ruling {
    pub fn new(met: bool, measured: Measured, moment: Duration) -> Self {
        let verdict = if met { Verdict::Met } else { Verdict::Broken };
        Self { verdict, row: None, measured: Some(measured), moment: Some(moment), why: None }
    }

    pub fn not_judged(why: &'static str) -> Self {
        Self { verdict: Verdict::NotJudged, row: None, measured: None, moment: None, why: Some(why) }
    }

    pub fn nothing_asked() -> Self {
        Self { verdict: Verdict::Met, row: None, measured: None, moment: None, why: None }
    }

    pub fn because(self, why: &'static str) -> Self {
        Self { why: Some(why), ..self }
    }

    /// What was measured stands, and is no verdict yet.
    pub fn open(self, why: &'static str) -> Self {
        Self { verdict: Verdict::NotJudged, why: Some(why), ..self }
    }
}

/// How a rule stands among the others of its aim.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Way {
    /// Has to be met whatever else is.
    Needed,
    /// Part of one of the ways of which one will do.
    Option(String),
}

impl Way {
    pub(super) fn of(rule: &Rule, aim: Aim, came_from: Option<Side>) -> Self {
        // Food out of neither the heat nor the cold may have had any time before: no lenient side is chosen for it.
        let either_side =
            matches!(rule.demand, Demand::TimeAlone { side: Some(_), .. }) && came_from.is_none();
        match &rule.option {
            _ if rule.besides || either_side => Self::Needed,
            Some(option) => Self::Option(option.clone()),
            None if aim.has_alternatives() => Self::Option(rule.id.clone()),
            None => Self::Needed,
        }
    }
}

/// How a history comes out by one rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome<'r> {
    pub rule: &'r Rule,
    /// Of a chart, the row that was met, or came nearest.
    pub row: Option<String>,
    pub verdict: Verdict,
    /// `None` where no figure was looked at.
    pub measured: Option<Measured>,
    /// When it was met, or broken.
    pub moment: Option<Duration>,
    /// Why it was not judged, or what broke it beside the figure.
    pub why: Option<&'static str>,
    pub way: Way,
}

impl<'r> Outcome<'r> {
    pub(super) fn new(rule: &'r Rule, way: Way, ruling: Ruling) -> Self {
        let Ruling { verdict, row, measured, moment, why } = ruling;
        Self { rule, row, verdict, measured, moment, why, way }
    }

    /// May a fault against it be an error, with nothing else said?
    pub fn may_be_an_error(&self) -> bool {
        self.verdict == Verdict::Broken && !self.rule.advice && self.rule.status != Status::Memory
    }

    /// The verdict that may be relied on: nothing is met by a figure that counts only on a condition, and nothing
    /// is met or broken by one that is from memory.
    pub fn relied_on(&self) -> Verdict {
        let memory = self.rule.status == Status::Memory;
        let conditional =
            self.verdict == Verdict::Met && self.rule.condition.is_some() && !self.hangs_on_a_cook();
        if memory || conditional { Verdict::NotJudged } else { self.verdict }
    }

    /// Its condition is that of the cooking rule it hangs on, which the food is said to have passed.
    pub(in crate::safety) fn hangs_on_a_cook(&self) -> bool {
        matches!(
            &self.rule.demand,
            Demand::HotHold { after: Some(_), .. } | Demand::Reheat { after: Some(_), .. }
        )
    }
}

/// All outcomes of one aim together: what is needed has to be met, and one of the other ways.
pub fn overall(outcomes: &[Outcome]) -> Verdict {
    let mut needed = Vec::new();
    let mut ways: Vec<(&str, Vec<Verdict>)> = Vec::new();
    for outcome in outcomes {
        match &outcome.way {
            Way::Needed => needed.push(outcome.relied_on()),
            Way::Option(name) => match ways.iter_mut().find(|(known, _)| known == name) {
                Some((_, verdicts)) => verdicts.push(outcome.relied_on()),
                None => ways.push((name, vec![outcome.relied_on()])),
            },
        }
    }
    let ways: Vec<Verdict> = ways.iter().map(|(_, verdicts)| all_of(verdicts)).collect();
    if needed.is_empty() && ways.is_empty() {
        return Verdict::NotJudged;
    }
    if !ways.is_empty() {
        needed.push(one_of(&ways));
    }
    all_of(&needed)
}

fn all_of(verdicts: &[Verdict]) -> Verdict {
    if verdicts.contains(&Verdict::Broken) {
        Verdict::Broken
    } else if verdicts.contains(&Verdict::NotJudged) {
        Verdict::NotJudged
    } else {
        Verdict::Met
    }
}

fn one_of(verdicts: &[Verdict]) -> Verdict {
    if verdicts.contains(&Verdict::Met) {
        Verdict::Met
    } else if verdicts.contains(&Verdict::NotJudged) {
        Verdict::NotJudged
    } else {
        Verdict::Broken
    }
}
