//! The strategy behind a proof: when to start and end what the cook decides, given what has happened so
//! far. This is what "always on time" promises.
//!
//! All bounds that follow are worked out beforehand, and for each moment how long it has to wait for
//! nature's lengths that are still running. Then each moment can be set with a look at its neighbours:
//! P. Morris and N. Muscettola, Temporal dynamic controllability revisited, AAAI 2005 (rules from memory).

use super::game::{Book, Reading};
use super::proof::Part;
use crate::timing::clock::Minute;
use crate::timing::sets::FAR;
use crate::timing::stnu::{Bound, Stnu};

/// How to set every moment of a network.
#[derive(Debug, Clone)]
pub struct Strategy(Written);

/// What it is written in.
#[derive(Debug, Clone)]
enum Written {
    /// The orders are fixed beforehand, and rules tell each moment when it may be set.
    Rules(Ordered),
    /// The orders are left open, and a book tells what to do next.
    Book(Box<Book>),
}

#[derive(Debug, Clone)]
struct Ordered {
    parts: Vec<Rules>,
    /// Of each step's start and end: its part, and its node there.
    steps: Vec<[(usize, usize); 2]>,
    /// Of each party of guests: as above.
    guests: Vec<(usize, usize)>,
    zero: Minute,
}

/// A network in which everything that follows is written out.
#[derive(Debug, Clone)]
pub(super) struct Rules {
    /// The most that each node can come after each other.
    most: Vec<Vec<Minute>>,
    /// How long after the start of each of nature's lengths a node has to wait while that goes on; a negative
    /// wait bounds the start by the node, and `-FAR` is none.
    waits: Vec<Vec<Minute>>,
    natural: Vec<Bound>,
}

/// What happens next if nothing ends before. Where the order is left open it makes no difference.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// Everything as soon as it may be.
    Soonest,
    /// Everything as late as it may be.
    Latest,
}

impl Strategy {
    pub(super) fn new(parts: &[Part], nodes: &[[usize; 2]], guests: &[usize], zero: Minute) -> Option<Self> {
        let place = |node: usize| {
            let part = parts.iter().position(|part| part.nodes[1..].contains(&node))?;
            Some((part, parts[part].nodes.iter().position(|&other| other == node)?))
        };
        let steps: Option<_> = nodes.iter().map(|&[a, b]| Some([place(a)?, place(b)?])).collect();
        let guests: Option<_> = guests.iter().map(|&node| place(node)).collect();
        let rules: Option<_> = parts.iter().map(|part| Rules::of(&part.stnu)).collect();
        Some(Self(Written::Rules(Ordered { parts: rules?, steps: steps?, guests: guests?, zero })))
    }

    pub(super) fn by(book: Book) -> Self {
        Self(Written::Book(Box::new(book)))
    }

    /// A run of it, of which nothing has happened yet.
    pub fn play(&self) -> Play<'_> {
        Play(match &self.0 {
            Written::Rules(orders) => Run::Rules(orders.play()),
            Written::Book(book) => Run::Book(book.read()),
        })
    }
}

impl Ordered {
    fn play(&self) -> Setting<'_> {
        let start = |rules: &Rules| {
            let mut at = vec![None; rules.most.len()];
            at[0] = Some(0);
            at
        };
        Setting { orders: self, at: self.parts.iter().map(start).collect() }
    }
}

impl Rules {
    pub(super) fn of(stnu: &Stnu) -> Option<Self> {
        let natural: Vec<Bound> = stnu.natural.iter().copied().filter(|link| link.low < link.high).collect();
        let mut rules =
            Self { most: stnu.distances(), waits: vec![vec![-FAR; natural.len()]; stnu.nodes], natural };
        for (k, link) in rules.natural.iter().enumerate() {
            rules.waits[link.to][k] = link.high;
        }
        // Every round that changes anything makes something tighter; a network that is not controllable
        // would go on for ever.
        for _ in 0..2 * stnu.nodes + 10 {
            if !rules.derive() {
                let consistent = (0..stnu.nodes).all(|node| rules.most[node][node] >= 0);
                return consistent.then_some(rules);
            }
            close(&mut rules.most);
        }
        None
    }

