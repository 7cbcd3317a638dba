//! The kill: does the run of phases that cooks a raw food declare enough heat?
//!
//! Consecutive phases are one run, judged once, as the food is eaten, cooled or held. A hot hold is not
//! part of it: it may not quietly finish a cook.

use super::chance::{Chance, chance, most, points, reach_only, rules_for, typed};
use super::declared::Heat;
use super::lot::Lot;
use super::need::Need;
use super::report::{About, Fault, Report};
use super::{Verdict, out, parasites, predicted, raw};
use crate::cook::{PhaseId, Purpose};
use crate::findings::{Code, Severity};
use crate::quantity::Temperature;
use crate::say;
use crate::tables::{Demand, Point, Rule};
use crate::text::Span;

/// Judges everything the food still owes, as `phase` ends its run. What is still raw after a cool or a
/// cold hold stays so. `false` where it was found wanting.
pub(super) fn settle(report: &mut Report, lot: &mut Lot, about: About, placed: Span) -> bool {
    let purpose = report.cook.phase(about.phase).purpose;
    let ends_raw = matches!(purpose, Purpose::Serve | Purpose::HotHold);
    let mut kept = Vec::new();
    let mut done = true;
    for need in std::mem::take(&mut lot.needs) {
        if need.untouched() {
            if need.is_plant() {
                continue;
            }
            if ends_raw {
                parasites::judge(report, lot, &need, about, Chance::Never, placed);
                raw::still_raw(report, lot, &need, about, placed);
                done = false;
            } else {
                kept.push(need);
            }
        } else {
            done &= judge(report, lot, &need, purpose) != Some(Chance::Never);
        }
    }
    lot.needs = kept;
    done
}

/// A cook that leads nowhere further: its kills are judged where it stops.
pub(super) fn settle_at_the_end(report: &mut Report, lot: &mut Lot) {
    for need in std::mem::take(&mut lot.needs) {
        if !need.untouched() && !need.is_plant() {
            judge(report, lot, &need, Purpose::Serve);
        }
    }
}

