//! Carries every food through the phases, and calls the judges on the way.

use std::collections::BTreeSet;

use super::control::{controlled, declared_ph, ends_sour};
use super::declared::{core_end, heat, in_the_cold, is_bag, setting, surroundings, times};
use super::flow::{Lots, Present, collect, gather};
use super::lot::{Keeping, Lot};
use super::report::{About, Report};
use super::{again, cooking, cooling, holding, nitrite, out, raw, reheating, starts, storing, unknown};
use crate::cook::{Phase, PhaseId, Purpose};
use crate::quantity::{Duration, Temperature};
use crate::text::Span;

pub(super) fn walk(report: &mut Report) {
    let cook = report.cook;
    let mut lots = Lots::new();
    let mut gone_on = BTreeSet::new();
    for (id, phase) in cook.phases() {
        let mut present = gather(report, &lots, &mut gone_on, id, phase);
        for food in &mut present {
            step(report, food, id, phase);
        }
        collect(report, &mut lots, &present, id, phase);
        for food in present {
            lots.insert((food.item, id), food.lot);
        }
    }
    starts::warm(report);
    nitrite::in_all(report);
    // What stands at the end of the file, neither eaten nor put away.
    for (key, mut lot) in lots {
        if !gone_on.contains(&key) {
            cooking::settle_at_the_end(report, &mut lot);
            cooling::settle(report, &mut lot);
        }
    }
}

