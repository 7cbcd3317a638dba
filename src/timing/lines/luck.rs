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
    let Some(strategy) = super::strategy_of(&late(network), effort) else { return false };
    [false, true].into_iter().any(|longest| is_on_time(network, &strategy, longest))
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

/// Plays the strategy against nature at her longest, or her shortest, and looks at every serving.
fn is_on_time(network: &Network, strategy: &Strategy, longest: bool) -> bool {
    let mut play = strategy.play();
    let pick = |low: Minute, high: Minute| if longest { high } else { low };
    let parties = network.steps.iter().filter_map(|step| match step.serving {
        Some(Serving::Guests { first, last, .. }) => Some(pick(first, last)),
        _ => None,
    });
    let mut coming: Vec<(usize, Minute)> = parties.enumerate().collect();
    let mut now = -FAR;
    loop {
        let running = network.steps.iter().enumerate().filter_map(|(n, step)| {
            let Lasts::Nature { low, high, .. } = step.lasts else { return None };
            let low = step.lasts.looks().and_then(|all| all.first().copied()).unwrap_or(low);
            let started = play.when(n, false).filter(|_| low < high && play.when(n, true).is_none())?;
            Some((started + pick(low, high), n))
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
            Serving::Guests { first, last, late } => (pick(first, last), pick(first, last) + late),
            Serving::Within { first, last } => (first, last),
        };
        (first..=last).contains(&at)
    })
}
