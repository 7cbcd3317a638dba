//! Until when at the latest something has to have come about, as a rule hands it on to whoever cooks.
//!
//! The time is counted from where the plan takes the food out of the heat or the cold, which is no later than any rule
//! starts its clock: what keeps to it keeps to the rule, and the rule may leave a little more.

use super::declared::times;
use super::lot::Lot;
use super::report::{About, Report};
use crate::cook::PhaseId;
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
    let began = trails.heat_left(report.cook);
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
    for (since, outing) in lot.trails.last_outing(&lot.out_in) {
        let spent = outing.iter().map(|phase| times(report.cook.phase(*phase)).longest);
        let spent = spent.fold(Duration::ZERO, |all, one| all + one);
        let before = lot.out.longest + lot.out_perhaps - spent;
        put_down(report, rule, about, since, limit - before, ByThen::Used);
    }
}

fn put_down(report: &mut Report, rule: &Rule, about: About, since: Since, within: Duration, by_then: ByThen) {
    let (rule, set) = (rule.id.clone(), report.rules.id.clone());
    report.deadline(Deadline { rule, set, food: report.food_name(about.food), since, within, by_then });
}
