//! Cold holds, thawing, and days in the cold.

use super::chance::typed;
use super::declared::{core_checks, surroundings};
use super::holding::{Bound, nothing_says, place_of};
use super::lot::Lot;
use super::report::{About, Fault, Report};
use super::{Verdict, predicted, without_air};
use crate::cook::Medium;
use crate::findings::{Code, Severity};
use crate::quantity::{Duration, Temperature};
use crate::say;
use crate::tables::{Demand, Limit, Rule};
use crate::text::Span;

/// Food is kept cold.
pub(super) fn cold(report: &mut Report, lot: &mut Lot, about: About) {
    let phase = report.cook.phase(about.phase);
    let bounds = cold_rules(report, lot);
    let Some(first) = bounds.first().copied() else { return };
    // The first that a temperature misses; the food has to keep them all.
    let missed = |at: Temperature| bounds.iter().find(|(rule, max)| !max.at_most(at, rule.strict)).copied();
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    match surroundings(report.cook, phase) {
        Some(band) if missed(band.low).is_some() => {
            let (rule, limit) = missed(band.low).unwrap_or(first);
            let (span, also) = place_of(phase, &band);
            let message = say![
                format!("`{name}` keeps `{food}` at "),
                band.low,
                format!(". Cold food is kept {}: {}.", rule.at_or_below(limit), report.cite(rule)),
            ];
            let remedy = say![format!("Set it to {} or colder.", typed(limit))];
            report.broken(
                rule,
                about,
                Fault { also, ..Fault::new(Code::HoldTooWarm, span, message, remedy) },
            );
        }
        // The range of a class is not what somebody says of this fridge.
        Some(band) if band.span.is_some() && missed(band.high).is_none() => {
            bounds.iter().for_each(|bound| cold_enough(report, lot, about, *bound, &band));
        }
        _ if phase.damaged => {}
        _ => {
            let (rule, limit) = first;
            let why = say![format!(
                "No figure says how cold it is kept. Say it of the kit, such as `air 3 °C`: {}.",
                rule.at_or_below(limit)
            )];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
            nothing_says(report, lot, about, first, Code::HoldTooWarm);
        }
    }
    for (low, high, span) in core_checks(phase) {
        let Some(lets_pass) = high.or(low) else { continue };
        let Some((rule, limit)) = missed(lets_pass) else { continue };
        let message = say![
            format!("The checkpoint of `{name}` lets `{food}` pass at "),
            lets_pass,
            format!(". Cold food is kept {}: {}.", rule.at_or_below(limit), report.cite(rule)),
        ];
        let remedy = say![format!("End the checkpoint {}.", rule.at_or_below(typed(limit)))];
        report.broken(rule, about, Fault::new(Code::HoldTooWarm, span, message, remedy));
    }
}

/// The cold limits of a food. A rule about a raw food stands in place of the general one for it, be it
/// stricter (minced meat) or laxer (eggs in the shell); a mixture keeps every rule of its parts.
fn cold_rules<'a>(report: &Report<'a>, lot: &Lot) -> Vec<Bound<'a>> {
    let raw = || lot.needs.iter().filter(|need| need.untouched());
    let about = |rule: &Rule| raw().any(|need| rule.is_about(need.subject()));
    let all = || {
        report.rules().filter_map(|rule| match &rule.demand {
            Demand::ColdHold { max } => Some((rule, *max)),
            _ => None,
        })
    };
    let special: Vec<Bound> = all().filter(|(rule, _)| !rule.foods.is_empty() && about(rule)).collect();
    let covered =
        raw().count() > 0 && raw().all(|need| special.iter().any(|(rule, _)| rule.is_about(need.subject())));
    let general = all().filter(|(rule, _)| rule.foods.is_empty() && !covered);
    general.chain(special.iter().copied()).collect()
}

fn cold_enough(
    report: &mut Report,
    lot: &Lot,
    about: About,
    (rule, limit): Bound,
    band: &super::declared::Band,
) {
    if let Some(condition) = &rule.condition {
        report.judged(
            &rule.id,
            Verdict::NotJudged,
            about,
            say!["The setting counts ", condition.clone(), "."],
        );
        return;
    }
    let inside = match lot.cooling_began {
        Some(_) => Err(say![" It is still cooling as it comes in; how fast is judged apart."]),
        None => {
            let span = band.span.unwrap_or(report.cook.phase(about.phase).name_span);
            predicted::cold(report, lot, about, (rule, limit), span)
        }
    };
    if let Err(lacking) = inside {
        let why =
            say![band.high, " is the temperature around it, and enough. The food itself is judged apart."];
        report.judged(&rule.id, Verdict::Met, about, why);
        let needs = say![format!(
            "Whether the food itself is {} needs its predicted temperature.",
            rule.at_or_below(limit)
        )];
        report.judged(&rule.id, Verdict::NotJudged, about, needs.followed_by(lacking));
    }
}

