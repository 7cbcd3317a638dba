//! Reheating: hot enough at the coldest point, and fast enough from the cold.

use super::super::history::{Figure, Margin};
use super::super::lot::Lot;
use super::super::reheating::otherwise;
use super::super::report::{About, Report};
use super::held::held;
use super::track::{Bound, Lasting, track};
use super::{Level, Place, Weighed, best_way, lacking, put_down, weigh, worst};
use crate::cook::{PhaseId, Purpose};
use crate::findings::{Code, Severity, Text};
use crate::say;
use crate::tables::{Aim, Demand, Rule, Served};
use crate::text::Span;

/// Food that comes out of the cold and is to be held hot or eaten warm. Gives back whether it is hot enough, as far as that is known.
///
/// # Errors
/// What is missing for a prediction.
pub fn reheated(
    report: &mut Report,
    lot: &Lot,
    (about, so): (About, Served),
    rules: &[&Rule],
    span: Span,
) -> Result<bool, Text> {
    let Some((first, _)) = lot.warming.first() else { return Err(say![]) };
    // What a probe ends takes as long as the slowest may; what a clock ends gets the least heat.
    let probed = lot.warming.iter().any(|(_, heat)| heat.sure.is_some());
    let lasting = if probed { Lasting::Most } else { Lasting::Least };
    let food = held(report, lot, about.food);
    let aim = match so {
        Served::Held => Aim::ReheatToHold,
        Served::Now => Aim::ReheatNow,
    };
    let mut all: Vec<Weighed> = Vec::new();
    for steps in lot.trails.since(*first, None) {
        let track = track(report, &steps, Bound::Cold, lasting).map_err(|missing| lacking(&missing))?;
        let counts = |rule: &Rule| rules.iter().any(|other| other.id == rule.id);
        let found = best_way(weigh(report, aim, &food, &track.lines, counts));
        if all.is_empty() || worst(&found) > worst(&all) {
            all = found;
        }
    }
    let Some(one) = all.first() else { return Err(say![]) };
    let slow = one.against().measured.is_some_and(|measured| {
        matches!((measured.required, measured.margin), (Figure::Time(max), Margin::Time(_))
            if matches!(one.rule.demand, Demand::Reheat { window_s: Some(s), .. } if s == max.seconds()))
    });
    // What is cooked into a new dish has the time that the dish takes.
    let reheats = |(phase, _): &(PhaseId, _)| report.cook.phase(*phase).purpose == Purpose::Reheat;
    if slow && one.level() >= Level::Doubtful && !lot.warming.iter().all(reheats) {
        return Err(say![]);
    }
    let (code, span, cure) = match slow {
        true => (
            Code::ReheatTooSlow,
            report.cook.phase(about.phase).lasts_span,
            say![
                "Reheat it in smaller or flatter pieces, or hotter. Slow reheating lets what survived grow."
            ],
        ),
        false => (
            Code::ReheatTooCool,
            span,
            say![format!(
                "Reheat it hotter or for longer, with an end that a probe shows (`until core`){}",
                otherwise(so)
            )],
        ),
    };
    let level = one.level();
    put_down(report, one, aim, Bound::Cold, Place { code, span, about, gravest: Severity::Error, cure });
    Ok(level != Level::Broken || slow)
}
