//! All dishes of a menu as one network: one axis, one crew, one kitchen.

mod blame;
mod plan;

pub use plan::{Planned, menu_strategy, plan_menu};

use super::heat;
use super::kitchen::Kitchen;
use super::network::{Network, Point};
use super::plan::Alone;
use super::progress;
use super::sets::Set;
use crate::cook::{Cook, PhaseId};
use crate::ledger::Ledger;

/// One dish of a menu.
#[derive(Debug, Clone, Copy)]
pub struct Dish<'c> {
    pub cook: &'c Cook,
    pub ledger: &'c Ledger,
}

/// Dishes, or some of them, in one kitchen.
struct Meal<'c> {
    kitchen: Kitchen<'c>,
    network: Network,
    /// Which dishes these are, and the number of each one's first step.
    dishes: Vec<(usize, usize)>,
}

impl<'c> Meal<'c> {
    /// The dishes with these numbers on one axis.
    fn of(dishes: &[Dish<'c>], alone: &[Alone], which: &[usize]) -> Self {
        let mut network = Network::default();
        let (mut cooks, mut firsts) = (Vec::new(), Vec::new());
        for &n in which {
            let (first, own) = (network.steps.len(), &alone[n].built.network);
            cooks.push((dishes[n].cook, first));
            firsts.push((n, first));
            network.steps.extend(own.steps.iter().cloned().map(|mut step| {
                step.follows.iter_mut().for_each(|before| *before += first);
                step
            }));
            let moved = |point: Point| Point { step: point.step + first, ..point };
            network.links.extend(own.links.iter().map(|link| {
                let (from, to) = (moved(link.from), moved(link.to));
                super::network::Link { from, to, ..*link }
            }));
            network.absent = network.absent.union(&own.absent);
            network.people = network.people.or(own.people);
            network.now = network.now.or(own.now);
        }
        let kitchen = Kitchen::of(cooks);
        heat::bind(&kitchen, &mut network);
        let ledgers: Vec<&Ledger> = which.iter().map(|&n| dishes[n].ledger).collect();
        kitchen.make_room(&ledgers, &mut network);
        progress::settle(&mut network);
        Self { kitchen, network, dishes: firsts }
    }

    /// Where in [`Self::dishes`] a step is, and its phase.
    fn phase_of(&self, step: usize) -> (usize, PhaseId) {
        let nth = self.dishes.partition_point(|&(_, first)| first <= step) - 1;
        (nth, PhaseId((step - self.dishes[nth].1) as u32))
    }

    fn cook(&self, nth: usize) -> &'c Cook {
        self.kitchen.cooks[nth].0
    }

    /// The network without its sleep, the limit of its hands, or the limits of a piece of kit.
    fn without(&self, obstacles: &[Obstacle]) -> Network {
        let mut network = self.network.clone();
        for obstacle in obstacles {
            match obstacle {
                Obstacle::Sleep => network.absent = Set::empty(),
                Obstacle::Hands => network.people = None,
                Obstacle::Settings(kit) => network.apart.retain(|apart| apart.kit != *kit),
                Obstacle::Room(kit) => network.rooms.retain(|room| room.kit != *kit),
            }
        }
        network
    }

    /// Everything that may be in the way of more than one dish.
    fn obstacles(&self) -> Vec<Obstacle> {
        let mut all: Vec<Obstacle> = self.network.apart.iter().map(|a| Obstacle::Settings(a.kit)).collect();
        all.extend(self.network.rooms.iter().map(|room| Obstacle::Room(room.kit)));
        all.sort_unstable();
        all.dedup();
        all.extend(self.network.people.map(|_| Obstacle::Hands));
        all.extend((!self.network.absent.is_empty()).then_some(Obstacle::Sleep));
        all
    }
}

/// What may be in the way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Obstacle {
    /// One setting at a time, of this kit.
    Settings(usize),
    Room(usize),
    Hands,
    Sleep,
}
