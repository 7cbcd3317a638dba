//! The longest step of the clock that everything written in a network is a multiple of.

use crate::timing::clock::Minute;
use crate::timing::network::{Lasts, Network, Serving, Step};
use crate::timing::sets::{FAR, Set};

/// In minutes. Work that somebody has to be awake for in one minute alone makes it one.
pub(super) fn unit(network: &Network) -> Minute {
    let mut unit = 0;
    let mut note = |minutes: Minute| {
        if minutes.abs() < FAR {
            unit = gcd(unit, minutes.abs());
        }
    };
    let sleeps = !network.absent.is_empty();
    for step in &network.steps {
        note(step.lasts.low());
        note(step.lasts.high());
        step.lasts.looks().into_iter().flatten().for_each(&mut note);
        note(step.needs.busy);
        note(step.not_before);
        ends(&step.start_in).chain(ends(&step.end_in)).for_each(&mut note);
        match step.serving {
            Some(Serving::Within { first, last }) => [first, last].into_iter().for_each(&mut note),
            Some(Serving::Guests { first, last, late }) => {
                [first, last, late].into_iter().for_each(&mut note)
            }
            None => {}
        }
        if sleeps {
            note(step.needs.awake_from.unwrap_or(0));
            note(Minute::from(is_seen_to_by_the_minute(step)));
        }
    }
    // Awake up to the minute before bed, and again from the one in which it is over.
    network.absent.intervals().iter().flat_map(|&(first, last)| [first, last + 1]).for_each(&mut note);
    network.links.iter().flat_map(|link| [link.low, link.high]).for_each(&mut note);
    network.apart.iter().flat_map(|apart| apart.gaps).for_each(&mut note);
    unit.max(1)
}

fn is_seen_to_by_the_minute(step: &Step) -> bool {
    let looked_at = matches!(step.lasts, Lasts::Nature { looks: Some(_), .. });
    step.needs.at_end || step.needs.look_in.is_some() || step.needs.before.is_some() || looked_at
}

fn ends(set: &Set) -> impl Iterator<Item = Minute> {
    set.intervals().iter().flat_map(|&(first, last)| [first, last])
}

fn gcd(a: Minute, b: Minute) -> Minute {
    if b == 0 { a } else { gcd(b, a % b) }
}
