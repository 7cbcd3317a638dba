//! Food that was cooked and cooled, and is eaten or held hot: it has to be reheated first, hot and fast enough.

use super::chance::{could_reach, typed};
use super::holding::hot_rules;
use super::lot::Lot;
use super::report::{About, Fault, Report};
use super::{Verdict, predicted};
use crate::cook::{PhaseId, Purpose};
use crate::findings::Code;
use crate::quantity::Duration;
use crate::say;
use crate::tables::{Demand, Point, Rule, Served};
use crate::text::Span;

/// Food that comes to a hot hold, and was cold: it has to be reheated first.
pub(super) fn entered(report: &mut Report, lot: &Lot, about: About, placed: Span) {
    if !lot.cold || lot.unsure || report.cook.phase(about.phase).damaged {
        return;
    }
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    if lot.warming.is_empty() {
        let bounds = hot_rules(report, lot);
        let Some((rule, limit)) = bounds.first() else { return };
        let fault = Fault::new(
            Code::HoldEnteredCold,
            placed,
            say![format!(
                "`{food}` goes into `{name}` cold. A hot hold keeps food {}; it may not heat it up: {}.",
                rule.at_or_above(limit),
                report.cite(rule)
            )],
            say![format!(
                "Heat it first: a phase that `is reheat` with an end, such as `until core …`, above `{name}`."
            )],
        );
        report.broken(rule, about, fault);
    } else if reheated(report, lot, about, Served::Held) {
        straight(report, lot, about, placed);
    }
}

/// Food that was cooked and cooled, and is warmed to be eaten at once. What is eaten cold is not reheated.
pub(super) fn eaten(report: &mut Report, lot: &Lot, about: About) {
    let held = !lot.cold;
    if !held && !lot.unsure && !lot.warming.is_empty() {
        reheated(report, lot, about, Served::Now);
    }
}

/// Straight from a phase that ends at a core which the hold may not have.
fn straight(report: &mut Report, lot: &Lot, about: About, placed: Span) {
    let Some((phase, heat)) = lot.warming.last().filter(|(phase, _)| lot.last == Some(*phase)) else {
        return;
    };
    let Some(core) = heat.sure.filter(|_| heat.exact) else { return };
    let bounds = hot_rules(report, lot);
    let Some((rule, limit)) = bounds.first() else { return };
    if bounds.iter().any(|(rule, limit)| limit.at_least(core, rule.strict)) {
        return;
    }
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let message = say![
        format!("`{food}` comes to `{name}` at "),
        core,
        format!(
            " from `{}`. Hot food is kept {}, from the start: {}.",
            report.phase_name(*phase),
            rule.at_or_above(limit),
            report.cite(rule)
        ),
    ];
    let remedy =
        say![format!("Heat it to {} or hotter before it is held, or serve it at once.", typed(*limit))];
    report.broken(rule, about, Fault::new(Code::HoldEnteredCold, placed, message, remedy));
}

/// What a reheating rule asks of this food before it is served so: the rule and its points.
fn reheat_rules<'a>(report: &Report<'a>, lot: &Lot, so: Served) -> Vec<(&'a Rule, &'a [Point], Option<f64>)> {
    let set = report.rules;
    report
        .rules()
        .filter_map(|rule| match &rule.demand {
            Demand::Reheat { points, points_of, after, bought_cooked, window_s, served, .. } => {
                let applies = served.is_none_or(|only| only == so)
                    && (after.is_none() || *after == lot.cooked_by)
                    && (!bought_cooked || lot.bought_cooked);
                let points = match points_of.as_deref().and_then(|of| set.rule(of)) {
                    Some(Rule { demand: Demand::Cook { points, .. }, .. }) => points,
                    _ => points,
                };
                applies.then_some((rule, points.as_slice(), *window_s))
            }
            _ => None,
        })
        .collect()
}

/// Reheating against the rules that apply; `false` where it does not get hot enough.
fn reheated(report: &mut Report, lot: &Lot, next: About, so: Served) -> bool {
    // Food that was never anything but raw is cooked here, not reheated.
    let Some((phase, heat)) = lot.warming.last().copied().filter(|_| lot.leftover) else {
        return true;
    };
    let about = About { phase, food: next.food };
    let rules = reheat_rules(report, lot, so);
    let reached = |(rule, points, _): &&(&Rule, &[Point], Option<f64>)| {
        points.iter().any(|point| could_reach(point, rule.strict, &lot.warming))
    };
    let Some((first, points, window)) = rules.first().copied() else { return true };
    let Some(asked) = points.first() else { return true };
    let (name, food) = (report.phase_name(phase), report.food_name(next.food));
    let Some((by, ..)) = rules.iter().find(reached) else {
        let message = say![format!(
            "`{name}` does not heat `{food}` enough for `{}`. What was cooked and cooled has to reach {asked} before it is {}: {}.",
            report.phase_name(next.phase),
            if so == Served::Held { "held hot" } else { "eaten warm" },
            report.cite(first)
        )];
        let mut remedy = say![format!("Reheat it with `until core {}`", typed(asked.limit()))];
        remedy.push(otherwise(so));
        report.broken(first, about, Fault::new(Code::ReheatTooCool, heat.span, message, remedy));
        return false;
    };
    // One rule without a clock is enough.
    let timed = rules.iter().filter(reached).all(|(_, _, window)| window.is_some());
    let window = window.filter(|_| timed).map(Duration::from_seconds);
    // What is cooked into a new dish has the time that the dish takes.
    let reheats = |phase: PhaseId| report.cook.phase(phase).purpose == Purpose::Reheat;
    let shortest: Duration =
        lot.warming.iter().filter(|(phase, _)| reheats(*phase)).map(|(_, heat)| heat.shortest).sum();
    if let Some(window) = window.filter(|window| shortest > *window) {
        let message = say![
            format!("Reheating `{food}` takes at least "),
            shortest,
            format!(
                ". It has to get from the cold to {asked} within {}: {}.",
                window.show(),
                report.cite(first)
            ),
        ];
        let remedy = say![
            "Reheat it in smaller or flatter pieces, or hotter. Slow reheating lets what survived grow."
        ];
        report.broken(
            first,
            about,
            Fault::new(Code::ReheatTooSlow, report.cook.phase(phase).lasts_span, message, remedy),
        );
        return true;
    }
    let mut why = say![
        "The declared figures allow it; that the coldest part is hot for long enough needs the predicted core temperature."
    ];
    if let Some(condition) = &by.condition {
        why.push(format!(" It counts {condition}."));
    }
    let all: Vec<&Rule> = rules.iter().map(|(rule, ..)| *rule).collect();
    match predicted::reheated(report, lot, (about, so), &all, heat.span) {
        Ok(hot_enough) => hot_enough,
        Err(lacking) => {
            report.judged(&by.id, Verdict::NotJudged, about, why.followed_by(lacking));
            true
        }
    }
}

/// What else would do.
pub(super) fn otherwise(so: Served) -> &'static str {
    match so {
        Served::Held => ", or serve it at once instead of holding it.",
        Served::Now => ", or serve it cold, straight from the fridge.",
    }
}
