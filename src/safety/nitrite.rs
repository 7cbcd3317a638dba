//! Curing salt: how much nitrite goes into meat, for the mass of it.

use super::Verdict;
use super::lot::Lot;
use super::report::{About, Fault, Report};
use crate::cook::{Item, ItemId, Origin, Part, Phase, Structure};
use crate::findings::Code;
use crate::ledger::{Drawn, Ledger, balance};
use crate::say;
use crate::tables::{CureWay, Demand};

/// What is known of one item as the phases go by.
#[derive(Clone, Copy, Default)]
struct Holds {
    /// Nitrite in it, in kg.
    nitrite: f64,
    animal: bool,
    ground: bool,
}

/// Adds up the nitrite in everything that comes of an animal.
pub(super) fn in_all(report: &mut Report) {
    let cook = report.cook;
    if !cook.items.iter().any(|item| share(item).is_some()) {
        return;
    }
    let (ledger, _) = balance(cook);
    let mut holds: Vec<Holds> = (0..cook.items.len()).map(|nth| bought(report, ItemId(nth as u32))).collect();
    for (id, phase) in cook.phases() {
        let account = ledger.phase(id);
        let added: f64 = account.drawn.iter().map(|drawn| passes_on(report, &ledger, &holds, drawn)).sum();
        let from_stock = |drawn: &&Drawn| share(cook.item(drawn.item)).is_some();
        let dry = account.drawn.iter().any(|drawn| from_stock(&drawn));
        // Shared out over the food and, of a brine, the brine.
        let wet =
            account.drawn.iter().filter(|drawn| !from_stock(drawn) && holds[at(drawn.item)].nitrite > 0.0);
        let foods: Option<f64> = account.placed.iter().map(mass).sum();
        let brine: Option<f64> = wet.map(mass).sum();
        let mut whole = foods.zip(brine).map(|(foods, brine)| foods + brine);
        let results: Vec<ItemId> = match &phase.becomes {
            Some(becomes) => {
                let others = account.drawn.iter().filter(|drawn| drawn.joins);
                // What is mixed in is part of it.
                whole = foods.map(|foods| foods + others.filter_map(mass).sum::<f64>());
                let parents: Vec<ItemId> =
                    account.placed.iter().chain(&account.drawn).map(|drawn| drawn.item).collect();
                let so_far: f64 = phase
                    .placings
                    .iter()
                    .zip(&account.placed)
                    .map(|(placing, drawn)| {
                        let whole = matches!(placing.part, Part::Whole | Part::Rest);
                        if whole { holds[at(drawn.item)].nitrite } else { part(&ledger, &holds, drawn) }
                    })
                    .sum();
                holds[at(becomes.item)] = Holds {
                    nitrite: so_far + added,
                    animal: parents.iter().any(|item| holds[at(*item)].animal),
                    ground: parents.iter().any(|item| holds[at(*item)].ground) || ground(phase),
                };
                vec![becomes.item]
            }
            None => {
                for drawn in &account.placed {
                    let of_it = mass(drawn).zip(foods).map_or(1.0, |(one, all)| one / all);
                    holds[at(drawn.item)].nitrite += added * if of_it.is_finite() { of_it } else { 1.0 };
                    holds[at(drawn.item)].ground |= ground(phase);
                }
                phase.placings.iter().map(|placing| placing.item).collect()
            }
        };
        if added <= 0.0 {
            continue;
        }
        for food in results.into_iter().filter(|food| holds[at(*food)].animal) {
            let in_it: f64 = match phase.becomes {
                Some(_) => holds[at(food)].nitrite,
                None => account.placed.iter().map(|drawn| holds[at(drawn.item)].nitrite).sum(),
            };
            let way = match (holds[at(food)].ground, dry) {
                (true, _) => CureWay::Mixed,
                (false, true) => CureWay::Dry,
                (false, false) => CureWay::Brine,
            };
            judge(report, About { phase: id, food }, way, whole.filter(|kg| *kg > 0.0).map(|kg| in_it / kg));
        }
    }
}

fn judge(report: &mut Report, about: About, way: CureWay, fraction: Option<f64>) {
    for rule in report.rules() {
        let Demand::Nitrite { max_ppm, way: only } = rule.demand else { continue };
        if only.is_some_and(|only| only != way) {
            continue;
        }
        let Some(ppm) = fraction.map(|fraction| fraction * 1e6) else {
            let why = say![
                "How much meat or brine there is, by mass, is not known; so neither is the share of nitrite."
            ];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
            continue;
        };
        let (phase, food) = (report.phase_name(about.phase), report.food_name(about.food));
        // Half a unit of the last digit that is shown is what writing amounts in grams may cost.
        if ppm <= max_ppm + 0.5 {
            let why = say![format!(
                "It gets {ppm:.0} ppm of nitrite by the amounts written; how much the meat takes up is not known, and the \
                 limit of {max_ppm} ppm is from memory."
            )];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
            continue;
        }
        let message = say![format!(
            "`{phase}` brings `{food}` to {ppm:.0} ppm of nitrite. At most {max_ppm} ppm are allowed: {} (figure from \
             memory). Too much nitrite poisons.",
            report.cite(rule)
        )];
        let remedy = say![format!(
            "Use less of the curing salt: at most {:.3} of what is written. Weigh it, and mind which kind it is: `nitrite \
             6.25 %` is for 2 g to 3 g on a kilogram, `nitrite 0.6 %` is as salty as salt.",
            (max_ppm / ppm * 1000.0).floor() / 1000.0
        )];
        let span = report
            .cook
            .phase(about.phase)
            .uses
            .first()
            .map_or(report.cook.phase(about.phase).name_span, |draw| draw.span);
        report.broken(rule, about, Fault::new(Code::NitriteTooHigh, span, message, remedy));
    }
}

fn at(item: ItemId) -> usize {
    item.0 as usize
}

fn mass(drawn: &Drawn) -> Option<f64> {
    drawn.weight.map(|weight| weight.mass.kg())
}

/// The nitrite in stock, as a fraction.
fn share(item: &Item) -> Option<f64> {
    match &item.origin {
        Origin::Food(stock) | Origin::Ingredient(stock) => Some(stock.nitrite.as_ref()?.value.fraction()),
        _ => None,
    }
}

fn bought(report: &Report, item: ItemId) -> Holds {
    let lot = Lot::bought(report.cook, item);
    let animal = lot.needs.iter().filter(|need| !need.is_plant());
    Holds {
        nitrite: 0.0,
        animal: animal.clone().count() > 0,
        ground: animal.clone().any(|need| need.structure == Structure::Ground),
    }
}

fn ground(phase: &Phase) -> bool {
    phase.shape.structure.as_ref().is_some_and(|said| said.value == Structure::Ground)
}

/// The nitrite in what is drawn.
fn passes_on(report: &Report, ledger: &Ledger, holds: &[Holds], drawn: &Drawn) -> f64 {
    match share(report.cook.item(drawn.item)) {
        Some(share) => mass(drawn).unwrap_or(0.0) * share,
        None => part(ledger, holds, drawn),
    }
}

/// The share of an item's nitrite that goes with a part of it; all of it where that is not known.
fn part(ledger: &Ledger, holds: &[Holds], drawn: &Drawn) -> f64 {
    let came = ledger.item(drawn.item).came.weight(true).map(|weight| weight.mass.kg());
    let of_it = mass(drawn).zip(came).map_or(1.0, |(part, whole)| part / whole);
    holds[at(drawn.item)].nitrite * if of_it.is_finite() { of_it.clamp(0.0, 1.0) } else { 1.0 }
}
