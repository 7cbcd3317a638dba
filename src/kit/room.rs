//! Room: shelves, and what a pot or a cabinet holds.

use std::collections::BTreeMap;

use super::moments::{Moments, Presence};
use super::{placed, quoted};
use crate::cook::{Amount, Capacity, Cook, Kit, KitId, Phase, PhaseId, Room};
use crate::findings::{Code, Finding};
use crate::ledger::Ledger;
use crate::quantity::{Mass, Volume, Written, plain_number};
use crate::say;
use crate::text::Span;

/// How much room a phase takes, in one of the measures a kit may be given in.
#[derive(Debug, Clone, Copy)]
pub struct Taken {
    pub phase: PhaseId,
    pub kit: KitId,
    pub measure: Measure,
    /// In the unit of the measure, as is the limit.
    pub amount: f64,
    /// How much there is of it in the kit.
    pub limit: f64,
    span: Span,
}

/// What room is measured in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Measure {
    Shelves,
    /// Kilograms.
    Mass,
    /// Cubic metres.
    Volume,
}

/// Food is hardly ever lighter than water once it fills a pot, so what is too much by this is too
/// much. Common practice, no source.
const FOOD_KG_PER_M3: f64 = 1000.0;

/// A pot is filled to the brim by a little more than its round figure.
pub const BRIM: f64 = 1.02;

pub(super) fn check(cook: &Cook, ledger: &Ledger, moments: &Moments) -> Vec<Finding> {
    let mut by_kit: BTreeMap<(KitId, Measure), Vec<Taken>> = BTreeMap::new();
    for taken in taken(cook, ledger) {
        by_kit.entry((taken.kit, taken.measure)).or_default().push(taken);
    }
    by_kit
        .iter()
        .flat_map(|((kit, _), takes)| too_full(cook, cook.kit(*kit), takes[0].limit, takes, moments))
        .collect()
}

/// The room that each phase takes in kit that has a limit.
pub fn taken(cook: &Cook, ledger: &Ledger) -> Vec<Taken> {
    let placed = placed(cook).filter_map(|(id, phase, kit)| Some((id, phase, phase.place?.value, kit)));
    placed.flat_map(|(id, phase, place, kit)| takes(id, phase, place, kit, ledger)).collect()
}

/// What a phase says it fills, else what the ledger says its food weighs.
fn takes(id: PhaseId, phase: &Phase, place: KitId, kit: &Kit, ledger: &Ledger) -> Vec<Taken> {
    let taken = |measure, amount, span| {
        let limit = limit(kit, measure)?;
        Some(Taken { phase: id, kit: place, measure, amount, limit, span })
    };
    let mut takes = Vec::new();
    let mut by_amount = false;
    if let Some(fills) = &phase.fills {
        match &fills.value {
            Room::Shelves(number) => takes.extend(taken(Measure::Shelves, *number, fills.span)),
            Room::Amount(Amount::Mass(mass)) => {
                by_amount = true;
                takes.extend(in_measure_of(kit, *mass).and_then(|(m, amount)| taken(m, amount, fills.span)));
            }
            Room::Amount(Amount::Volume(volume)) => {
                by_amount = true;
                let mass = Mass::from_kg(volume.cubic_metres() * FOOD_KG_PER_M3);
                takes.extend(in_measure_of(kit, mass).and_then(|(m, amount)| taken(m, amount, fills.span)));
            }
            Room::Amount(Amount::Length(_) | Amount::Count { .. }) => {}
        }
    }
    if !by_amount {
        let foods = &ledger.phase(id).foods;
        let weight: Mass = foods.iter().filter_map(|food| food.start).map(|weight| weight.mass).sum();
        let span = phase.placings.first().map_or(phase.name_span, |placing| placing.span);
        takes.extend(in_measure_of(kit, weight).and_then(|(measure, amount)| taken(measure, amount, span)));
    }
    takes
}

/// A weight in the measure that the kit's capacity is given in.
fn in_measure_of(kit: &Kit, mass: Mass) -> Option<(Measure, f64)> {
    match kit.holds.as_ref()?.value {
        Capacity::Mass(_) => Some((Measure::Mass, mass.kg())),
        Capacity::Volume(_) => Some((Measure::Volume, mass.kg() / FOOD_KG_PER_M3)),
    }
}

