//! Raw food that comes to a plate, or to a hot hold, without a cook.

use super::Verdict;
use super::chance::{Chance, chance, rules_for};
use super::cooking::no_figure;
use super::lot::Lot;
use super::need::Need;
use super::report::{About, Fault, Report};
use crate::cook::Purpose;
use crate::findings::{Code, Severity};
use crate::say;
use crate::tables::{Demand, Rule, Species};
use crate::text::Span;

/// It was raw when it was collected, and only its parent is said to go into the heat: perhaps it goes along.
pub(super) fn only_beside(report: &mut Report, need: &Need, rules: &[&Rule], about: About) {
    let heats: Vec<_> = need.heats.iter().filter(|(_, heat)| !heat.beside).copied().collect();
    let beside = heats.len() < need.heats.len();
    let said = Need { heats, ..need.clone() };
    if !beside || rules.iter().any(|rule| chance(rule, &said) != Chance::Never) {
        return;
    }
    let cook = report.cook;
    let collected = cook.phases().find_map(|(id, phase)| {
        phase.collects.iter().find(|collect| collect.item == need.item).zip(Some(id))
    });
    let (Some(rule), Some((collect, from))) = (rules.first(), collected) else { return };
    let (raw, from, phase) =
        (report.food_name(need.item), report.phase_name(from), report.phase_name(about.phase));
    let message = say![format!(
        "`{raw}` is raw when it is collected in `{from}`, and nothing says that it goes along into the heat of \
         `{phase}`. It has to be cooked: {}.",
        report.cite(rule)
    )];
    let remedy = say![format!(
        "If it goes along, name it in `{phase}` with the food that it comes from, such as `joint and {raw} in oven`. \
         If not, boil it in a phase that `is cook`, or throw it away: juice and marinade of raw meat are raw meat."
    )];
    let fault = Fault::new(Code::RawIntoCooked, collect.span, message, remedy);
    report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
}

/// Raw food comes to a plate, or to a hot hold.
pub(super) fn still_raw(report: &mut Report, lot: &Lot, need: &Need, about: About, placed: Span) {
    let purpose = report.cook.phase(about.phase).purpose;
    let rules = rules_for(report, need, purpose);
    let Some(rule) = rules.first() else {
        no_figure(report, need, about);
        unjudged(report, lot, need, about, placed);
        return;
    };
    if lot.unsure {
        return;
    }
    if lot.hurdles {
        if !hurdle_may_do(lot, need) {
            hurdle_only(report, need, rule, about, placed);
        }
        report.judged(
            &rule.id,
            Verdict::NotJudged,
            about,
            say!["It is cured or fermented and not cooked: salt, acid, drying and time are not judged yet."],
        );
        return;
    }
    let (phase, food, raw) =
        (report.phase_name(about.phase), report.food_name(about.food), report.food_name(need.item));
    let cite = report.cite(rule);
    if purpose == Purpose::HotHold {
        let fault = Fault::new(
            Code::HoldEnteredCold,
            placed,
            say![format!(
                "`{food}` goes into `{phase}` raw. A hot hold keeps food hot; it may not cook it: {cite}."
            )],
            say![format!(
                "Cook it first: a phase that `is cook` with an end, such as `until core …`, above `{phase}`."
            )],
        );
        report.broken(rule, about, fault);
        return;
    }
    let fault = match need.met {
        Some((at, span, other)) => {
            let other = report.food_name(other);
            Fault::new(
                Code::RawIntoCooked,
                span,
                say![format!(
                    "`{raw}` is raw when it meets `{other}` in `{}`, and nothing cooks it before `{phase}`. It has to be cooked: {cite}.",
                    report.phase_name(at)
                )],
                say![format!(
                    "Cook `{raw}` before it meets `{other}`, or cook the two together afterwards. Heat does not undo \
                     what raw food leaves on a bench: keep them apart until then."
                )],
            )
        }
        None => Fault::new(
            Code::RawIntoCooked,
            placed,
            say![format!(
                "`{raw}` is still raw in `{phase}`; no phase cooks it, and it has to be cooked: {cite}."
            )],
            say![format!(
                "Add a phase that `is cook`, with an end such as `until core …`, before `{phase}`."
            )],
        ),
    };
    report.broken(rule, about, fault);
}

