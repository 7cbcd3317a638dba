//! The proof of a way on which everything is settled, and the windows that it leaves.

use super::levels::Levels;
use super::model::{Model, bundles, by_clock};
use super::search::Search;
use super::way::{Decided, Way};
use super::{Minute, Window};
use crate::timing::needs::LONGEST;
use crate::timing::sets::{FAR, Set};
use crate::timing::stnu::{Bound, Conflict, Stnu};

/// A part of the network that hangs together otherwise than by the clock.
#[derive(Debug, Clone)]
pub(super) struct Part {
    /// The nodes of the whole, by their numbers here; the first is the clock.
    pub(super) nodes: Vec<usize>,
    pub(super) stnu: Stnu,
    /// For each bound, which of [`Search::settled`] it is.
    settled: Vec<usize>,
}

/// In a network of more nodes than this the ends of a window are looked for in coarser steps.
const MANY: usize = 80;

impl Search<'_> {
    /// Everything that binds nodes, and which decisions it hangs on.
    pub(super) fn settled(&self) -> Vec<(Bound, Levels)> {
        let mut all: Vec<(Bound, Levels)> =
            self.model.bounds.iter().map(|bound| (*bound, Levels::default())).collect();
        for (bound, level) in &self.posted {
            let mut levels = Levels::default();
            levels.insert(*level);
            all.push((*bound, levels));
        }
        let Some(reach) = &self.reach else { return all };
        for node in (1..self.model.count).filter(|&node| !self.model.natural_nodes[node]) {
            let domain = &self.model.domains[node];
            let window = Set::range(reach.earliest(node), reach.latest(node));
            let inside = |part: &&(Minute, Minute)| !Set::range(part.0, part.1).intersect(&window).is_empty();
            let mut inside = domain.intervals().iter().filter(inside);
            let Some(&(first, last)) = inside.next() else { continue };
            let last = inside.next_back().map_or(last, |part| part.1);
            let mut levels = Levels::default();
            if domain.intervals().len() > 1 {
                reach.explain(node, false, &mut levels);
                reach.explain(node, true, &mut levels);
            }
            all.push((by_clock(node, first, last), levels));
        }
        all
    }

    /// The parts of the network, on an axis whose beginning lies before everything.
    pub(super) fn parts(&self, settled: &[(Bound, Levels)]) -> Vec<Part> {
        let (count, natural) = (self.model.count, &self.model.natural);
        let bundle = bundles(count, settled.iter().map(|(bound, _)| bound).chain(natural));
        let mut parts: Vec<Part> = Vec::new();
        let mut home = vec![(usize::MAX, 0); count];
        for node in 1..count {
            let leader = bundle[node];
            if leader == node {
                parts.push(Part { nodes: vec![0], stnu: Stnu::default(), settled: Vec::new() });
                home[node].0 = parts.len() - 1;
            }
            let part = home[leader].0;
            home[node] = (part, parts[part].nodes.len());
            parts[part].nodes.push(node);
        }
        let inside = |bound: &Bound| {
            let (part, _) = home[if bound.from == 0 { bound.to } else { bound.from }];
            let at = |node: usize| if node == 0 { 0 } else { home[node].1 };
            (part, Bound { from: at(bound.from), to: at(bound.to), ..self.on_axis(*bound) })
        };
        for part in &mut parts {
            part.stnu.nodes = part.nodes.len();
            part.stnu.bounds.extend((1..part.nodes.len()).map(|to| Bound { from: 0, to, low: 0, high: FAR }));
            part.settled.resize(part.stnu.bounds.len(), usize::MAX);
        }
        for (n, (bound, _)) in settled.iter().enumerate() {
            let (part, bound) = inside(bound);
            parts[part].stnu.bounds.push(bound);
            parts[part].settled.push(n);
        }
        for link in natural {
            let (part, link) = inside(link);
            parts[part].stnu.natural.push(link);
        }
        parts
    }

    /// Whether what is settled is dynamically controllable, in the part of a node or everywhere; else the
    /// decisions that clash.
    pub(super) fn prove(&self, node: Option<usize>) -> Result<(), Levels> {
        let settled = self.settled();
        let parts = self.parts(&settled);
        for part in parts.iter().filter(|part| node.is_none_or(|node| part.nodes.contains(&node))) {
            part.stnu.prove().map_err(|conflict: Conflict| {
                let mut levels = Levels::default();
                let named = conflict.bounds.iter().filter_map(|&n| settled.get(part.settled[n]));
                named.for_each(|(_, more)| levels.extend(more));
                levels
            })?;
        }
        Ok(())
    }

    /// The way that was proved. The start of the whole is tried at both its ends: every minute between two
    /// that win wins too, for all the bounds are convex.
    pub(super) fn way(&self) -> Option<Way> {
        let settled = self.settled();
        let zero = self.zero;
        let mut parts = self.parts(&settled);
        let mut windows = self.windows(&parts, true)?;
        let first = self.model.nodes.iter().map(|node| node[0]).min_by_key(|&node| windows[node])?;
        let home = parts.iter().position(|part| part.nodes[1..].contains(&first))?;
        let part = &mut parts[home];
        let here = part.nodes.iter().position(|&node| node == first)?;
        let (low, high) = windows[first];
        let at = |minute: Minute| Bound { from: 0, to: here, low: minute, high: minute };
        let mut held = None;
        if let Some(low) = part.nearest(low, high, &at)
            && let Some(high) = part.nearest(-high, -low, &|minute| at(-minute))
        {
            let bound = Bound { from: 0, to: here, low, high: -high };
            part.stnu.bounds.push(bound);
            held = Some((home, bound));
            windows = self.windows(&parts, true)?;
        }
        let decided = Decided {
            orders: self.orders.clone(),
            bounds: self.posted.iter().map(|(bound, _)| *bound).collect(),
        };
        Some(Way {
            parts,
            windows,
            nodes: self.model.nodes.clone(),
            guests: self.model.guests.clone(),
            first,
            held,
            decided,
            zero,
        })
    }

    /// The windows of a way that needs luck.
    pub(super) fn hopeful(&self) -> Option<Vec<(Window, Window)>> {
        let settled = self.settled();
        let zero = self.zero;
        let windows = self.windows(&self.parts(&settled), false)?;
        Some(self.step_windows(&windows, zero))
    }

    fn windows(&self, parts: &[Part], proved: bool) -> Option<Vec<(Minute, Minute)>> {
        let mut all = vec![(0, 0); self.model.count];
        for part in parts {
            let windows = match proved {
                true => part.stnu.controllable()?.windows(part.stnu.nodes)?,
                false => part.stnu.hopeful()?,
            };
            part.nodes.iter().zip(windows).for_each(|(&node, window)| all[node] = window);
        }
        Some(all)
    }

    fn step_windows(&self, windows: &[(Minute, Minute)], zero: Minute) -> Vec<(Window, Window)> {
        let of = |node: usize| window(windows[node], zero);
        self.model.nodes.iter().map(|&[start, end]| (of(start), of(end))).collect()
    }
}

