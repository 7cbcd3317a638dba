//! Kit takes its time to get to a setting, and somebody has to be awake to switch it on.

use super::clock::Minute;
use super::kitchen::{Kitchen, User};
use super::needs::minutes;
use super::network::{Ahead, Apart, Network};
use crate::cook::{Cook, Kit, Medium, Setting};

/// Kit that is switched on by hand stands hot and empty for no longer than this because of sleep; what
/// nature adds comes on top. Common practice, no source.
const IDLE: Minute = 60;

/// Binds steps by the settings of the kit that they share.
pub fn bind(kitchen: &Kitchen<'_>, network: &mut Network) {
    let comes_from = descent(network);
    for (n, shared) in kitchen.kit.iter().enumerate() {
        let users: Vec<(User, Setting)> = kitchen.set(n).collect();
        if !shared.iter().any(|kit| kit.class.own_settings) {
            network.apart.extend(apart(kitchen, n, &users, &comes_from));
        }
        let by_hand = shared.iter().filter_map(|kit| by_hand(kit)).max();
        let Some(least) = by_hand.filter(|_| network.people.is_some()) else { continue };
        for (user, _) in &users {
            // Food that comes on from a step in the same kit finds it lit.
            if !users.iter().any(|(first, _)| comes_from[user.step].contains(&first.step)) {
                network.steps[user.step].needs.before = Some(Ahead { least, most: least + IDLE });
            }
        }
    }
}

/// How long kit takes to heat that somebody switches on; `None` where nobody need to.
pub fn by_hand(kit: &Kit) -> Option<Minute> {
    to_heat(kit).filter(|_| !kit.programmable)
}

/// How long kit takes from cold; `None` where it takes no time, or is kept cold.
pub fn to_heat(kit: &Kit) -> Option<Minute> {
    kit.preheat.map(minutes).filter(|&time| time > 0 && !kit.class.cold)
}

/// Every two uses at two settings by different food. Food that comes back to a kit itself stays with it
/// while it heats or cools, which is for the rules of safety to judge.
fn apart(
    kitchen: &Kitchen<'_>,
    n: usize,
    users: &[(User, Setting)],
    comes_from: &[Vec<usize>],
) -> Vec<Apart> {
    let mut all = Vec::new();
    for (nth, &(a, at_a)) in users.iter().enumerate() {
        for &(b, at_b) in &users[nth + 1..] {
            let one_food = comes_from[a.step].contains(&b.step) || comes_from[b.step].contains(&a.step);
            if !one_food && differ(at_a, at_b) {
                let gap = |to: User, from, then| match stays(kitchen.cooks[to.dish].0, to.phase) {
                    true => 0,
                    false => kitchen.kit[n].iter().map(|kit| change(kit, from, then)).max().unwrap_or(0),
                };
                all.push(Apart {
                    steps: [a.step, b.step],
                    gaps: [gap(b, at_a, at_b), gap(a, at_b, at_a)],
                    kit: n,
                });
            }
        }
    }
    all
}

fn differ(a: Setting, b: Setting) -> bool {
    a.medium != b.medium || (a.temperature - b.temperature).kelvin().abs() > SAME_K
}

/// Two figures this near may be the same one in the other scale: people round to 5 °F.
/// Common practice, no source.
const SAME_K: f64 = 1.5;

/// Minutes from one setting to another: its whole time to heat or to cool down, for a part of the way
/// is not known to take less.
fn change(kit: &Kit, from: Setting, to: Setting) -> Minute {
    if (to.temperature - from.temperature).kelvin() > 0.0
        || from.medium != to.medium && to.medium == Medium::Steam
    {
        to_heat(kit).unwrap_or(0)
    } else {
        kit.cools_down.map_or(0, minutes)
    }
}

/// Whether all the food of a phase was in the kit before, at whatever setting.
fn stays(cook: &Cook, phase: usize) -> bool {
    let phase = &cook.phases[phase];
    let place = phase.place.map(|place| place.value);
    let here = |before: crate::cook::PhaseId| cook.phase(before).place.map(|place| place.value) == place;
    !phase.placings.is_empty() && phase.placings.iter().all(|placing| placing.before.is_some_and(here))
}

/// For each step all those whose food goes into it.
pub fn descent(network: &Network) -> Vec<Vec<usize>> {
    let mut all: Vec<Vec<usize>> = Vec::with_capacity(network.steps.len());
    for step in &network.steps {
        let mut from = Vec::new();
        for &before in &step.follows {
            from.push(before);
            from.extend_from_slice(&all[before]);
        }
        from.sort_unstable();
        from.dedup();
        all.push(from);
    }
    all
}
