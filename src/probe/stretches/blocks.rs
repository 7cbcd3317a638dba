//! The phases of a food that are judged as one, and when they were planned or said to be over.

use super::Kind;
use crate::cook::{Cook, ItemId, Phase, PhaseId};
use crate::heat::PhaseTimes;
use crate::probe::{Logged, line};

/// Phases in a row that are judged as one.
pub struct Block<'c> {
    pub kind: Kind,
    /// Those that a temperature judges.
    pub phases: Vec<(PhaseId, &'c Phase)>,
    /// The others until the next block starts.
    after: Vec<PhaseId>,
}

impl Block<'_> {
    pub fn names(&self) -> String {
        let names: Vec<&str> = self.phases.iter().map(|(_, phase)| phase.name.as_str()).collect();
        names.join(", ")
    }

    pub fn last(&self) -> PhaseId {
        self.phases[self.phases.len() - 1].0
    }
}

pub fn blocks<'c>(cook: &'c Cook, item: ItemId, only: Option<PhaseId>) -> Vec<Block<'c>> {
    let phases = line::phases(cook, &line::of(cook, item));
    let mut blocks: Vec<Block> = Vec::new();
    for (id, phase) in phases {
        match (Kind::of(phase.purpose), blocks.last_mut()) {
            (Some(kind), Some(last)) if last.kind == kind && only.is_none() => {
                last.phases.push((id, phase));
                last.after.clear();
            }
            (Some(kind), _) => blocks.push(Block { kind, phases: vec![(id, phase)], after: Vec::new() }),
            (None, Some(last)) => last.after.push(id),
            (None, None) => {}
        }
    }
    let held: Vec<bool> =
        (0..blocks.len()).map(|n| blocks.get(n + 1).is_some_and(|next| next.kind == Kind::HotHold)).collect();
    for (block, held) in blocks.iter_mut().zip(held) {
        if let Kind::Reheat { held: before } = &mut block.kind {
            *before = held;
        }
    }
    if let Some(only) = only {
        blocks.retain(|block| block.phases.iter().any(|(id, _)| *id == only));
    }
    blocks
}

fn planned(logged: &Logged<'_>, phase: PhaseId, end: impl Fn(&PhaseTimes) -> f64) -> Option<f64> {
    let times = logged.planned.iter().find(|times| times.phase == phase)?;
    Some(logged.cook_starts_s? + end(times)).filter(|end_s| end_s.is_finite())
}

pub fn before_the_log(block: &Block, logged: &Logged<'_>, first_s: f64) -> bool {
    planned(logged, block.last(), |times| times.end_latest_s).is_some_and(|end_s| end_s < first_s)
}

pub fn ends_before(block: &Block, logged: &Logged<'_>, last_s: f64) -> bool {
    planned(logged, block.last(), |times| times.end_earliest_s).is_some_and(|end_s| end_s > last_s)
}

/// The last moment at which somebody said that it, or what follows before the next block, was done.
pub fn told(block: &Block, logged: &Logged<'_>) -> Option<f64> {
    let ends = |id: &PhaseId| logged.done.iter().find(|(phase, _)| phase == id).map(|(_, end_s)| *end_s);
    block.after.iter().rev().find_map(ends).or_else(|| ends(&block.last()))
}
