//! Food kept without air, in a sealed bag or under oil: what causes botulism grows there, unseen.

use super::Verdict;
use super::lot::Lot;
use super::report::{About, Fault, Report};
use crate::findings::{Code, Severity};
use crate::quantity::Duration;
use crate::say;
use crate::tables::{Demand, Rule};

/// Days in the cold so far. All of them count, whenever it was sealed.
pub(super) fn kept(report: &mut Report, lot: &Lot, about: About) {
    if lot.bagged {
        let raw = || lot.needs.iter().filter(|need| need.untouched());
        let own = |rule: &Rule| raw().count() > 0 && raw().all(|need| rule.is_about(need.subject()));
        let all = || report.rules().filter(|rule| matches!(rule.demand, Demand::KeepBagged { .. }));
        // A rule about raw food with nothing added stands in place of the general one.
        let special = all().find(|rule| !rule.foods.is_empty() && own(rule));
        if let Some(rule) = special.or_else(|| all().find(|rule| rule.foods.is_empty())) {
            days(report, lot, about, rule, "in a sealed bag");
        }
    }
    if lot.under_oil {
        let rule = report.rules().find(|rule| matches!(rule.demand, Demand::KeepUnderOil { .. }));
        if let Some(rule) = rule {
            days(report, lot, about, rule, "under oil");
        }
    }
}

fn days(report: &mut Report, lot: &Lot, about: About, rule: &Rule, how: &str) {
    let (Demand::KeepBagged { max_days } | Demand::KeepUnderOil { max_days }) = rule.demand else { return };
    if lot.stored.planned <= Duration::from_hours(max_days * 24.0) {
        let why = say!["How acid or how salty it is, and the days before this cook, are not judged."];
        report.judged(&rule.id, Verdict::NotJudged, about, why);
        return;
    }
    let phase = report.cook.phase(about.phase);
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let message = say![
        format!("With `{name}`, `{food}` may be kept cold {how} for "),
        lot.stored.planned,
        format!(
            ". Without air, what causes botulism can grow there unseen: {max_days} days, {}",
            report.cite(rule)
        ),
        if rule.status == crate::tables::Status::Memory { " (figure from memory)." } else { "." },
    ];
    let remedy = say![
        "Keep it for less, or freeze it: days in the freezer do not count. If something else keeps it, such as enough \
         salt or acid that you measure: `allow kept-too-long because \"…\"`."
    ];
    report.judged(&rule.id, Verdict::NotJudged, about, message.clone());
    let fault = Fault::new(Code::KeptTooLong, phase.lasts_span, message, remedy);
    report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
}
