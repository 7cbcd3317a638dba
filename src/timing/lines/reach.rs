//! The minutes between which every moment lies, whatever happens, and which decisions made them so.
//!
//! In a proof a natural length pushes an earliest minute on by its least and pulls a latest one back by
//! its most: what must hold in every outcome must hold in the worst.

use super::levels::Levels;
use super::model::{Model, Nature};
use crate::timing::clock::Minute;
use crate::timing::sets::FAR;
use crate::timing::stnu::Bound;

/// `to` comes at least so long after `from`.
#[derive(Debug, Clone, Copy)]
struct Arc {
    from: usize,
    to: usize,
    /// Reckoned with for the earliest minute of `to`.
    early: Minute,
    /// Reckoned with for the latest minute of `from`.
    late: Minute,
    level: u32,
}

const NOTHING: u32 = u32::MAX;

/// A window that was narrowed, and what by.
#[derive(Debug, Clone, Copy)]
struct Change {
    node: usize,
    latest: bool,
    old: Minute,
    old_why: u32,
    level: u32,
    /// The change of the neighbour that this one comes from.
    parent: u32,
}

pub(super) struct Reach<'m> {
    model: &'m Model<'m>,
    low: Vec<Minute>,
    high: Vec<Minute>,
    why: [Vec<u32>; 2],
    changes: Vec<Change>,
    arcs: Vec<Arc>,
    /// Arcs from, and to, each node.
    out: Vec<Vec<usize>>,
    into: Vec<Vec<usize>>,
    /// Narrowing was broken off: the windows are right but may be too wide.
    pub(super) cut: bool,
}

/// Where to go back to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mark {
    changes: usize,
    arcs: usize,
}

impl<'m> Reach<'m> {
    /// The windows before anything is decided; the empty set of levels if they contradict.
    pub(super) fn new(model: &'m Model<'m>) -> Result<Self, Levels> {
        let count = model.count;
        let mut reach = Self {
            model,
            low: model.domains.iter().map(|domain| domain.first().unwrap_or(FAR)).collect(),
            high: model.domains.iter().map(|domain| domain.last().unwrap_or(-FAR)).collect(),
            why: [vec![NOTHING; count], vec![NOTHING; count]],
            changes: Vec::new(),
            arcs: Vec::new(),
            out: vec![Vec::new(); count],
            into: vec![Vec::new(); count],
            cut: false,
        };
        for bound in &model.bounds {
            reach.bind(*bound, 0);
        }
        for link in &model.natural {
            debug_assert!(model.nature == Nature::Decides);
            let Bound { from, to, low, high } = *link;
            reach.push(Arc { from, to, early: low, late: high, level: 0 });
            reach.push(Arc { from: to, to: from, early: -low, late: -high, level: 0 });
        }
        let all: Vec<usize> = (0..count).collect();
        reach.spread(&all)?;
        reach.changes.clear();
        reach.why = [vec![NOTHING; count], vec![NOTHING; count]];
        Ok(reach)
    }

    pub(super) fn earliest(&self, node: usize) -> Minute {
        self.low[node]
    }

    pub(super) fn latest(&self, node: usize) -> Minute {
        self.high[node]
    }

    pub(super) fn mark(&self) -> Mark {
        Mark { changes: self.changes.len(), arcs: self.arcs.len() }
    }

    /// Adds bounds; if they leave no minute for something, the levels that clash.
    pub(super) fn post(&mut self, bounds: &[Bound], level: u32) -> Result<(), Levels> {
        let mut touched = Vec::new();
        for bound in bounds {
            self.bind(*bound, level);
            touched.extend([bound.from, bound.to]);
        }
        self.spread(&touched)
    }

    pub(super) fn undo(&mut self, mark: Mark) {
        while self.changes.len() > mark.changes {
            let Some(change) = self.changes.pop() else { break };
            let values = if change.latest { &mut self.high } else { &mut self.low };
            values[change.node] = change.old;
            self.why[usize::from(change.latest)][change.node] = change.old_why;
        }
        while self.arcs.len() > mark.arcs {
            let Some(arc) = self.arcs.pop() else { break };
            self.out[arc.from].pop();
            self.into[arc.to].pop();
        }
    }

