//! What the solvers say of a network: the verdict, and windows for every step.

use std::cell::Cell;

use super::chain::{self, Sets};
use super::clock::Minute;
use super::lines::{self, Effort, Outcome, Way};
use super::network::{Lasts, Network, Step};
use super::sets::Set;
use super::timeline::{OnTime, Window, Windows};

/// The verdict on a network, and when each step starts and ends.
#[derive(Debug, Clone)]
pub struct Solution {
    pub on_time: OnTime,
    /// When the first step to start may start.
    pub start: Option<Window>,
    /// Start and end of each step over everything that can happen on the way; empty if unknown.
    pub windows: Vec<(Window, Window)>,
    pub kind: Windows,
    /// Who has shared kit and hands first is decided as it goes.
    pub order_open: bool,
    /// `None` where nothing is known but the windows.
    pub basis: Option<Basis>,
}

/// What a verdict was found with, to ask more of it.
#[derive(Debug, Clone)]
pub enum Basis {
    /// Of one line, whatever the verdict.
    Line(Sets),
    /// Of several that are always on time.
    Lines(Box<Way>),
}

impl Solution {
    /// Of one line.
    pub fn sets(&self) -> Option<&Sets> {
        match &self.basis {
            Some(Basis::Line(sets)) => Some(sets),
            Some(Basis::Lines(_)) | None => None,
        }
    }
}

/// The verdict alone; on several lines with no more effort than this.
pub fn verdict(network: &Network, effort: Effort) -> OnTime {
    match chain::solve(network) {
        Some(sets) => verdict_of(&sets),
        None => match lines::solve(network, effort) {
            Outcome::Proved(_) | Outcome::Played(..) => OnTime::Always,
            Outcome::IfLucky(_) => OnTime::IfLucky,
            Outcome::Never => OnTime::Never,
            Outcome::Unknown => OnTime::NotProved,
        },
    }
}

/// Whether it is proved to be always on time.
pub fn always(network: &Network, effort: Effort) -> bool {
    chain::wins(network).unwrap_or_else(|| lines::proves(network, effort).0)
}

/// What may be spent on many questions, in small steps of the search. Once it is spent nothing is proved any
/// more, so that what is asked ends, however much there is to ask.
#[derive(Debug)]
pub struct Purse(Cell<u64>);

/// Small steps for any network, and for each step of it.
const PURSE: [u64; 2] = [10_000_000, 300_000];

impl Purse {
    /// For questions about a network, or parts of it.
    pub fn of(network: &Network) -> Self {
        Self(Cell::new(PURSE[0] + PURSE[1] * network.steps.len() as u64))
    }

    pub fn is_spent(&self) -> bool {
        self.0.get() == 0
    }

    /// As [`always`], paid for.
    pub fn always(&self, network: &Network, effort: Effort) -> bool {
        match chain::wins(network) {
            Some(wins) => wins,
            None if self.is_spent() => false,
            None => {
                let (proved, cost) = lines::proves(network, effort);
                self.0.set(self.0.get().saturating_sub(cost));
                proved
            }
        }
    }
}

pub fn solve(network: &Network) -> Solution {
    let Some(sets) = chain::solve(network) else { return several(network) };
    let on_time = verdict_of(&sets);
    let allowed = match on_time {
        OnTime::Always => &sets.possible,
        OnTime::IfLucky => &sets.lucky,
        OnTime::Never | OnTime::NotProved => {
            let windows = nominal(network);
            return Solution {
                on_time,
                start: None,
                windows,
                kind: Windows::OneWay,
                order_open: false,
                basis: Some(Basis::Line(sets)),
            };
        }
    };
    let windows = forward(network, &sets.starts, allowed);
    let awaited = network.steps.iter().any(|step| chain::guests_of(step).is_some());
    let kind = if awaited { Windows::Bounds } else { Windows::Exact };
    let start = windows.first().map(|first| first.0);
    Solution { on_time, start, windows, kind, order_open: false, basis: Some(Basis::Line(sets)) }
}

