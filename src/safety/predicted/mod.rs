//! What the predicted curves say of the rules that need the temperature inside the food.
//!
//! A rule that the usual prediction breaks is broken. One that only the bound breaks is in doubt: a warning says by how
//! much. What is met on the bound is met as predicted, and a probe has to show it. Nothing here unsettles what a probe
//! ends by the file's own words.

mod come_up;
mod cooled;
mod held;
mod kill;
mod left;
mod out;
mod reheated;
mod track;
mod words;

pub(super) use come_up::come_up;
pub(super) use cooled::{cooled, follows};
pub(super) use held::{cold, hot};
pub(super) use kill::kill;
pub(super) use left::left_at;
pub(super) use out::{Said, out};
pub(super) use reheated::reheated;

use super::Verdict;
use super::history::{Food, History, Outcome, Way, judge};
use super::report::{About, Fault, Report};
use crate::findings::{Code, Severity, Text};
use crate::say;
use crate::tables::{Aim, FoodState, Properties, Rule, Species, Status};
use crate::text::Span;
use track::{Bound, Lines, Missing};

/// How one rule comes out along a whole prediction, the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Level {
    /// On the bound as well.
    Met,
    /// Not on the bound, and by the usual prediction met or open.
    Doubtful,
    /// It would be met, and counts only on a condition.
    Conditional,
    /// The prediction does not say, or the figure cannot be relied on.
    Open,
    Broken,
}

/// One rule, by the usual prediction and by the bound.
struct Weighed<'r> {
    rule: &'r Rule,
    usual: Outcome<'r>,
    at_best: Outcome<'r>,
    bound: Outcome<'r>,
}

impl Weighed<'_> {
    fn level(&self) -> Level {
        let condition = self.rule.condition.is_some() && !self.usual.hangs_on_a_cook();
        match (self.at_best.verdict, self.bound.verdict) {
            (Verdict::Broken, _) => Level::Broken,
            (Verdict::Met, _) if condition => Level::Conditional,
            (Verdict::Met, Verdict::Met) => Level::Met,
            // Where the usual run ends too soon to tell, the bound may tell all the same.
            (Verdict::Met | Verdict::NotJudged, Verdict::Broken) => Level::Doubtful,
            (Verdict::NotJudged, _) | (Verdict::Met, Verdict::NotJudged) => Level::Open,
        }
    }

    /// By the run that says the most against it.
    fn against(&self) -> &Outcome<'_> {
        if self.level() == Level::Doubtful { &self.bound } else { &self.usual }
    }
}

/// The rules of the set about a food and an aim that `counts` lets through.
fn weigh<'r>(
    report: &Report<'r>,
    aim: Aim,
    food: &Food,
    lines: &Lines,
    counts: impl Fn(&Rule) -> bool,
) -> Vec<Weighed<'r>> {
    let outcomes = |history: &History| judge(history, food, aim, report.rules);
    let mut at_best = outcomes(&lines.at_best).into_iter();
    let mut bound = outcomes(&lines.bound).into_iter();
    let of_guests = |rule: &Rule| report.rules().any(|other| other.id == rule.id);
    let weighed = outcomes(&lines.usual).into_iter().filter_map(|usual| {
        let same = |other: &Outcome| other.rule.id == usual.rule.id;
        let (at_best, bound) = (at_best.find(same)?, bound.find(same)?);
        Some(Weighed { rule: usual.rule, usual, at_best, bound })
    });
    weighed.filter(|one| of_guests(one.rule) && counts(one.rule)).collect()
}

