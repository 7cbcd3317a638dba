//! Which changes may cure which finding, the most natural first.

mod cold;
mod depth;
mod heat;
mod ladder;
mod settings;
mod times;

pub use ladder::Ladder;

use super::changes::Written;
use super::trial::rule;
use crate::cook::{CoverKind, Phase, PhaseId, Purpose};
use crate::findings::{Code, Finding};
use crate::quantity::Temperature;
use crate::tables::{Demand, Limit, Rule};

/// How many phases back what is wrong may come from.
const BACK: usize = 3;

/// What may be tried for a finding of this cook.
pub fn offers(written: Written, fault: &Finding) -> Vec<Ladder> {
    let cook = written.cook;
    if !fault.lengths.is_empty() {
        return fault.lengths.iter().map(|length| times::otherwise(written, length)).collect();
    }
    let named = |phase: &&Phase| Some(&phase.name) == fault.phase.as_ref();
    let Some(phase) = cook.phases.iter().find(named) else { return Vec::new() };
    // A checkpoint that lets too much pass is no figure that anything happens by.
    if phase.checks.iter().any(|check| check.span == fault.span) {
        return Vec::new();
    }
    let asked = fault.rule.as_ref().and_then(|cited| rule(&cited.set, &cited.id));
    let limit = asked.and_then(limit);
    let try_of = Offers { written, fault, asked, limit };
    match fault.code {
        Code::HoldTooCool => try_of.keeping_hot(phase),
        Code::HoldEnteredCold => try_of.way_in(phase),
        Code::HoldTooWarm | Code::ThawTooWarm => vec![try_of.colder(phase), try_of.elsewhere_cold(phase)],
        Code::CookEndTooCool | Code::ReheatTooCool => try_of.cooking(phase),
        Code::ComeUpTooSlow => vec![try_of.hotter(phase)],
        Code::ReheatTooSlow => vec![try_of.hotter(phase), try_of.shallower(phase)],
        Code::CoolTooSlow => try_of.cooling(phase),
        Code::KeptTooLong => vec![try_of.shorter(phase)],
        // Raw food in a lukewarm bath is no better for less of it.
        Code::TimeWithoutControl => match heats(phase) {
            true => vec![try_of.hotter(phase)],
            false => vec![try_of.shorter(phase), try_of.elsewhere_cold(phase)],
        },
        Code::EndOutOfReach => match heats(phase) {
            true => vec![try_of.hotter(phase), try_of.cover(phase, CoverKind::Covered)],
            false => vec![try_of.colder(phase), try_of.elsewhere_cold(phase)],
        },
        _ => Vec::new(),
    }
}

fn heats(phase: &Phase) -> bool {
    matches!(phase.purpose, Purpose::Cook | Purpose::Reheat | Purpose::HotHold)
}

/// The figure that a rule asks for.
fn limit(rule: &Rule) -> Option<Temperature> {
    match &rule.demand {
        Demand::HotHold { min, .. } => Some(min.lowest()),
        Demand::ColdHold { max } | Demand::Thaw { max, .. } => Some(max.highest()),
        Demand::Cook { points, .. } | Demand::Reheat { points, .. } => {
            let at_once = points.iter().find(|point| point.at_once());
            at_once.or(points.first()).map(|point| point.limit()).map(Limit::lowest)
        }
        _ => None,
    }
}

/// What a finding asks of the changes.
struct Offers<'o> {
    written: Written<'o>,
    fault: &'o Finding,
    asked: Option<&'static Rule>,
    /// The temperature that the rule asks for.
    limit: Option<Temperature>,
}

impl Offers<'_> {
    fn cover(&self, phase: &Phase, to: CoverKind) -> Ladder {
        Ladder::one(self.written.cover(phase, to))
    }

    /// The phases that the food came through, the last first.
    fn before(&self, phase: &Phase) -> Vec<&Phase> {
        let cook = self.written.cook;
        let back = |phase: &Phase| -> Option<PhaseId> {
            let placings = &phase.placings;
            let same = placings.iter().find(|it| Some(&cook.item(it.item).name) == self.fault.food.as_ref());
            same.or(placings.first())?.before
        };
        let mut all = Vec::new();
        let mut next = back(phase);
        while let Some(id) = next.filter(|_| all.len() < BACK) {
            all.push(cook.phase(id));
            next = back(cook.phase(id));
        }
        all
    }
}
