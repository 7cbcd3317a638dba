//! A way that was proved, to ask more of it: what follows from one length, and how much longer one may be.
//!
//! Its orders stay as they are, so that nothing said of it contradicts the plan that is shown.

use super::clashes::Order;
use super::model::{Model, Nature};
use super::proof::{Part, window};
use super::search::Search;
use super::strategy::{Rules, Strategy};
use super::{Minute, Window};
use crate::timing::network::{Lasts, Network};
use crate::timing::stnu::{Bound, Stnu};

/// Nobody waits longer than this for what was to be over.
const LONGEST_WAIT: Minute = 24 * 60;

/// What was decided on a way.
#[derive(Debug, Clone)]
pub(super) struct Decided {
    pub(super) orders: Vec<Order>,
    /// Of those orders, and of the times that were chosen.
    pub(super) bounds: Vec<Bound>,
}

/// Orders and waking hours are settled, and what is left is proved.
#[derive(Debug, Clone)]
pub struct Way {
    pub(super) parts: Vec<Part>,
    /// Of each node, from [`Self::zero`] on.
    pub(super) windows: Vec<(Minute, Minute)>,
    pub(super) nodes: Vec<[usize; 2]>,
    pub(super) guests: Vec<usize>,
    /// The node of the start of the whole.
    pub(super) first: usize,
    /// That start, held to the minutes that were tried: its part, and the bound there.
    pub(super) held: Option<(usize, Bound)>,
    pub(super) decided: Decided,
    pub(super) zero: Minute,
}

impl Way {
    /// When the first step may start.
    pub fn start(&self) -> Window {
        window(self.windows[self.first], self.zero)
    }

    /// Start and end of each step.
    pub fn windows(&self) -> Vec<(Window, Window)> {
        self.shown(&self.windows)
    }

    fn shown(&self, windows: &[(Minute, Minute)]) -> Vec<(Window, Window)> {
        let of = |node: usize| window(windows[node], self.zero);
        self.nodes.iter().map(|&[start, end]| (of(start), of(end))).collect()
    }

    /// How to play it.
    pub fn strategy(&self) -> Option<Strategy> {
        Strategy::new(&self.parts, &self.nodes, &self.guests, self.zero)
    }

    /// Start and end of each step if nature takes just so long of her range for one, and all goes by the plan before; `None`
    /// where she does not decide on it.
    pub fn if_lasting(&self, step: usize, length: Minute) -> Option<Vec<(Window, Window)>> {
        let (home, link) = self.natural(step)?;
        let part = &self.parts[home];
        let mut tried = part.stnu.clone();
        (tried.natural[link].low, tried.natural[link].high) = (length, length);
        let natural = |here: usize| part.stnu.natural.iter().any(|link| link.to == here);
        for (here, &node) in part.nodes.iter().enumerate().skip(1).filter(|(here, _)| !natural(*here)) {
            let (low, high) = self.windows[node];
            tried.bounds.push(Bound { from: 0, to: here, low, high });
        }
        self.found(home, &tried)
    }

    /// As [`Self::if_lasting`], for a length so much longer than her range, of which up to `most` may be spared.
    pub fn if_longer(
        &self,
        network: &Network,
        step: usize,
        by: Minute,
        most: Minute,
    ) -> Option<Vec<(Window, Window)>> {
        let (home, link) = self.natural(step)?;
        let Bound { to: end, high, .. } = self.parts[home].stnu.natural[link];
        let mut tried = self.longer(network, step, home, most)?;
        let own = tried.natural.iter_mut().find(|link| link.to == end)?;
        (own.low, own.high) = (high + by, high + by);
        self.found(home, &tried)
    }

    /// The windows with this in place of a part.
    fn found(&self, home: usize, tried: &Stnu) -> Option<Vec<(Window, Window)>> {
        let found = tried.controllable()?.windows(tried.nodes)?;
        let mut windows = self.windows.clone();
        self.parts[home].nodes.iter().zip(found).skip(1).for_each(|(&node, window)| windows[node] = window);
        Some(self.shown(&windows))
    }

    /// How much longer than her range nature may take for a step so that all is still always on time, however the plan was
    /// kept to until then: with the same decisions, and without asking another minute of anything that is done
    /// before the end is seen. `network` may be one in which later steps may be shorter.
    pub fn spare(&self, network: &Network, step: usize) -> Option<Minute> {
        let (home, link) = self.natural(step)?;
        let plan = &self.parts[home].stnu;
        let end = plan.natural[link].to;
        let rules = Rules::of(plan)?;
        let holds = |by: Minute| {
            let tried = self.longer(network, step, home, by).filter(|tried| tried.controllable().is_some());
            tried.is_some_and(|tried| Rules::of(&tried).is_some_and(|tried| tried.allow(&rules, end)))
        };
        let (mut held, mut fails) = (0, 1);
        while holds(fails) {
            held = fails;
            if held >= LONGEST_WAIT {
                return Some(held);
            }
            fails = 2 * held;
        }
        while fails - held > 1 {
            let middle = held + (fails - held) / 2;
            if holds(middle) { held = middle } else { fails = middle }
        }
        Some(held)
    }

    /// The part of the way in which nature may take so much longer for a step; `None` where that leaves anything to decide
    /// anew.
    fn longer(&self, network: &Network, step: usize, home: usize, by: Minute) -> Option<Stnu> {
        let mut tried = network.clone();
        let own = &mut tried.steps[step];
        let Lasts::Nature { low, high, looks } = own.lasts else { return None };
        own.lasts = Lasts::Nature { low, high: high + by, looks };
        let model = Model::new(&tried, Nature::Decides).ok()?;
        let mut search = Search::decided(&model, &self.decided)?;
        search.zero = self.zero;
        let parts = search.parts(&search.settled());
        let mut stnu = parts.into_iter().find(|part| part.nodes == self.parts[home].nodes)?.stnu;
        let held = self.held.filter(|(part, _)| *part == home);
        stnu.bounds.extend(held.map(|(_, bound)| bound));
        Some(stnu)
    }

    /// Where nature's length of a step is: its part, and its number there.
    fn natural(&self, step: usize) -> Option<(usize, usize)> {
        let [_, end] = *self.nodes.get(step)?;
        let home = self.parts.iter().position(|part| part.nodes[1..].contains(&end))?;
        let part = &self.parts[home];
        let here = part.nodes.iter().position(|&node| node == end)?;
        let link = part.stnu.natural.iter().position(|link| link.to == here && link.low < link.high)?;
        Some((home, link))
    }
}
