//! Food that is reheated, cooled, and reheated again.

use super::Verdict;
use super::lot::Lot;
use super::report::{About, Fault, Report};
use crate::findings::Code;
use crate::say;
use crate::tables::{Demand, Rule};

/// Food goes into a reheat. Two reheats without a cooling between them are one.
pub(super) fn reheated(report: &mut Report, lot: &mut Lot, about: About) {
    if !lot.leftover || !lot.warming.is_empty() {
        return;
    }
    let Some(first) = lot.reheated else {
        lot.reheated = Some(about.phase);
        return;
    };
    let once = |rule: &&Rule| matches!(rule.demand, Demand::ReheatOnce {});
    if report.rules().find(once).is_none() {
        let reheats = report.rules().find(|rule| matches!(rule.demand, Demand::Reheat { .. }));
        if let Some(rule) = reheats {
            let why = say!["It is reheated for the second time. This set does not say how often it may be."];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
        }
    }
    for rule in report.rules().filter(once) {
        let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
        let message = say![format!(
            "`{name}` reheats `{food}` again; `{}` has reheated it once. It is reheated only once: {}.",
            report.phase_name(first),
            report.cite(rule)
        )];
        let remedy = say![
            "Reheat only what is eaten then: divide it while it is cold, and leave the rest in the fridge."
        ];
        let span = report.cook.phase(about.phase).name_span;
        report.judged(&rule.id, Verdict::NotJudged, about, message.clone());
        report.fault(rule, about, Fault::new(Code::ReheatedTwice, span, message, remedy));
    }
}
