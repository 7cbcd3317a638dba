//! The search for a way: settles what leaves the least choice, and goes back to the decision that is to
//! blame where it cannot go on. Deterministic, and bounded by steps.

use super::clashes::{Clashes, Next, Order};
use super::growing::Growing;
use super::levels::Levels;
use super::model::{Model, Nature, by_clock};
use super::proof::before_all;
use super::reach::Reach;
use super::way::Decided;
use crate::stop;
use crate::timing::clock::Minute;
use crate::timing::sets::{FAR, Set};
use crate::timing::stnu::Bound;

/// How much is tried before giving up.
#[derive(Debug, Clone, Copy)]
pub struct Effort {
    /// Decisions that are made.
    pub steps: u32,
    /// Proofs of dynamic controllability, each in the worst case cubic in the steps of the network.
    pub proofs: u32,
    /// In so many attempts, each with its part of it: one that has gone astray seldom finds back.
    pub attempts: u32,
}

impl Effort {
    /// For the verdict on a file.
    pub const WHOLE: Self = Self { steps: 16_000, proofs: 800, attempts: 16 };
    /// For a cure that is to be offered.
    pub const LONG: Self = Self { steps: 8_000, proofs: 400, attempts: 8 };
    /// For one of many questions behind a verdict.
    pub const SHORT: Self = Self { steps: 2_000, proofs: 60, attempts: 2 };
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Found {
    Yes,
    No,
    GaveUp,
}

/// Why the search turned back.
enum Back {
    /// These decisions cannot stand together.
    Blame(Levels),
    GaveUp,
}

/// A decision: one of these ways.
enum Choice {
    Orders(Vec<Order>),
    Times(Vec<Vec<Bound>>),
}

pub(super) struct Search<'m> {
    pub(super) model: &'m Model<'m>,
    pub(super) reach: Option<Reach<'m>>,
    clashes: Clashes,
    /// Orders and times that were decided on, with their level.
    pub(super) posted: Vec<(Bound, u32)>,
    pub(super) orders: Vec<Order>,
    effort: Effort,
    made: u32,
    /// What all of that cost, in small steps; the growing network counts its own.
    work: u64,
    level: u32,
    branched: bool,
    /// What is settled, where nature decides; `None` if that leaves no strategy from the first.
    growing: Option<Growing>,
    /// The beginning of an axis on which everything comes after it.
    pub(super) zero: Minute,
}

impl<'m> Search<'m> {
    /// Attempts one after the other until one tells; the last one.
    pub(super) fn tried(model: &'m Model<'m>, effort: Effort) -> (Self, Found) {
        let share = Effort {
            steps: effort.steps / effort.attempts.max(1),
            proofs: effort.proofs / effort.attempts.max(1),
            attempts: 1,
        };
        let (mut made, mut work) = (0, 0);
        let mut attempt = 0;
        loop {
            let mut search = Self::new(model, share, attempt);
            search.watch();
            let found = search.run();
            made += search.made;
            work += search.work();
            attempt += 1;
            if found != Found::GaveUp || attempt >= u64::from(effort.attempts) {
                (search.made, search.work) = (made, work);
                return (search, found);
            }
        }
    }

    fn new(model: &'m Model<'m>, effort: Effort, attempt: u64) -> Self {
        Self {
            model,
            reach: Reach::new(model).ok(),
            clashes: Clashes::new(model, attempt),
            posted: Vec::new(),
            orders: Vec::new(),
            effort,
            made: 0,
            work: (model.count * model.count) as u64,
            level: 0,
            branched: false,
            growing: None,
            zero: before_all(model),
        }
    }

    /// Watches from here on whether a strategy is left, where nature decides.
    fn watch(&mut self) {
        if self.model.nature == Nature::Decides {
            let bounds: Vec<Bound> =
                self.settled().into_iter().map(|(bound, _)| self.on_axis(bound)).collect();
            let natural: Vec<Bound> = self.model.natural.iter().map(|link| self.on_axis(*link)).collect();
            self.growing = Growing::new(self.model.count, &natural, &bounds).ok();
        }
    }

