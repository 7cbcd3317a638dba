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
use crate::tables::Rule;
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
        return;
    };
    if lot.unsure {
        return;
    }
    if lot.hurdles {
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
