//! Simple temporal networks with uncertainty, and whether a strategy exists that needs no luck.
//!
//! Dynamic controllability by propagating back from negative nodes: P. Morris, *Dynamic controllability
//! and dispatchability relationships*, CPAIOR 2014.

use std::cmp::Reverse;
use std::collections::{BTreeSet, BinaryHeap};

use super::clock::Minute;
use super::sets::FAR;
use crate::stop;

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
    why: Why,
}

/// Where an edge comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Why {
    Bound(usize),
    Natural(usize),
    /// It follows from the edges of a way: index of the way's last one in [`Graph::ways`].
    Way(usize),
}

/// An edge on a way to a node, and the next one on it.
#[derive(Debug, Clone, Copy)]
struct Leg {
    edge: Why,
    next: Option<usize>,
}

/// A network after propagation: what follows from it for every strategy.
#[derive(Debug, Clone)]
pub struct Graph {
    into: Vec<Vec<Edge>>,
    visited: Vec<Visit>,
    ways: Vec<Leg>,
}

/// Bounds that no strategy can keep all at once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Conflict {
    /// Indices into [`Stnu::bounds`], in order.
    pub bounds: Vec<usize>,
    /// Indices into [`Stnu::natural`], in order.
    pub natural: Vec<usize>,
}

/// A node that would have to come before itself, and the ways round to it so far.
struct Circle {
    head: usize,
    closed: bool,
    ways: Vec<usize>,
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
        self.prove().ok()
    }

    /// The propagated network if there is a strategy for every outcome, else bounds that clash.
    pub fn prove(&self) -> Result<Graph, Conflict> {
        let mut ended = vec![None; self.nodes];
        for (n, link) in self.natural.iter().enumerate().filter(|(_, link)| link.low < link.high) {
            if let Some(other) = ended[link.to].replace(n) {
                // Two things that nature ends cannot be made to end together.
                return Err(Conflict { bounds: Vec::new(), natural: vec![other, n] });
            }
        }
        let mut graph = Graph::new(self, true);
        for node in 0..graph.into.len() {
            if graph.is_negative(node)
                && let Err(circle) = graph.propagate(node)
            {
                return Err(graph.conflict(&circle.ways));
            }
        }
        Ok(graph)
    }

    /// Earliest and latest time of every node if nature were on the cook's side; `None` if even that
    /// does not help.
    pub fn hopeful(&self) -> Option<Vec<(Minute, Minute)>> {
        Graph::new(self, false).windows(self.nodes)
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
            stop::here();
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
        let into = (0..stnu.nodes).map(|_| room()).collect();
        let mut graph = Self { into, visited: Vec::new(), ways: Vec::new() };
        for (n, bound) in stnu.bounds.iter().enumerate() {
            graph.bind(*bound, Why::Bound(n));
        }
        for (n, link) in stnu.natural.iter().enumerate() {
            let why = Why::Natural(n);
            if !nature_decides || link.low >= link.high {
                graph.bind(*link, why);
                continue;
            }
            // The sure part first, then what nature adds, which may be nothing.
            let sure = graph.into.len();
            let most = link.high - link.low;
            graph.into.push(room());
            graph.bind(Bound { from: link.from, to: sure, low: link.low, high: link.low }, why);
            graph.bind(Bound { from: sure, to: link.to, low: 0, high: most }, why);
            graph.into[link.to].push(Edge { from: sure, weight: 0, kind: Kind::Lower(n), why });
            graph.into[sure].push(Edge { from: link.to, weight: -most, kind: Kind::Upper(n), why });
        }
        graph.visited = vec![Visit::Not; graph.into.len()];
        graph
    }

    fn bind(&mut self, bound: Bound, why: Why) {
        let kind = Kind::Plain;
        if bound.high < FAR {
            self.into[bound.to].push(Edge { from: bound.from, weight: bound.high, kind, why });
        }
        if bound.low > -FAR {
            self.into[bound.from].push(Edge { from: bound.to, weight: -bound.low, kind, why });
        }
    }

    fn is_negative(&self, node: usize) -> bool {
        self.into[node].iter().any(|edge| edge.weight < 0)
    }

    /// Derives the plain bounds that follow from what must happen before `source`; a circle if that
    /// needs itself.
    fn propagate(&mut self, source: usize) -> Result<(), Circle> {
        match self.visited[source] {
            Visit::Open => return Err(Circle { head: source, closed: false, ways: Vec::new() }),
            Visit::Done => return Ok(()),
            Visit::Not => self.visited[source] = Visit::Open,
        }
        stop::here();
        let mut distance = vec![FAR; self.into.len()];
        // The first edge on the shortest way from a node, and where it leads.
        let mut first: Vec<(Why, usize)> = vec![(Why::Bound(0), source); self.into.len()];
        let mut ways: Vec<Option<usize>> = vec![None; self.into.len()];
        let mut queue = BinaryHeap::new();
        let mut own = None;
        for edge in self.into[source].iter().filter(|edge| edge.weight < 0) {
            if let Kind::Upper(link) = edge.kind {
                own = Some(link);
            }
            if edge.weight < distance[edge.from] {
                distance[edge.from] = edge.weight;
                first[edge.from] = (edge.why, source);
                queue.push(Reverse((edge.weight, edge.from)));
            }
        }
        while let Some(Reverse((weight, node))) = queue.pop() {
            if weight > distance[node] || ways[node].is_some() {
                continue;
            }
            let (edge, to) = first[node];
            let way = self.ways.len();
            self.ways.push(Leg { edge, next: ways[to] });
            ways[node] = Some(way);
            if weight >= 0 {
                self.into[source].push(Edge { from: node, weight, kind: Kind::Plain, why: Why::Way(way) });
                continue;
            }
            if self.is_negative(node)
                && let Err(mut circle) = self.propagate(node)
            {
                if !circle.closed {
                    circle.ways.push(way);
                    circle.closed = circle.head == source;
                }
                return Err(circle);
            }
            for edge in &self.into[node] {
                let unfit = matches!((edge.kind, own), (Kind::Lower(link), Some(own)) if link == own);
                let further = weight + edge.weight;
                if edge.weight >= 0 && !unfit && further < distance[edge.from] {
                    distance[edge.from] = further;
                    first[edge.from] = (edge.why, node);
                    queue.push(Reverse((further, edge.from)));
                }
            }
        }
        self.visited[source] = Visit::Done;
        Ok(())
    }

    /// The bounds that these ways are made of.
    fn conflict(&self, ways: &[usize]) -> Conflict {
        let mut seen = vec![false; self.ways.len()];
        let mut open = ways.to_vec();
        let (mut bounds, mut natural) = (BTreeSet::new(), BTreeSet::new());
        while let Some(way) = open.pop() {
            if std::mem::replace(&mut seen[way], true) {
                continue;
            }
            let leg = self.ways[way];
            open.extend(leg.next);
            match leg.edge {
                Why::Bound(n) => _ = bounds.insert(n),
                Why::Natural(n) => _ = natural.insert(n),
                Why::Way(other) => open.push(other),
            }
        }
        Conflict { bounds: bounds.into_iter().collect(), natural: natural.into_iter().collect() }
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