/// One food through one phase.
fn step(report: &mut Report, food: &mut Present, id: PhaseId, phase: &Phase) {
    let cook = report.cook;
    let about = About { phase: id, food: food.item };
    let lot = &mut food.lot;
    lot.unsure |= phase.damaged;
    report.holds_unrecognised(food.item, lot.unrecognised);
    // Any cover replaces all covers, and a new count starts without one.
    if !phase.shape.covers.is_empty() || phase.shape.pieces.is_some() {
        lot.bagged = phase.shape.covers.iter().any(is_bag);
    }
    if lot.bagged {
        report.in_a_bag(about);
    }
    if let Some(structure) = &phase.shape.structure {
        lot.restructured(structure.value);
    }
    // Carved or trayed up, a roast is no whole roast any more.
    if phase.shape.pieces.is_some() {
        lot.cooked_by = None;
    }
    if matches!(phase.purpose, Purpose::Cure | Purpose::Ferment) {
        lot.hurdles = true;
        lot.cured |= phase.purpose == Purpose::Cure;
    }
    lot.salted |= phase.shape.salt.is_some();
    if matches!(phase.purpose, Purpose::Cook | Purpose::Reheat | Purpose::HotHold | Purpose::Serve) {
        cooling::settle(report, lot);
    }
    if let Some(heat) = heat(cook, phase) {
        if matches!(phase.purpose, Purpose::Cook | Purpose::Reheat) && controlled(report, lot) {
            match (out::too_cool_for(report, lot, phase), lot.hurdles) {
                (true, true) => out::hurdled(report, lot, about, false),
                (true, false) => out::count(report, lot, about),
                (false, _) => out::close(report, lot, about),
            }
        }
        if phase.purpose == Purpose::Reheat {
            again::reheated(report, lot, about);
        }
        if !out::tepid(report, phase) {
            lot.raw_milk = None;
        }
        let clock = out::clock(report, lot, phase, &heat);
        lot.heated(id, phase.purpose, heat, clock);
    }
    match phase.purpose {
        Purpose::HotHold => {
            let cooked = cooking::settle(report, lot, about, food.span);
            if controlled(report, lot) {
                if cooked {
                    reheating::entered(report, lot, about, food.span);
                }
                holding::hot(report, lot, about, food.span);
            }
            lot.cold = false;
        }
        Purpose::Cool => {
            cooking::settle(report, lot, about, food.span);
            if controlled(report, lot) && lot.cooked {
                cooling::cool(report, lot, about);
                out::count(report, lot, about);
            }
            if !core_end(phase).is_some_and(|end| holding::counts_as_hot(report, end.at)) {
                lot.chilled();
            }
        }
        Purpose::ColdHold | Purpose::Freeze => {
            cooking::settle(report, lot, about, food.span);
            if controlled(report, lot) && lot.comes_hot() {
                cooling::put_away_hot(report, lot, about, food.span);
            }
            lot.chilled();
            if let Some(band) = surroundings(cook, phase).filter(|band| band.span.is_some()) {
                lot.frozen_at(band.high, times(phase).shortest);
            }
            lot.frozen |= phase.purpose == Purpose::Freeze || below_zero(cook, phase);
            if phase.purpose == Purpose::ColdHold && controlled(report, lot) {
                lot.stored = lot.stored + times(phase);
                storing::cold(report, lot, about);
                storing::stored(report, lot, about);
            }
        }
        Purpose::Serve => {
            cooking::settle(report, lot, about, food.span);
            raw::milk(report, lot, about, food.span);
            if controlled(report, lot) {
                serve(report, lot, about, food.span);
                reheating::eaten(report, lot, about);
                out::count(report, lot, about);
                out::close(report, lot, about);
            }
        }
        Purpose::Thaw => {
            let cold = in_the_cold(cook, phase);
            if lot.keeping == Keeping::Controlled {
                storing::thaw(report, about);
            }
            if !lot.frozen && !lot.unsure {
                storing::never_frozen(report, about, food.span);
                // It is not thawing, it is lying there.
                if controlled(report, lot) {
                    out::count(report, lot, about);
                    if cold {
                        storing::cold(report, lot, about);
                    }
                }
            }
            if cold && controlled(report, lot) {
                lot.stored = lot.stored + times(phase);
                storing::stored(report, lot, about);
            }
            if lot.frozen || cold {
                lot.chilled();
            }
            lot.frozen = false;
        }
        Purpose::Prep | Purpose::Rest => {
            if controlled(report, lot) {
                out::count(report, lot, about);
                // Days in the fridge count, whatever they are called.
                if in_the_cold(cook, phase) {
                    lot.stored = lot.stored + times(phase);
                    storing::stored(report, lot, about);
                }
            }
        }
        Purpose::Cure | Purpose::Ferment => {
            if controlled(report, lot) {
                out::hurdled(report, lot, about, ends_sour(report, phase));
            }
        }
        Purpose::Cook | Purpose::Reheat => {}
    }
    if !controlled(report, lot) && phase.purpose != Purpose::ColdHold {
        unknown::left_out(report, lot, about);
    }
    if let Some(ph) = declared_ph(phase) {
        lot.ph = Some(ph);
    }
    lot.last = Some(id);
    lot.trails.follow(about);
    if matches!(phase.purpose, Purpose::ColdHold | Purpose::Freeze) {
        cooling::settle(report, lot);
    }
}

/// A serving that keeps food hot or cold is judged as a hold.
fn serve(report: &mut Report, lot: &mut Lot, about: About, placed: Span) {
    let phase = report.cook.phase(about.phase);
    let Some(setting) = setting(report.cook, phase) else { return };
    let Some(place) = &phase.place else { return };
    let kit = report.cook.kit(place.value);
    if kit.class.cold {
        storing::cold(report, lot, about);
    } else if kit.class.base_name() != "bench" && !holding::counts_as_cold(report, setting.at) {
        // What is eaten at once may be served at any temperature; what stands there is held.
        if times(phase).longest > Duration::ZERO && lot.cooked {
            reheating::entered(report, lot, about, placed);
            lot.cold = false;
        }
        holding::hot(report, lot, about, placed);
    }
}

/// It is kept where it freezes, or stays frozen.
fn below_zero(cook: &crate::cook::Cook, phase: &Phase) -> bool {
    setting(cook, phase).is_some_and(|around| around.at < Temperature::from_celsius(0.0))
}
