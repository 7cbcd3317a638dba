//! Whether a plan that is not always on time may be, without anybody needed in sleep in any outcome.
//!
//! Shown by playing it: a way is proved on which dinner may be late, up to bedtime, and then it is played
//! against one outcome in which it is not.

use super::search::Effort;
use super::strategy::{Pace, Strategy};
use crate::timing::clock::Minute;
use crate::timing::network::{Lasts, Network, Serving};
use crate::timing::sets::FAR;

/// Whether such a way and such an outcome were found.
pub(super) fn shown(network: &Network, effort: Effort) -> bool {
    let Some(strategy) = super::ordered(&late(network), effort) else { return false };
    draws(network).iter().any(|draw| is_on_time(network, &strategy, draw))
}

/// Where nature decides on more than this, only two outcomes are looked at.
const MOST_DRAWN: usize = 12;

/// One outcome: whether what nature decides takes its longest, or comes at its latest; for each step, and
/// behind them for each party of guests.
pub(super) struct Draw(Vec<bool>);

/// Everything at its shortest, everything at its longest, and each alone different from the others.
pub(super) fn draws(network: &Network) -> Vec<Draw> {
    let steps = network.steps.len();
    let count = steps + network.parties().len();
    let natural = |n: &usize| *n >= steps || matches!(network.steps[*n].lasts, Lasts::Nature { .. });
    let natural: Vec<usize> = (0..count).filter(natural).collect();
    let mut draws = vec![Draw(vec![true; count]), Draw(vec![false; count])];
    if natural.len() <= MOST_DRAWN {
        for longest in [true, false] {
            draws.extend(natural.iter().map(|&n| {
                let mut draw = vec![!longest; count];
                draw[n] = longest;
                Draw(draw)
            }));
        }
    }
    draws
}

impl Draw {
    fn pick(&self, nth: usize, low: Minute, high: Minute) -> Minute {
        if self.0[nth] { high } else { low }
    }

    /// When the guests come who may from `first` to `last`.
    fn comes(&self, network: &Network, first: Minute, last: Minute) -> Minute {
        let nth = network.parties().iter().position(|party| *party == (first, last)).unwrap_or(0);
        self.pick(network.steps.len() + nth, first, last)
    }

    /// The network for somebody who knows this outcome from the first.
    pub(super) fn drawn(&self, network: &Network) -> Network {
        let mut drawn = network.clone();
        for (n, step) in drawn.steps.iter_mut().enumerate() {
            if let Lasts::Nature { high, .. } = step.lasts {
                step.lasts = Lasts::Fixed(self.pick(n, shortest(step.lasts), high));
            }
            if let Some(Serving::Guests { first, last, late }) = step.serving {
                let first = self.comes(network, first, last);
                step.serving = Some(Serving::Within { first, last: first + late });
            }
        }
        drawn
    }
}

/// The least that nature takes, at a look where she ends at one.
fn shortest(lasts: Lasts) -> Minute {
    lasts.looks().and_then(|all| all.first().copied()).unwrap_or(lasts.low())
}

/// The network in which every serving may be as late as somebody is awake.
fn late(network: &Network) -> Network {
    let mut network = network.clone();
    let awake = network.absent.complement();
    for step in &mut network.steps {
        let busy = step.needs.busy.min(step.lasts.high());
        let until = |last: Minute| {
            let stretch = awake.intervals().iter().find(|(from, to)| (*from..=*to).contains(&last));
            stretch.map_or(last, |&(_, to)| if to >= FAR { FAR } else { (to - busy).max(last) })
        };
        step.serving = step.serving.map(|serving| match serving {
            Serving::Within { first, last } => Serving::Within { first, last: until(last) },
            Serving::Guests { first, last, late } => {
                Serving::Guests { first, last, late: until(last + late) - last }
            }
        });
    }
    network
}

/// Plays the strategy against one outcome, and looks at every serving.
fn is_on_time(network: &Network, strategy: &Strategy, draw: &Draw) -> bool {
    let mut play = strategy.play();
    let parties = network.parties().into_iter().enumerate();
    let mut coming: Vec<(usize, Minute)> =
        parties.map(|(nth, (first, last))| (nth, draw.comes(network, first, last))).collect();
    let mut now = -FAR;
    loop {
        let running = network.steps.iter().enumerate().filter_map(|(n, step)| {
            let Lasts::Nature { high, .. } = step.lasts else { return None };
            let low = shortest(step.lasts);
            let started = play.when(n, false).filter(|_| low < high && play.when(n, true).is_none())?;
            Some((started + draw.pick(n, low, high), n))
        });
        let ends = running.min();
        let comes = coming.iter().map(|&(nth, at)| (at, nth)).min();
        let acts = play.next(now, Pace::Soonest);
        let next = [ends.map(|end| end.0), comes.map(|come| come.0), acts].into_iter().flatten().min();
        let Some(next) = next.filter(|next| *next < FAR) else { break };
        now = next;
        if let Some((at, n)) = ends.filter(|end| end.0 == now) {
            play.ended(n, at);
        } else if let Some((at, nth)) = comes.filter(|come| come.0 == now) {
            play.came(nth, at);
            coming.retain(|one| one.0 != nth);
        } else {
            play.act(now, Pace::Soonest);
        }
    }
    network.steps.iter().enumerate().all(|(n, step)| {
        let Some(serving) = step.serving else { return true };
        let Some(at) = play.when(n, false) else { return false };
        let (first, last) = match serving {
            Serving::Guests { first, last, late } => {
                let came = draw.comes(network, first, last);
                (came, came + late)
            }
            Serving::Within { first, last } => (first, last),
        };
        (first..=last).contains(&at)
    })
}
