//! The plan that is shown, to ask more of it.

use crate::timing::chain;
use crate::timing::clock::Minute;
use crate::timing::network::{Lasts, Network, Serving, Step};
use crate::timing::sets::Set;
use crate::timing::solution::{self, Basis, Solution};
use crate::timing::timeline::{OnTime, Window};

/// A plan that is proved, or the best one line that needs luck.
pub struct Settled<'n> {
    pub network: &'n Network,
    pub plan: &'n Solution,
    basis: &'n Basis,
}

impl<'n> Settled<'n> {
    /// `None` where nothing more is known than the windows.
    pub fn of(network: &'n Network, plan: &'n Solution) -> Option<Self> {
        let basis = plan.basis.as_ref()?;
        let asked = matches!(basis, Basis::Line(_)) || plan.on_time == OnTime::Always;
        asked.then_some(Self { network, plan, basis })
    }

    /// The shortest and the longest that nature takes for a step: at a look, where she ends at one.
    pub fn range(&self, step: usize) -> (Minute, Minute) {
        let lasts = self.network.steps[step].lasts;
        let shortest = lasts.looks().and_then(|looks| looks.first().copied());
        (shortest.unwrap_or(lasts.low()), lasts.high())
    }

    /// Start and end of each step if one starts by the plan, and lasts just so long. `None` where that is not always on
    /// time.
    pub fn if_lasting(&self, step: usize, length: Minute) -> Option<Vec<(Window, Window)>> {
        let sets = match self.basis {
            Basis::Lines(way) => return way.if_lasting(step, length),
            Basis::Line(sets) => sets,
        };
        let mut tried = self.network.clone();
        for (step, (start, _)) in tried.steps.iter_mut().zip(&self.plan.windows).take(step + 1) {
            step.start_in = step.start_in.intersect(&Set::range(start.earliest, start.latest));
        }
        tried.steps[step].lasts = Lasts::Fixed(length);
        solved(&tried, sets.always.len())
    }

    /// Start and end of each step after one that lasts longer than its range, by all that it may spare, or by nothing.
    pub fn if_longer(&self, step: usize, spare: Minute, by: Minute) -> Option<Vec<(Window, Window)>> {
        let sets = match self.basis {
            Basis::Lines(way) => return way.if_longer(self.network, step, by, spare),
            Basis::Line(sets) => sets,
        };
        let mut tried = self.network.clone();
        let over = self.plan.windows[step].1.latest + by;
        for behind in tried.steps.iter_mut().take(step + 1) {
            let follows = std::mem::take(&mut behind.follows);
            *behind = Step { follows, start_in: Set::range(over, over), ..Step::new(Lasts::Fixed(0)) };
        }
        solved(&tried, sets.always.len())
    }

    /// How much longer than its range a step may last so that all is still always on time. `network` may be one whose later
    /// steps may be shorter.
    pub fn spare(&self, network: &Network, step: usize) -> Option<Minute> {
        match self.basis {
            Basis::Lines(way) => way.spare(network, step),
            Basis::Line(_) => {
                let longest = self.plan.windows[step].1.latest;
                self.may_end(network, step).map(|last| last - longest).filter(|spare| *spare >= 0)
            }
        }
    }

    /// The last minute at which a step of one line may be over so that the rest is still always on time.
    pub fn may_end(&self, network: &Network, step: usize) -> Option<Minute> {
        let Basis::Line(sets) = self.basis else { return None };
        let (start, end) = self.plan.windows[step];
        let changed;
        let always = match std::ptr::eq(network, self.network) {
            true => &sets.always,
            false => {
                changed = chain::solve(network)?.always;
                &changed
            }
        };
        let ends = ends(network, always, step);
        // With luck, or guests who may have come, not every end is sure.
        let known = ends.previous(end.latest).filter(|known| *known >= end.earliest)?;
        let last = run_of(&ends, known)?;
        Some(last.min(attended(network, step, start)).max(known))
    }

    /// The last end of a step of one line after which everything may still be on time, if all goes well; and whether it is
    /// sleep alone that leaves no later one.
    pub fn last_hope(&self, step: usize) -> Option<(Minute, bool)> {
        let Basis::Line(_) = self.basis else { return None };
        let mut kind = self.network.clone();
        for step in &mut kind.steps {
            if let Lasts::Nature { low, high, .. } = step.lasts {
                step.lasts = Lasts::Chosen { low, high };
            }
            // Kind guests come when it suits.
            step.serving = step.serving.map(|serving| {
                let (first, last) = serving.whole();
                Serving::Within { first, last }
            });
        }
        let last = |network: &Network| ends(network, &chain::solve(network)?.always, step).last();
        let hope = last(&kind)?;
        kind.absent = Set::empty();
        Some((hope, last(&kind) != Some(hope)))
    }
}

/// Start and end of each of so many steps, where it is always on time.
fn solved(network: &Network, count: usize) -> Option<Vec<(Window, Window)>> {
    let solved = solution::solve(network);
    (solved.on_time == OnTime::Always && solved.windows.len() == count).then_some(solved.windows)
}

/// The minutes at which a step may end that is followed by one with these starts.
fn ends(network: &Network, starts: &[Set], step: usize) -> Set {
    let own = &network.steps[step];
    let next = starts.get(step + 1).map_or_else(|| own.end_in.clone(), |next| next.intersect(&own.end_in));
    if own.needs.at_end { next.intersect(&network.absent.complement()) } else { next }
}

/// The last minute of the run of a set that a minute lies in.
fn run_of(set: &Set, minute: Minute) -> Option<Minute> {
    set.intervals().iter().find(|(first, last)| (*first..=*last).contains(&minute)).map(|run| run.1)
}

/// How long somebody is there for a step that goes on after its longest, whenever in its window it started.
fn attended(network: &Network, step: usize, start: Window) -> Minute {
    let mut longer = network.steps[step].clone();
    let promised = longer.lasts.high();
    longer.lasts = Lasts::Fixed(promised + 24 * 60);
    let pieces = longer.awake_pieces().into_iter().filter(|(_, to)| *to > promised);
    let alone = pieces.filter_map(|(from, to)| {
        let needed = Set::range(start.earliest + from.max(promised), start.latest + to - 1);
        needed.intersect(&network.absent).first()
    });
    alone.min().unwrap_or(Minute::MAX)
}
