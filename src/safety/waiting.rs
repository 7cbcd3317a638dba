//! Food between two phases: what is collected waits beside its parent, other food in the room. Both are on
//! the clock.

use super::control::controlled;
use super::declared::{Times, heat, in_the_cold, setting, times};
use super::lot::{Clock, Lot};
use super::out::{self, Spell};
use super::report::{About, Report};
use super::{cooling, holding, storing};
use crate::cook::{Collect, Cook, ItemId, Part, Phase, PhaseId, Purpose};
use crate::quantity::{Duration, Temperature};
use crate::say;
use crate::text::Span;

/// A food that was in a phase and is taken up again in a later one.
pub(super) struct Wait {
    pub item: ItemId,
    pub since: PhaseId,
    pub now: PhaseId,
    /// Where it is taken up; `None` where it is placed, and its phase begins as the last one ends.
    pub used: Option<Span>,
}

/// What a food goes through until it is taken up again.
pub(super) fn waited(report: &mut Report, lot: &mut Lot, wait: &Wait) {
    let cook = report.cook;
    let from = cook.phase(wait.since);
    if let Some(collect) = from.collects.iter().find(|collect| collect.item == wait.item) {
        beside(report, lot, wait, collect);
    } else if let Some(span) = wait.used {
        in_the_room(report, lot, wait, span);
    }
}

/// What is collected stays beside its parent, in the same medium, whatever the parent becomes.
fn beside(report: &mut Report, lot: &mut Lot, wait: &Wait, collect: &Collect) {
    let cook = report.cook;
    let mut parent = collect.from.or_else(|| main_food(cook.phase(wait.since)));
    let certain = way(cook, wait).is_some();
    for (id, phase) in cook.phases().filter(|(id, _)| *id > wait.since && *id < wait.now) {
        let Some(placing) = phase.placings.iter().find(|placing| Some(placing.item) == parent) else {
            continue;
        };
        match &phase.becomes {
            // A part goes its own way, and the old name is what is left.
            Some(_) if !matches!(placing.part, Part::Whole | Part::Rest) => continue,
            Some(becomes) => parent = Some(becomes.item),
            None => {}
        }
        let also = vec![(phase.lasts_span, say!["It stands there meanwhile."])];
        let spell = Spell { times: times(phase), opens: "With", span: collect.span, also, certain };
        stands(report, lot, About { phase: id, food: wait.item }, spell);
    }
    // It is used on something else: nothing is left to come for it.
    if wait.used.is_some()
        && lot.out.longest > Duration::ZERO
        && controlled(report, lot)
        && !lot.out_in.is_empty()
    {
        out::close(report, lot, About { phase: wait.now, food: wait.item });
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

/// One phase of its parent. Only what is around both counts: the parent's core is not the liquid's.
fn stands(report: &mut Report, lot: &mut Lot, about: About, spell: Spell) {
    let cook = report.cook;
    let phase = cook.phase(about.phase);
    lot.unsure |= phase.damaged;
    let needs_control = controlled(report, lot);
    match phase.purpose {
        Purpose::Cook | Purpose::Reheat => {
            match (needs_control, out::tepid(report, phase)) {
                (true, true) => out::count_as(report, lot, about, spell),
                (true, false) => out::close(report, lot, about),
                (false, _) => {}
            }
            if let Some(mut heat) = heat(cook, phase) {
                heat.sure = None;
                heat.exact = false;
                heat.most = setting(cook, phase).map(|setting| setting.at);
                heat.beside = true;
                let clock = if out::tepid(report, phase) { Clock::RunsOn } else { Clock::Perhaps };
                lot.heated(about.phase, phase.purpose, heat, clock);
            }
        }
        Purpose::HotHold => {
            if needs_control {
                holding::hot(report, lot, about, spell.span);
            }
            lot.cold = false;
        }
        Purpose::Cool => {
            if needs_control && lot.cooked {
                cooling::cool(report, lot, about);
                out::count_as(report, lot, about, spell);
            }
            lot.chilled();
        }
        Purpose::ColdHold | Purpose::Freeze => {
            lot.chilled();
            let freezes = setting(cook, phase).is_some_and(|at| at.at < Temperature::from_celsius(0.0));
            lot.frozen |= phase.purpose == Purpose::Freeze || freezes;
            if phase.purpose == Purpose::ColdHold && needs_control {
                lot.stored = lot.stored + times(phase);
                storing::cold(report, lot, about);
                storing::stored(report, lot, about);
            }
        }
        Purpose::Cure | Purpose::Ferment => {
            if needs_control {
                out::hurdled(report, lot, about, false);
            }
        }
        Purpose::Prep | Purpose::Rest | Purpose::Thaw | Purpose::Serve => {
            if needs_control {
                out::count_as(report, lot, about, spell);
                if in_the_cold(cook, phase) {
                    lot.stored = lot.stored + times(phase);
                    storing::stored(report, lot, about);
                }
            }
        }
    }
    lot.last = Some(about.phase);
}

/// Food that is only used has no place of its own meanwhile.
fn in_the_room(report: &mut Report, lot: &mut Lot, wait: &Wait, span: Span) {
    if !controlled(report, lot) {
        return;
    }
    let about = About { phase: wait.now, food: wait.item };
    match way(report.cook, wait) {
        Some(times) if times.longest > Duration::ZERO => {
            let since = report.cook.phase(wait.since);
            let also = vec![(since.name_span, say!["It waits from the end of this phase."])];
            out::spend(report, lot, about, Spell { times, opens: "Before", span, also, certain: true });
            out::close(report, lot, about);
        }
        Some(_) => {}
        None => out::not_said(report, lot, about),
    }
}

/// More phases than this between two are no real cook, and a long file costs no more than its length.
const LONGEST_WAY: usize = 200;

/// How long it is from the end of one phase to the start of the other, where other food goes on from the
/// one to the other: a food's next phase begins as its last one ends. `None` where nothing ties them.
fn way(cook: &Cook, wait: &Wait) -> Option<Times> {
    let since = wait.since;
    let mut to_go: Vec<(PhaseId, Times)> = vec![(wait.now, Times::default())];
    for _ in 0..LONGEST_WAY {
        let (id, so_far) = to_go.pop()?;
        let others = cook.phase(id).placings.iter().filter(|placing| placing.item != wait.item);
        for before in others.filter_map(|placing| placing.before) {
            if before == since {
                return Some(so_far);
            }
            if before > since && before < id {
                to_go.push((before, so_far + times(cook.phase(before))));
            }
        }
    }
    None
}
