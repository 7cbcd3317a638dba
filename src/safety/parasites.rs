//! Parasites: fish that nothing cooks has to have been frozen hard enough, for long enough.

use super::Verdict;
use super::chance::{Chance, typed};
use super::lot::Lot;
use super::need::Need;
use super::report::{About, Fault, Report};
use super::stock::{Recognised, recognise, words_of};
use crate::cook::Origin;
use crate::findings::Code;
use crate::quantity::Duration;
use crate::say;
use crate::tables::{Demand, Point};
use crate::text::Span;

/// One raw fish as its run of phases ends; `kill` is what the heat of it comes to.
pub(super) fn judge(report: &mut Report, lot: &Lot, need: &Need, about: About, kill: Chance, span: Span) {
    if kill == Chance::Sure || lot.unsure {
        return;
    }
    for rule in report.rules().filter(|rule| rule.is_about(need.subject())) {
        let Demand::FreezeFish { points, exempt } = &rule.demand else { continue };
        let food = report.food_name(need.item);
        if kill == Chance::Possible {
            let why = say![
                "Fish that is not cooked through has to be frozen first; whether this one is cooked through \
                 needs the predicted core temperature."
            ];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
        } else if points.iter().any(|point| keeps(point, need)) {
            let why = say![
                "By its setting and its time the freezer does it; how cold the fish itself gets is not known, and \
                 the figures of this rule are from memory."
            ];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
        } else if kind_name(report, need).is_some_and(|kind| exempt.contains(&kind)) {
            let why =
                say![format!("Some species need no freezing; which one `{food}` is, is yours to know.")];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
        } else {
            let asked: Vec<String> = points
                .iter()
                .map(|point| format!("{} or below for {}", point.limit(), point.hold().show()))
                .collect();
            let message = say![format!(
                "`{food}` is eaten in `{}` without a cook that is sure to kill parasites, and no phase freezes it for long \
                 enough: {}, by {} (figures from memory).",
                report.phase_name(about.phase),
                asked.join(", or "),
                report.cite(rule)
            )];
            let (cold, long) = points
                .first()
                .map_or_else(Default::default, |point| (typed(point.limit()), point.hold().show()));
            let remedy = say![format!(
                "Cook it through, or freeze it first: a phase that `is freeze`, with its setting and its time, such as \
                 `air {cold}` and `for {long}`. If it is farmed on feed without parasites, or your supplier froze it and \
                 says so in writing: `allow parasites-not-frozen because \"…\"`."
            )];
            report.judged(&rule.id, Verdict::NotJudged, about, message.clone());
            report.fault(rule, about, Fault::new(Code::ParasitesNotFrozen, span, message, remedy));
        }
    }
}

/// Was it in a freezer this cold for this long, in all?
fn keeps(point: &Point, need: &Need) -> bool {
    let cold = need.freezes.iter().filter(|(warmest, _)| point.limit().at_most(*warmest, false));
    cold.map(|(_, time)| *time).sum::<Duration>() >= point.hold()
}

/// The row of the food table that it was bought as.
fn kind_name(report: &Report, need: &Need) -> Option<String> {
    let item = report.cook.item(need.item);
    let written = item.kind.as_ref().map(|kind| kind.value.name.clone());
    written.or_else(|| match &item.origin {
        Origin::Ingredient(stock) => match recognise(words_of(item, stock))? {
            Recognised::Kind(kind) => Some(kind.name.clone()),
            Recognised::Plant | Recognised::Pantry => None,
        },
        _ => None,
    })
}
