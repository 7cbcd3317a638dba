//! Until when what nature ends may take, and what is left to do when it is not over by then.

use super::Named;
use super::branches::consequences;
use super::settled::Settled;
use crate::timing::clock::Minute;
use crate::timing::lines::{self, Effort};
use crate::timing::network::{Lasts, Network};
use crate::timing::sets::Set;
use crate::timing::solution::Solution;

/// Nobody waits longer than this for what was to be over.
const LONGEST_WAIT: Minute = 24 * 60;
/// Where so much may be spared, nobody asks for more.
const ENOUGH: Minute = 60;
/// What wins less is not worth telling.
const WORTH: Minute = 15;

/// A phase that nature ends, and until when.
#[derive(Debug, Clone, PartialEq)]
pub struct Overrun {
    pub cook: String,
    pub phase: String,
    /// When it is over at the latest, by the plan and its own range.
    pub longest: Minute,
    /// The longest that it lasts by its range.
    pub most: Minute,
    /// How much longer than its range it may last so that all is still always on time. `None` where not all of its range is,
    /// or where it is [withheld](Self::withhold).
    pub spare: Option<Minute>,
    /// Where not all of its range is: if it is over by then, the rest is always on time. `None` where nothing is known of
    /// that.
    pub sure: Option<Minute>,
    /// If it is not over by then, something is late however well the rest goes, or, with [`Self::asleep`], perhaps somebody
    /// is needed in sleep instead. `None` where that is not known.
    pub lost: Option<Minute>,
    /// Past [`Self::lost`] it may be sleep that stands in the way, not dinner.
    pub asleep: bool,
    /// By the clock it might last longer, which is not offered: by then the food may have to be thrown away.
    pub withheld: bool,
    /// What is shorter if it takes all that it may spare.
    pub taken_up: Vec<Named>,
    /// What would have to be shorter than it may be to spare more.
    pub gives: Vec<Give>,
}

/// A phase that the cook ends, and what would be won if it could be as short as one likes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Give {
    pub cook: String,
    pub phase: String,
    /// The least that it lasts by the file.
    pub least: Minute,
    /// How much longer than its range the other might then last.
    pub spare: Minute,
}

impl Overrun {
    /// Takes back the time to spare, and all that hangs on it.
    pub fn withhold(&mut self) {
        self.gives.clear();
        if self.spare.take_if(|spare| *spare > 0).is_some() {
            self.withheld = true;
            self.taken_up.clear();
        }
    }
}

/// One for each of these steps of which anything is known.
pub fn all(
    network: &Network,
    plan: &Solution,
    settled: Option<&Settled<'_>>,
    natural: &[usize],
    named: &dyn Fn(usize) -> Named,
) -> Vec<Overrun> {
    let of = |&n: &usize| {
        let longest = plan.windows[n].1.latest;
        let spare = settled.and_then(|settled| settled.spare(network, n));
        let sure = settled.filter(|_| spare.is_none()).and_then(|settled| settled.may_end(network, n));
        let hope = settled.and_then(|settled| settled.last_hope(n));
        let (lost, asleep) = hope.or_else(|| last_hope(network, plan, n)).unzip();
        let Named { cook, phase, gone } = named(n);
        let mut overrun = Overrun {
            cook,
            phase,
            longest,
            most: network.steps[n].lasts.high() + gone,
            spare,
            sure,
            lost,
            asleep: asleep == Some(true),
            withheld: false,
            taken_up: Vec::new(),
            gives: Vec::new(),
        };
        if let (Some(settled), Some(spare)) = (settled, spare) {
            overrun.taken_up = taken_up(settled, n, spare, named);
            if spare < ENOUGH {
                overrun.gives = gives(settled, n, spare, named);
            }
        }
        (spare.is_some() || sure.is_some() || lost.is_some()).then_some(overrun)
    };
    natural.iter().filter_map(of).collect()
}

/// Of several lines: the last end of a step after which everything may still be on time, if all goes well; and whether
/// it may be sleep that leaves no later one.
fn last_hope(network: &Network, plan: &Solution, n: usize) -> Option<(Minute, bool)> {
    let (start, end) = plan.windows[n];
    let mut tried = network.clone();
    let step = &mut tried.steps[n];
    step.start_in = step.start_in.intersect(&Set::range(start.earliest, start.latest));
    step.lasts = Lasts::Chosen { low: step.lasts.low(), high: step.lasts.high() + LONGEST_WAIT };
    lines::last_hope(&tried, n, end.latest + LONGEST_WAIT, Effort::SHORT)
}

/// The phases after it that are shorter if it lasts so much longer.
fn taken_up(settled: &Settled<'_>, n: usize, spare: Minute, named: &dyn Fn(usize) -> Named) -> Vec<Named> {
    if spare == 0 {
        return Vec::new();
    }
    let both = settled.if_longer(n, spare, 0).zip(settled.if_longer(n, spare, spare));
    let Some((promised, longer)) = both else { return Vec::new() };
    let found = consequences(settled.network, n, &promised, &longer).into_iter();
    found.filter(|(_, takes_up)| *takes_up).map(|(m, _)| named(m)).collect()
}

/// The phases after it that would win time if they could be as short as one likes.
fn gives(settled: &Settled<'_>, n: usize, spare: Minute, named: &dyn Fn(usize) -> Named) -> Vec<Give> {
    let network = settled.network;
    let mut after = vec![false; network.steps.len()];
    after[n] = true;
    let mut found = Vec::new();
    for (m, step) in network.steps.iter().enumerate() {
        if m == n || !step.follows.iter().any(|&before| after[before]) {
            continue;
        }
        after[m] = true;
        let Lasts::Chosen { low, high } = step.lasts else { continue };
        if low == 0 || step.serving.is_some() {
            continue;
        }
        let mut tried = network.clone();
        tried.steps[m].lasts = Lasts::Chosen { low: 0, high };
        let more = settled.spare(&tried, n).filter(|more| *more >= spare + WORTH);
        let Named { cook, phase, gone } = named(m);
        found.extend(more.map(|spare| Give { cook, phase, least: low + gone, spare }));
    }
    found
}
