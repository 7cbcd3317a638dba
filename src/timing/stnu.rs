//! Simple temporal networks with uncertainty, and whether a strategy exists that needs no luck.
//!
//! Dynamic controllability by propagating back from negative nodes: P. Morris, *Dynamic controllability
//! and dispatchability relationships*, CPAIOR 2014.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::clock::Minute;
use super::sets::FAR;

/// Nodes are moments; node 0 is the beginning of the axis.
#[derive(Debug, Clone, Default)]
pub struct Stnu {
    pub nodes: usize,
    pub bounds: Vec<Bound>,
    /// Bounds that nature decides within.
    pub natural: Vec<Bound>,
}

/// `to - from` lies between `low` and `high`; [`FAR`] for no bound.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bound {
    pub from: usize,
    pub to: usize,
    pub low: Minute,
    pub high: Minute,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Plain,
    /// Nature may take the least time.
    Lower(usize),
    /// Nature may take the most.
    Upper(usize),
}

/// `to - from ≤ weight`, kept by its `to`.
#[derive(Debug, Clone, Copy)]
struct Edge {
    from: usize,
    weight: Minute,
    kind: Kind,
}

/// A network after propagation: what follows from it for every strategy.
#[derive(Debug, Clone)]
pub struct Graph {
    into: Vec<Vec<Edge>>,
    visited: Vec<Visit>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Visit {
    Not,
    Open,
    Done,
}

impl Stnu {
    /// The propagated network if there is a strategy for every outcome, else `None`.
    pub fn controllable(&self) -> Option<Graph> {
        let mut ended = vec![false; self.nodes];
        for link in self.natural.iter().filter(|link| link.low < link.high) {
            if std::mem::replace(ended.get_mut(link.to)?, true) {
                // Two things that nature ends cannot be made to end together.
                return None;
            }
        }
        let mut graph = Graph::new(self, true);
        (0..graph.into.len()).all(|node| !graph.is_negative(node) || graph.propagate(node)).then_some(graph)
    }

    /// Earliest and latest time of every node if nature were on the cook's side; `None` if even that
    /// does not help.
    pub fn hopeful(&self) -> Option<Vec<(Minute, Minute)>> {
        Graph::new(self, false).windows(self.nodes)
    }

    /// Whether there is any such time.
    pub fn is_hopeful(&self) -> bool {
        // A moment after all others stands in for the end of every way: bounds that contradict each other shorten the way
        // to it for ever.
        let mut ahead = vec![0; self.nodes];
        for _ in 0..=self.nodes {
            let mut changed = false;
            for bound in self.bounds.iter().chain(&self.natural) {
                let Bound { from, to, low, high } = *bound;
                for (node, other, most) in [(from, to, high), (to, from, -low)] {
                    if most < FAR && ahead[other] + most < ahead[node] {
                        ahead[node] = ahead[other] + most;
                        changed = true;
                    }
                }
            }
            if !changed {
                return true;
            }
        }
        false
    }

    /// The most that each node can come after each other, if nature were on the cook's side.
    pub fn distances(&self) -> Vec<Vec<Minute>> {
        let count = self.nodes;
        let mut most = vec![vec![FAR; count]; count];
        for (n, row) in most.iter_mut().enumerate() {
            row[n] = 0;
        }
        for bound in self.bounds.iter().chain(&self.natural) {
            most[bound.from][bound.to] = most[bound.from][bound.to].min(bound.high);
            most[bound.to][bound.from] = most[bound.to][bound.from].min(-bound.low);
        }
        for via in 0..count {
            let through = most[via].clone();
            for row in &mut most {
                let first = row[via];
                if first < FAR {
                    for (to, second) in row.iter_mut().zip(&through) {
                        if *second < FAR {
                            *to = (*to).min(first + second);
                        }
                    }
                }
            }
        }
        most
    }
}

impl Graph {
    fn new(stnu: &Stnu, nature_decides: bool) -> Self {
        // The bounds of a node are few; room for most of them at once.
        let room = || Vec::with_capacity(8);
        let mut graph = Self { into: (0..stnu.nodes).map(|_| room()).collect(), visited: Vec::new() };
        for bound in &stnu.bounds {
            graph.bind(*bound);
        }
        for (n, link) in stnu.natural.iter().enumerate() {
            if !nature_decides || link.low >= link.high {
                graph.bind(*link);
                continue;
            }
            // The sure part first, then what nature adds, which may be nothing.
            let sure = graph.into.len();
            let most = link.high - link.low;
            graph.into.push(room());
            graph.bind(Bound { from: link.from, to: sure, low: link.low, high: link.low });
            graph.bind(Bound { from: sure, to: link.to, low: 0, high: most });
            graph.into[link.to].push(Edge { from: sure, weight: 0, kind: Kind::Lower(n) });
            graph.into[sure].push(Edge { from: link.to, weight: -most, kind: Kind::Upper(n) });
        }
        graph.visited = vec![Visit::Not; graph.into.len()];
        graph
    }

