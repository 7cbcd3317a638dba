//! Stock whose words nobody recognises: said by name, and nothing about it is met.

use super::declared::times;
use super::lot::Lot;
use super::report::{About, Fault, Report};
use super::stock::{recognise, words_of};
use super::{Verdict, allowance, out};
use crate::cook::{ItemId, Origin, PhaseId};
use crate::findings::{Code, Severity};
use crate::say;
use crate::tables::{Demand, Rule};

/// One note for each such ingredient that goes into food, and what is not judged of it.
pub(super) fn say_which(report: &mut Report) {
    let cook = report.cook;
    for (nth, item) in cook.items.iter().enumerate() {
        let Origin::Ingredient(stock) = &item.origin else { continue };
        if item.kind.is_some() || recognise(words_of(item, stock)).is_some() {
            continue;
        }
        let id = ItemId(nth as u32);
        let Some(phase) = first_use(report, id) else { continue };
        let name = &item.name;
        let message = say![format!(
            "Nothing in `{}` is a food that the table knows. `{name}` is taken for a raw plant, as if it needed no \
             cold until it is cooked; whether it has to be cooked, and how hot, is not judged.",
            words_of(item, stock)
        )];
        let remedy = say![format!(
            "If it is meat, fish, egg or milk, say which, last in the line (`2 kg chicken`), or as a food: \
             `food {name} is chicken` (`dwell foods` lists them). If it keeps in a cupboard, end with a plain word for it, \
             such as `spice mix` or `sugar`."
        )];
        let cooking = |rule: &&Rule| matches!(rule.demand, Demand::Cook { .. });
        let Some(rule) = report.rules().find(cooking).or_else(|| report.rules().next()) else { continue };
        let about = About { phase, food: id };
        report.fault(rule, about, Fault::new(Code::FoodUnrecognised, item.span, message, remedy));
        let why =
            say!["It is not in the food table: whether it has to be cooked, and how hot, is not judged."];
        report.judged(&rule.id, Verdict::NotJudged, about, why);
    }
}

/// The first phase that puts it into, or beside, food.
fn first_use(report: &Report, item: ItemId) -> Option<PhaseId> {
    let uses = |(id, phase): (PhaseId, &crate::cook::Phase)| {
        let used = phase.uses.iter().any(|draw| draw.item == item);
        let lies_in = phase.lie_in.as_ref().is_some_and(|lie_in| lie_in.item == Some(item));
        (used || lies_in).then_some(id)
    };
    report.cook.phases().find_map(uses)
}

/// It stands in the room, and nobody knows whether it may.
pub(super) fn left_out(report: &mut Report, lot: &Lot, about: About) {
    let phase = report.cook.phase(about.phase);
    let Some(stock) = lot.unrecognised else { return };
    if out::left_out(report, phase) == Some(false) {
        return;
    }
    let name = report.food_name(stock);
    let limits = allowance::rules(report, lot);
    for &(rule, ..) in &limits {
        let why = say![format!("Whether `{name}` needs the cold is not known: it is not in the food table.")];
        report.judged(&rule.id, Verdict::NotJudged, about, why);
    }
    let longest = limits.into_iter().max_by(|(_, a, _), (_, b, _)| a.seconds().total_cmp(&b.seconds()));
    let planned = times(phase).planned;
    if let Some((rule, limit, _)) = longest.filter(|(_, limit, _)| planned > *limit) {
        let food = report.food_name(about.food);
        let message = say![
            format!("`{}` leaves `{food}` out of the heat and the cold for ", phase.name),
            planned,
            format!(". It holds `{name}`, which is not in the food table and may need the cold"),
        ]
        .followed_by(allowance::allowed(report, rule, limit));
        let remedy = say![format!(
            "Say what `{name}` is, with a word of the food table last in its line (`dwell foods`), or keep it in the fridge."
        )];
        let fault = Fault::new(Code::TimeWithoutControl, phase.lasts_span, message, remedy);
        report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
    }
}