/// Of the ways that the rules leave open, the one that comes out best, and with it all that is needed beside it.
fn best_way(mut all: Vec<Weighed>) -> Vec<Weighed> {
    let mut ways: Vec<(String, Level)> = Vec::new();
    for one in &all {
        let Way::Option(name) = &one.usual.way else { continue };
        match ways.iter_mut().find(|(known, _)| known == name) {
            Some((_, level)) => *level = (*level).max(one.level()),
            None => ways.push((name.clone(), one.level())),
        }
    }
    // The first of those that come out alike.
    let best = ways.into_iter().min_by_key(|(_, level)| *level).map(|(name, _)| name);
    all.retain(|one| match &one.usual.way {
        Way::Option(name) => Some(name) == best.as_ref(),
        Way::Needed => true,
    });
    all
}

fn worst(all: &[Weighed]) -> Level {
    all.iter().map(Weighed::level).max().unwrap_or(Level::Open)
}

/// Where a fault is to be said, and how.
struct Place {
    code: Code,
    span: Span,
    about: About,
    /// The gravest that it may be.
    gravest: Severity,
    /// What would cure it.
    cure: Text,
}

/// Puts down how one rule came out.
fn put_down(report: &mut Report, one: &Weighed, aim: Aim, bound: Bound, place: Place) {
    let Place { code, span, about, gravest, cure } = place;
    let level = one.level();
    let found = words::found(report, one, aim, about);
    match level {
        Level::Met => {
            let why =
                say!["Predicted, and also where everything that is not known exactly goes the other way: "]
                    .followed_by(found)
                    .followed_by(say![". A probe has to show it."]);
            report.judged(&one.rule.id, Verdict::Met, about, why);
        }
        Level::Conditional => {
            let condition = one.rule.condition.clone().unwrap_or_default();
            let why =
                say!["Predicted: "].followed_by(found).followed_by(say![". It counts ", condition, "."]);
            report.judged(&one.rule.id, Verdict::NotJudged, about, why);
        }
        Level::Open => {
            let mut why = say!["Predicted"];
            match one.usual.why.or(one.bound.why) {
                Some(open) => why.push(format!(", {open}.")),
                None => why.push(", and not judged."),
            }
            report.judged(&one.rule.id, Verdict::NotJudged, about, why);
        }
        Level::Doubtful | Level::Broken => {
            let memory = one.rule.status == Status::Memory;
            let mut message = say![match (level, bound) {
                (Level::Broken, _) => "As predicted, ",
                (_, Bound::Cold) => "At the cold end of what is predicted, ",
                (_, Bound::Warm) => "At the warm end of what is predicted, ",
            }]
            .followed_by(found)
            .followed_by(words::missing(one.against(), aim));
            message.push(format!(": {}.", report.cite(one.rule)));
            match (level, one.at_best.verdict, one.usual.why) {
                (Level::Doubtful, Verdict::Met, _) => {
                    message.push(" Only that end of the prediction falls short.")
                }
                (Level::Doubtful, _, Some(open)) => {
                    message.push(format!(" As it usually goes, nothing can be said: {open}."));
                }
                _ => {}
            }
            if memory {
                message.push(" The figure is from memory and not verified.");
            }
            let broken = level == Level::Broken && !memory && gravest == Severity::Error;
            let severity = if broken { Severity::Error } else { Severity::Warning };
            let fault = Fault { severity, ..Fault::new(code, span, message, cure) };
            if broken && !one.rule.advice {
                report.broken(one.rule, about, fault);
            } else {
                report.judged(&one.rule.id, Verdict::NotJudged, about, fault.message.clone());
                report.fault(one.rule, about, fault);
            }
        }
    }
}

/// What a run is not followed for, to put behind what a rule needs.
pub(super) fn lacking(missing: &Missing) -> Text {
    match &missing.0 {
        Some(because) => say![format!(" To have it predicted: {because}.")],
        None => say![],
    }
}

/// A food as the judge of histories asks for it.
fn food(species: Species, state: FoodState, name: &str, properties: Option<&Properties>) -> Food {
    let fat_percent = properties.and_then(|properties| match properties {
        Properties::Composition(parts) => Some(parts.fat_percent),
        Properties::Measured { .. } => None,
    });
    Food { fat_percent, name: name.into(), ..Food::new(species, state) }
}