    /// Whether everything that a plan may do before it sees the end of one length is allowed here too, where that end
    /// comes later than the plan knows.
    pub(super) fn allow(&self, plan: &Self, end: usize) -> bool {
        let Some(length) = plan.natural.iter().position(|link| link.to == end) else { return false };
        let longest = plan.natural[length].high;
        let before =
            |node: &usize| *node != end && plan.most[*node][end] > 0 && plan.waits[*node][length] < longest;
        let before: Vec<usize> = (0..plan.most.len()).filter(|node| *node == 0 || before(node)).collect();
        let same: Option<Vec<usize>> = self
            .natural
            .iter()
            .map(|link| plan.natural.iter().position(|other| other.to == link.to))
            .collect();
        same.is_some_and(|same| {
            before.iter().all(|&node| {
                before.iter().all(|&other| self.most[node][other] >= plan.most[node][other])
                    && same.iter().zip(&self.waits[node]).all(|(&k, wait)| *wait <= plan.waits[node][k])
            })
        })
    }

    /// One round of what follows from what; whether anything was new.
    fn derive(&mut self) -> bool {
        let mut changed = false;
        for k in 0..self.natural.len() {
            let Bound { from: start, to: end, low, .. } = self.natural[k];
            for node in 0..self.most.len() {
                // Before the end of a length by so much is before its least.
                let before = self.most[end][node];
                if node != end && before < 0 {
                    changed |= lower(&mut self.most[start][node], low + before);
                }
                // What waits for something is waited for by what must not be long before it.
                let wait = self.waits[node][k];
                for other in
                    (0..self.most.len()).filter(|&other| wait > -FAR && other != node && other != end)
                {
                    let after = self.most[other][node];
                    changed |= after < FAR && raise(&mut self.waits[other][k], wait - after);
                }
            }
            // What waits for the end of one length at the end of another waits from that one's start.
            for (_, link) in self.natural.iter().enumerate().filter(|(j, _)| *j != k) {
                let wait = self.waits[link.to][k];
                changed |= wait > 0 && raise(&mut self.waits[link.from][k], wait - link.low);
            }
            // Until its least nothing can have ended, so a wait up to there is a bound.
            for node in (0..self.most.len()).filter(|&node| node != end) {
                let wait = self.waits[node][k];
                changed |= wait > -FAR && lower(&mut self.most[node][start], -wait.min(low));
            }
        }
        changed
    }
}

fn lower(value: &mut Minute, to: Minute) -> bool {
    let new = to < *value;
    *value = to.min(*value);
    new
}

fn raise(value: &mut Minute, to: Minute) -> bool {
    let new = to > *value;
    *value = to.max(*value);
    new
}

/// The shortest way between every two.
fn close(most: &mut [Vec<Minute>]) {
    for via in 0..most.len() {
        let through = most[via].clone();
        for row in most.iter_mut() {
            let first = row[via];
            if first < FAR {
                for (to, second) in row.iter_mut().zip(&through).filter(|(_, second)| **second < FAR) {
                    *to = (*to).min(first + second);
                }
            }
        }
    }
}

/// A run of a strategy: what has happened, and when.
#[derive(Debug, Clone)]
pub struct Play<'s>(Run<'s>);

