//! Hot holds, cold holds, thawing and days in the cold.

use super::Verdict;
use super::cooking::{could_reach, typed};
use super::declared::{Band, core_checks, surroundings};
use super::lot::Lot;
use super::report::{About, Fault, Report};
use crate::cook::{Phase, Purpose};
use crate::findings::{Code, Severity};
use crate::quantity::{Duration, Temperature};
use crate::say;
use crate::tables::{Demand, Limit, Point, Rule};
use crate::text::Span;

/// A rule of holding and its limit.
type Bound<'a> = (&'a Rule, Limit);

fn hot_rules<'a>(report: &Report<'a>, lot: &Lot) -> Vec<Bound<'a>> {
    report
        .rules()
        .filter_map(|rule| match &rule.demand {
            Demand::HotHold { min, after } if after.is_none() || *after == lot.cooked_by => {
                Some((rule, *min))
            }
            _ => None,
        })
        .collect()
}

/// The lowest published limit for hot holding, whatever the food.
pub(super) fn counts_as_hot(report: &Report, at: Temperature) -> bool {
    report.rules().any(|rule| match &rule.demand {
        Demand::HotHold { min, after: None } => min.at_least(at, rule.strict),
        _ => false,
    })
}

pub(super) fn counts_as_cold(report: &Report, at: Temperature) -> bool {
    report.rules().any(|rule| match &rule.demand {
        Demand::ColdHold { max } if rule.foods.is_empty() => max.at_most(at, rule.strict),
        _ => false,
    })
}

/// Where to point for a figure that may stand in another phase or in the kit.
fn place_of(phase: &Phase, band: &Band) -> (Span, Vec<(Span, crate::findings::Text)>) {
    match band.span {
        Some(span) if band.here => (span, Vec::new()),
        Some(span) => (phase.name_span, vec![(span, say!["The setting comes from here."])]),
        None => (phase.name_span, Vec::new()),
    }
}

/// Food is kept hot.
pub(super) fn hot(report: &mut Report, lot: &Lot, about: About) {
    let phase = report.cook.phase(about.phase);
    let bounds = hot_rules(report, lot);
    let Some((rule, limit)) = bounds.first().copied() else { return };
    let passes =
        |at: Temperature| bounds.iter().find(|(rule, limit)| limit.at_least(at, rule.strict)).copied();
    match surroundings(report.cook, phase) {
        Some(band) if band.low == band.high => match passes(band.low) {
            None => {
                let (span, also) = place_of(phase, &band);
                let mut fault = hold_too_cool(report, about, &bounds, band.low, span);
                fault.also = also;
                report.broken(rule, about, fault);
            }
            Some((by, by_limit)) => hot_enough(report, about, by, by_limit, &band),
        },
        Some(band) if passes(band.high).is_none() => {
            let (span, also) = place_of(phase, &band);
            let mut fault = hold_too_cool(report, about, &bounds, band.high, span);
            fault.also = also;
            report.broken(rule, about, fault);
        }
        _ if phase.damaged => {}
        _ => report.judged(
            &rule.id,
            Verdict::NotJudged,
            about,
            say![format!(
                "No setting says how hot it is kept. Add one of {limit} or above, such as `air {}`.",
                typed(limit)
            )],
        ),
    }
    for (low, high, span) in core_checks(phase) {
        let Some(lets_pass) = low.or(high) else { continue };
        if passes(lets_pass).is_none() {
            let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
            let message = say![
                format!("The checkpoint of `{name}` lets `{food}` pass at "),
                lets_pass,
                format!(". Hot food has to be at {limit} or above all the time: {}.", report.cite(rule)),
            ];
            let remedy = say![format!("Begin the checkpoint at {} or above.", typed(limit))];
            report.broken(rule, about, Fault::new(Code::HoldTooCool, span, message, remedy));
        }
    }
}

fn hold_too_cool(report: &Report, about: About, bounds: &[Bound], at: Temperature, span: Span) -> Fault {
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let Some((rule, limit)) = bounds.first() else {
        return Fault::new(Code::HoldTooCool, span, say![], say![]);
    };
    let mut message =
        say![format!("`{name}` keeps `{food}` at "), at, format!(". Hot food is kept at {limit} or above")];
    for (_, other) in bounds.iter().skip(1) {
        message.push(format!(", or {other} for a whole roast cooked by the chart for roasts"));
    }
    message.push(format!(": {}.", report.cite(rule)));
    let remedy = say![format!(
        "Set it to {} or hotter; a few degrees more leave room for the kit's swing. Or cool it at once and reheat it.",
        typed(*limit)
    )];
    Fault::new(Code::HoldTooCool, span, message, remedy)
}

