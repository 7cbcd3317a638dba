//! What the cook may choose, taken where it counts against the food.
//!
//! A forecast is drawn for the middle of every choice of time. What comes after then starts out elsewhere where heat or
//! cold is shorter than that, or a wait longer. So the rules that follow the food from phase to phase are asked once more,
//! with all choices at those ends.

use super::lengths::judged_with;
use crate::cook::{Cook, Lasts, Phase, Purpose};
use crate::findings::{Code, Finding};
use crate::ledger::Ledger;
use crate::safety::{Judged, Verdicts};
use crate::tables::RuleSet;

/// What each of `sets` says of the cook at those ends; nothing where no choice can matter to what comes after.
pub fn judged_at_worst(cook: &mut Cook, ledger: &Ledger, sets: &[&'static RuleSet]) -> Vec<Verdicts> {
    if !matters(cook) {
        return Vec::new();
    }
    judged_with(cook, ledger, sets, |phase| worst(phase).unwrap_or(phase.lasts))
}

/// The end of a choice that leaves food in between for longer.
fn worst(phase: &Phase) -> Option<Lasts> {
    let Lasts::Chosen { low, high: Some(high) } = phase.lasts else { return None };
    Some(Lasts::Fixed(match phase.purpose {
        Purpose::Cook | Purpose::Reheat | Purpose::Cool | Purpose::Freeze => low,
        _ => high,
    }))
}

/// Food goes on from a choice to where it is heated, held or cooled.
fn matters(cook: &Cook) -> bool {
    let goes_on = |phase: &Phase| phase.purpose != Purpose::Serve || phase.place.is_some();
    let befores = cook.phases.iter().filter(|phase| goes_on(phase)).flat_map(|phase| {
        let placed = phase.placings.iter().filter_map(|placing| placing.before);
        placed.chain(phase.uses.iter().filter_map(|draw| draw.before))
    });
    befores.into_iter().any(|before| worst(cook.phase(before)).is_some())
}

/// Codes of the rules that follow the food from phase to phase. Two that say the same of a phase have one number.
fn follows(code: Code) -> Option<u8> {
    Some(match code {
        Code::HoldTooCool | Code::HoldEnteredCold => 0,
        Code::CoolTooSlow => 1,
        Code::ComeUpTooSlow => 2,
        Code::ReheatTooSlow => 3,
        _ => return None,
    })
}

/// Puts in what is worse at the worst ends than as it usually goes.
pub fn add(verdicts: &mut Verdicts, at_worst: Verdicts) {
    for finding in at_worst.findings {
        let Some(kin) = follows(finding.code) else { continue };
        let alike = |other: &Finding| {
            follows(other.code) == Some(kin) && other.phase == finding.phase && other.food == finding.food
        };
        if verdicts.findings.iter().any(|other| alike(other) && other.severity <= finding.severity) {
            continue;
        }
        verdicts.findings.retain(|other| !alike(other));
        let row = |judged: &Judged| {
            let cited = finding.rule.as_ref().is_some_and(|rule| rule.id == judged.rule);
            cited && judged.phase == finding.phase && judged.food == finding.food
        };
        verdicts.judged.retain(|judged| !row(judged));
        verdicts.judged.extend(at_worst.judged.iter().filter(|judged| row(judged)).cloned());
        let mut finding = finding;
        finding
            .message
            .push(" That is with heat and cold as short, and waits as long, as the file leaves the choice.");
        finding.remedy.push(" Or leave less of a choice in the phases before.");
        verdicts.findings.push(finding);
    }
}
