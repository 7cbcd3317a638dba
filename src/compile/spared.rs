//! Time to spare that the clock would leave, held against the rules: food that takes longer than was written may have to be
//! thrown away, however early dinner is.

use super::Worked;
use super::lengths::judged_as;
use super::lived;
use crate::cook::{Cook, Lasts, Phase, Purpose};
use crate::findings::Severity;
use crate::quantity::Duration;
use crate::safety::{Verdict, Verdicts};
use crate::timing::{Minute, Overrun, Timeline};

/// What may be offered of a plan's moments: no more time than keeps food in the heat or the cold, than is as long again, and
/// than changes nothing of what the rules say.
pub fn offered(cook: &mut Cook, worked: &Worked, timeline: &Timeline) -> Vec<Overrun> {
    let mut overruns = timeline.overruns.clone();
    let lived: Vec<Lasts> = cook.phases.iter().map(lived::lengths(timeline)).collect();
    let mut usual = None;
    for overrun in &mut overruns {
        let nth = cook.phases.iter().position(|phase| phase.name == overrun.phase);
        let Some(nth) = nth.filter(|&nth| is_kept(&cook.phases[nth])) else {
            overrun.withhold();
            continue;
        };
        // What takes more than twice its longest is not heating, or keeping cold, as it was judged.
        let most = overrun.most;
        overrun.spare = overrun.spare.map(|spare| spare.min(most));
        overrun.gives.retain(|give| give.spare <= most);
        let mut changes_nothing = |spare: Minute| {
            let mut as_lived = |lengths: Vec<Lasts>| judged_as(cook, &worked.ledger, &worked.sets, lengths);
            let usual = usual.get_or_insert_with(|| as_lived(lived.clone()));
            let mut longer = lived.clone();
            longer[nth] = lasting(lived[nth], Duration::from_minutes((most + spare) as f64));
            !is_worse(&as_lived(longer), usual)
        };
        if overrun.spare.is_some_and(|spare| spare > 0 && !changes_nothing(spare)) {
            overrun.withhold();
        }
        overrun.gives.retain(|give| changes_nothing(give.spare));
    }
    overruns
}

/// Takes back in the plan of a whole menu what is not offered of one of its dishes.
pub fn take_back(whole: &mut [Overrun], dish: &[Overrun]) {
    for overrun in whole {
        let alike = |one: &&Overrun| (&one.cook, &one.phase) == (&overrun.cook, &overrun.phase);
        if let Some(one) = dish.iter().find(alike) {
            *overrun = one.clone();
        }
    }
}

/// In the heat or in the cold, with no limit of its own to how long.
fn is_kept(phase: &Phase) -> bool {
    use Purpose::{ColdHold, Cook, HotHold, Reheat};
    matches!(phase.purpose, Cook | Reheat | HotHold | ColdHold) && phase.within.is_none()
}

/// Lasting just so long: a rule may ask how long it takes at least.
fn lasting(written: Lasts, longest: Duration) -> Lasts {
    let each = matches!(written, Lasts::Nature { each: true, .. });
    Lasts::Nature { low: longest, high: longest, each }
}

/// Something is found, or cannot be judged, that was not so before.
fn is_worse(longer: &[Verdicts], usual: &[Verdicts]) -> bool {
    longer.iter().zip(usual).any(|(longer, usual)| {
        let found = longer.findings.iter().filter(|finding| finding.severity != Severity::Note);
        let judged = longer.judged.iter().filter(|one| one.verdict != Verdict::Met);
        found.into_iter().any(|one| {
            !usual.findings.iter().any(|other| {
                (other.code, &other.phase, &other.food, other.severity, &other.message)
                    == (one.code, &one.phase, &one.food, one.severity, &one.message)
            })
        }) || judged.into_iter().any(|one| {
            !usual.judged.iter().any(|other| {
                (&other.rule, other.verdict, &other.phase, &other.food)
                    == (&one.rule, one.verdict, &one.phase, &one.food)
            })
        })
    })
}