    /// Adds the levels that made the earliest, or the latest, minute of a node what it is.
    pub(super) fn explain(&self, node: usize, latest: bool, levels: &mut Levels) {
        self.blame(self.why[usize::from(latest)][node], levels);
    }

    fn blame(&self, mut change: u32, levels: &mut Levels) {
        while let Some(one) = self.changes.get(change as usize) {
            levels.insert(one.level);
            change = one.parent;
        }
    }

    fn bind(&mut self, bound: Bound, level: u32) {
        let Bound { from, to, low, high } = bound;
        if low > -FAR {
            self.push(Arc { from, to, early: low, late: low, level });
        }
        if high < FAR {
            self.push(Arc { from: to, to: from, early: -high, late: -high, level });
        }
    }

    fn push(&mut self, arc: Arc) {
        self.out[arc.from].push(self.arcs.len());
        self.into[arc.to].push(self.arcs.len());
        self.arcs.push(arc);
    }

    fn spread(&mut self, nodes: &[usize]) -> Result<(), Levels> {
        let mut queue: std::collections::VecDeque<usize> = nodes.iter().copied().collect();
        let mut waiting = vec![false; self.model.count];
        nodes.iter().for_each(|&node| waiting[node] = true);
        // What goes round in a circle creeps on for ever where no clock stops it.
        let mut left = 400 * self.model.count + 10_000;
        while let Some(node) = queue.pop_front() {
            waiting[node] = false;
            for nth in 0..self.out[node].len() {
                let arc = self.arcs[self.out[node][nth]];
                if self.low[node] > -FAR
                    && self.raise(arc.to, self.low[node] + arc.early, arc.level, self.why[0][node])?
                    && !std::mem::replace(&mut waiting[arc.to], true)
                {
                    queue.push_back(arc.to);
                }
            }
            for nth in 0..self.into[node].len() {
                let arc = self.arcs[self.into[node][nth]];
                if self.high[node] < FAR
                    && self.lower(arc.from, self.high[node] - arc.late, arc.level, self.why[1][node])?
                    && !std::mem::replace(&mut waiting[arc.from], true)
                {
                    queue.push_back(arc.from);
                }
            }
            left -= 1;
            if left == 0 {
                self.cut = true;
                break;
            }
        }
        Ok(())
    }

    fn raise(&mut self, node: usize, to: Minute, level: u32, parent: u32) -> Result<bool, Levels> {
        if to <= self.low[node] {
            return Ok(false);
        }
        let to = match self.model.natural_nodes[node] {
            true => Some(to),
            false => self.model.domains[node].next(to),
        };
        self.narrow(node, false, to, level, parent)
    }

    fn lower(&mut self, node: usize, to: Minute, level: u32, parent: u32) -> Result<bool, Levels> {
        if to >= self.high[node] {
            return Ok(false);
        }
        let to = match self.model.natural_nodes[node] {
            true => Some(to),
            false => self.model.domains[node].previous(to),
        };
        self.narrow(node, true, to, level, parent)
    }

    fn narrow(
        &mut self,
        node: usize,
        latest: bool,
        to: Option<Minute>,
        level: u32,
        parent: u32,
    ) -> Result<bool, Levels> {
        let possible = to.filter(|&to| if latest { to >= self.low[node] } else { to <= self.high[node] });
        let Some(to) = possible else {
            let mut levels = Levels::default();
            levels.insert(level);
            self.blame(parent, &mut levels);
            self.blame(self.why[usize::from(!latest)][node], &mut levels);
            return Err(levels);
        };
        let values = if latest { &mut self.high } else { &mut self.low };
        let old = std::mem::replace(&mut values[node], to);
        let why = &mut self.why[usize::from(latest)][node];
        let old_why = std::mem::replace(why, self.changes.len() as u32);
        self.changes.push(Change { node, latest, old, old_why, level, parent });
        Ok(true)
    }
}