/// One raw food, as its run of phases ends. `None` where the set has nothing to say of it.
fn judge(report: &mut Report, lot: &mut Lot, need: &Need, purpose: Purpose) -> Option<Chance> {
    let rules = rules_for(report, need, purpose);
    let (phase, heat, most) = hottest(need)?;
    let about = About { phase, food: need.item };
    let Some(first) = rules.first() else {
        if !need.is_plant() {
            no_figure(report, need, about);
            let cool = most.zip(out::coolest(report)).is_some_and(|(most, coolest)| most < coolest);
            let kill = if cool { Chance::Never } else { Chance::Possible };
            parasites::judge(report, lot, need, about, kill, heat.span);
            if cool {
                raw::unjudged(report, lot, need, about, heat.span);
            }
        }
        return None;
    };
    let best = rules.iter().map(|rule| (chance(rule, need), rule)).max_by(|(a, x), (b, y)| {
        // A plain rule rather than one with a condition, and the one that stands first.
        (a, x.condition.is_none()).cmp(&(b, y.condition.is_none())).then(std::cmp::Ordering::Greater)
    });
    let (mut best, rule) = best?;
    let smoked_cold = lot.hurdles && cold_smoked(report, need);
    let mut lacking = say![];
    let mut killed = None;
    if best == Chance::Possible && !lot.unsure && !smoked_cold {
        match predicted::kill(report, lot, need, &rules, about, heat.span) {
            Ok(predicted) => {
                best = predicted.chance;
                killed = Some(predicted.by);
            }
            Err(missing) => lacking = missing,
        }
    }
    if !need.is_plant() {
        predicted::come_up(report, lot, need);
    }
    parasites::judge(report, lot, need, about, best, heat.span);
    if best == Chance::Never && !lot.unsure && smoked_cold && !raw::hurdle_may_do(lot, need) {
        raw::hurdle_only(report, need, first, about, heat.span);
        best = Chance::Possible;
    } else if best == Chance::Never && (lot.unsure || smoked_cold) {
        let why = say!["It is cured and smoked cold: salt, drying and smoke are not judged yet."];
        if !lot.unsure {
            report.judged(&first.id, Verdict::NotJudged, about, why);
        }
        best = Chance::Possible;
    } else if killed.is_none() {
        match (best, &rule.condition) {
            (Chance::Never, _) => {
                let fault = too_cool(report, need, about, &rules, heat.span, most);
                report.broken(first, about, fault);
            }
            (Chance::Possible, _) => {
                let asked_for = !lacking.is_empty();
                report.judged(
                    &rule.id,
                    Verdict::NotJudged,
                    about,
                    possible(rule, need, most).followed_by(lacking),
                );
                if asked_for && !lot.unsure {
                    not_shown(report, need, about, &rules, heat.span);
                }
            }
            (Chance::Sure, Some(condition)) => {
                report.judged(
                    &rule.id,
                    Verdict::NotJudged,
                    about,
                    say!["It counts ", condition.clone(), "."],
                );
            }
            (Chance::Sure, None) => {
                let mut why = say!["It does not end before the core is "];
                match need.heats.iter().filter_map(|(_, heat)| heat.sure).reduce(Temperature::max) {
                    Some(sure) => why.push(sure),
                    None => why.push("hot enough"),
                }
                why.push(". A probe has to show it.");
                report.judged(&rule.id, Verdict::Met, about, why);
            }
        }
    }
    if !need.is_plant() && best == Chance::Possible && !lot.unsure && killed.is_none() {
        raw::only_beside(report, need, &rules, about);
    }
    if !need.is_plant() {
        // A roast rests on the chart for roasts only where no plainer rule can have been met.
        let declared = || rules.iter().find(|rule| chance(rule, need) != Chance::Never);
        lot.cooked_by = killed.or_else(|| declared().map(|rule| rule.id.clone()));
    }
    Some(best)
}

/// Raw animal food is cooked by the clock alone: no phase ends on its core, and nothing predicts it.
fn not_shown(report: &mut Report, need: &Need, about: About, rules: &[&Rule], span: Span) {
    let Some(rule) = rules.first() else { return };
    let measured = need.heats.iter().any(|(_, heat)| heat.sure.is_some());
    if need.is_plant() || measured {
        return;
    }
    let message = say![format!(
        "Nothing shows that the core of `{}` gets hot enough: no phase ends on it, and it cannot be predicted. It has to \
         be cooked: {}.",
        report.food_name(about.food),
        report.cite(rule)
    )];
    let end =
        reach_only(rules).map_or(String::new(), |limit| format!(", such as `until core {}`", typed(limit)));
    let remedy = say![format!(
        "End the cook on what a probe shows{end}. Or say how thick the food is at its thickest, such as `thickness 5 cm`, \
         or how deep it lies, such as `depth 5 cm`: then it may be predicted."
    )];
    let fault = Fault::new(Code::CookEndTooCool, span, message, remedy);
    report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
}

/// Where to say it: the phase that is sure of the most heat, else the one that can have had it.
fn hottest(need: &Need) -> Option<(PhaseId, Heat, Option<Temperature>)> {
    let heats = need.heats.iter().enumerate().map(|(at, (phase, heat))| (*phase, *heat, most(need, at)));
    let rank = |heat: &Heat, most: Option<Temperature>| {
        (heat.sure.map_or(0.0, Temperature::kelvin), most.map_or(f64::INFINITY, Temperature::kelvin))
    };
    heats.max_by(|(_, one, one_most), (_, other, other_most)| {
        let ((a, x), (b, y)) = (rank(one, *one_most), rank(other, *other_most));
        a.total_cmp(&b).then(x.total_cmp(&y))
    })
}