    /// A bound on an axis whose beginning lies before everything.
    pub(super) fn on_axis(&self, bound: Bound) -> Bound {
        let sign = Minute::from(bound.from == 0) - Minute::from(bound.to == 0);
        let shift = |minute: Minute| if minute.abs() >= FAR { minute } else { minute - sign * self.zero };
        Bound { low: shift(bound.low), high: shift(bound.high), ..bound }
    }

    /// With all of this decided; `None` where it cannot stand, or leaves something to decide.
    pub(super) fn decided(model: &'m Model<'m>, decided: &Decided) -> Option<Self> {
        let mut search = Self::new(model, Effort::SHORT, 0);
        search.reach.as_mut()?.post(&decided.bounds, 0).ok()?;
        search.posted.extend(decided.bounds.iter().map(|bound| (*bound, 0)));
        for order in &decided.orders {
            search.clashes.note(*order);
            search.orders.push(*order);
        }
        matches!(search.choice(), Ok(None)).then_some(search)
    }

    /// Decisions made so far.
    pub(super) fn steps(&self) -> u32 {
        self.made
    }

    fn work(&self) -> u64 {
        self.work + self.growing.as_ref().map_or(0, |growing| growing.work)
    }

    /// What everything that was tried cost, in small steps.
    pub(super) fn cost(&self) -> u64 {
        self.work
    }

    /// Whether that no way was found proves that there is none, however cleverly one chose: nothing had
    /// to be settled beforehand.
    pub(super) fn is_exact(&self) -> bool {
        !self.branched && !self.model.cautious
    }

    /// Goes down to the first way that holds; what was decided for it stays.
    fn run(&mut self) -> Found {
        if self.reach.as_ref().is_none_or(|reach| self.clashes.overload(reach).is_some()) {
            return Found::No;
        }
        let stuck = self.model.nature == Nature::Decides && self.growing.is_none();
        if stuck && self.prove(None).is_err() {
            return Found::No;
        }
        match self.down() {
            Ok(()) => Found::Yes,
            Err(Back::Blame(_)) => Found::No,
            Err(Back::GaveUp) => Found::GaveUp,
        }
    }

    fn down(&mut self) -> Result<(), Back> {
        let Some(choice) = self.choice()? else { return self.judge() };
        self.branched = true;
        self.level += 1;
        let level = self.level;
        let mut blame = Levels::default();
        let ways = match &choice {
            Choice::Orders(orders) => orders.len(),
            Choice::Times(times) => times.len(),
        };
        for way in 0..ways {
            if self.made >= self.effort.steps {
                return Err(Back::GaveUp);
            }
            stop::here();
            self.made += 1;
            self.work += self.clashes.cost();
            let tried = match &choice {
                Choice::Orders(orders) => self.order(orders[way], level),
                Choice::Times(times) => self.settle(&times[way], level),
            };
            match tried {
                Ok(()) => return Ok(()),
                Err(Back::Blame(levels)) if levels.contains(level) => blame.extend(&levels),
                Err(Back::Blame(levels)) => {
                    // This decision has no part in it: further back.
                    self.level = level - 1;
                    return Err(Back::Blame(levels));
                }
                Err(Back::GaveUp) => return Err(Back::GaveUp),
            }
        }
        self.level = level - 1;
        blame.remove(level);
        Err(Back::Blame(blame))
    }

    fn order(&mut self, order: Order, level: u32) -> Result<(), Back> {
        let bound = self.clashes.bound(order);
        let changed = self.clashes.note(order);
        self.orders.push(order);
        let tried = self.settle(&[bound], level);
        if tried.is_err() {
            self.orders.pop();
            self.clashes.forget(changed);
        }
        tried
    }