/// What no cook file says of food that was bought ready.
const BEFORE: &str = "It was bought ready to eat: the days since it was opened, before this cook, are yours to add; mind its use-by date.";

/// Days in the cold, for food that was cooked or made ready, here or before it was bought.
pub(super) fn stored(report: &mut Report, lot: &Lot, about: About) {
    without_air::kept(report, lot, about);
    if !lot.cooked {
        return;
    }
    for rule in report.rules() {
        let Demand::Keep { max_days } = rule.demand else { continue };
        let allowed = Duration::from_hours(max_days * 24.0);
        // The day of making counts as the first, so the last day may end up to a day sooner.
        let certain = Duration::from_hours((max_days - 1.0) * 24.0);
        let phase = report.cook.phase(about.phase);
        if lot.hurdles {
            let why = say!["It is cured or fermented: how many days it keeps so is not judged yet."];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
        } else if lot.stored.planned > allowed {
            let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
            let message = say![
                format!("With `{name}`, `{food}` may be kept cold for "),
                lot.stored.planned,
                format!(
                    ". Food that was {} here is used within {max_days} days, the first included: {}.",
                    if lot.bought_cooked { "opened" } else { "made" },
                    report.cite(rule)
                ),
            ];
            let remedy = if lot.bought_cooked {
                say![
                    "Keep it for less, or freeze it: days in the freezer do not count. The days that it was open before \
                     this cook come on top; a use-by date that falls sooner counts first."
                ]
            } else {
                say!["Keep it for less, or freeze it: days in the freezer do not count."]
            };
            let fault = Fault::new(Code::KeptTooLong, phase.lasts_span, message, remedy);
            if lot.bought_cooked && !lot.past_words {
                // Milk and cheese count from the day they are opened, and some cheese is exempt.
                let why = say![BEFORE];
                report.judged(&rule.id, Verdict::NotJudged, about, why);
                report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
            } else {
                report.broken(rule, about, fault);
            }
        } else if lot.bought_cooked {
            let longest = lot.stored.longest;
            let why = match longest.seconds().is_finite() {
                true => say!["In this cook it is kept cold for at most ", longest, ". ", BEFORE],
                false => say!["No figure says how long it is kept cold in this cook. ", BEFORE],
            };
            report.judged(&rule.id, Verdict::NotJudged, about, why);
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

/// A thaw of food that nobody says is frozen.
pub(super) fn never_frozen(report: &mut Report, about: About, placed: Span) {
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let message = say![format!(
        "`{name}` thaws `{food}`, and nothing says that it is frozen. Its time here is counted as for food that is not."
    )];
    let remedy = say![format!(
        "If you buy it frozen, write `frozen` under `food {food}`. If you freeze it first, add a phase that `is freeze`. If it \
         only waits in the fridge, call the phase `is cold hold`."
    )];
    let thawing = report.rules().find(|rule| matches!(rule.demand, Demand::Thaw { .. }));
    if let Some(rule) = thawing.or_else(|| report.rules().next()) {
        report.fault(rule, about, Fault::new(Code::ThawNotFrozen, placed, message, remedy));
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
    let Some((first, _, first_limit)) = rules.first().copied() else {
        thaw_without_a_figure(report, about);
        return;
    };
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
    } else if band.span.is_some() && limit.at_most(band.high, rule.strict) {
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

/// The set says nothing of thawing. In air, what it says of cold food stands in, and what breaks it is in doubt.
fn thaw_without_a_figure(report: &mut Report, about: About) {
    let phase = report.cook.phase(about.phase);
    let general = |rule: &&Rule| rule.foods.is_empty() && matches!(rule.demand, Demand::ColdHold { .. });
    let Some(rule) = report.rules().find(general) else { return };
    let Demand::ColdHold { max } = rule.demand else { return };
    let warm = surroundings(report.cook, phase)
        .filter(|band| band.medium == Medium::Air && !max.at_most(band.low, rule.strict));
    let Some(band) = warm else {
        if !phase.damaged {
            report.judged(&rule.id, Verdict::NotJudged, about, say!["This set has no figure for thawing."]);
        }
        return;
    };
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let (span, also) = place_of(phase, &band);
    let message = say![
        format!("`{name}` thaws `{food}` in air at "),
        band.low,
        format!(
            ". Its outside would be warm for hours. This set has no figure for thawing; cold food is kept {}: {}.",
            rule.at_or_below(max),
            report.cite(rule)
        ),
    ];
    let remedy = say!["Thaw it in the fridge, or under cold running water."];
    report.judged(&rule.id, Verdict::NotJudged, about, message.clone());
    let fault = Fault { also, ..Fault::new(Code::ThawTooWarm, span, message, remedy) };
    report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
}
