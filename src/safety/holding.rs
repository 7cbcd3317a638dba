//! Hot holds: the setting, its tolerance and the checkpoints against the limit.

use super::chance::typed;
use super::declared::{Band, core_checks, surroundings, times};
use super::lot::Lot;
use super::report::{About, Fault, Report};
use super::{Verdict, allowance, predicted};
use crate::cook::Phase;
use crate::findings::{Code, Severity, Text};
use crate::quantity::Temperature;
use crate::say;
use crate::tables::{Demand, Limit, Rule};
use crate::text::Span;

/// A rule of holding and its limit.
pub(super) type Bound<'a> = (&'a Rule, Limit);

pub(super) fn hot_rules<'a>(report: &Report<'a>, lot: &Lot) -> Vec<Bound<'a>> {
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
pub(super) fn place_of(phase: &Phase, band: &Band) -> (Span, Vec<(Span, crate::findings::Text)>) {
    match band.span {
        Some(span) if band.here => (span, Vec::new()),
        Some(span) => (phase.name_span, vec![(span, say!["The setting comes from here."])]),
        None => (phase.name_span, Vec::new()),
    }
}

/// Food is kept hot.
pub(super) fn hot(report: &mut Report, lot: &mut Lot, about: About, placed: Span) {
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
            Some((by, by_limit)) => {
                let inside = predicted::hot(report, lot, about, &bounds, placed);
                hot_enough(report, about, by, by_limit, &band, inside);
            }
        },
        Some(band) if passes(band.high).is_none() => {
            let (span, also) = place_of(phase, &band);
            let mut fault = hold_too_cool(report, about, &bounds, band.high, span);
            fault.also = also;
            report.broken(rule, about, fault);
        }
        _ if phase.damaged => {}
        _ => {
            let why = say![format!(
                "No setting says how hot it is kept. Add one {}, such as `air {}`.",
                rule.at_or_above(limit),
                typed(limit)
            )];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
            nothing_says(report, lot, about, (rule, limit), Code::HoldTooCool);
        }
    }
    for (low, high, span) in core_checks(phase) {
        let Some(lets_pass) = low.or(high) else { continue };
        if passes(lets_pass).is_none() {
            let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
            let message = say![
                format!("The checkpoint of `{name}` lets `{food}` pass at "),
                lets_pass,
                format!(
                    ". Hot food has to be {} all the time: {}.",
                    rule.at_or_above(limit),
                    report.cite(rule)
                ),
            ];
            let remedy = say![format!("Begin the checkpoint {}.", rule.at_or_above(typed(limit)))];
            report.broken(rule, about, Fault::new(Code::HoldTooCool, span, message, remedy));
        }
    }
}

/// Neither a setting nor a check says how warm it is kept, for longer than it might be left to the room. What came
/// before it in the same way counts on.
pub(super) fn nothing_says(report: &mut Report, lot: &mut Lot, about: About, bound: Bound, code: Code) {
    let phase = report.cook.phase(about.phase);
    let class = phase.place.as_ref().map(|place| &report.cook.kit(place.value).class);
    // What keeps a setting and is given none is a finding of its own.
    let told =
        class.is_some_and(|class| class.thermostat || class.cold) || core_checks(phase).next().is_some();
    if told || phase.damaged {
        return;
    }
    lot.unsaid = lot.unsaid + times(phase).planned;
    if allowance::shortest(report, lot).is_none_or(|allowed| lot.unsaid <= allowed) {
        return;
    }
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let (rule, limit) = bound;
    let (how, kept, example, check) = match code {
        Code::HoldTooWarm => ("cold", rule.at_or_below(limit), "air 3 °C", "below"),
        _ => ("hot", rule.at_or_above(limit), "liquid 75 °C", "above"),
    };
    let message = say![
        format!("Nothing says how {how} `{name}` keeps `{food}`. By its end that is so for "),
        lot.unsaid,
        format!("; it has to be {kept} all the time: {}.", report.cite(rule)),
    ];
    let remedy = say![format!(
        "Say it with a setting, such as `{example}`, or as what a probe has to show, such as \
         `expect core {} or {check}`.",
        typed(limit)
    )];
    let fault = Fault::new(code, phase.lasts_span, message, remedy);
    report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
}

fn hold_too_cool(report: &Report, about: About, bounds: &[Bound], at: Temperature, span: Span) -> Fault {
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let Some((rule, limit)) = bounds.first() else {
        return Fault::new(Code::HoldTooCool, span, say![], say![]);
    };
    let mut message = say![
        format!("`{name}` keeps `{food}` at "),
        at,
        format!(". Hot food is kept {}", rule.at_or_above(limit))
    ];
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

/// The setting is hot enough; `inside` is what is missing where the food itself is not predicted.
fn hot_enough(
    report: &mut Report,
    about: About,
    rule: &Rule,
    limit: Limit,
    band: &Band,
    inside: Result<(), Text>,
) {
    match (&rule.condition, inside) {
        (_, Ok(())) => {}
        (Some(condition), Err(_)) => {
            let why = say!["The setting counts ", condition.clone(), "."];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
        }
        (None, Err(lacking)) => {
            let why =
                say![band.low, " is the temperature around it, and enough. The food itself is judged apart."];
            report.judged(&rule.id, Verdict::Met, about, why);
            let needs = format!(
                "Whether the food itself stays {} needs the predicted core temperature.",
                rule.at_or_above(limit)
            );
            report.judged(&rule.id, Verdict::NotJudged, about, say![needs].followed_by(lacking));
        }
    }
    let Some(tolerance) = band.tolerance else { return };
    let coolest = band.low - tolerance;
    if !limit.at_least(coolest, rule.strict) {
        let name = report.phase_name(about.phase);
        let span = band.span.unwrap_or(report.cook.phase(about.phase).name_span);
        let message = say![
            format!("`{name}` may fall to "),
            coolest,
            match limit.lowest() - coolest {
                none if none.kelvin() < 0.01 => {
                    format!(", and hot food is kept {}: {}.", rule.at_or_above(limit), report.cite(rule))
                }
                below => format!(
                    ", {} below the {limit} that hot food is kept at: {}.",
                    below.show(report.cook.scale),
                    report.cite(rule)
                ),
            },
        ];
        let remedy =
            say!["Set it higher by that much, or say a smaller tolerance if the kit is better than that."];
        let fault =
            Fault { severity: Severity::Warning, ..Fault::new(Code::HoldTooCool, span, message, remedy) };
        report.fault(rule, about, fault);
    }
}
