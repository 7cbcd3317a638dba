//! The stage: a cook in, its curves out.

use super::band::Band;
use super::curves::{Curves, FoodCurve, PhaseTimes, Sample, Stay};
use super::envelope::{Stretch, bounds};
use super::findings::findings;
use super::lines::{Detail, LINES};
use super::readings::Heeded;
use super::schedule::{Slot, schedule};
use super::stop::chosen;
use super::walk::{Run, Walked, walk};
use crate::cook::{Cook, ItemId, Lasts, PhaseId};
use crate::findings::Finding;
use crate::ledger::Ledger;
use crate::quantity::Duration;

/// What heat makes of a cook.
#[derive(Debug, Clone, Default)]
pub struct Prediction {
    pub curves: Curves,
    pub findings: Vec<Finding>,
}

/// Predicts the temperature of every food that has a thickness, a kind and known surroundings, and says where the
/// prediction does not fit what is written.
pub fn predict(cook: &Cook, ledger: &Ledger) -> Prediction {
    prediction(cook, ledger, Detail::Curves)
}

/// The same in a fraction of the time, for findings, rules and the plan: coarsely, and without samples to show.
pub fn outline(cook: &Cook, ledger: &Ledger) -> Prediction {
    prediction(cook, ledger, Detail::Ends)
}

fn prediction(cook: &Cook, ledger: &Ledger, detail: Detail) -> Prediction {
    let mut walked = walk(cook, ledger, None, &LINES, detail, cook.phases.len());
    let findings = findings(cook, &walked.runs);
    Prediction { curves: curves(cook, &mut walked, detail), findings }
}

/// All that was walked, on one axis of time.
pub(super) fn curves(cook: &Cook, walked: &mut Walked, detail: Detail) -> Curves {
    let lengths: Vec<_> = walked.lengths.iter().map(|length| length.band).collect();
    let slots = schedule(cook, &lengths);
    let mut phases: Vec<PhaseTimes> = cook
        .phases()
        .zip(slots.iter().zip(&walked.lengths))
        .map(|((phase, typed), (slot, length))| PhaseTimes {
            phase,
            name: typed.name.clone(),
            start_s: slot.start_s.typical,
            end_s: slot.end_s.typical,
            end_earliest_s: slot.end_s.low,
            end_latest_s: slot.end_s.high,
            least_s: length.band.low,
            most_s: length.band.high,
            end_predicted: length.predicted,
        })
        .collect();
    phases.sort_by(|a, b| a.start_s.total_cmp(&b.start_s).then(a.phase.cmp(&b.phase)));
    let mut items: Vec<ItemId> = Vec::new();
    for run in &walked.runs {
        if !items.contains(&run.item) {
            items.push(run.item);
        }
    }
    let foods = items.into_iter().map(|item| curve(cook, item, walked, &slots, detail)).collect();
    Curves { phases, foods, unpredicted: std::mem::take(&mut walked.unpredicted) }
}

/// Puts the predicted range where a phase has an end and no length, for planning; gives back what was written.
pub fn lend_lengths(cook: &mut Cook, curves: &Curves) -> Vec<Lasts> {
    let written = cook.phases.iter().map(|phase| phase.lasts).collect();
    for times in curves.phases.iter().filter(|times| times.end_predicted) {
        let phase = &mut cook.phases[times.phase.0 as usize];
        if phase.lasts == Lasts::Open {
            phase.lasts = Lasts::Nature {
                low: Duration::from_minutes((times.least_s / 60.0).floor()),
                high: Duration::from_minutes((times.most_s / 60.0).ceil()),
                each: false,
            };
        }
    }
    written
}

fn curve(cook: &Cook, item: ItemId, walked: &Walked, slots: &[Slot], detail: Detail) -> FoodCurve {
    let shown = |run: &&Run| detail != Detail::Ends && run.item == item && !run.instants.is_empty();
    let runs = walked.runs.iter().filter(shown);
    let stretches: Vec<(PhaseId, Stretch)> = runs
        .map(|run| (run.phase, Stretch { slot: slots[run.phase.0 as usize], instants: run.instants.clone() }))
        .collect();
    let all: Vec<Stretch> = stretches.iter().map(|(_, stretch)| stretch.clone()).collect();
    let mut samples = Vec::new();
    for (phase, stretch) in &stretches {
        let lasts = stretch.slot.end_s.typical - stretch.slot.start_s.typical;
        for instant in stretch.instants.iter().filter(|instant| instant.tau_s <= lasts) {
            let t_s = stretch.slot.start_s.typical + instant.tau_s;
            let (low, high) = bounds(&all, t_s).unwrap_or((instant.low_c, instant.high_c));
            samples.push(Sample {
                t_s,
                phase: *phase,
                medium_c: instant.medium_c,
                surface_c: instant.surface_c,
                core_c: instant.core_c,
                core_low_c: low.min(instant.core_c),
                core_high_c: high.max(instant.core_c),
            });
        }
    }
    let assumed = walked.assumed.get(&item).cloned().unwrap_or_default();
    let runs = walked.runs.iter().filter(|run| run.item == item);
    let exits = runs.clone().map(|run| (run.phase, run.exit_core_c)).collect();
    let stays = runs.map(|run| stay(cook, run, walked)).collect();
    let name = cook.item(item).name.clone();
    FoodCurve { item, name, samples, exits, stays, assumed, readings: Vec::new(), heeded: Heeded::default() }
}

fn stay(cook: &Cook, run: &Run, walked: &Walked) -> Stay {
    let length = walked.lengths.get(run.phase.0 as usize).map_or(Band::exact(0.0), |length| length.band);
    Stay {
        phase: run.phase,
        lasts_s: chosen(cook.phase(run.phase)).unwrap_or(length),
        alone_s: run.alone_s,
        instants: run.instants.iter().chain(&run.tail).copied().collect(),
    }
}