#[derive(Debug, Clone)]
enum Run<'s> {
    Rules(Setting<'s>),
    Book(Reading<'s>),
}

impl Play<'_> {
    /// When a step started, or ended, on the axis.
    pub fn when(&self, step: usize, end: bool) -> Option<Minute> {
        match &self.0 {
            Run::Rules(setting) => setting.when(step, end),
            Run::Book(reading) => reading.when(step, end),
        }
    }

    /// Nature ends a step.
    pub fn ended(&mut self, step: usize, minute: Minute) {
        match &mut self.0 {
            Run::Rules(setting) => setting.set(setting.orders.steps[step][1], minute),
            Run::Book(reading) => reading.ended(step, minute),
        }
    }

    /// The nth of [`Network::parties`](crate::timing::network::Network::parties) comes.
    pub fn came(&mut self, nth: usize, minute: Minute) {
        match &mut self.0 {
            Run::Rules(setting) => setting.set(setting.orders.guests[nth], minute),
            Run::Book(reading) => reading.came(nth, minute),
        }
    }

    /// From `now` on, the next minute at which something is to be done at this pace if nature ends nothing
    /// before; `None` if first she has to end something, or all is done.
    pub fn next(&self, now: Minute, pace: Pace) -> Option<Minute> {
        match &self.0 {
            Run::Rules(setting) => setting.next(now, pace),
            Run::Book(reading) => reading.next(),
        }
    }

    /// Does what is to be done next, at that minute.
    pub fn act(&mut self, now: Minute, pace: Pace) {
        match &mut self.0 {
            Run::Rules(setting) => setting.act(now, pace),
            Run::Book(reading) => reading.act(),
        }
    }
}

/// A run with the orders fixed beforehand.
#[derive(Debug, Clone)]
struct Setting<'s> {
    orders: &'s Ordered,
    /// By part and node, minutes after the beginning of the axis.
    at: Vec<Vec<Option<Minute>>>,
}

impl Setting<'_> {
    fn when(&self, step: usize, end: bool) -> Option<Minute> {
        let (part, node) = self.orders.steps[step][usize::from(end)];
        Some(self.at[part][node]? + self.orders.zero)
    }

    fn set(&mut self, (part, node): (usize, usize), minute: Minute) {
        self.at[part][node] = Some(minute - self.orders.zero);
    }

    fn next(&self, now: Minute, pace: Pace) -> Option<Minute> {
        self.ready(now - self.orders.zero, pace).map(|(minute, ..)| minute + self.orders.zero)
    }

    fn act(&mut self, now: Minute, pace: Pace) {
        if let Some((minute, part, node)) = self.ready(now - self.orders.zero, pace) {
            self.at[part][node] = Some(minute);
        }
    }

    fn ready(&self, now: Minute, pace: Pace) -> Option<(Minute, usize, usize)> {
        let mut best: Option<(Minute, usize, usize)> = None;
        for (part, rules) in self.orders.parts.iter().enumerate() {
            let at = &self.at[part];
            for node in (1..at.len()).filter(|&node| at[node].is_none()) {
                let Some((first, last)) = rules.window(at, node) else { continue };
                let minute = match pace {
                    Pace::Soonest => first.max(now),
                    Pace::Latest => if last < FAR { last } else { first }.max(now),
                };
                if best.is_none_or(|(known, ..)| minute < known) {
                    best = Some((minute, part, node));
                }
            }
        }
        best
    }
}

impl Rules {
    /// When a node may be set, if nothing else has to come before.
    fn window(&self, at: &[Option<Minute>], node: usize) -> Option<(Minute, Minute)> {
        if self.natural.iter().any(|link| link.to == node) {
            return None;
        }
        let is_natural = |other: usize| self.natural.iter().any(|link| link.to == other);
        let (mut first, mut last) = (0, FAR);
        for (other, &when) in at.iter().enumerate().filter(|(other, _)| *other != node) {
            let (to, from) = (self.most[node][other], self.most[other][node]);
            match when {
                Some(when) => {
                    if to < FAR {
                        first = first.max(when - to);
                    }
                    if from < FAR {
                        last = last.min(when + from);
                    }
                }
                None if to < 0 || to == 0 && (from > 0 || is_natural(other)) => return None,
                None => {}
            }
        }
        for (k, link) in self.natural.iter().enumerate().filter(|(k, _)| self.waits[node][*k] > 0) {
            if at[link.to].is_none() {
                first = first.max(at[link.from]? + self.waits[node][k]);
            }
        }
        Some((first, last))
    }
}
