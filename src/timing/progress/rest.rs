//! The network of what is still to come.

use super::super::build::Built;
use super::super::clock::Minute;
use super::super::network::{Behind, Lasts, Link, Needs, Network, Point};
use super::super::sets::{FAR, Set};
use super::{Past, State};

/// What is over takes no time and stands at now; what is going on starts now and takes what is left of it.
pub fn shorten(built: &mut Built, past: &Past) {
    let network = &mut built.network;
    let now = past.now;
    network.now = Some(now);
    built.untimed.retain(|&n| past.states[n] != State::Done);
    for (n, step) in network.steps.iter_mut().enumerate() {
        let gone = past.elapsed(n);
        step.behind = match past.states[n] {
            State::Done => {
                step.lasts = Lasts::Fixed(0);
                step.serving = None;
                step.end_in = Set::range(now, now);
                Some(Behind::Over { ago: past.times[n].map_or(0, |(_, end)| now - end) })
            }
            State::Going => {
                step.lasts = left(step.lasts, gone);
                let needs = &mut step.needs;
                needs.busy = if needs.busy >= FAR { FAR } else { (needs.busy - gone).max(0) };
                needs.awake_from = needs.awake_from.map(|from| (from - gone).max(0));
                Some(Behind::Going)
            }
            State::ToCome => continue,
        };
        step.start_in = Set::range(now, now);
    }
    let gone = |point: Point| match (past.states[point.step], past.times[point.step]) {
        (State::Done, Some((start, end))) => Some(now - if point.end { end } else { start }),
        (State::Going, Some((start, _))) if !point.end => Some(now - start),
        _ => None,
    };
    let mut dropped = Vec::new();
    network.links.retain_mut(|link| {
        let (from, to) = (gone(link.from), gone(link.to));
        dropped.push(to.is_some());
        if let Some(gone) = from {
            link.low = if link.low <= -FAR { link.low } else { link.low - gone };
            // What is late is done at once.
            link.high = if link.high >= FAR { link.high } else { (link.high - gone).max(0) };
        }
        to.is_none()
    });
    // Clauses keep pointing at their own link.
    built.clauses.retain(|clause| !dropped[clause.link]);
    for clause in &mut built.clauses {
        clause.link -= dropped[..clause.link].iter().filter(|gone| **gone).count();
    }
    settle(network);
}

/// What the kit that steps share still asks of them: nothing of what is over, and of what is to come that the kit gets from
/// one setting to the other, which may be under way.
pub fn settle(network: &mut Network) {
    let Some(now) = network.now else { return };
    let behind: Vec<Option<Behind>> = network.steps.iter().map(|step| step.behind).collect();
    for step in &mut network.steps {
        // What is wanted straight after something that goes on was switched on for it, or still will be.
        let lit = step.follows.iter().any(|&before| behind[before] == Some(Behind::Going));
        match step.behind {
            Some(Behind::Over { .. }) => step.needs = Needs::default(),
            Some(Behind::Going) => step.needs.before = None,
            None if lit => step.not_before = now,
            // Kit that is cold takes its time from now.
            None => step.not_before = now + step.needs.before.map_or(0, |ahead| ahead.least),
        }
    }
    network.rooms.iter_mut().for_each(|room| {
        room.takes.retain(|(step, _)| !matches!(behind[*step], Some(Behind::Over { .. })));
    });
    let mut links = Vec::new();
    network.apart.retain(|apart| {
        let [a, b] = apart.steps;
        let after = |first: usize, ago: Minute, then: usize, gap: Minute| {
            let (from, to) = (Point { step: first, end: true }, Point { step: then, end: false });
            Link { from, to, low: (gap - ago).max(0), high: FAR }
        };
        match (behind[a], behind[b]) {
            (None, None) | (Some(Behind::Going), None) | (None, Some(Behind::Going)) => return true,
            (Some(Behind::Over { ago }), None) => links.push(after(a, ago, b, apart.gaps[0])),
            (None, Some(Behind::Over { ago })) => links.push(after(b, ago, a, apart.gaps[1])),
            (Some(_), Some(_)) => {}
        }
        false
    });
    network.links.extend(links);
}

/// What is left of a length.
fn left(lasts: Lasts, gone: Minute) -> Lasts {
    let rest = |minutes: Minute| (minutes - gone).max(0);
    match lasts {
        Lasts::Fixed(length) => Lasts::Fixed(rest(length)),
        Lasts::Chosen { low, high } => Lasts::Chosen { low: rest(low), high: rest(high) },
        // Looks are counted from the start, which is gone: any minute may be the one.
        Lasts::Nature { low, high, .. } => Lasts::Nature { low: rest(low), high: rest(high), looks: None },
    }
}
