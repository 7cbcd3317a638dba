//! What gets in each other's way: two uses of one kit that exclude each other, and more work or food at
//! once than there are people or room.

use super::crowds::Pool;
use super::levels::Levels;
use super::loads::{Load, Spell, groups};
use super::model::{Model, Nature, bundles};
use super::reach::Reach;
use crate::timing::clock::Minute;
use crate::timing::network::Lasts;
use crate::timing::sets::FAR;
use crate::timing::stnu::{Bound, Stnu};

/// Moments that hang together in greater numbers than this are not compared each with each.
const MOST_COMPARED: usize = 200;
/// Slack that differs by no more than about this is all the same to further attempts.
const SHUFFLED: u64 = 15;

/// Something that goes on from one node to another, or for a time after it.
#[derive(Debug, Clone, Copy)]
struct Activity {
    begin: usize,
    finish: usize,
    after: Minute,
    /// How long after its begin it may still go on, as far as must be reckoned with.
    longest: Minute,
}

/// Two activities that exclude each other, with the least time between.
#[derive(Debug, Clone, Copy)]
struct Pair {
    of: [usize; 2],
    gaps: [Minute; 2],
}

pub(super) struct Clashes {
    activities: Vec<Activity>,
    pairs: Vec<Pair>,
    pools: Vec<Pool>,
    /// What may be too much in all.
    loads: Vec<Load>,
    /// For each activity which others cannot begin before it is over; 64 to a word.
    over: Vec<Vec<u64>>,
    /// By how much at the least, where that follows from the lengths alone.
    apart: Vec<Vec<Minute>>,
    /// Which attempt this is: all but the first shuffle what has about as much slack.
    attempt: u64,
}

/// One way to settle a clash: `first` is over before `then` begins.
#[derive(Debug, Clone, Copy)]
pub(super) struct Order {
    pub(super) first: usize,
    pub(super) then: usize,
    gap: Minute,
    slack: Minute,
    /// The more, the sooner it is tried.
    rank: Minute,
}

/// What is still to be settled, and the ways to do it, the best first.
pub(super) enum Next {
    Nothing,
    Settle(Vec<Order>),
}

impl Clashes {
    pub(super) fn new(model: &Model<'_>, attempt: u64) -> Self {
        let mut clashes = Self {
            activities: Vec::new(),
            pairs: Vec::new(),
            pools: Vec::new(),
            loads: Vec::new(),
            over: Vec::new(),
            apart: Vec::new(),
            attempt,
        };
        let longest = |n: usize| {
            let lasts = model.network.steps[n].lasts;
            match lasts {
                Lasts::Nature { .. } if model.nature == Nature::Decides => lasts.high(),
                _ => lasts.low(),
            }
        };
        let mut whole = vec![None; model.network.steps.len()];
        let mut in_place = |clashes: &mut Self, n: usize| {
            *whole[n].get_or_insert_with(|| {
                let [begin, finish] = model.nodes[n];
                clashes.activities.push(Activity { begin, finish, after: 0, longest: longest(n) });
                clashes.activities.len() - 1
            })
        };
        for apart in &model.network.apart {
            let of = apart.steps.map(|step| in_place(&mut clashes, step));
            clashes.pairs.push(Pair { of, gaps: apart.gaps });
        }
        let pairs: Vec<_> = clashes.pairs.iter().map(|pair| (pair.of, pair.gaps)).collect();
        clashes.loads = groups(clashes.activities.len(), &pairs);
        let lasts = |n: usize| match model.nature {
            Nature::Kindest => model.network.steps[n].lasts.low(),
            _ => model.network.steps[n].lasts.high(),
        };
        for room in &model.network.rooms {
            let there = room.takes.iter().filter(|&&(n, much)| much > 0 && lasts(n) > 0);
            let takes = there.map(|&(n, much)| (in_place(&mut clashes, n), much)).collect();
            clashes.pool(Pool { limit: room.limit, takes });
        }
        if let Some(people) = model.network.people {
            let mut takes = Vec::new();
            for (n, step) in model.network.steps.iter().enumerate().filter(|(_, step)| step.needs.busy > 0) {
                let [begin, finish] = model.nodes[n];
                let throughout = step.serving.is_none() && step.needs.busy >= step.lasts.high();
                let busy =
                    if step.serving.is_some() { step.needs.busy } else { step.needs.busy.min(lasts(n)) };
                if busy == 0 {
                    continue;
                }
                takes.push((clashes.activities.len(), 1));
                clashes.activities.push(match throughout {
                    true => Activity { begin, finish, after: 0, longest: longest(n) },
                    false => Activity { begin, finish: begin, after: busy, longest: busy },
                });
            }
            clashes.pool(Pool { limit: i64::from(people), takes });
        }
        clashes.compare(model);
        clashes
    }