/// A minute before everything.
pub(super) fn before_all(model: &Model<'_>) -> Minute {
    let total: Minute = model.network.steps.iter().map(|step| step.lasts.high().min(LONGEST)).sum();
    let gaps: Minute = model.network.apart.iter().flat_map(|apart| apart.gaps).sum();
    let first = model.domains.iter().skip(1).filter_map(Set::first).filter(|first| *first > -FAR).min();
    first.unwrap_or(0).min(0) - total - gaps - 24 * 60
}

impl Part {
    /// The first minute from `low` on at which the bound holds, if there is one up to `high`.
    fn nearest(&self, low: Minute, high: Minute, bound: &dyn Fn(Minute) -> Bound) -> Option<Minute> {
        let holds = |minute: Minute| {
            let mut tried = self.stnu.clone();
            tried.bounds.push(bound(minute));
            tried.controllable().is_some()
        };
        // A bound nobody set leaves the start open; nothing is gained by going back for ever.
        let low = low.max(high - 14 * 24 * 60);
        if holds(low) {
            return Some(low);
        }
        let coarse = if self.nodes.len() > MANY { ((high - low) / 16).max(5) } else { 5 };
        let mut tried = (low..=high).step_by(coarse as usize).chain([high]);
        let (mut fails, mut wins) = (low, tried.find(|&minute| holds(minute))?);
        while wins - fails > 1 {
            let middle = fails + (wins - fails) / 2;
            if holds(middle) { wins = middle } else { fails = middle }
        }
        Some(wins)
    }
}

pub(super) fn window((earliest, latest): (Minute, Minute), zero: Minute) -> Window {
    let latest = latest.min(earliest + LONGEST);
    Window { earliest: earliest + zero, latest: latest + zero }
}