/// Smoke after a cure, with no end of heat: the smoke is not meant to cook.
fn cold_smoked(report: &Report, need: &Need) -> bool {
    need.heats.iter().all(|(phase, heat)| report.cook.phase(*phase).smoke.is_some() && heat.sure.is_none())
}

/// The set has no row for this food, which is not the same as nothing to fear.
pub(super) fn no_figure(report: &mut Report, need: &Need, about: About) {
    let cooking = report.rules().find(|rule| matches!(rule.demand, Demand::Cook { .. }));
    let Some(rule) = cooking else { return };
    let why = say!["This rule set has no cooking figure for ", need.species.word(), ". Nothing is judged."];
    report.judged(&rule.id, Verdict::NotJudged, about, why);
}

fn possible(rule: &Rule, need: &Need, most: Option<Temperature>) -> crate::findings::Text {
    let quickest = reach_only(&[rule]);
    let mut why = match most {
        Some(most) => say!["At ", most, " the core may be hot enough for long enough; "],
        None => say!["No figure says how hot the core gets; "],
    };
    why.push("that needs the predicted core temperature.");
    if let Some(limit) = quickest {
        why.push(format!(" Or end a phase with `until core {}`, where reaching it is enough.", typed(limit)));
    }
    if let Some(condition) = &rule.condition {
        why.push(format!(" It counts {condition}."));
    }
    if need.heats.iter().any(|(_, heat)| heat.exact && heat.sure.is_some()) {
        why.push(" A rest after the heat counts too, once it is predicted.");
    }
    why
}

fn too_cool(
    report: &Report,
    need: &Need,
    about: About,
    rules: &[&Rule],
    span: Span,
    most: Option<Temperature>,
) -> Fault {
    let (phase, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let asked: Vec<String> = rules.iter().filter_map(|rule| asked(rule)).collect();
    let first = rules.first().map_or_else(String::new, |rule| report.cite(rule));
    let mut message = say![format!("`{phase}` does not cook `{food}` through: the core ")];
    match most {
        Some(most) if points_reached(rules, most) => {
            message.push("may get to ");
            message.push(most);
            message.push(", but not for long enough");
        }
        Some(most) => {
            message.push("gets no hotter than ");
            message.push(most);
        }
        None => message.push("is not hot for long enough"),
    }
    message.push(format!(". {} needs {}: {first}.", upper(&named(need, rules)), asked.join(", or ")));
    let end = reach_only(rules)
        .or_else(|| rules.iter().find_map(|rule| points(rule).first().map(Point::limit)))
        .map_or_else(String::new, typed);
    let remedy = say![format!(
        "End the cook hotter: `until core {end}`. If a rest is to bring it there, say so in the rest: \
         `expect core {end} to …`."
    )];
    Fault::new(Code::CookEndTooCool, span, message, remedy)
}

/// It is hot enough for one of the points, if it were so for long enough.
fn points_reached(rules: &[&Rule], most: Temperature) -> bool {
    rules.iter().any(|rule| points(rule).iter().any(|point| point.limit().at_least(most, rule.strict)))
}

/// `poultry`, or `beef (minced or mixed)` where that decides.
fn named(need: &Need, rules: &[&Rule]) -> String {
    let species = need.species.word();
    let decides = rules.iter().flat_map(|rule| &rule.foods).any(|class| !class.structures.is_empty());
    if decides { format!("{species} ({})", structure(need.structure)) } else { species.into() }
}

/// A rule's figures in a sentence; a long chart by its two ends.
fn asked(rule: &Rule) -> Option<String> {
    match points(rule) {
        [] => None,
        [one] => Some(one.to_string()),
        [first, .., last] => Some(format!("something between {first} and {last}")),
    }
}

pub(super) fn structure(structure: crate::cook::Structure) -> &'static str {
    use crate::cook::Structure::{Ground, Injected, Intact, Tenderised};
    match structure {
        Intact => "whole",
        Ground => "minced or mixed",
        Tenderised => "tenderised",
        Injected => "injected",
    }
}

fn upper(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
