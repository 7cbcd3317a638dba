//! How long food may be neither hot nor cold, as a set has it, or as its rules about heat and cold leave it open.

use super::lot::Lot;
use super::report::Report;
use crate::findings::Text;
use crate::quantity::Duration;
use crate::say;
use crate::tables::{Clock, Demand, Rule, Side};

/// The longest time that any built-in set gives food out of the heat and the cold without watching its temperature
/// (FDA Food Code 2022, 3-501.19; the 2-hour/4-hour rule of FSANZ; schedule 4 of the regulations for England, Wales and
/// Northern Ireland, for cold food).
const LONGEST_ANYWHERE: Duration = Duration::from_seconds(4.0 * 3600.0);

/// The rules about time out of control. A set that has none for food of this side still asks for heat or cold: its rule
/// for that stands in, with the longest time that another set gives, and what breaks it is in doubt.
pub(super) fn rules<'a>(report: &Report<'a>, lot: &Lot) -> Vec<(&'a Rule, Duration, Clock)> {
    let side = if lot.cold && lot.warming.is_empty() { Side::Cold } else { Side::Hot };
    let own = report.rules().filter_map(|rule| match rule.demand {
        // What came neither hot nor cold may have come down from the heat: the rules of both sides are about it.
        Demand::TimeAlone { max_s, clock, side: only, .. }
            if lot.began_warm || only.is_none_or(|only| only == side) =>
        {
            Some((rule, Duration::from_seconds(max_s), clock))
        }
        _ => None,
    });
    let own: Vec<_> = own.collect();
    if !own.is_empty() {
        return own;
    }
    let hold = report.rules().find(|rule| match rule.demand {
        Demand::ColdHold { .. } => side == Side::Cold && rule.foods.is_empty(),
        Demand::HotHold { ref after, .. } => side == Side::Hot && after.is_none(),
        _ => false,
    });
    hold.into_iter().map(|rule| (rule, LONGEST_ANYWHERE, Clock::LeavingControl)).collect()
}

/// The shortest of them. `None` where the set asks for neither heat nor cold.
pub(super) fn shortest(report: &Report, lot: &Lot) -> Option<Duration> {
    rules(report, lot).into_iter().map(|(_, limit, _)| limit).reduce(Duration::min)
}

/// It is no rule about time: the time is another set's.
pub(super) fn is_borrowed(rule: &Rule) -> bool {
    !matches!(rule.demand, Demand::TimeAlone { .. })
}

/// Less than the time, and not just that time.
pub(super) fn strict(rule: &Rule) -> bool {
    rule.strict && !is_borrowed(rule)
}

/// "It may be at most 4 h in all: …"
pub(super) fn allowed(report: &Report, rule: &Rule, limit: Duration) -> Text {
    if is_borrowed(rule) {
        return say![
            ". This set has no figure for that, and no other gives more than ",
            limit,
            format!(". Food is kept hot or cold: {}.", report.cite(rule)),
        ];
    }
    let asked = if strict(rule) { ". It has to be less than " } else { ". It may be at most " };
    say![asked, limit, format!(" in all: {}.", report.cite(rule))]
}
