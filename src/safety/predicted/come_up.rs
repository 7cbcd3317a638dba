//! The way up: how long the core is warm before it is hot. What grows there may leave what no later heat undoes.

use super::super::Verdict;
use super::super::declared::surroundings;
use super::super::history::{History, judge};
use super::super::lot::Lot;
use super::super::need::Need;
use super::super::report::{About, Report};
use super::kill::raw;
use super::track::{Bound, Lasting, Missing, Track, track};
use super::{Level, Place, Weighed, lacking, put_down, weigh, worst};
use crate::cook::Structure;
use crate::findings::{Code, Severity, Text};
use crate::say;
use crate::tables::{Aim, Demand, Rule};

/// What has to hold beside the kill, over the whole run that heats one raw food.
pub fn come_up(report: &mut Report, lot: &Lot, need: &Need) {
    let aim = |rule: &Rule| {
        let aims = rule.aims.as_deref().unwrap_or_default();
        let cooks = rule.besides && rule.on_curve.is_some();
        [Aim::ComeUp, Aim::Cook].into_iter().find(|aim| cooks && aims.contains(aim))
    };
    let asked: Vec<(&Rule, Aim)> = report
        .rules()
        .filter(|rule| rule.is_about(need.subject()))
        .filter_map(|rule| aim(rule).map(|aim| (rule, aim)))
        .collect();
    let Some((first, _)) = need.heats.first() else { return };
    if asked.is_empty() || lot.unsure || need.heats.iter().any(|(_, heat)| heat.beside) {
        return;
    }
    let runs = lot.trails.since(*first, Some(need.item));
    let about = About { phase: *first, food: need.item };
    for (rule, aim) in asked {
        for steps in &runs {
            if lies_in(report, rule, steps) {
                along(report, need, about, rule, aim, steps);
            }
        }
    }
}

/// The rule is about the medium of one of these phases.
fn lies_in(report: &Report, rule: &Rule, steps: &[About]) -> bool {
    let Demand::Listed { media: Some(media), .. } = &rule.demand else { return true };
    let medium =
        |step: &About| surroundings(report.cook, report.cook.phase(step.phase)).map(|band| band.medium);
    steps.iter().filter_map(medium).any(|medium| media.contains(&medium))
}

fn along(report: &mut Report, need: &Need, about: About, rule: &Rule, aim: Aim, steps: &[About]) {
    let (followed, missing) = as_far_as_followed(report, steps);
    let raw = raw(need, report.cook.item(need.item));
    let all = match &followed {
        Some(track) => weigh(report, aim, &raw, &track.lines, |other| other.id == rule.id),
        None => Vec::new(),
    };
    // What is too slow as far as it is followed stays so, whatever comes after.
    if let Some(missing) = missing.filter(|_| !matches!(worst(&all), Level::Doubtful | Level::Broken)) {
        let Demand::Listed { needs, .. } = &rule.demand else { return };
        let why = say![format!("{} This needs {needs}.", rule.asks)].followed_by(lacking(&missing));
        report.judged(&rule.id, Verdict::NotJudged, about, why);
        return;
    }
    let (Some(track), Some(one)) = (&followed, all.first()) else { return };
    let whole = rule.intact_by_surface && need.structure == Structure::Intact;
    let by_surface =
        whole && worst(&all) >= Level::Doubtful && in_time(&track.surface, &raw, aim, rule, report);
    let phase = report.cook.phase(about.phase);
    let setting = phase.setting.filter(|setting| !setting.kept);
    let span = setting.map_or(phase.name_span, |setting| setting.span);
    let gravest = if by_surface { Severity::Warning } else { Severity::Error };
    put_down(
        report,
        one,
        aim,
        Bound::Cold,
        Place { code: Code::ComeUpTooSlow, span, about, gravest, cure: cure(one, by_surface) },
    );
}

/// The longest run from the first of these phases on that is predicted, and what is missing for the whole of it.
fn as_far_as_followed(report: &Report, steps: &[About]) -> (Option<Track>, Option<Missing>) {
    let mut missing = None;
    for upto in (1..=steps.len()).rev() {
        match track(report, &steps[..upto], Bound::Cold, Lasting::Most) {
            Ok(track) => return (Some(track), missing),
            Err(lacks) => missing = missing.or(Some(lacks)),
        }
    }
    (None, missing)
}

/// Is the outside usually through in time?
fn in_time(surface: &History, raw: &super::Food, aim: Aim, rule: &Rule, report: &Report) -> bool {
    let outcomes = judge(surface, raw, aim, report.rules);
    outcomes.iter().any(|outcome| outcome.rule.id == rule.id && outcome.verdict == Verdict::Met)
}

fn cure(one: &Weighed, by_surface: bool) -> Text {
    let mut cure = say![
        "Start it hotter, or make it smaller or thinner: a piece half as thick is through in about a quarter of the time. Heat at the end undoes no poison that was made on the way."
    ];
    if by_surface {
        cure.push(" A whole piece that nothing was stuck into may be timed at its surface, which is predicted to be through in time.");
    }
    if one.level() == Level::Doubtful {
        cure.push(" A thickness and a setting with their own `±` leave less in doubt.");
    }
    cure
}
