//! Time neither hot nor cold, along the predicted core, by rules whose clock starts as the food passes a limit.

use super::super::Verdict;
use super::super::declared::times;
use super::super::lot::Lot;
use super::super::report::{About, Report};
use super::held::held;
use super::track::{Bound, Lasting, track};
use super::{Level, Place, Weighed, put_down, weigh};
use crate::cook::Purpose;
use crate::findings::{Code, Severity, Text};
use crate::quantity::Duration;
use crate::say;
use crate::tables::{Aim, Demand, Rule, Side};
use crate::text::Span;

/// What is to be said of it besides the verdict.
pub struct Said {
    pub span: Span,
    pub cure: Text,
}

/// From the first phase without control to the end of `about`, or of the phase before it where the food is not in there.
/// How warm it stays on the table is not predicted.
///
/// Says nothing where the rule is met and `closes` is not set: more may come. Gives back whether it was said, and `None`
/// where the food is not followed.
pub fn out(
    report: &mut Report,
    lot: &Lot,
    about: About,
    rule: &Rule,
    closes: bool,
    said: Said,
) -> Option<bool> {
    let side = match rule.demand {
        Demand::TimeAlone { side, .. } => side?,
        _ => return None,
    };
    let bound = match side {
        Side::Hot => Bound::Cold,
        Side::Cold => Bound::Warm,
    };
    let phase = report.cook.phase(about.phase);
    let served = phase.purpose == Purpose::Serve;
    if served && times(phase).shortest > Duration::ZERO {
        return None;
    }
    let first = lot.out_in.first()?.0;
    let mut trails = lot.trails.clone();
    if !closes && !served {
        trails.follow(about);
    }
    let food = held(report, lot, about.food);
    let mut worst: Option<Weighed> = None;
    for steps in trails.since(first, None) {
        let track = track(report, &steps, bound, Lasting::Most).ok()?;
        let found = weigh(report, Aim::TimeControl, &food, &track.lines, |other| other.id == rule.id);
        let one = found.into_iter().next()?;
        if worst.as_ref().is_none_or(|known| one.level() > known.level()) {
            worst = Some(one);
        }
    }
    let one = worst?;
    let say = closes || matches!(one.level(), Level::Doubtful | Level::Broken);
    if say && served && one.level() == Level::Met {
        let why = say![
            "As predicted, it is within the limit as it is served. The time that it then stands on the table counts on top."
        ];
        report.judged(&rule.id, Verdict::NotJudged, about, why);
    } else if say {
        let Said { span, cure } = said;
        let place = Place { code: Code::TimeWithoutControl, span, about, gravest: Severity::Error, cure };
        put_down(report, &one, Aim::TimeControl, bound, place);
    }
    Some(say)
}