fn hot_enough(report: &mut Report, about: About, rule: &Rule, limit: Limit, band: &Band) {
    if let Some(condition) = &rule.condition {
        report.judged(
            &rule.id,
            Verdict::NotJudged,
            about,
            say!["The setting counts ", condition.clone(), "."],
        );
    } else {
        report.judged(
            &rule.id,
            Verdict::Met,
            about,
            say![band.low, " is the temperature around it, and enough. The food itself is judged apart."],
        );
        report.judged(
            &rule.id,
            Verdict::NotJudged,
            about,
            say![format!(
                "Whether the food itself stays at {limit} or above needs the predicted core temperature."
            )],
        );
    }
    let Some(tolerance) = band.tolerance else { return };
    let coolest = band.low - tolerance;
    if !limit.at_least(coolest, rule.strict) {
        let name = report.phase_name(about.phase);
        let span = band.span.unwrap_or(report.cook.phase(about.phase).name_span);
        let message = say![
            format!("`{name}` may fall to "),
            coolest,
            format!(
                ", {} below the {limit} that hot food is kept at: {}.",
                (limit.lowest() - coolest).show(report.cook.scale),
                report.cite(rule)
            ),
        ];
        let remedy =
            say!["Set it higher by that much, or say a smaller tolerance if the kit is better than that."];
        let fault =
            Fault { severity: Severity::Warning, ..Fault::new(Code::HoldTooCool, span, message, remedy) };
        report.fault(rule, about, fault);
    }
}

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
                "`{food}` goes into `{name}` cold. A hot hold keeps food at {limit} or above; it may not heat it up: {}.",
                report.cite(rule)
            )],
            say![format!(
                "Heat it first: a phase that `is reheat` with an end, such as `until core …`, above `{name}`."
            )],
        );
        report.broken(rule, about, fault);
    } else {
        reheated(report, lot, about);
    }
}

