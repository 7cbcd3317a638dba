//! A network with uncertainty to which bounds are added, and from which they are taken back, one decision
//! after the other; whether there is still a strategy for it is known all the while.
//!
//! The propagation is that of [`Stnu::prove`](crate::timing::stnu::Stnu::prove) (P. Morris, CPAIOR 2014), kept up to date instead of done
//! anew: an added bound is followed only where it makes something tighter. What clashes is not told; for that
//! the whole is proved anew.

use std::collections::VecDeque;

use crate::stop;
use crate::timing::clock::Minute;
use crate::timing::sets::FAR;
use crate::timing::stnu::Bound;

const NONE: u32 = u32::MAX;

/// `to - from ≤ weight`, kept by its `to`.
#[derive(Debug, Clone, Copy)]
struct Edge {
    from: u32,
    weight: Minute,
    /// The link of which this is what nature may take at the least.
    least_of: u32,
}

/// There is no strategy any more.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stuck;

pub(super) struct Growing {
    count: usize,
    into: Vec<Vec<Edge>>,
    /// The link that nature begins to draw out at a node.
    drawn: Vec<u32>,
    /// Nodes that something must come after; only these are sources.
    is_source: Vec<bool>,
    /// By source and node: the most that the source may come after the node.
    most: Vec<Minute>,
    /// The sources that must come before a node, with `most` below zero.
    before: Vec<Vec<u32>>,
    /// By source, 64 to a word: the sources whose bounds its own hang on.
    hangs_on: Vec<Vec<u64>>,
    trail: Vec<Change>,
    queue: VecDeque<(u32, u32)>,
    queued: Vec<bool>,
    /// Steps made so far.
    pub(super) work: u64,
}

enum Change {
    Most { at: usize, old: Minute },
    Edge { to: u32 },
    Source { node: u32 },
    Before { node: u32 },
    HangsOn { source: u32, word: u32, old: u64 },
}

impl Growing {
    /// A network of so many nodes, the first of which is the beginning of the axis and comes before all others.
    pub(super) fn new(nodes: usize, natural: &[Bound], bounds: &[Bound]) -> Result<Self, Stuck> {
        let drawn = natural.iter().filter(|link| link.low < link.high).count();
        let count = nodes + drawn;
        let mut growing = Self {
            count,
            into: vec![Vec::new(); count],
            drawn: vec![NONE; count],
            is_source: vec![false; count],
            most: vec![FAR; count * count],
            before: vec![Vec::new(); count],
            hangs_on: vec![vec![0; count.div_ceil(64)]; count],
            trail: Vec::new(),
            queue: VecDeque::new(),
            queued: vec![false; count * count],
            work: 0,
        };
        let mut next = nodes;
        for (n, link) in natural.iter().enumerate() {
            if link.low >= link.high {
                growing.bind(*link)?;
                continue;
            }
            // The sure part first, then what nature adds, which may be nothing.
            let (sure, most, n) = (next, link.high - link.low, n as u32);
            next += 1;
            growing.drawn[sure] = n;
            growing.bind(Bound { from: link.from, to: sure, low: link.low, high: link.low })?;
            growing.bind(Bound { from: sure, to: link.to, low: 0, high: most })?;
            growing.edge(link.to, Edge { from: sure as u32, weight: 0, least_of: n })?;
            growing.edge(sure, Edge { from: link.to as u32, weight: -most, least_of: NONE })?;
        }
        for to in 1..nodes {
            growing.bind(Bound { from: 0, to, low: 0, high: FAR })?;
        }
        growing.post(bounds)?;
        growing.trail.clear();
        Ok(growing)
    }

    pub(super) fn mark(&self) -> usize {
        self.trail.len()
    }

    /// Adds bounds. Where that leaves no strategy they have to be taken back.
    pub(super) fn post(&mut self, bounds: &[Bound]) -> Result<(), Stuck> {
        let posted = bounds.iter().try_for_each(|bound| self.bind(*bound)).and_then(|()| self.spread());
        if posted.is_err() {
            self.queue.clear();
            self.queued.fill(false);
        }
        posted
    }

    pub(super) fn undo(&mut self, mark: usize) {
        while self.trail.len() > mark {
            match self.trail.pop() {
                Some(Change::Most { at, old }) => self.most[at] = old,
                Some(Change::Edge { to }) => _ = self.into[to as usize].pop(),
                Some(Change::Source { node }) => self.is_source[node as usize] = false,
                Some(Change::Before { node }) => _ = self.before[node as usize].pop(),
                Some(Change::HangsOn { source, word, old }) => {
                    self.hangs_on[source as usize][word as usize] = old;
                }
                None => break,
            }
        }
    }

    fn bind(&mut self, bound: Bound) -> Result<(), Stuck> {
        let Bound { from, to, low, high } = bound;
        if high < FAR {
            self.edge(to, Edge { from: from as u32, weight: high, least_of: NONE })?;
        }
        if low > -FAR {
            self.edge(from, Edge { from: to as u32, weight: -low, least_of: NONE })?;
        }
        Ok(())
    }

    fn edge(&mut self, to: usize, edge: Edge) -> Result<(), Stuck> {
        self.into[to].push(edge);
        self.trail.push(Change::Edge { to: to as u32 });
        if edge.weight < 0 {
            if !std::mem::replace(&mut self.is_source[to], true) {
                self.trail.push(Change::Source { node: to as u32 });
                for nth in 0..self.before[to].len() {
                    self.hang(self.before[to][nth] as usize, to)?;
                }
            }
            return self.tighten(to, edge.from as usize, edge.weight);
        }
        for nth in 0..self.before[to].len() {
            let source = self.before[to][nth] as usize;
            if edge.least_of == NONE || edge.least_of != self.drawn[source] {
                self.tighten(source, edge.from as usize, self.most[source * self.count + to] + edge.weight)?;
            }
        }
        Ok(())
    }

