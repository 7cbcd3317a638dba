//! Carries every food through the phases, and calls the judges on the way.

use std::collections::{BTreeMap, BTreeSet};

use super::declared::{core_end, heat, setting, times};
use super::lot::{Keeping, Lot};
use super::report::{About, Report};
use super::{chance, cooking, cooling, holding, out, reheating, storing};
use crate::cook::{Becomes, Check, Collect, ItemId, Origin, Phase, PhaseId, Purpose, Test};
use crate::tables::Demand;
use crate::text::Span;

/// Foods as they come out of each phase.
type Lots = BTreeMap<(ItemId, PhaseId), Lot>;

/// A food in a phase, and where the phase names it.
struct Present {
    item: ItemId,
    lot: Lot,
    span: Span,
}

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
    // What stands at the end of the file, neither eaten nor put away.
    for (key, mut lot) in lots {
        if !gone_on.contains(&key) {
            cooking::settle_at_the_end(report, &mut lot);
        }
    }
}

/// The foods of a phase as they are when it starts, mixed where it makes one of them.
fn gather(
    report: &Report,
    lots: &Lots,
    gone_on: &mut BTreeSet<(ItemId, PhaseId)>,
    id: PhaseId,
    phase: &Phase,
) -> Vec<Present> {
    let mut find = |item: ItemId, before: Option<PhaseId>| {
        let (key, lot) = find(report, lots, item, before, id);
        gone_on.extend(key);
        lot
    };
    let mut placed: Vec<Present> = phase
        .placings
        .iter()
        .map(|placing| Present {
            item: placing.item,
            lot: find(placing.item, placing.before),
            span: placing.span,
        })
        .collect();
    let mut used: Vec<Present> = phase
        .uses
        .iter()
        .map(|draw| Present { item: draw.item, lot: find(draw.item, draw.before), span: draw.span })
        .collect();
    if let Some(lie_in) = &phase.lie_in
        && let Some(item) = lie_in.item
    {
        used.push(Present { item, lot: find(item, None), span: lie_in.span });
    }
    meet(id, &mut placed, &mut used, phase.becomes.is_some());
    match &phase.becomes {
        Some(becomes) => vec![made(report, becomes, placed, used)],
        None => {
            for food in &mut placed {
                for with in &used {
                    food.lot.touch(&with.lot);
                }
            }
            placed
        }
    }
}

/// A food as it came out of the phase before; else as it is bought.
fn find(
    report: &Report,
    lots: &Lots,
    item: ItemId,
    before: Option<PhaseId>,
    now: PhaseId,
) -> (Option<(ItemId, PhaseId)>, Lot) {
    let cook = report.cook;
    let made = matches!(cook.item(item).origin, Origin::Made(_) | Origin::Collected { .. });
    let known = match before {
        Some(before) if before < now => lots.range((item, PhaseId(0))..=(item, before)).next_back(),
        _ if made => lots.range((item, PhaseId(0))..(item, now)).next_back(),
        _ => None,
    };
    let Some((key, lot)) = known else {
        let mut lot = Lot::bought(cook, item);
        if let Origin::Food(stock) = &cook.item(item).origin
            && let Some(starts) = &stock.starts_at
        {
            lot.cold = !holding::counts_as_hot(report, starts.value);
            lot.began_warm = lot.cold && !holding::counts_as_cold(report, starts.value);
        }
        return (None, lot);
    };
    let mut lot = lot.clone();
    waited(report, &mut lot, item, key.1, now);
    (Some(*key), lot)
}

/// What is collected stays beside its parent, in the same heat, until it is placed or used.
fn waited(report: &Report, lot: &mut Lot, item: ItemId, since: PhaseId, now: PhaseId) {
    let cook = report.cook;
    let Origin::Collected { phase, from } = cook.item(item).origin else { return };
    if phase != since {
        return;
    }
    let parent = from.or_else(|| main_food(cook.phase(phase)));
    for (id, later) in cook.phases().filter(|(id, _)| *id > since && *id < now) {
        if !later.placings.iter().any(|placing| Some(placing.item) == parent) {
            continue;
        }
        if out::left_out(report, later) == Some(true) {
            lot.left_out(id, times(later));
        }
        if let Some(mut heat) = heat(cook, later) {
            // The parent's core is not the liquid's: only what is around both counts.
            heat.sure = None;
            heat.exact = false;
            heat.most = setting(cook, later).map(|setting| setting.at);
            lot.heated(id, later.purpose, heat, false);
        }
    }
}

/// What a phase makes, or the one food that it is about.
fn main_food(phase: &Phase) -> Option<ItemId> {
    phase
        .becomes
        .as_ref()
        .map(|becomes| becomes.item)
        .or_else(|| phase.placings.first().map(|placing| placing.item))
}

/// Raw food that comes together with food that is ready is marked: something has to cook it later.
fn meet(id: PhaseId, placed: &mut [Present], used: &mut [Present], mixed: bool) {
    let ready = |foods: &[Present]| foods.iter().find(|food| food.lot.is_ready()).map(|food| food.item);
    let (ready_placed, ready_used) = (ready(placed), ready(used));
    let mark = |foods: &mut [Present], with: Option<ItemId>| {
        let Some(with) = with else { return };
        for food in foods {
            let span = food.span;
            for need in food.lot.needs.iter_mut().filter(|need| !need.is_plant() && need.untouched()) {
                need.met.get_or_insert((id, span, with));
            }
        }
    };
    // Foods that are only used do not touch each other; in a mixture everything does.
    mark(used, ready_placed.or(ready_used.filter(|_| mixed)));
    mark(placed, ready_used.or(ready_placed.filter(|_| mixed)));
}

