//! Until when at the latest something has to have come about, as a rule hands it on to whoever cooks.
//!
//! The time is counted from where the file takes the food out of the heat or the cold: the end of the last phase that
//! heats, or keeps hot or cold, by what it declares. A rule that waits for the food to pass a temperature starts its clock
//! later than that, and leaves a little more. Where a phase is called heat and may leave the food below the temperature at
//! which the rule starts its clock, that clock runs before this one: it is counted from the heat before, and where nothing
//! left the food as hot there is no limit. What only the cold end of the prediction puts below it, or what no curve follows,
//! is in doubt, and counted from the heat before if there is any. That holds for heat alone: what leaves a fridge is taken
//! to be cold.

use super::declared::{setting, times};
use super::holding::counts_as_cold;
use super::lot::Lot;
use super::out::tepid;
use super::predicted;
use super::report::{About, Report};
use super::trail::Left;
use crate::cook::{PhaseId, Purpose};
use crate::quantity::{Duration, Temperature};
use crate::tables::{Demand, Limit, Rule};

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
    let mut stages = Duration::ZERO;
    // What counts as hot as the clock of the first stage starts.
    let mut hot: Option<Limit> = None;
    for rule in report.rules() {
        let Demand::Cool { from, to, max_s, further } = &rule.demand else { continue };
        let own = Duration::from_seconds(*max_s);
        stages = own + if *further { stages } else { Duration::ZERO };
        hot = if *further { hot } else { *from };
        // Of several ways to cool none is asked by itself, and advice is none to throw food away by.
        let (Some(to), false) = (to, rule.advice || rule.option.is_some()) else { continue };
        let at = to.lowest();
        let by_then = match from {
            Some(from) if *further => ByThen::ColdAfter { at, from: from.lowest(), further: own },
            _ => ByThen::Cold(at),
        };
        let heat = |step: &About| heats(report, step).then(|| left(report, step, hot));
        for since in trails.last_left(heat, |step| chills(report, step)) {
            put_down(report, rule, about, since, stages, by_then);
        }
    }
}

/// Food that is out of the heat and the cold on time alone, from where it last left them: what it was out before is taken
/// off.
pub(super) fn out(report: &mut Report, lot: &Lot, about: About, rule: &Rule, limit: Duration) {
    let hot = match &rule.demand {
        Demand::TimeAlone { out, .. } => out.below,
        _ => None,
    };
    let out_in: Vec<PhaseId> = lot.out_in.iter().map(|(phase, _)| *phase).collect();
    // By the end of the heat it may be hot: a limit that is up before that says nothing of it.
    let left_over = |outing: &[PhaseId]| {
        let before = lot.out.longest + lot.out_perhaps - counted(lot, outing).min(lot.out.longest);
        let heat_ends = outing.iter().rposition(|phase| !out_in.contains(phase)).map_or(0, |last| last + 1);
        let heats = outing.iter().filter(|phase| !out_in.contains(phase));
        let heats = heats.map(|phase| times(report.cook.phase(*phase)).longest);
        let all = heats.fold(before + counted(lot, &outing[..heat_ends]), |all, time| all + time);
        (all <= limit).then_some(limit - before)
    };
    let since = |counts: &dyn Fn(Left) -> bool| -> Vec<(Since, Duration)> {
        let through = |step: &About| heats(report, step) && counts(left(report, step, hot));
        let outings = lot.trails.last_outing(&out_in, through).into_iter();
        outings.filter_map(|(since, outing)| Some((since, left_over(&outing)?))).collect()
    };
    // Through heat in doubt as well, if that leaves anything to say.
    let mut all = since(&|left| left != Left::Hot);
    if all.is_empty() {
        all = since(&|left| left == Left::Lukewarm);
    }
    for (since, within) in all {
        put_down(report, rule, about, since, within, ByThen::Used);
    }
}

/// How long it was out in these phases. What was counted, not how long the phases are: it may only have waited for one of
/// them.
fn counted(lot: &Lot, phases: &[PhaseId]) -> Duration {
    let spent = lot.out_in.iter().filter(|(phase, _)| phases.contains(phase));
    spent.fold(Duration::ZERO, |all, (_, time)| all + *time)
}

/// What is too cool to cook anything, or as cold as a fridge, is no heat, whatever it is called.
fn heats(report: &Report, step: &About) -> bool {
    let phase = report.cook.phase(step.phase);
    let named = matches!(phase.purpose, Purpose::Cook | Purpose::Reheat | Purpose::HotHold);
    let cold = setting(report.cook, phase).is_some_and(|around| counts_as_cold(report, around.at));
    named && !cold && !tepid(report, phase)
}

/// It is cooled, or kept cold.
fn chills(report: &Report, step: &About) -> bool {
    matches!(report.cook.phase(step.phase).purpose, Purpose::Cool | Purpose::ColdHold | Purpose::Freeze)
}

/// Whether a phase leaves its food as hot as this, if anything is asked. Where its curve is not known, no more is said than
/// that it may: the food is no warmer than what is set around it, and may be as cold as it came.
fn left(report: &Report, step: &About, hot: Option<Limit>) -> Left {
    let Some(hot) = hot else { return Left::Hot };
    let Some(left) = predicted::left_at(report, *step) else {
        let around = setting(report.cook, report.cook.phase(step.phase));
        let may = around.is_none_or(|around| hot.at_least(around.at, false));
        return if may { Left::Perhaps } else { Left::Lukewarm };
    };
    match (hot.at_least(left.usual, false), hot.at_least(left.least, false)) {
        (true, true) => Left::Hot,
        (true, false) => Left::Perhaps,
        (false, _) => Left::Lukewarm,
    }
}

/// Nothing is handed on that is no time to count.
fn put_down(report: &mut Report, rule: &Rule, about: About, since: Since, within: Duration, by_then: ByThen) {
    if !within.seconds().is_finite() || within < Duration::ZERO {
        return;
    }
    let (rule, set) = (rule.id.clone(), report.rules.id.clone());
    report.deadline(Deadline { rule, set, food: report.food_name(about.food), since, within, by_then });
}
