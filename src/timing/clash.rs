//! Why several food lines are not always on time: each thing that may be in the way is taken away in
//! turn, and only what then changes the verdict is blamed.

use super::network::{Lasts, Network};
use super::sets::Set;
use super::solution::verdict;
use super::timeline::OnTime;
use crate::cook::{Cook, PhaseId};
use crate::findings::Text;
use crate::quantity::Duration;

/// Proofs tried of each.
const PROOFS: u32 = 30;

/// Says what is in the way.
pub fn explain(message: &mut Text, cook: &Cook, network: &Network, on_time: OnTime) {
    let better = |tried: &Network| match on_time {
        OnTime::Never => !matches!(verdict(tried, PROOFS), OnTime::Never | OnTime::NotProved),
        _ => verdict(tried, PROOFS) == OnTime::Always,
    };
    let without = |asleep: bool, hands: bool, settings: bool| {
        let mut tried = network.clone();
        if asleep {
            tried.absent = Set::empty();
        }
        if hands {
            tried.people = None;
        }
        if settings {
            tried.apart.clear();
        }
        tried
    };
    let (slept, worked, shared) =
        (!network.absent.is_empty(), network.people.is_some(), !network.apart.is_empty());
    let reasons = [
        (slept && better(&without(true, false, false)), "something falls into sleep"),
        (worked && better(&without(false, true, false)), "two jobs want the same hands at once"),
        (
            shared && better(&without(false, false, true)),
            "its food lines want one kit at two settings without the time to heat or to cool down between",
        ),
    ];
    let mut reasons = reasons.into_iter().filter(|(blamed, _)| *blamed).map(|(_, why)| why);
    if let Some(first) = reasons.next() {
        message.push(first);
        reasons.for_each(|why| {
            message.push(", and ");
            message.push(why);
        });
        message.push(".");
        return;
    }
    if let Some((name, spread)) = wavering(cook, network, better) {
        message.push(format!("`{name}` may take "));
        message.push(spread);
        message.push(" longer or shorter, and what comes beside or after it cannot take up all of that.");
        return;
    }
    message.push(if better(&without(true, true, true)) {
        "its food lines get in each other's way in more than one thing at once, of sleep, hands, and one kit at \
         two settings."
    } else {
        "its food lines have to be ready together, and no plan was found in which their lengths and the times \
         that are written fit."
    });
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
