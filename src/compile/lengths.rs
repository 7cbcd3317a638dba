//! Other lengths for the phases of a cook, for as long as something is judged with them.

use crate::cook::{Cook, Lasts, Phase};
use crate::heat;
use crate::ledger::Ledger;
use crate::safety::{self, Verdicts};
use crate::tables::RuleSet;

/// What each of `sets` says of the cook where its phases last as `other` has it, one by one and in their order. The cook
/// has its own lengths again afterwards. Nothing where no length is another.
pub fn judged_with(
    cook: &mut Cook,
    ledger: &Ledger,
    sets: &[&'static RuleSet],
    other: impl FnMut(&Phase) -> Lasts,
) -> Vec<Verdicts> {
    let written: Vec<Lasts> = cook.phases.iter().map(|phase| phase.lasts).collect();
    let others: Vec<Lasts> = cook.phases.iter().map(other).collect();
    if others == written {
        return Vec::new();
    }
    put(cook, others);
    let curves = heat::outline(cook, ledger).curves;
    let verdicts = sets.iter().map(|set| safety::judge(cook, set, &curves)).collect();
    put(cook, written);
    verdicts
}

fn put(cook: &mut Cook, lengths: Vec<Lasts>) {
    for (phase, lasts) in cook.phases.iter_mut().zip(lengths) {
        phase.lasts = lasts;
    }
}