/// What a reheating rule asks of this food: the rule and its points.
fn reheat_rules<'a>(report: &Report<'a>, lot: &Lot) -> Vec<(&'a Rule, &'a [Point], Option<f64>)> {
    let set = report.rules;
    report
        .rules()
        .filter_map(|rule| match &rule.demand {
            Demand::Reheat { points, points_of, after, bought_cooked, window_s } => {
                let applies =
                    (after.is_none() || *after == lot.cooked_by) && (!bought_cooked || lot.bought_cooked);
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

fn reheated(report: &mut Report, lot: &Lot, hold: About) {
    // Food that was never anything but raw is cooked here, not reheated.
    let Some((phase, heat)) = lot.warming.last().copied().filter(|_| lot.leftover) else { return };
    let about = About { phase, food: hold.food };
    let rules = reheat_rules(report, lot);
    let reached = |(rule, points, _): &&(&Rule, &[Point], Option<f64>)| {
        points.iter().any(|point| could_reach(point, rule.strict, &lot.warming))
    };
    let Some((first, points, window)) = rules.first().copied() else { return };
    let Some(asked) = points.first() else { return };
    let (name, food) = (report.phase_name(phase), report.food_name(hold.food));
    let Some((by, _, by_window)) = rules.iter().find(reached) else {
        let message = say![format!(
            "`{name}` does not heat `{food}` enough for `{}`. What was cooked and cooled has to reach {asked} before it is held hot: {}.",
            report.phase_name(hold.phase),
            report.cite(first)
        )];
        let remedy = say![format!(
            "Reheat it with `until core {}`, or serve it at once instead of holding it.",
            typed(asked.limit())
        )];
        report.broken(first, about, Fault::new(Code::ReheatTooCool, heat.span, message, remedy));
        return;
    };
    let mut why = say![
        "The declared figures allow it; that the coldest part is hot for long enough needs the predicted core temperature."
    ];
    if let Some(condition) = &by.condition {
        why.push(format!(" It counts {condition}."));
    }
    report.judged(&by.id, Verdict::NotJudged, about, why);
    let (Some(window), Some(_)) = (window.map(Duration::from_seconds), by_window) else { return };
    // What is cooked into a new dish has the time that the dish takes.
    let reheats = |phase: crate::cook::PhaseId| report.cook.phase(phase).purpose == Purpose::Reheat;
    let shortest: Duration =
        lot.warming.iter().filter(|(phase, _)| reheats(*phase)).map(|(_, heat)| heat.shortest).sum();
    if shortest > window {
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
    }
}

/// Food is kept cold.
pub(super) fn cold(report: &mut Report, lot: &Lot, about: About) {
    let phase = report.cook.phase(about.phase);
    let egg = |rule: &Rule| {
        rule.foods.is_empty()
            || lot.needs.iter().any(|need| need.untouched() && rule.is_about(need.species, need.structure))
    };
    let bounds: Vec<Bound> = report
        .rules()
        .filter_map(|rule| match &rule.demand {
            Demand::ColdHold { max } if egg(rule) => Some((rule, *max)),
            _ => None,
        })
        .collect();
    let Some((rule, limit)) = bounds.first().copied() else { return };
    let passes =
        |at: Temperature| bounds.iter().find(|(rule, limit)| limit.at_most(at, rule.strict)).copied();
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let too_warm = |at: Temperature, span: Span| {
        let message = say![
            format!("`{name}` keeps `{food}` at "),
            at,
            format!(". Cold food is kept at {limit} or below: {}.", report.cite(rule)),
        ];
        Fault::new(Code::HoldTooWarm, span, message, say![format!("Set it to {} or colder.", typed(limit))])
    };
    match surroundings(report.cook, phase) {
        Some(band) if passes(band.low).is_none() => {
            let (span, also) = place_of(phase, &band);
            report.broken(rule, about, Fault { also, ..too_warm(band.low, span) });
        }
        Some(band) if passes(band.high).is_some() => {
            let (by, limit) = passes(band.high).unwrap_or((rule, limit));
            match &by.condition {
                Some(condition) => report.judged(&by.id, Verdict::NotJudged, about, say!["The setting counts ", condition.clone(), "."]),
                None => {
                    report.judged(&by.id, Verdict::Met, about, say![band.high, " is the temperature around it, and enough. The food itself is judged apart."]);
                    report.judged(&by.id, Verdict::NotJudged, about, say![format!("Whether the food itself is at {limit} or below needs its predicted temperature.")]);
                }
            }
        }
        _ if phase.damaged => {}
        _ => report.judged(
            &rule.id,
            Verdict::NotJudged,
            about,
            say![format!("No figure says how cold it is kept. Say it of the kit, such as `air 3 °C`; {limit} or below is asked.")],
        ),
    }
    for (low, high, span) in core_checks(phase) {
        if let Some(lets_pass) = high.or(low)
            && passes(lets_pass).is_none()
        {
            let message = say![
                format!("The checkpoint of `{name}` lets `{food}` pass at "),
                lets_pass,
                format!(". Cold food is kept at {limit} or below: {}.", report.cite(rule)),
            ];
            let remedy = say![format!("End the checkpoint at {} or below.", typed(limit))];
            report.broken(rule, about, Fault::new(Code::HoldTooWarm, span, message, remedy));
        }
    }
}

/// Days in the cold, for food that was cooked or made ready here.
pub(super) fn stored(report: &mut Report, lot: &Lot, about: About) {
    if !lot.cooked || lot.bought_cooked || lot.hurdles {
        return;
    }
    for rule in report.rules() {
        let Demand::Keep { max_days } = rule.demand else { continue };
        let allowed = Duration::from_hours(max_days * 24.0);
        // The day of making counts as the first, so the last day may end up to a day sooner.
        let certain = Duration::from_hours((max_days - 1.0) * 24.0);
        let phase = report.cook.phase(about.phase);
        if lot.stored.planned > allowed {
            let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
            let message = say![
                format!("With `{name}`, `{food}` may be kept cold for "),
                lot.stored.planned,
                format!(
                    ". Food that was made here is used within {max_days} days, the first included: {}.",
                    report.cite(rule)
                ),
            ];
            let remedy = say!["Keep it for less, or freeze it: days in the freezer do not count."];
            report.broken(rule, about, Fault::new(Code::KeptTooLong, phase.lasts_span, message, remedy));
        } else if lot.stored.longest <= certain {
            report.judged(
                &rule.id,
                Verdict::Met,
                about,
                say!["It is kept cold for at most ", lot.stored.longest, "."],
            );
        } else {
            report.judged(
                &rule.id,
                Verdict::NotJudged,
                about,
                say!["Which day is the last needs the days of the timeline."],
            );
        }
    }
}

/// Frozen food is thawed.
pub(super) fn thaw(report: &mut Report, about: About) {
    let phase = report.cook.phase(about.phase);
    let rules: Vec<(&Rule, &Vec<crate::cook::Medium>, Limit)> = report
        .rules()
        .filter_map(|rule| match &rule.demand {
            Demand::Thaw { media, max } => Some((rule, media, *max)),
            _ => None,
        })
        .collect();
    let Some((first, _, first_limit)) = rules.first().copied() else { return };
    let Some(band) = surroundings(report.cook, phase) else {
        if !phase.damaged {
            let why = say![format!(
                "No figure says how warm it is around the food; {first_limit} or below is asked in air."
            )];
            report.judged(&first.id, Verdict::NotJudged, about, why);
        }
        return;
    };
    let Some((rule, _, limit)) = rules.iter().find(|(_, media, _)| media.contains(&band.medium)).copied()
    else {
        return;
    };
    if !limit.at_most(band.low, rule.strict) {
        let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
        let (span, also) = place_of(phase, &band);
        let message = say![
            format!("`{name}` thaws `{food}` in {} at ", band.medium.word()),
            band.low,
            format!(
                ". Its outside would be warm for hours: {limit} or below is asked: {}.",
                report.cite(rule)
            ),
        ];
        let remedy = say!["Thaw it in the fridge, or under cold running water."];
        report.broken(rule, about, Fault { also, ..Fault::new(Code::ThawTooWarm, span, message, remedy) });
    } else if let Some(condition) = &rule.condition {
        report.judged(&rule.id, Verdict::NotJudged, about, say!["It counts ", condition.clone(), "."]);
    } else if limit.at_most(band.high, rule.strict) {
        report.judged(
            &rule.id,
            Verdict::Met,
            about,
            say![band.high, " is the temperature around it, and cold enough."],
        );
    } else {
        report.judged(
            &rule.id,
            Verdict::NotJudged,
            about,
            say!["No figure says how cold it is around the food. Say it of the kit, such as `air 3 °C`."],
        );
    }
}