    fn bind(&mut self, bound: Bound) {
        if bound.high < FAR {
            self.into[bound.to].push(Edge { from: bound.from, weight: bound.high, kind: Kind::Plain });
        }
        if bound.low > -FAR {
            self.into[bound.from].push(Edge { from: bound.to, weight: -bound.low, kind: Kind::Plain });
        }
    }

    fn is_negative(&self, node: usize) -> bool {
        self.into[node].iter().any(|edge| edge.weight < 0)
    }

    /// Derives the plain bounds that follow from what must happen before `source`; `false` if that
    /// needs itself.
    fn propagate(&mut self, source: usize) -> bool {
        match self.visited[source] {
            Visit::Open => return false,
            Visit::Done => return true,
            Visit::Not => self.visited[source] = Visit::Open,
        }
        let mut distance = vec![FAR; self.into.len()];
        let mut queue = BinaryHeap::new();
        let mut own = None;
        for edge in self.into[source].iter().filter(|edge| edge.weight < 0) {
            if let Kind::Upper(link) = edge.kind {
                own = Some(link);
            }
            if edge.weight < distance[edge.from] {
                distance[edge.from] = edge.weight;
                queue.push(Reverse((edge.weight, edge.from)));
            }
        }
        while let Some(Reverse((weight, node))) = queue.pop() {
            if weight > distance[node] {
                continue;
            }
            if weight >= 0 {
                self.into[source].push(Edge { from: node, weight, kind: Kind::Plain });
                continue;
            }
            if self.is_negative(node) && !self.propagate(node) {
                return false;
            }
            for edge in &self.into[node] {
                let unfit = matches!((edge.kind, own), (Kind::Lower(link), Some(own)) if link == own);
                let further = weight + edge.weight;
                if edge.weight >= 0 && !unfit && further < distance[edge.from] {
                    distance[edge.from] = further;
                    queue.push(Reverse((further, edge.from)));
                }
            }
        }
        self.visited[source] = Visit::Done;
        true
    }

    /// Earliest and latest time of the first `count` nodes; `None` where the bounds contradict.
    pub fn windows(&self, count: usize) -> Option<Vec<(Minute, Minute)>> {
        let latest = self.shortest(false)?;
        let earliest = self.shortest(true)?;
        Some((0..count).map(|n| (-earliest[n], latest[n])).collect())
    }

    /// Shortest ways from node 0, or to it. How late a node may be reckons with nature at its longest,
    /// how early it may be with nature at its shortest.
    fn shortest(&self, backwards: bool) -> Option<Vec<Minute>> {
        let mut distance = vec![FAR; self.into.len()];
        *distance.first_mut()? = 0;
        for _ in 0..=self.into.len() {
            let mut changed = false;
            for (to, edges) in self.into.iter().enumerate() {
                for edge in edges.iter().filter(|edge| match edge.kind {
                    Kind::Plain => true,
                    Kind::Lower(_) => backwards,
                    Kind::Upper(_) => !backwards,
                }) {
                    let (a, b) = if backwards { (to, edge.from) } else { (edge.from, to) };
                    if distance[a] < FAR && distance[a] + edge.weight < distance[b] {
                        distance[b] = distance[a] + edge.weight;
                        changed = true;
                    }
                }
            }
            if !changed {
                return Some(distance);
            }
        }
        None
    }
}