fn limit(kit: &Kit, measure: Measure) -> Option<f64> {
    match (measure, kit.holds.as_ref().map(|holds| holds.value)) {
        (Measure::Shelves, _) => kit.shelves.as_ref().map(|shelves| shelves.value),
        (Measure::Mass, Some(Capacity::Mass(mass))) => Some(mass.kg()),
        (Measure::Volume, Some(Capacity::Volume(volume))) => Some(volume.cubic_metres()),
        _ => None,
    }
}

/// Phases that do not fit by themselves, and phases that do not fit beside those that go on at the
/// same time for certain.
fn too_full(cook: &Cook, kit: &Kit, limit: f64, takes: &[Taken], moments: &Moments) -> Vec<Finding> {
    let (fitting, alone): (Vec<&Taken>, Vec<&Taken>) =
        takes.iter().partition(|taken| taken.amount <= limit * BRIM);
    let mut findings: Vec<Finding> =
        alone.into_iter().map(|taken| finding(cook, kit, limit, &[taken])).collect();

    let fitting: BTreeMap<PhaseId, &Taken> = fitting.into_iter().map(|taken| (taken.phase, taken)).collect();
    let mut going_on: Vec<(Presence, &Taken)> = Vec::new();
    for next in moments.presences(fitting.keys().copied()) {
        going_on.retain(|(one, _)| one.meets(&next));
        going_on.push((next, fitting[&next.phase]));
        // A phase may be there twice, by its start and by its end; counted first as if it were not.
        let at_most: f64 = going_on.iter().map(|(_, taken)| taken.amount).sum();
        if at_most <= limit * BRIM {
            continue;
        }
        let together: BTreeMap<PhaseId, &Taken> =
            going_on.iter().map(|(one, taken)| (one.phase, *taken)).collect();
        let together: Vec<&Taken> = together.into_values().collect();
        if together.iter().map(|one| one.amount).sum::<f64>() > limit * BRIM {
            findings.push(finding(cook, kit, limit, &together));
            // One finding tells of a crowd; it is not told again for each one that joins it.
            going_on.clear();
        }
    }
    findings
}

/// `together` in the order of the file, at least one; the last is the one too many.
fn finding(cook: &Cook, kit: &Kit, limit: f64, together: &[&Taken]) -> Finding {
    let (last, others) = (together[together.len() - 1], &together[..together.len() - 1]);
    let phase = cook.phase(last.phase);
    let name = quoted(&kit.name.value);
    let room = show(kit, last.measure, limit);
    let needed = show(kit, last.measure, together.iter().map(|one| one.amount).sum());
    let message = if others.is_empty() {
        say![name.clone(), " has room for ", room, ", and ", quoted(&phase.name), " needs ", needed, "."]
    } else {
        let names: Vec<String> = others.iter().map(|one| quoted(&cook.phase(one.phase).name)).collect();
        say![
            name.clone(),
            " has room for ",
            room,
            "; ",
            names.join(" and "),
            " and ",
            quoted(&phase.name),
            " need ",
            needed,
            " at the same time."
        ]
    };
    let remedy = say![
        "Use a second ",
        kit.class.base_name().to_owned(),
        " for a part of it, do one after the other, or correct the room in the block of ",
        name,
        "."
    ];
    let finding = Finding::new(Code::KitTooFull, last.span, message, remedy).in_phase(&phase.name);
    others.iter().fold(finding, |finding, one| {
        finding.also(one.span, say!["this takes ", show(kit, one.measure, one.amount), " of it"])
    })
}

/// In the units in which the room of the kit is written.
fn show(kit: &Kit, measure: Measure, amount: f64) -> String {
    match measure {
        Measure::Shelves if amount == 1.0 => "1 shelf".into(),
        Measure::Shelves => format!("{} shelves", plain_number(amount, 2)),
        Measure::Mass => {
            let written = match kit.holds.as_ref().map(|holds| holds.value) {
                Some(Capacity::Mass(mass)) => mass.written(),
                _ => Written::Metric,
            };
            Mass::from_kg(amount).written_in(written).show()
        }
        Measure::Volume => Volume::from_cubic_metres(amount).show(),
    }
}
