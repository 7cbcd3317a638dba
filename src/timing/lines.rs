//! Several food lines: choose for every job its waking hours and for jobs that want the same hands an
//! order; what is left is a [network with uncertainty](super::stnu) that is proved or not.
//!
//! A proof is a proof; finding none is not the opposite, for a cleverer way might choose as it goes.

mod choices;
mod windows;

use self::choices::{Choice, has_crowd, settle_single};
use super::chain;
use super::clock::Minute;
use super::network::{Lasts, Network, Point, Serving};
use super::sets::FAR;
use super::stnu::{Bound, Stnu};
use super::timeline::Window;

/// How often a proof is tried before giving up.
pub const TRIES: u32 = 200;
/// More steps than this are not tried: a proof takes time with the cube of their number.
const MOST_STEPS: usize = 60;

/// What can be said of several lines.
#[derive(Debug, Clone)]
pub enum Outcome {
    /// Always on time: when the first step may start, and start and end of each.
    Proved(Window, Vec<(Window, Window)>),
    IfLucky(Vec<(Window, Window)>),
    Never,
    Unknown,
}

struct Model<'a> {
    network: &'a Network,
    stnu: Stnu,
    /// Node of each step's start and end.
    nodes: Vec<[usize; 2]>,
    /// The axis minute of node 0.
    zero: Minute,
    tries: u32,
}

/// Tries up to `tries` proofs.
pub fn solve(network: &Network, tries: u32) -> Outcome {
    if network.steps.is_empty() || network.steps.len() > MOST_STEPS {
        return Outcome::Unknown;
    }
    let mut model = Model::new(network, tries);
    let Some(mut choices) = model.clock_choices() else { return Outcome::Never };
    choices.extend(model.kit_choices());
    settle_single(&mut model.stnu, &mut choices);
    let kept = model.stnu.bounds.len();
    match model.search(&choices, &mut Vec::new(), Goal::Hope) {
        Found::No => return Outcome::Never,
        Found::GaveUp => return Outcome::Unknown,
        Found::Yes => model.stnu.bounds.truncate(kept),
    }
    choices.extend(model.order_choices());
    model.tries = tries;
    if model.search(&choices, &mut Vec::new(), Goal::Proof) == Found::Yes {
        return model.proved().unwrap_or(Outcome::Unknown);
    }
    // Where there was nothing to choose, the proof and its absence are both exact.
    let exact = choices.is_empty() && network.steps.iter().all(|step| step.lasts.looks().is_none());
    let windows = if exact && network.absent.is_empty() { model.hopeful_windows() } else { None };
    windows.map_or(Outcome::Unknown, Outcome::IfLucky)
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Goal {
    /// Nature is on the cook's side.
    Hope,
    Proof,
}

impl<'a> Model<'a> {
    fn new(network: &'a Network, tries: u32) -> Self {
        let nodes = nodes(network);
        let count = nodes.iter().flatten().max().map_or(1, |most| most + 1);
        let total: Minute = network.steps.iter().map(|step| step.lasts.high()).sum();
        let known = network.steps.iter().flat_map(|step| {
            let sets = [chain::on_time(step), step.end_in.clone()];
            sets.into_iter().filter_map(|set| set.first())
        });
        let first = known.filter(|first| *first > -FAR).min().unwrap_or(0);
        let gaps: Minute = network.apart.iter().flat_map(|apart| apart.gaps).sum();
        let zero = first - total - gaps - 24 * 60;
        let mut stnu = Stnu { nodes: count, bounds: Vec::new(), natural: Vec::new() };
        stnu.bounds.extend((1..count).map(|to| Bound { from: 0, to, low: 0, high: FAR }));
        for (step, &[from, to]) in network.steps.iter().zip(&nodes) {
            let (low, high) = (step.lasts.low(), step.lasts.high());
            match step.lasts {
                Lasts::Nature { .. } => {
                    let low = step.lasts.looks().and_then(|all| all.first().copied()).unwrap_or(low);
                    stnu.natural.push(Bound { from, to, low, high });
                }
                _ => stnu.bounds.push(Bound { from, to, low, high }),
            }
            if let Some(Serving::Guests { first, last, late }) = step.serving {
                let coming = stnu.nodes;
                stnu.nodes += 1;
                stnu.natural.push(Bound { from: 0, to: coming, low: first - zero, high: last - zero });
                stnu.bounds.push(Bound { from: coming, to: from, low: 0, high: late });
            }
        }
        let node = |point: Point| nodes[point.step][usize::from(point.end)];
        stnu.bounds.extend(network.links.iter().map(|link| Bound {
            from: node(link.from),
            to: node(link.to),
            low: link.low,
            high: link.high,
        }));
        Self { network, stnu, nodes, zero, tries }
    }

    /// Goes through the choices, the first way first. The bounds of a way that holds stay.
    fn search(&mut self, choices: &[Choice], side_by_side: &mut Vec<(usize, usize)>, goal: Goal) -> Found {
        let Some((choice, rest)) = choices.split_first() else { return self.judge(goal) };
        let people = self.network.people.map_or(usize::MAX, |people| people as usize);
        for (way, bounds) in choice.ways.iter().enumerate() {
            let kept = self.stnu.bounds.len();
            let abreast = choice.pair.filter(|_| way == 0);
            side_by_side.extend(abreast);
            self.stnu.bounds.extend(bounds);
            // More jobs at once than people is no way; a way that already fails is not gone down.
            let crowded = abreast.is_some() && has_crowd(side_by_side, people.saturating_add(1));
            let mut found = if crowded { Found::No } else { Found::Yes };
            if found == Found::Yes && !bounds.is_empty() && !rest.is_empty() {
                found = self.judge(goal);
            }
            if found == Found::Yes {
                found = self.search(rest, side_by_side, goal);
            }
            if found != Found::No {
                return found;
            }
            self.stnu.bounds.truncate(kept);
            if abreast.is_some() {
                side_by_side.pop();
            }
        }
        Found::No
    }

    fn judge(&mut self, goal: Goal) -> Found {
        if self.tries == 0 {
            return Found::GaveUp;
        }
        self.tries -= 1;
        let holds = match goal {
            Goal::Hope => self.stnu.is_hopeful(),
            Goal::Proof => self.stnu.controllable().is_some(),
        };
        if holds { Found::Yes } else { Found::No }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Found {
    Yes,
    No,
    GaveUp,
}

/// A node for each moment: where one step follows another, the end and the start are one moment.
fn nodes(network: &Network) -> Vec<[usize; 2]> {
    let mut same: Vec<usize> = (0..2 * network.steps.len()).collect();
    fn root(same: &[usize], mut moment: usize) -> usize {
        while same[moment] != moment {
            moment = same[moment];
        }
        moment
    }
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
