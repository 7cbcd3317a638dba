//! Raw animal food that comes from the shop neither hot nor cold.

use super::Verdict;
use super::holding::counts_as_hot;
use super::lot::Lot;
use super::report::{About, Fault, Report};
use crate::cook::{ItemId, Origin, Phase, PhaseId, Structure};
use crate::findings::{Code, Severity};
use crate::say;
use crate::tables::{Demand, Species};

/// Says which raw animal food starts warm: how long it was so before is nowhere declared.
pub(super) fn warm(report: &mut Report) {
    let cook = report.cook;
    for (nth, item) in cook.items.iter().enumerate() {
        let id = ItemId(nth as u32);
        let Origin::Food(stock) = &item.origin else { continue };
        let (Some(starts), Some(phase)) = (&stock.starts_at, first_use(report, id)) else { continue };
        let lot = Lot::bought(cook, id);
        let Some(need) = lot.needs.iter().find(|need| !need.is_plant()) else { continue };
        let cold = |own: bool| {
            report.rules().find_map(|rule| match &rule.demand {
                Demand::ColdHold { max } if rule.foods.is_empty() != own => {
                    rule.is_about(need.subject()).then_some((rule, *max))
                }
                _ => None,
            })
        };
        // Eggs in the shell are sold warm, unless the set has a figure for them.
        let in_the_shell = need.species == Species::Egg && need.structure == Structure::Intact;
        let Some((rule, max)) = cold(true).or_else(|| cold(false).filter(|_| !in_the_shell)) else {
            continue;
        };
        if max.at_most(starts.value, rule.strict) || counts_as_hot(report, starts.value) {
            continue;
        }
        let message = say![
            format!("`{}` starts at ", item.name),
            starts.value,
            format!(
                ". It is raw, and cold raw food is kept {}: {}. How long it was warm before this cook is \
                 nowhere said, and counts.",
                rule.at_or_below(max),
                report.cite(rule)
            ),
        ];
        let remedy = say![
            "Take it from the fridge as the cook starts, and write how cold it is there, such as `starts at 4 °C`. If it \
             is to lose its chill first, write that as a phase that `is rest`, with its time."
        ];
        let about = About { phase, food: id };
        report.judged(&rule.id, Verdict::NotJudged, about, message.clone());
        let fault = Fault::new(Code::TimeWithoutControl, starts.span, message, remedy);
        report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
    }
}

/// The first phase that puts it into, or beside, food.
fn first_use(report: &Report, item: ItemId) -> Option<PhaseId> {
    let uses = |(id, phase): (PhaseId, &Phase)| {
        let placed = phase.placings.iter().any(|placing| placing.item == item);
        let used = phase.uses.iter().any(|draw| draw.item == item);
        (placed || used).then_some(id)
    };
    report.cook.phases().find_map(uses)
}
