//! Raw food that comes to a plate, or to a hot hold, without a cook.

use super::Verdict;
use super::chance::rules_for;
use super::cooking::no_figure;
use super::lot::Lot;
use super::need::Need;
use super::report::{About, Fault, Report};
use crate::cook::Purpose;
use crate::findings::Code;
use crate::say;
use crate::text::Span;

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