    /// Two that already exceed the limit exclude each other; of the rest the sum is looked at.
    fn pool(&mut self, pool: Pool) {
        if pool.takes.iter().map(|take| take.1).sum::<i64>() <= pool.limit {
            return;
        }
        self.loads.push(Load { pool: pool.clone(), gap: 0 });
        let mut together = false;
        for (n, &(a, first)) in pool.takes.iter().enumerate() {
            for &(b, second) in &pool.takes[n + 1..] {
                if first + second > pool.limit {
                    self.pairs.push(Pair { of: [a, b], gaps: [0, 0] });
                } else {
                    together = true;
                }
            }
        }
        if together {
            self.pools.push(pool);
        }
    }

    /// How far apart activities are by the lengths of steps alone.
    fn compare(&mut self, model: &Model<'_>) {
        let count = self.activities.len();
        self.over = vec![vec![0; count.div_ceil(64)]; count];
        self.apart = vec![vec![-FAR; count]; count];
        let all = || model.bounds.iter().chain(&model.natural);
        let bundle = bundles(model.count, all());
        for one in 0..model.count {
            let members: Vec<usize> =
                (0..model.count).filter(|&node| node != 0 && bundle[node] == one).collect();
            let here = |activity: &Activity| bundle[activity.begin] == one;
            if members.len() > MOST_COMPARED || self.activities.iter().filter(|a| here(a)).count() < 2 {
                continue;
            }
            let place = |node: usize| members.binary_search(&node).ok();
            let inner = all()
                .filter_map(|bound| Some(Bound { from: place(bound.from)?, to: place(bound.to)?, ..*bound }));
            let part = Stnu { nodes: members.len(), bounds: inner.collect(), natural: Vec::new() };
            let most = part.distances();
            for a in (0..count).filter(|&a| here(&self.activities[a])) {
                for b in (0..count).filter(|&b| b != a && here(&self.activities[b])) {
                    let (first, then) = (self.activities[a], self.activities[b]);
                    let (Some(finish), Some(begin)) = (place(first.finish), place(then.begin)) else {
                        continue;
                    };
                    let least = -most[begin][finish] - first.after;
                    self.apart[a][b] = least;
                    if least >= 0 {
                        self.over[a][b / 64] |= 1 << (b % 64);
                    }
                }
            }
        }
    }

    /// Notes an order, and gives what it was before for [`Self::forget`].
    pub(super) fn note(&mut self, order: Order) -> Vec<(usize, Vec<u64>)> {
        let mut after = self.over[order.then].clone();
        after[order.then / 64] |= 1 << (order.then % 64);
        let mut changed = Vec::new();
        for n in 0..self.over.len() {
            if n == order.first || self.is_over(n, order.first) {
                changed.push((n, self.over[n].clone()));
                self.over[n].iter_mut().zip(&after).for_each(|(word, more)| *word |= more);
            }
        }
        changed
    }

    pub(super) fn forget(&mut self, changed: Vec<(usize, Vec<u64>)>) {
        for (n, words) in changed {
            self.over[n] = words;
        }
    }

    fn is_over(&self, first: usize, then: usize) -> bool {
        self.over[first][then / 64] >> (then % 64) & 1 == 1
    }

    /// The bound of an order.
    pub(super) fn bound(&self, order: Order) -> Bound {
        let (first, then) = (self.activities[order.first], self.activities[order.then]);
        Bound { from: first.finish, to: then.begin, low: first.after + order.gap, high: FAR }
    }

    /// Whether something is too much in all, and which decisions made it so.
    pub(super) fn overload(&self, reach: &Reach<'_>) -> Option<Levels> {
        let spell = |one: usize| {
            let Activity { begin, finish, after, longest } = self.activities[one];
            Spell { first: reach.earliest(begin), over: reach.latest(finish) + after, length: longest }
        };
        let full = self.loads.iter().find_map(|load| load.too_much(spell))?;
        let mut levels = Levels::default();
        for one in full {
            reach.explain(self.activities[one].begin, false, &mut levels);
            reach.explain(self.activities[one].finish, true, &mut levels);
        }
        Some(levels)
    }

    /// Whether `first` is over so long before `then` begins in any case.
    fn settled(&self, reach: &Reach<'_>, first: usize, then: usize, gap: Minute) -> bool {
        let (one, other) = (self.activities[first], self.activities[then]);
        (gap <= 0 && self.is_over(first, then))
            || self.apart[first][then] >= gap
            || reach.latest(one.finish).saturating_add(one.after + gap) <= reach.earliest(other.begin)
    }

