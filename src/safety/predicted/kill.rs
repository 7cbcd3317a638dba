//! The kill along the predicted core, where declared figures leave it open.

use super::super::chance::{Chance, chance, reach_only, typed};
use super::super::lot::Lot;
use super::super::need::Need;
use super::super::report::{About, Fault, Report};
use super::super::{Verdict, history};
use super::track::{Bound, Lasting, Track, track};
use super::{Level, Place, Weighed, best_way, food, lacking, put_down, weigh, words, worst};
use crate::cook::{Item, Structure};
use crate::findings::{Code, Severity, Text};
use crate::say;
use crate::tables::{Aim, Demand, FoodState, Rule};
use crate::text::Span;

/// What the prediction makes of a kill, and the rule that it comes nearest to.
pub struct Killed {
    pub chance: Chance,
    pub by: String,
}

/// One raw food as its run of phases ends, by the lowest that its core may be.
///
/// # Errors
/// What is missing for a prediction.
pub fn kill(
    report: &mut Report,
    lot: &Lot,
    need: &Need,
    rules: &[&Rule],
    about: About,
    span: Span,
) -> Result<Killed, Text> {
    let Some((first, _)) = need.heats.first() else { return Err(say![]) };
    if need.heats.iter().any(|(_, heat)| heat.beside) {
        return Err(say![]);
    }
    let counts = |rule: &Rule| {
        matches!(rule.demand, Demand::Cook { .. }) && rules.iter().any(|other| other.id == rule.id)
    };
    let raw = raw(need, report.cook.item(need.item));
    let mut all: Option<(Vec<Weighed>, Track)> = None;
    for steps in lot.trails.since(*first, Some(need.item)) {
        let track =
            track(report, &steps, Bound::Cold, Lasting::Least).map_err(|missing| lacking(&missing))?;
        let found = best_way(weigh(report, Aim::Cook, &raw, &track.lines, counts));
        if all.as_ref().is_none_or(|(worse, _)| worst(&found) > worst(worse)) {
            all = Some((found, track));
        }
    }
    let (all, track) = all.ok_or_else(|| say![])?;
    let Some(best) = all.first() else { return Err(say![]) };
    let killed = |chance| Killed { chance, by: best.rule.id.clone() };
    let level = worst(&all);
    if level >= Level::Doubtful && expected(report, &track, &raw, counts) {
        let why = say!["As predicted, "].followed_by(words::found(report, best, Aim::Cook, about)).followed_by(say![
            ", which is not enough for certain. It rests on a checkpoint of the core, which a probe has to show."
        ]);
        report.judged(&best.rule.id, Verdict::NotJudged, about, why.clone());
        // What is only expected, and against the prediction, is worth a word.
        if level == Level::Broken {
            let cure = say![
                "End a phase on that core (`until core …`) rather than for a time, and probe it before it is served."
            ];
            let fault = Fault::new(Code::CookEndTooCool, span, why, cure);
            report.fault(best.rule, about, Fault { severity: Severity::Warning, ..fault });
        }
        return Ok(killed(Chance::Possible));
    }
    // Heat on the outside may be enough, by a rule with a condition.
    let outside = |rule: &&&Rule| {
        matches!(rule.demand, Demand::CookSurface { .. }) && chance(rule, need) != Chance::Never
    };
    if level == Level::Broken
        && let Some(rule) = rules.iter().find(outside)
    {
        let mut why = say!["As predicted, "].followed_by(words::found(report, best, Aim::Cook, about));
        why.push(match &rule.condition {
            Some(condition) => format!(". That is for the outside alone: it counts {condition}."),
            None => ". That is for the outside alone.".to_string(),
        });
        report.judged(&rule.id, Verdict::NotJudged, about, why);
        return Ok(killed(Chance::Possible));
    }
    let end = reach_only(rules).map(typed);
    let mut cure = say!["Cook it hotter or longer"];
    cure.push(match end {
        Some(end) => format!(", or end a phase where a probe shows it: `until core {end}`."),
        None => ", or end a phase where a probe shows it, with `until core`.".to_string(),
    });
    if level == Level::Doubtful {
        cure.push(" What you know better than it is taken for leaves less in doubt: the thickness and the setting, each with its `±`.");
    }
    put_down(
        report,
        best,
        Aim::Cook,
        Bound::Cold,
        Place { code: Code::CookEndTooCool, span, about, gravest: Severity::Error, cure },
    );
    Ok(killed(match level {
        Level::Met => Chance::Sure,
        Level::Broken => Chance::Never,
        Level::Doubtful | Level::Conditional | Level::Open => Chance::Possible,
    }))
}

/// Would it be enough if every checkpoint of the core came out as the file expects?
fn expected(report: &Report, track: &Track, raw: &history::Food, counts: impl Fn(&Rule) -> bool) -> bool {
    let Some(lines) = &track.as_expected else { return false };
    worst(&best_way(weigh(report, Aim::Cook, raw, lines, counts))) == Level::Met
}

/// The raw food, as the judge of histories asks for it.
pub fn raw(need: &Need, item: &Item) -> history::Food {
    let state = match need.structure {
        Structure::Intact => FoodState::Intact,
        Structure::Ground => FoodState::Ground,
        Structure::Tenderised => FoodState::Tenderised,
        Structure::Injected => FoodState::Injected,
    };
    food(need.species, state, &need.name, item.kind.as_ref().map(|kind| &kind.value.properties))
}
