//! The kit that steps share, in one cook or in all dishes of a menu, and the room that it has.
//!
//! One name and one class are one piece of kit, wherever they are declared. Where two dishes tell
//! different things of it, the slower and the smaller is reckoned with.

use std::collections::BTreeMap;

use super::heat;
use super::network::{Network, Room};
use crate::cook::{Cook, Kit, KitId, PhaseId, Setting};
use crate::kit::{Measure, Taken, taken};
use crate::ledger::Ledger;

/// Kit by kit, who has it.
pub struct Kitchen<'c> {
    /// The cooks, and the number of each one's first step.
    pub cooks: Vec<(&'c Cook, usize)>,
    /// Each piece of kit, as each cook that has it declares it.
    pub kit: Vec<Vec<&'c Kit>>,
    /// For each cook, which of [`Self::kit`] its kit is.
    pub which: Vec<Vec<usize>>,
}

/// A phase in a piece of kit.
#[derive(Debug, Clone, Copy)]
pub struct User {
    pub dish: usize,
    pub phase: usize,
    pub step: usize,
}

/// Room is reckoned in millionths of what the kit holds.
const WHOLE: f64 = 1e6;

impl<'c> Kitchen<'c> {
    pub fn of(cooks: Vec<(&'c Cook, usize)>) -> Self {
        let mut kitchen = Self { cooks, kit: Vec::new(), which: Vec::new() };
        for &(cook, _) in &kitchen.cooks {
            let mut which = Vec::new();
            for kit in &cook.kit {
                let same = |other: &&Kit| {
                    other.name.value.eq_ignore_ascii_case(&kit.name.value) && other.class == kit.class
                };
                let known = kitchen.kit.iter().position(|all| all.first().is_some_and(same));
                which.push(known.unwrap_or(kitchen.kit.len()));
                match known {
                    Some(n) => kitchen.kit[n].push(kit),
                    None => kitchen.kit.push(vec![kit]),
                }
            }
            kitchen.which.push(which);
        }
        kitchen
    }

    pub fn name(&self, kit: usize) -> &'c str {
        &self.kit[kit][0].name.value
    }

    /// Which piece of kit this is in a cook.
    pub fn kit_of(&self, dish: usize, kit: KitId) -> usize {
        self.which[dish][kit.0 as usize]
    }

    /// The phases in a piece of kit that want a setting of it.
    pub fn set(&self, kit: usize) -> impl Iterator<Item = (User, Setting)> {
        self.cooks.iter().enumerate().flat_map(move |(dish, &(cook, first))| {
            cook.phases.iter().enumerate().filter_map(move |(phase, one)| {
                let here = one.place.is_some_and(|place| self.kit_of(dish, place.value) == kit);
                Some((User { dish, phase, step: first + phase }, one.setting.filter(|_| here)?))
            })
        })
    }

    /// Binds steps by the room of the kit that they share, where different food could be too much.
    pub fn make_room(&self, ledgers: &[&Ledger], network: &mut Network) {
        let comes_from = heat::descent(network);
        let one_food = |a: usize, b: usize| comes_from[a].contains(&b) || comes_from[b].contains(&a);
        let mut by_kit: BTreeMap<(usize, Measure), Vec<(usize, Taken)>> = BTreeMap::new();
        for (dish, (&(cook, first), ledger)) in self.cooks.iter().zip(ledgers).enumerate() {
            for taken in taken(cook, ledger) {
                let PhaseId(phase) = taken.phase;
                let kit = self.kit_of(dish, taken.kit);
                by_kit.entry((kit, taken.measure)).or_default().push((first + phase as usize, taken));
            }
        }
        for ((kit, _), all) in by_kit {
            let least = all.iter().map(|(_, taken)| taken.limit).fold(f64::INFINITY, f64::min);
            let part = |amount: f64| (amount / least * WHOLE).round() as i64;
            let limit = part(least * crate::kit::BRIM);
            // What does not fit by itself is not for the clock to say.
            let takes: Vec<(usize, i64)> =
                all.iter().map(|&(step, taken)| (step, part(taken.amount).min(limit))).collect();
            let full = takes.iter().map(|take| take.1).sum::<i64>() > limit;
            let strangers = takes
                .iter()
                .enumerate()
                .any(|(n, &(a, _))| takes[n + 1..].iter().any(|&(b, _)| !one_food(a, b)));
            if full && strangers {
                network.rooms.push(Room { limit, takes, kit });
            }
        }
    }
}
