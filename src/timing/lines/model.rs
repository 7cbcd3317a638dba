//! The moments of a network, the minutes that the clock and the crew leave each, and what binds them.

use crate::timing::chain::{self, win_before};
use crate::timing::clock::Minute;
use crate::timing::network::{Lasts, Network, Point, Serving, Step};
use crate::timing::sets::{FAR, Set};
use crate::timing::stnu::Bound;

/// How nature's lengths are read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Nature {
    /// She picks, and every outcome must be on time.
    Decides,
    /// The cook picks in her place.
    Kind,
    /// And a step that may be over before its work is done asks for no more hands, or room, than in that case.
    Kindest,
}

/// Moments are nodes; node 0 is minute 0 of the axis.
pub(super) struct Model<'n> {
    pub(super) network: &'n Network,
    pub(super) nature: Nature,
    /// Node of each step's start and end.
    pub(super) nodes: Vec<[usize; 2]>,
    /// How many nodes there are.
    pub(super) count: usize,
    /// The minutes in which each node may be.
    pub(super) domains: Vec<Set>,
    /// Nodes that nature times.
    pub(super) natural_nodes: Vec<bool>,
    pub(super) bounds: Vec<Bound>,
    pub(super) natural: Vec<Bound>,
    /// Nodes at which guests come, in the order of [`Network::parties`].
    pub(super) guests: Vec<usize>,
    /// More is asked of some step than it really needs, so that failing proves nothing.
    pub(super) cautious: bool,
}

impl<'n> Model<'n> {
    /// If something has no time at all, whether that may be for too much caution.
    pub(super) fn new(network: &'n Network, nature: Nature) -> Result<Self, bool> {
        let nodes = nodes(network);
        let count = nodes.iter().flatten().max().map_or(1, |most| most + 1);
        let mut model = Self {
            network,
            nature,
            nodes,
            count,
            domains: vec![Set::all(); count],
            natural_nodes: vec![false; count],
            bounds: Vec::new(),
            natural: Vec::new(),
            guests: Vec::new(),
            cautious: false,
        };
        model.domains[0] = Set::range(0, 0);
        model.bind();
        model.narrow();
        if model.domains.iter().any(Set::is_empty) { Err(model.cautious) } else { Ok(model) }
    }

    fn bind(&mut self) {
        let parties = self.network.parties();
        for &(first, last) in &parties {
            self.guests.push(self.count);
            self.domains.push(Set::range(first, last));
            self.natural_nodes.push(false);
            self.natural.push(Bound { from: 0, to: self.count, low: first, high: last });
            self.count += 1;
        }
        for (step, &[from, to]) in self.network.steps.iter().zip(&self.nodes) {
            let (low, high) = (step.lasts.low(), step.lasts.high());
            match step.lasts {
                Lasts::Nature { .. } => {
                    let looks = step.lasts.looks();
                    self.cautious |= looks.is_some();
                    let low = looks.and_then(|all| all.first().copied()).unwrap_or(low);
                    self.natural.push(Bound { from, to, low, high });
                }
                _ => self.bounds.push(Bound { from, to, low, high }),
            }
            if let Some(Serving::Guests { first, last, late }) = step.serving {
                let party = parties.iter().zip(&self.guests).find(|(party, _)| **party == (first, last));
                let coming = party.map(|(_, &node)| Bound { from: node, to: from, low: 0, high: late });
                self.bounds.extend(coming);
            }
        }
        let node = |point: Point| self.nodes[point.step][usize::from(point.end)];
        let links = self.network.links.iter().map(|link| Bound {
            from: node(link.from),
            to: node(link.to),
            low: link.low,
            high: link.high,
        });
        self.bounds.extend(links);
        match self.nature {
            Nature::Decides => {
                for link in self.natural.iter().filter(|link| link.low < link.high) {
                    self.natural_nodes[link.to] = true;
                }
            }
            Nature::Kind | Nature::Kindest => self.bounds.append(&mut self.natural),
        }
    }