/// Of several lines.
pub fn several(network: &Network) -> Solution {
    let found = |on_time, start, windows| {
        let promised = matches!(on_time, OnTime::Always | OnTime::IfLucky);
        let kind = if promised { Windows::Bounds } else { Windows::OneWay };
        Solution { on_time, start, windows, kind, order_open: false, basis: None }
    };
    match lines::settle(network) {
        Outcome::Proved(way) => {
            let proved = found(OnTime::Always, Some(way.start()), way.windows());
            Solution { basis: Some(Basis::Lines(way)), ..proved }
        }
        Outcome::Played(start, windows) => {
            Solution { order_open: true, ..found(OnTime::Always, Some(start), windows) }
        }
        Outcome::IfLucky(windows) => found(OnTime::IfLucky, None, windows),
        Outcome::Never => found(OnTime::Never, None, nominal(network)),
        Outcome::Unknown => found(OnTime::NotProved, None, nominal(network)),
    }
}

fn verdict_of(sets: &Sets) -> OnTime {
    match (sets.won, sets.may_be_won) {
        (true, _) => OnTime::Always,
        (false, true) => OnTime::IfLucky,
        (false, false) if sets.always.is_empty() => OnTime::NotProved,
        (false, false) => OnTime::Never,
    }
}

/// Everything that can happen from the last run of winning starts on: nature picks any length, the cook
/// any that still wins.
fn forward(network: &Network, starts: &Set, allowed: &[Set]) -> Vec<(Window, Window)> {
    let mut windows = Vec::with_capacity(network.steps.len());
    let Some(&(first, last)) = starts.intervals().last() else { return windows };
    let mut starts = Set::range(first, last);
    for (n, step) in network.steps.iter().enumerate() {
        let mut ends = ends_of(step, &starts);
        if let Some(next) = allowed.get(n + 1) {
            let winning = ends.intersect(next);
            // A lucky plan may leave its luck; then what follows is shown as it would come.
            if !winning.is_empty() {
                ends = winning;
            }
        }
        let (Some(start), Some(end)) = (hull(&starts), hull(&ends)) else { break };
        windows.push((start, end));
        starts = ends;
    }
    windows
}

fn ends_of(step: &Step, starts: &Set) -> Set {
    match step.lasts {
        Lasts::Fixed(length) => starts.after(length, length),
        Lasts::Chosen { low, high } => starts.after(low, high),
        Lasts::Nature { low, high, .. } => match step.lasts.looks() {
            None => starts.after(low, high),
            Some(lengths) => lengths
                .iter()
                .map(|&length| starts.after(length, length))
                .fold(Set::empty(), |all, one| all.union(&one)),
        },
    }
}

fn hull(set: &Set) -> Option<Window> {
    Some(Window { earliest: set.first()?, latest: set.last()? })
}

/// A plan for want of a better one: back from the serving, everything that nature decides at its longest,
/// everything chosen at its shortest, sleep disregarded.
pub fn nominal(network: &Network) -> Vec<(Window, Window)> {
    let count = network.steps.len();
    let mut ends: Vec<Option<Minute>> = vec![None; count];
    let mut starts: Vec<Option<Minute>> = vec![None; count];
    for (n, step) in network.steps.iter().enumerate().rev() {
        let length = planned(step.lasts);
        let set = step.serving.map(|serving| serving.whole().0).or(chain::on_time(step)
            .first()
            .filter(|first| step.serving.is_some() && first.abs() < super::sets::FAR));
        starts[n] = set.or(ends[n].map(|end| end - length));
        let Some(start) = starts[n] else { continue };
        ends[n] = ends[n].or(Some(start + length));
        let linked =
            network.links.iter().filter(|link| link.to == super::network::Point { step: n, end: false });
        let before = step
            .follows
            .iter()
            .copied()
            .chain(linked.filter(|link| link.from.end).map(|link| link.from.step));
        for before in before.filter(|&before| before < n) {
            ends[before] = Some(ends[before].map_or(start, |end| end.min(start)));
        }
    }
    // What hangs on nothing later follows what it comes from.
    for (n, step) in network.steps.iter().enumerate() {
        let from = step.follows.iter().filter_map(|&before| ends.get(before).copied().flatten()).max();
        let start = starts[n].or(from).unwrap_or(0);
        starts[n] = Some(start);
        ends[n] = ends[n].or(Some(start + planned(step.lasts)));
    }
    let point = |minute: Option<Minute>| {
        let minute = minute.unwrap_or(0);
        Window { earliest: minute, latest: minute }
    };
    starts.into_iter().zip(ends).map(|(start, end)| (point(start), point(end))).collect()
}

fn planned(lasts: Lasts) -> Minute {
    match lasts {
        Lasts::Fixed(length) => length,
        Lasts::Chosen { low, .. } => low,
        Lasts::Nature { high, .. } => high,
    }
}
