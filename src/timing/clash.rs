//! Why several food lines are not always on time: each thing that may be in the way is taken away in
//! turn, and only what then changes the verdict is blamed; of several, the first.

use super::lines::Effort;
use super::network::{Lasts, Network};
use super::sets::Set;
use super::solution::{always, verdict};
use super::timeline::OnTime;
use crate::cook::{Cook, PhaseId};
use crate::findings::Text;
use crate::quantity::Duration;

/// What may be in the way, how it is said of one alone, and how among others.
const IN_THE_WAY: [(&str, &str); 3] = [
    ("something falls into sleep.", "sleep"),
    ("two jobs want the same hands at once.", "hands"),
    (
        "its food lines want one kit at two settings without the time to heat or to cool down between.",
        "one kit at two settings",
    ),
];

/// Which of [`IN_THE_WAY`] to take away: one alone before two, and two before all.
const TAKEN: [[bool; 3]; 7] = [
    [true, false, false],
    [false, true, false],
    [false, false, true],
    [true, true, false],
    [true, false, true],
    [false, true, true],
    [true, true, true],
];

/// Says what is in the way.
pub fn explain(message: &mut Text, cook: &Cook, network: &Network, on_time: OnTime) {
    let better = |tried: &Network| match on_time {
        OnTime::Never => !matches!(verdict(tried, Effort::SHORT), OnTime::Never | OnTime::NotProved),
        _ => always(tried, Effort::SHORT),
    };
    let there = [!network.absent.is_empty(), network.people.is_some(), !network.apart.is_empty()];
    let mut tries =
        TAKEN.iter().filter(|taken| taken.iter().zip(there).all(|(taken, there)| !taken || there));
    if let Some(taken) = tries.find(|taken| better(&without(network, taken))) {
        let blamed: Vec<_> =
            IN_THE_WAY.iter().zip(taken).filter(|(_, taken)| **taken).map(|(why, _)| why).collect();
        match blamed.as_slice() {
            [(alone, _)] => message.push(*alone),
            several => {
                let named: Vec<&str> = several.iter().map(|(_, name)| *name).collect();
                message.push(format!("more than one thing is in the way: {}.", named.join(" and ")));
            }
        }
    } else if let Some((name, spread)) = wavering(cook, network, better) {
        message.push(format!("`{name}` may take "));
        message.push(spread);
        message.push(" longer or shorter, and what comes beside or after it cannot take up all of that.");
    } else {
        message.push(
            "its food lines have to be ready together, and no plan was found in which their lengths and the \
             times that are written fit.",
        );
    }
}

/// The network as if nobody slept, hands did not matter, or kit changed its setting at once.
fn without(network: &Network, [sleep, hands, settings]: &[bool; 3]) -> Network {
    let mut tried = network.clone();
    if *sleep {
        tried.absent = Set::empty();
    }
    if *hands {
        tried.people = None;
    }
    if *settings {
        tried.apart.clear();
    }
    tried
}

/// The first phase whose length nature decides and that would do no harm if it always took its longest,
/// and how far it varies.
fn wavering<'c>(
    cook: &'c Cook,
    network: &Network,
    better: impl Fn(&Network) -> bool,
) -> Option<(&'c str, Duration)> {
    (0..network.steps.len()).rev().find_map(|n| {
        let Lasts::Nature { low, high, .. } = network.steps[n].lasts else { return None };
        let mut tried = network.clone();
        tried.steps[n].lasts = Lasts::Fixed(high);
        let name = &cook.phase(PhaseId(n as u32)).name;
        (low < high && better(&tried)).then(|| (name.as_str(), Duration::from_minutes((high - low) as f64)))
    })
}
