//! Cooling along the highest that the core may be, from the heat to the cold, over all phases between.

use super::super::Verdict;
use super::super::lot::Lot;
use super::super::report::{About, Report};
use super::held::held;
use super::track::{Bound, Lasting, track};
use super::{Level, Place, Weighed, best_way, put_down, weigh, words, worst};
use crate::findings::{Code, Severity};
use crate::say;
use crate::tables::{Aim, Rule};

/// Is the food followed from the heat up to and through `phase`?
pub fn follows(report: &Report, lot: &Lot, about: About) -> bool {
    let mut lot_then = lot.trails.clone();
    lot_then.follow(about);
    let runs = lot_then.since_heat(report.cook);
    !runs.is_empty() && runs.iter().all(|steps| track(report, steps, Bound::Warm, Lasting::Most).is_ok())
}

/// The food has gone from the heat into the cold, or is taken on before it is cold. `began` is the phase that was to
/// cool it.
pub fn cooled(report: &mut Report, lot: &Lot, began: About) {
    let food = held(report, lot, began.food);
    let mut all: Vec<Weighed> = Vec::new();
    for mut steps in lot.trails.since_heat(report.cook) {
        // Where it is not followed into the last phase, it is up to there.
        while !steps.is_empty() {
            let Ok(track) = track(report, &steps, Bound::Warm, Lasting::Most) else {
                steps.pop();
                continue;
            };
            let counts = |rule: &Rule| words::stage(rule).is_some();
            let found = weigh(report, Aim::Cool, &food, &track.lines, counts);
            if all.is_empty() || worst(&found) > worst(&all) {
                all = found;
            }
            break;
        }
    }
    let phase = report.cook.phase(began.phase);
    let span = phase.within.as_ref().map_or(phase.lasts_span, |within| within.span);
    for one in best_way(all) {
        if report.is_broken(&one.rule.id, began) {
            continue;
        }
        if one.level() == Level::Open {
            open(report, &one, began);
            continue;
        }
        let mut cure = say![
            "Cool it flatter or in smaller pieces (half as deep takes about a quarter of the time), in ice, or in a blast chiller."
        ];
        if one.level() == Level::Doubtful {
            cure.push(" Or let a probe show it: `until core` with its `within`. A depth and a setting with their own `±` leave less in doubt.");
        }
        let place = Place { code: Code::CoolTooSlow, span, about: began, gravest: Severity::Error, cure };
        put_down(report, &one, Aim::Cool, Bound::Warm, place);
    }
}

/// It is taken on, or not followed, before it is as cold.
fn open(report: &mut Report, one: &Weighed, began: About) {
    let mut why = say!["Whether it is cold in time is not predicted"];
    if let Some(open) = one.usual.why.or(one.bound.why) {
        why.push(format!(": {open}"));
    }
    why.push(". Add an end such as `until core 5 °C, within 6 h`, or a phase in the cold after it.");
    report.judged(&one.rule.id, Verdict::NotJudged, began, why);
}
