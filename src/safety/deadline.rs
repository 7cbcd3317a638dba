//! Until when at the latest something has to have come about, as a rule hands it on to whoever cooks.
//!
//! The time is counted from where the file takes the food out of the heat or the cold: the end of the last phase that
//! heats, or keeps hot or cold, by what it declares. A rule that waits for the food to pass a temperature starts its clock
//! later than that, and leaves a little more. Where a phase is called heat and the food is lukewarm in it all the same, the
//! rule's clock runs before this one: other rules are about that, and a probe decides.

use super::declared::setting;
use super::holding::counts_as_cold;
use super::lot::Lot;
use super::out::tepid;
use super::report::{About, Report};
use crate::cook::{PhaseId, Purpose};
use crate::quantity::{Duration, Temperature};
use crate::tables::{Demand, Rule};

/// A limit in time. What is not so by then is thrown away.
#[derive(Debug, Clone, PartialEq)]
pub struct Deadline {
    pub rule: String,
    pub set: String,
    pub food: String,
    pub since: Since,
    pub within: Duration,
    pub by_then: ByThen,
}

/// Where the time begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Since {
    /// The food comes straight from the store into this phase.
    StartOf(PhaseId),
    /// Between this phase and the next it may already stand in the room.
    EndOf(PhaseId),
}

/// What has to have come about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ByThen {
    /// Its middle is at this or below.
    Cold(Temperature),
    /// The same, and no longer than this after it passed the temperature of the stage above.
    ColdAfter { at: Temperature, from: Temperature, further: Duration },
    /// It is back in the heat or the cold, or eaten.
    Used,
}

/// The stages of cooling, from where the food left the heat.
pub(super) fn cooling(report: &mut Report, lot: &Lot, about: About) {
    let mut trails = lot.trails.clone();
    trails.follow(about);
    let began = trails.last_left(|step| heats(report, step));
    let mut stages = Duration::ZERO;
    for rule in report.rules() {
        let Demand::Cool { from, to, max_s, further } = &rule.demand else { continue };
        let own = Duration::from_seconds(*max_s);
        stages = own + if *further { stages } else { Duration::ZERO };
        // Of several ways to cool none is asked by itself, and advice is none to throw food away by.
        let (Some(to), false) = (to, rule.advice || rule.option.is_some()) else { continue };
        let at = to.lowest();
        let by_then = match from {
            Some(from) if *further => ByThen::ColdAfter { at, from: from.lowest(), further: own },
            _ => ByThen::Cold(at),
        };
        for &since in &began {
            put_down(report, rule, about, since, stages, by_then);
        }
    }
}

/// Food that is out of the heat and the cold on time alone, from where it last left them: what it was out before is taken
/// off.
pub(super) fn out(report: &mut Report, lot: &Lot, about: About, rule: &Rule, limit: Duration) {
    let out_in: Vec<PhaseId> = lot.out_in.iter().map(|(phase, _)| *phase).collect();
    for (since, outing) in lot.trails.last_outing(&out_in) {
        // What was counted, not how long the phases are: it may only have waited for one of them.
        let spent = lot.out_in.iter().filter(|(phase, _)| outing.contains(phase));
        let spent = spent.fold(Duration::ZERO, |all, (_, time)| all + *time);
        let before = lot.out.longest + lot.out_perhaps - spent.min(lot.out.longest);
        put_down(report, rule, about, since, limit - before, ByThen::Used);
    }
}

/// What is too cool to cook anything, or as cold as a fridge, is no heat, whatever it is called.
fn heats(report: &Report, step: &About) -> bool {
    let phase = report.cook.phase(step.phase);
    let named = matches!(phase.purpose, Purpose::Cook | Purpose::Reheat | Purpose::HotHold);
    let cold = setting(report.cook, phase).is_some_and(|around| counts_as_cold(report, around.at));
    named && !cold && !tepid(report, phase)
}

/// Nothing is handed on that is no time to count.
fn put_down(report: &mut Report, rule: &Rule, about: About, since: Since, within: Duration, by_then: ByThen) {
    if !within.seconds().is_finite() || within < Duration::ZERO {
        return;
    }
    let (rule, set) = (rule.id.clone(), report.rules.id.clone());
    report.deadline(Deadline { rule, set, food: report.food_name(about.food), since, within, by_then });
}