fn made(report: &Report, becomes: &Becomes, placed: Vec<Present>, used: Vec<Present>) -> Present {
    let lots = placed.into_iter().chain(used).map(|food| food.lot).collect();
    let mut lot = Lot::mixed(lots);
    if let Some(kind) = &report.cook.item(becomes.item).kind {
        lot.named(&kind.value);
    }
    lot.cooked_by = None;
    Present { item: becomes.item, lot, span: becomes.span }
}

/// One food through one phase.
fn step(report: &mut Report, food: &mut Present, id: PhaseId, phase: &Phase) {
    let cook = report.cook;
    let about = About { phase: id, food: food.item };
    let lot = &mut food.lot;
    lot.unsure |= phase.damaged;
    if let Some(structure) = &phase.shape.structure {
        lot.restructured(structure.value);
    }
    // Carved or trayed up, a roast is no whole roast any more.
    if phase.shape.pieces.is_some() {
        lot.cooked_by = None;
    }
    if matches!(phase.purpose, Purpose::Cure | Purpose::Ferment) {
        lot.hurdles = true;
    }
    if let Some(heat) = heat(cook, phase) {
        if matches!(phase.purpose, Purpose::Cook | Purpose::Reheat) && controlled(report, lot) {
            out::close(report, lot, about);
        }
        let through = heat.sure.is_some_and(|core| holding::counts_as_hot(report, core));
        lot.heated(id, phase.purpose, heat, through);
    }
    match phase.purpose {
        Purpose::HotHold => {
            let cooked = cooking::settle(report, lot, about, food.span);
            if controlled(report, lot) {
                if cooked {
                    reheating::entered(report, lot, about, food.span);
                }
                holding::hot(report, lot, about);
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
            lot.chilled();
            if phase.purpose == Purpose::ColdHold && controlled(report, lot) {
                lot.stored = lot.stored + times(phase);
                storing::cold(report, lot, about);
                storing::stored(report, lot, about);
            }
        }
        Purpose::Serve => {
            cooking::settle(report, lot, about, food.span);
            if controlled(report, lot) {
                serve(report, lot, about, phase);
                out::count(report, lot, about);
                out::close(report, lot, about);
            }
        }
        Purpose::Thaw => {
            if lot.keeping == Keeping::Controlled {
                storing::thaw(report, about);
            }
            lot.chilled();
        }
        Purpose::Prep | Purpose::Rest => {
            if controlled(report, lot) {
                out::count(report, lot, about);
            }
        }
        Purpose::Cook | Purpose::Reheat | Purpose::Cure | Purpose::Ferment => {}
    }
    if let Some(ph) = declared_ph(phase) {
        lot.ph = Some(ph);
    }
    lot.last = Some(id);
}

/// A serving that keeps food hot or cold is judged as a hold.
fn serve(report: &mut Report, lot: &Lot, about: About, phase: &Phase) {
    let Some(setting) = setting(report.cook, phase) else { return };
    let Some(place) = &phase.place else { return };
    let kit = report.cook.kit(place.value);
    if kit.class.cold {
        storing::cold(report, lot, about);
    } else if kit.class.base_name() != "bench" && !holding::counts_as_cold(report, setting.at) {
        holding::hot(report, lot, about);
    }
}

/// It needs temperature or time control, as far as the set says.
fn controlled(report: &Report, lot: &Lot) -> bool {
    let acid = |ph: f64| {
        report.rules().any(|rule| matches!(rule.demand, Demand::NeedsNoControl { ph_below } if ph < ph_below))
    };
    lot.keeping == Keeping::Controlled && !lot.ph.is_some_and(acid)
}

/// How acid it is by the end, on the writer's word.
fn declared_ph(phase: &Phase) -> Option<f64> {
    let until = phase.until.iter().flat_map(|until| &until.tests).find_map(|test| match test.value {
        Test::Ph(ph) => Some(ph),
        _ => None,
    });
    let checked = phase.checks.iter().find_map(|check| match check.value {
        Check::Ph { high, .. } => Some(high),
        _ => None,
    });
    until.or(checked).or(phase.shape.ph.as_ref().map(|ph| ph.value))
}

/// What is collected as the phase ends has its parent's history so far.
fn collect(report: &Report, lots: &mut Lots, present: &[Present], id: PhaseId, phase: &Phase) {
    for Collect { item, from, .. } in &phase.collects {
        let parents = present.iter().filter(|food| from.is_none_or(|from| food.item == from));
        let parents: Vec<Lot> = parents.map(|food| food.lot.clone()).collect();
        if parents.is_empty() {
            continue;
        }
        let mut lot = Lot::mixed(parents);
        for need in &mut lot.needs {
            need.item = *item;
            if !chance::may_be_killed(report, need) {
                need.heats.clear();
            }
        }
        if let Some(kind) = &report.cook.item(*item).kind {
            lot.named(&kind.value);
        }
        lots.insert((*item, id), lot);
    }
}
