//! Which foods a phase has: as they came out of the phases before, mixed where it makes one of them.

use std::collections::{BTreeMap, BTreeSet};

use super::lot::Lot;
use super::report::Report;
use super::stock::is_oil;
use super::waiting::{Wait, waited};
use super::{chance, holding};
use crate::cook::{Amount, Becomes, Collect, Draw, ItemId, Origin, Part, Phase, PhaseId, Purpose};
use crate::text::Span;

/// Foods as they come out of each phase.
pub(super) type Lots = BTreeMap<(ItemId, PhaseId), Lot>;

/// A food in a phase, and where the phase names it.
pub(super) struct Present {
    pub item: ItemId,
    pub lot: Lot,
    pub span: Span,
}

/// The foods of a phase as they are when it starts, mixed where it makes one of them.
pub(super) fn gather(
    report: &mut Report,
    lots: &Lots,
    gone_on: &mut BTreeSet<(ItemId, PhaseId)>,
    id: PhaseId,
    phase: &Phase,
) -> Vec<Present> {
    let mut find = |item: ItemId, before: Option<PhaseId>, used: Option<Span>| {
        let (key, mut lot) = find(report, lots, item, before, id);
        gone_on.extend(key);
        if let Some((item, since)) = key {
            waited(report, &mut lot, &Wait { item, since, now: id, used });
        }
        lot
    };
    let mut placed: Vec<Present> = phase
        .placings
        .iter()
        .map(|placing| Present {
            item: placing.item,
            lot: find(placing.item, placing.before, None),
            span: placing.span,
        })
        .collect();
    let mut used: Vec<Present> = phase
        .uses
        .iter()
        .map(|draw| Present {
            item: draw.item,
            lot: find(draw.item, draw.before, Some(draw.span)),
            span: draw.span,
        })
        .collect();
    if let Some(lie_in) = &phase.lie_in
        && let Some(item) = lie_in.item
    {
        used.push(Present { item, lot: find(item, None, Some(lie_in.span)), span: lie_in.span });
    }
    meet(id, &mut placed, &mut used, phase.becomes.is_some());
    match &phase.becomes {
        Some(becomes) => {
            vec![made(report, phase, becomes, placed, used)]
        }
        None => {
            for food in &mut placed {
                let oiled = (food.lot.oil && used.iter().any(|with| with.lot.is_plant()))
                    || (food.lot.is_plant()
                        && phase.lie_in.is_some()
                        && used.iter().any(|with| with.lot.oil));
                if oiled {
                    food.lot.laid_in_oil();
                }
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
    (Some(*key), lot.clone())
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

fn made(
    report: &Report,
    phase: &Phase,
    becomes: &Becomes,
    placed: Vec<Present>,
    used: Vec<Present>,
) -> Present {
    let stays_oil = match &report.cook.item(becomes.item).kind {
        Some(kind) => is_oil(&kind.value),
        None if placed.is_empty() => mostly_oil(report, phase, &used),
        None => placed.iter().all(|food| food.lot.oil),
    };
    let foods = || placed.iter().chain(&used);
    let plants = foods().any(|food| food.lot.under_oil)
        || (foods().any(|food| food.lot.oil) && foods().any(|food| food.lot.is_plant()));
    let lots = placed.into_iter().chain(used).map(|food| food.lot).collect();
    let mut lot = Lot::mixed(lots);
    if let Some(kind) = &report.cook.item(becomes.item).kind {
        lot.named(&kind.value, phase.purpose == Purpose::Cook);
    }
    lot.oil = stays_oil;
    if stays_oil && plants {
        lot.laid_in_oil();
    }
    lot.cooked_by = None;
    Present { item: becomes.item, lot, span: becomes.span }
}

/// Of what is only drawn, at least half is oil, at a kilogram a litre.
fn mostly_oil(report: &Report, phase: &Phase, used: &[Present]) -> bool {
    let amount = |draw: &Draw| {
        let written = match &draw.part {
            Part::Amount(amount) => Some(amount),
            _ => match &report.cook.item(draw.item).origin {
                Origin::Food(stock) | Origin::Ingredient(stock) => {
                    stock.amount.as_ref().map(|said| &said.value)
                }
                _ => None,
            },
        };
        match written {
            Some(Amount::Mass(mass)) => mass.kg(),
            Some(Amount::Volume(volume)) => volume.cubic_metres() * 1000.0,
            _ => 0.0,
        }
    };
    let is_oil = |draw: &&Draw| used.iter().any(|food| food.item == draw.item && food.lot.oil);
    let all: f64 = phase.uses.iter().map(amount).sum();
    let oil: f64 = phase.uses.iter().filter(is_oil).map(amount).sum();
    oil > 0.0 && oil >= all / 2.0
}

/// What is collected as the phase ends has its parent's history so far.
pub(super) fn collect(report: &Report, lots: &mut Lots, present: &[Present], id: PhaseId, phase: &Phase) {
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
            // Taken as the phase ends: it has had its heat.
            lot.named(&kind.value, false);
        }
        lots.insert((*item, id), lot);
    }
}