    /// Back from the last step, the minutes in which each may start so that it ends in time and somebody
    /// is there for it.
    fn narrow(&mut self) {
        let awake = self.network.absent.complement();
        // Several steps may end in one moment, so first what each asks of its end.
        for (step, &[_, end]) in self.network.steps.iter().zip(&self.nodes) {
            self.domains[end] = self.domains[end].intersect(&step.end_in);
            if step.needs.at_end && !matches!(step.lasts, Lasts::Nature { .. }) {
                self.domains[end] = self.domains[end].intersect(&awake);
            }
        }
        for (step, &[start, end]) in self.network.steps.iter().zip(&self.nodes).rev() {
            let ends = &self.domains[end];
            let mut starts = chain::on_time(step).intersect(&match self.nature {
                Nature::Decides => win_before(step, ends, &awake),
                Nature::Kind | Nature::Kindest => hope_before(step, ends, &awake),
            });
            if self.nature == Nature::Decides && matches!(step.lasts, Lasts::Chosen { .. }) {
                for (from, to) in cut_short(step) {
                    self.cautious = true;
                    starts = starts.intersect(&awake.all_before(from, to - 1));
                }
            }
            self.domains[start] = self.domains[start].intersect(&starts);
        }
    }

    /// Steps whose chosen end may fall into sleep they need somebody in, and from when on.
    pub(super) fn watched(&self) -> impl Iterator<Item = (usize, Minute)> {
        let deciding = self.nature == Nature::Decides && !self.network.absent.is_empty();
        let steps = self.network.steps.iter().enumerate().filter(move |_| deciding);
        steps.filter_map(|(n, step)| Some((n, to_the_end(step)?)))
    }
}

/// As [`win_before`] for nature's kindest length; sleep is kept whatever she does.
fn hope_before(step: &Step, ends: &Set, awake: &Set) -> Set {
    let Lasts::Nature { low, high, .. } = step.lasts else { return win_before(step, ends, awake) };
    ends.some_before(low, high).intersect(&win_before(step, &Set::all(), awake))
}

/// The stretch of a chosen length that somebody has to be there for up to its end: from when on.
fn to_the_end(step: &Step) -> Option<Minute> {
    let Lasts::Chosen { low, high } = step.lasts else { return None };
    let pieces = step.awake_pieces();
    pieces.last().filter(|&&(_, to)| step.serving.is_none() && to >= high && to > low).map(|piece| piece.0)
}

/// The other stretches of a chosen length that it might end before.
fn cut_short(step: &Step) -> Vec<(Minute, Minute)> {
    let low = step.lasts.low();
    let mut pieces = step.awake_pieces();
    if to_the_end(step).is_some() {
        pieces.pop();
    }
    pieces.retain(|&(_, to)| to > low);
    pieces
}

/// A node for each moment: where one step follows another, the end and the start are one moment.
fn nodes(network: &Network) -> Vec<[usize; 2]> {
    let mut same: Vec<usize> = (0..2 * network.steps.len()).collect();
    for (n, step) in network.steps.iter().enumerate() {
        for &before in &step.follows {
            let (a, b) = (root(&same, 2 * before + 1), root(&same, 2 * n));
            same[a.max(b)] = a.min(b);
        }
    }
    let mut numbers = vec![0; same.len()];
    let mut next = 1;
    for moment in 0..same.len() {
        let root = root(&same, moment);
        if root == moment {
            numbers[moment] = next;
            next += 1;
        } else {
            numbers[moment] = numbers[root];
        }
    }
    numbers.chunks(2).map(|pair| [pair[0], pair[1]]).collect()
}

/// Follows what stands for what to its end.
pub(super) fn root(same: &[usize], mut at: usize) -> usize {
    while same[at] != at {
        at = same[at];
    }
    at
}

/// Which nodes hang together otherwise than by the clock: for each the least number that stands for all.
pub(super) fn bundles<'b>(count: usize, bounds: impl Iterator<Item = &'b Bound>) -> Vec<usize> {
    let mut same: Vec<usize> = (0..count).collect();
    for bound in bounds.filter(|bound| bound.from != 0 && bound.to != 0) {
        let (a, b) = (root(&same, bound.from), root(&same, bound.to));
        same[a.max(b)] = a.min(b);
    }
    (0..count).map(|node| root(&same, node)).collect()
}

/// A bound of a node by the clock alone.
pub(super) fn by_clock(node: usize, first: Minute, last: Minute) -> Bound {
    Bound { from: 0, to: node, low: first.max(-FAR), high: last.min(FAR) }
}