    fn tighten(&mut self, source: usize, node: usize, most: Minute) -> Result<(), Stuck> {
        let at = source * self.count + node;
        let old = self.most[at];
        if most >= old {
            return Ok(());
        }
        if source == node {
            return if most < 0 { Err(Stuck) } else { Ok(()) };
        }
        self.most[at] = most;
        self.trail.push(Change::Most { at, old });
        if most < 0 && old >= 0 {
            self.before[node].push(source as u32);
            self.trail.push(Change::Before { node: node as u32 });
            if self.is_source[node] {
                self.hang(source, node)?;
            }
        }
        if !std::mem::replace(&mut self.queued[at], true) {
            self.queue.push_back((source as u32, node as u32));
        }
        Ok(())
    }

    /// The bounds of a source hang on those of another; if it were the other way round as well, both would
    /// have to come before themselves.
    fn hang(&mut self, source: usize, on: usize) -> Result<(), Stuck> {
        let has = |all: &Vec<u64>, node: usize| all[node / 64] >> (node % 64) & 1 == 1;
        if has(&self.hangs_on[source], on) {
            return Ok(());
        }
        if source == on || has(&self.hangs_on[on], source) {
            return Err(Stuck);
        }
        let mut more = self.hangs_on[on].clone();
        more[on / 64] |= 1 << (on % 64);
        for (other, all) in self.hangs_on.iter_mut().enumerate() {
            if other != source && !has(all, source) {
                continue;
            }
            for (word, (old, more)) in
                all.iter_mut().zip(&more).enumerate().filter(|(_, (old, more))| **more & !**old != 0)
            {
                self.trail.push(Change::HangsOn { source: other as u32, word: word as u32, old: *old });
                *old |= more;
            }
        }
        Ok(())
    }

    /// Follows everything that has become tighter.
    fn spread(&mut self) -> Result<(), Stuck> {
        while let Some((source, node)) = self.queue.pop_front() {
            let (source, node) = (source as usize, node as usize);
            let at = source * self.count + node;
            self.queued[at] = false;
            let most = self.most[at];
            if most >= 0 {
                self.work += 1 + self.before[source].len() as u64;
                for nth in 0..self.before[source].len() {
                    let other = self.before[source][nth] as usize;
                    self.tighten(other, node, self.most[other * self.count + source] + most)?;
                }
                continue;
            }
            self.work += 1 + self.into[node].len() as u64;
            for nth in 0..self.into[node].len() {
                let edge = self.into[node][nth];
                let unfit = edge.least_of != NONE && edge.least_of == self.drawn[source];
                if edge.weight >= 0 && !unfit {
                    self.tighten(source, edge.from as usize, most + edge.weight)?;
                }
            }
            if self.is_source[node] {
                stop::here();
                self.work += self.count as u64;
                for further in 0..self.count {
                    let after = self.most[node * self.count + further];
                    if (0..FAR).contains(&after) {
                        self.tighten(source, further, most + after)?;
                    }
                }
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::timing::stnu::Stnu;

    /// Bounds drawn at random are added and taken back; after each the answer is that of a proof from scratch.
    #[test]
    fn it_always_says_what_a_proof_from_scratch_says() {
        let mut state = 3u64;
        let mut roll = |most: u64| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((state >> 33) % most) as i64
        };
        let mut told = [0, 0];
        for _ in 0..400 {
            let nodes = 4 + roll(7) as usize;
            // Nature times every third node, from the one before it.
            let link = |to: usize, low: i64, more: i64| Bound { from: to - 1, to, low, high: low + more };
            let natural: Vec<Bound> = (2..nodes).step_by(3).map(|to| link(to, roll(4), roll(6))).collect();
            let clock = |to: usize| Bound { from: 0, to, low: 0, high: FAR };
            let mut bounds: Vec<Bound> = (1..nodes).map(clock).collect();
            let fixed = bounds.len();
            let mut growing = Growing::new(nodes, &natural, &[]).expect("nothing but links");
            let mut marks = Vec::new();
            for _ in 0..14 {
                if roll(4) == 0
                    && let Some(mark) = marks.pop()
                {
                    bounds.pop();
                    growing.undo(mark);
                    continue;
                }
                let (from, to) = (roll(nodes as u64) as usize, roll(nodes as u64) as usize);
                if from == to {
                    continue;
                }
                let low = if roll(3) == 0 { -FAR } else { roll(9) - 3 };
                let high = if low > -FAR && roll(2) == 0 { FAR } else { low.max(0) + roll(9) };
                let bound = Bound { from, to, low, high };
                marks.push(growing.mark());
                bounds.push(bound);
                let proved = Stnu { nodes, bounds: bounds.clone(), natural: natural.clone() }.prove().is_ok();
                assert_eq!(growing.post(&[bound]).is_ok(), proved, "{natural:?} {:?}", &bounds[fixed..]);
                told[usize::from(proved)] += 1;
                if !proved {
                    bounds.pop();
                    growing.undo(marks.pop().expect("just made"));
                }
            }
        }
        assert!(told.iter().all(|count| *count > 500), "{told:?}");
    }
}