    /// Goes on with these bounds.
    fn settle(&mut self, bounds: &[Bound], level: u32) -> Result<(), Back> {
        let Some(reach) = &mut self.reach else { return Err(Back::GaveUp) };
        let (mark, posted) = (reach.mark(), self.posted.len());
        let grown = self.growing.as_ref().map_or(0, Growing::mark);
        self.posted.extend(bounds.iter().map(|bound| (*bound, level)));
        let tried = match reach.post(bounds, level).map_or_else(Some, |()| self.clashes.overload(reach)) {
            Some(levels) => Err(Back::Blame(levels)),
            None => self.grow(bounds).and_then(|()| self.down()),
        };
        if tried.is_err() {
            self.posted.truncate(posted);
            self.level = level;
            if let Some(reach) = &mut self.reach {
                reach.undo(mark);
            }
            if let Some(growing) = &mut self.growing {
                growing.undo(grown);
            }
        }
        tried
    }

    /// Whether there still is a strategy with these bounds.
    fn grow(&mut self, bounds: &[Bound]) -> Result<(), Back> {
        let bounds: Vec<Bound> = bounds.iter().map(|bound| self.on_axis(*bound)).collect();
        let Some(growing) = &mut self.growing else { return Ok(()) };
        if growing.post(&bounds).is_ok() {
            return Ok(());
        }
        self.proof(Some(bounds[0].to))?;
        Ok(())
    }

    fn choice(&self) -> Result<Option<Choice>, Back> {
        let Some(reach) = &self.reach else { return Err(Back::GaveUp) };
        if self.model.nature == Nature::Decides
            && let Some(times) = self.split(reach).or_else(|| self.stretch(reach))
        {
            return Ok(Some(Choice::Times(times)));
        }
        match self.clashes.next(reach, &self.orders) {
            Next::Nothing => Ok(None),
            Next::Settle(orders) => Ok(Some(Choice::Orders(orders))),
        }
    }

    /// A moment that the cook sets, on this side of sleep or on that: the latest first.
    fn split(&self, reach: &Reach<'_>) -> Option<Vec<Vec<Bound>>> {
        let parts = |node: usize| {
            let window = Set::range(reach.earliest(node), reach.latest(node));
            self.model.domains[node].intersect(&window)
        };
        let all = (1..self.model.count).filter(|&node| !self.model.natural_nodes[node]);
        let several = all.map(|node| (node, parts(node).intervals().len())).filter(|(_, parts)| *parts > 1);
        let (node, _) = several.min_by_key(|(node, parts)| (*parts, *node))?;
        // Those outside the window are tried too, for what they fail on is to blame as well.
        let ways = self.model.domains[node].intervals().iter().rev();
        Some(ways.map(|&(first, last)| vec![by_clock(node, first, last)]).collect())
    }

    /// Work that ends when the cook likes, in one stretch of waking hours or another.
    fn stretch(&self, reach: &Reach<'_>) -> Option<Vec<Vec<Bound>>> {
        let awake = self.model.network.absent.complement();
        self.model.watched().find_map(|(step, from)| {
            let [start, end] = self.model.nodes[step];
            let (first, last) = (reach.earliest(start) + from, reach.latest(end) - 1);
            let inside = |&(begin, until): &(Minute, Minute)| begin <= first && last <= until;
            if last < first || awake.intervals().iter().any(inside) {
                return None;
            }
            let ways = awake.intervals().iter().rev().map(|&(begin, until)| {
                let bed = if until >= FAR { FAR } else { until + 1 };
                let begin = if begin <= -FAR { -FAR } else { begin - from };
                vec![by_clock(start, begin, FAR), by_clock(end, -FAR, bed)]
            });
            Some(ways.collect())
        })
    }

    /// Everything is settled: does it hold?
    fn judge(&mut self) -> Result<(), Back> {
        let Some(reach) = &self.reach else { return Err(Back::GaveUp) };
        if self.model.nature != Nature::Decides {
            // The earliest minutes are a plan.
            return if reach.cut { Err(Back::GaveUp) } else { Ok(()) };
        }
        self.proof(None)
    }

    /// Proves all that is settled, or the part of it that a node is in.
    fn proof(&mut self, node: Option<usize>) -> Result<(), Back> {
        self.effort.proofs = self.effort.proofs.checked_sub(1).ok_or(Back::GaveUp)?;
        self.prove(node).map_err(Back::Blame)
    }
}
