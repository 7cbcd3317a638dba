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
    let others: Vec<Lasts> = cook.phases.iter().map(other).collect();
    match cook.phases.iter().map(|phase| phase.lasts).eq(others.iter().copied()) {
        true => Vec::new(),
        false => judged_as(cook, ledger, sets, others),
    }
}

/// The same with all lengths given, whether they are others or not.
pub fn judged_as(
    cook: &mut Cook,
    ledger: &Ledger,
    sets: &[&'static RuleSet],
    lengths: Vec<Lasts>,
) -> Vec<Verdicts> {
    let written: Vec<Lasts> = cook.phases.iter().map(|phase| phase.lasts).collect();
    put(cook, lengths);
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