    fn order(&self, reach: &Reach<'_>, first: usize, then: usize, gap: Minute) -> Order {
        let (one, other) = (self.activities[first], self.activities[then]);
        let done = (reach.earliest(one.finish) + one.after).max(reach.earliest(one.begin) + one.longest);
        let slack = reach.latest(other.begin) - done - gap;
        Order { first, then, gap, slack, rank: slack + self.shuffle(first, then) }
    }

    /// Some minutes more or less, the same every time.
    fn shuffle(&self, first: usize, then: usize) -> Minute {
        if self.attempt == 0 {
            return 0;
        }
        let mut mixed = self.attempt.wrapping_mul(0x9e37_79b9_7f4a_7c15);
        for part in [first, then] {
            mixed = (mixed ^ part as u64).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            mixed ^= mixed >> 29;
        }
        (mixed % (2 * SHUFFLED + 1)) as Minute - SHUFFLED as Minute
    }

    /// What a look for the next clash costs, in small steps.
    pub(super) fn cost(&self) -> u64 {
        let members = self.pools.iter().map(|pool| pool.takes.len().pow(2));
        (self.pairs.len() + self.activities.len() + members.sum::<usize>()) as u64
    }

    /// What to settle next: what leaves the least choice.
    pub(super) fn next(&self, reach: &Reach<'_>, posted: &[Order]) -> Next {
        let mut best: Option<(f64, [Order; 2])> = None;
        for pair in &self.pairs {
            let ([a, b], [ab, ba]) = (pair.of, pair.gaps);
            let done = |first, then, gap| {
                let said = |order: &Order| order.first == first && order.then == then && order.gap >= gap;
                self.settled(reach, first, then, gap) || gap > 0 && posted.iter().any(said)
            };
            if done(a, b, ab) || done(b, a, ba) {
                continue;
            }
            let (mut one, mut other) = (self.order(reach, a, b, ab), self.order(reach, b, a, ba));
            if other.rank > one.rank {
                std::mem::swap(&mut one, &mut other);
            }
            if one.slack.min(other.slack) < 0 {
                let ways = if one.slack < other.slack { vec![other, one] } else { vec![one, other] };
                return Next::Settle(ways);
            }
            // From memory: the biased slack of Smith and Cheng 1993.
            let (least, most) = (other.rank.max(0) as f64, one.rank.max(0) as f64);
            let biased = least / (least.max(1.0) / most.max(1.0)).sqrt();
            if best.as_ref().is_none_or(|(known, _)| biased < *known) {
                best = Some((biased, [one, other]));
            }
        }
        if let Some((_, ways)) = best {
            return Next::Settle(ways.to_vec());
        }
        let mut found: Option<Vec<Order>> = None;
        for pool in &self.pools {
            let crowd = pool.crowd(|a, b| self.settled(reach, a, b, 0));
            if crowd.is_empty() {
                continue;
            }
            let ways = self.ways(reach, pool, crowd);
            let rank = |ways: &Vec<Order>| ways.first().map_or(-FAR, |order| order.rank);
            if found.as_ref().is_none_or(|known| rank(&ways) < rank(known)) {
                found = Some(ways);
            }
        }
        found.map_or(Next::Nothing, Next::Settle)
    }

    /// Every order of two of those of a crowd that have the least slack and still are too many, the one with
    /// the most slack first.
    fn ways(&self, reach: &Reach<'_>, pool: &Pool, mut crowd: Vec<usize>) -> Vec<Order> {
        let takes = |one: usize| pool.takes.iter().find(|take| take.0 == one).map_or(0, |take| take.1);
        let mut over = crowd.iter().map(|&one| takes(one)).sum::<i64>() - pool.limit;
        let pairs = crowd.iter().flat_map(|&a| crowd.iter().map(move |&b| (a, b)));
        let mut ways: Vec<Order> =
            pairs.filter(|(a, b)| a != b).map(|(a, b)| self.order(reach, a, b, 0)).collect();
        ways.sort_by_key(|order| (-order.rank, order.first, order.then));
        let free = |one: &usize| {
            let activity = self.activities[*one];
            reach.latest(activity.begin) - reach.earliest(activity.finish) - activity.after
        };
        for way in &ways {
            let mut both = [way.first, way.then];
            both.sort_by_key(|one| -free(one));
            for one in both {
                // The rest is still too much without it.
                if crowd.contains(&way.first) && crowd.contains(&way.then) && takes(one) < over {
                    crowd.retain(|other| *other != one);
                    over -= takes(one);
                }
            }
        }
        ways.retain(|way| crowd.contains(&way.first) && crowd.contains(&way.then));
        ways
    }
}