/// Salt and drying may do for fish and for meat that is cured with salt. Nothing but heat does for poultry
/// and egg, and a ferment alone does for no animal. Common practice, no source.
pub(super) fn hurdle_may_do(lot: &Lot, need: &Need) -> bool {
    lot.hurdles
        && match need.species {
            Species::Fish | Species::Shellfish => lot.cured,
            Species::Poultry | Species::Egg => false,
            _ => lot.cured && lot.salted,
        }
}

/// Raw animal food is eaten on the strength of a ferment or a cure that does not make up for heat.
pub(super) fn hurdle_only(report: &mut Report, need: &Need, rule: &Rule, about: About, placed: Span) {
    let (raw, phase) = (report.food_name(need.item), report.phase_name(about.phase));
    let message = say![format!(
        "`{raw}` comes to `{phase}` without a cook. A ferment does not make raw meat, fish or egg fit to eat, nor does a \
         cure without salt, nor any cure of poultry or egg. It has to be cooked: {}.",
        report.cite(rule)
    )];
    let remedy = say![format!(
        "Add a phase that `is cook`, with an end such as `until core …`, before `{phase}`. If it is meat that is cured to \
         be eaten raw, name the salt in a phase that `is cure`, such as `use 30 g of salt`."
    )];
    let fault = Fault::new(Code::RawIntoCooked, placed, message, remedy);
    report.judged(&rule.id, Verdict::NotJudged, about, fault.message.clone());
    report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
}

/// The set has no figure for it: that makes nobody less ill.
pub(super) fn unjudged(report: &mut Report, lot: &Lot, need: &Need, about: About, placed: Span) {
    if need.is_plant() || lot.unsure || hurdle_may_do(lot, need) {
        return;
    }
    let cooks = |rule: &&Rule| matches!(rule.demand, Demand::Cook { .. });
    let Some(rule) = report.rules().find(cooks).or_else(|| report.rules().next()) else { return };
    let (raw, phase) = (report.food_name(need.item), report.phase_name(about.phase));
    let message = say![format!(
        "`{raw}` comes to `{phase}` raw, or as good as raw. `{}` has no cooking figure for {}, so nothing here is judged; \
         raw animal food can make people ill.",
        report.rules.id,
        need.species.word()
    )];
    let remedy = say![
        "Cook it through: a phase that `is cook` with an end, such as `until core 75 °C`. If it is meant to be eaten \
         raw, and your guests know: `allow raw-into-cooked because \"…\"`."
    ];
    let fault = Fault::new(Code::RawIntoCooked, placed, message, remedy);
    report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
}

/// Raw milk that nothing has heated.
pub(super) fn milk(report: &mut Report, lot: &Lot, about: About, placed: Span) {
    let Some(milk) = lot.raw_milk.filter(|_| !lot.unsure) else { return };
    let cooks = |rule: &&Rule| matches!(rule.demand, Demand::Cook { .. });
    let Some(rule) = report.rules().find(cooks).or_else(|| report.rules().next()) else { return };
    let (milk, phase) = (report.food_name(milk), report.phase_name(about.phase));
    let message = say![format!(
        "`{milk}` is raw milk, and nothing heats it before `{phase}`. Raw milk can carry what makes people gravely ill \
         (common practice, no source; this rule set has no figure for it)."
    )];
    let remedy =
        say!["Buy it pasteurised, or heat it in a phase that `is cook`, such as `until core 75 °C`."];
    let fault = Fault::new(Code::RawIntoCooked, placed, message, remedy);
    report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
}
