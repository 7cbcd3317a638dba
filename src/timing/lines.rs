//! Several food lines: choose for every job its waking hours and for jobs that want the same hands an
//! order; what is left is a [network with uncertainty](super::stnu) that is proved or not.
//!
//! A proof is a proof; finding none is not the opposite, for a cleverer way might choose as it goes.

use super::chain;
use super::clock::Minute;
use super::network::{Lasts, Network, Point, Serving};
use super::sets::{FAR, Set};
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

/// Something to be settled before the proof: each way adds bounds.
struct Choice {
    ways: Vec<Vec<Bound>>,
    /// Two jobs that the first way lets go on side by side.
    pair: Option<(usize, usize)>,
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
        let zero = first - total - 24 * 60;
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

    /// The clock's bounds and the waking hours of every job; `None` if something has no time at all.
    fn clock_choices(&self) -> Option<Vec<Choice>> {
        let awake = self.network.absent.complement();
        let hopeful = self.stnu.hopeful()?;
        let reach = |node: usize| {
            let (low, high) = hopeful[node];
            Set::range(low + self.zero, if high >= FAR { FAR } else { high + self.zero })
        };
        let mut choices = Vec::new();
        let mut within = |node: usize, set: &Set| self.ways(node, &set.intersect(&reach(node)), &mut choices);
        for (step, &[start, end]) in self.network.steps.iter().zip(&self.nodes) {
            if !matches!(step.serving, Some(Serving::Guests { .. })) {
                within(start, &chain::on_time(step))?;
            }
            within(end, &step.end_in)?;
            if step.needs.at_end {
                within(end, &awake)?;
            }
        }
        for (step, &[start, end]) in self.network.steps.iter().zip(&self.nodes) {
            if self.network.absent.is_empty() {
                break;
            }
            for (from, to) in step.awake_pieces() {
                if step.serving.is_none() && to >= step.lasts.high() {
                    self.awake_to_the_end(start, end, from, &reach(start), &mut choices)?;
                } else {
                    let all = awake.all_before(from, to - 1).intersect(&reach(start));
                    self.ways(start, &all, &mut choices)?;
                }
            }
        }
        Some(choices)
    }

    /// A node inside one interval of a set, the latest first.
    fn ways(&self, node: usize, set: &Set, choices: &mut Vec<Choice>) -> Option<()> {
        let ways: Vec<Vec<Bound>> = set
            .intervals()
            .iter()
            .rev()
            .map(|&(first, last)| vec![self.clock_bound(node, first, last)])
            .collect();
        (!ways.is_empty()).then(|| choices.push(Choice { ways, pair: None }))
    }

    /// From `from` minutes after its start to its end a step lies inside one stretch of waking hours.
    fn awake_to_the_end(
        &self,
        start: usize,
        end: usize,
        from: Minute,
        reach: &Set,
        choices: &mut Vec<Choice>,
    ) -> Option<()> {
        let awake = self.network.absent.complement();
        let mut ways = Vec::new();
        for &(first, last) in awake.intervals().iter().rev() {
            let begin = Set::range(first, last).some_before(from, from);
            if let (false, Some(&(low, high))) =
                (begin.intersect(reach).is_empty(), begin.intervals().first())
            {
                let bed = if last >= FAR { FAR } else { last + 1 };
                ways.push(vec![self.clock_bound(start, low, high), self.clock_bound(end, -FAR, bed)]);
            }
        }
        (!ways.is_empty()).then(|| choices.push(Choice { ways, pair: None }))
    }

    fn clock_bound(&self, node: usize, first: Minute, last: Minute) -> Bound {
        let at = |minute: Minute| if minute.abs() >= FAR { minute } else { minute - self.zero };
        Bound { from: 0, to: node, low: at(first), high: at(last) }
    }

    /// Every two jobs that may want hands at once go on side by side, or in one order or the other.
    fn order_choices(&self) -> Vec<Choice> {
        let Some(people) = self.network.people else { return Vec::new() };
        let most = self.stnu.distances();
        let jobs: Vec<usize> =
            (0..self.nodes.len()).filter(|&step| self.network.steps[step].needs.busy > 0).collect();
        let first_ends_by = |a: usize, b: usize| -> Vec<Bound> {
            let ([start_a, end_a], [start_b, _]) = (self.nodes[a], self.nodes[b]);
            let busy = self.network.steps[a].needs.busy;
            let (from, low) = if self.is_busy_throughout(a) { (end_a, 0) } else { (start_a, busy) };
            vec![Bound { from, to: start_b, low, high: FAR }]
        };
        let holds = |bounds: &[Bound]| bounds.iter().all(|b| most[b.to][b.from] <= -b.low);
        let mut choices = Vec::new();
        for (n, &a) in jobs.iter().enumerate() {
            for &b in &jobs[n + 1..] {
                let (ab, ba) = (first_ends_by(a, b), first_ends_by(b, a));
                if holds(&ab) || holds(&ba) {
                    continue;
                }
                let mut ways = if people >= 2 { vec![Vec::new()] } else { Vec::new() };
                ways.extend([ab, ba]);
                choices.push(Choice { ways, pair: (people >= 2).then_some((a, b)) });
            }
        }
        // Nothing clashes while there are no more jobs at once than people.
        let pairs: Vec<(usize, usize)> = choices.iter().filter_map(|choice| choice.pair).collect();
        if people >= 2 && !has_crowd(&pairs, people as usize + 1) { Vec::new() } else { choices }
    }

    fn is_busy_throughout(&self, step: usize) -> bool {
        let step = &self.network.steps[step];
        step.serving.is_none() && step.needs.busy >= step.lasts.high()
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
            Goal::Hope => self.stnu.hopeful().is_some(),
            Goal::Proof => self.stnu.controllable().is_some(),
        };
        if holds { Found::Yes } else { Found::No }
    }

    /// The windows of a proof. The start of the whole is tried at both its ends: every minute between
    /// two that win wins too, for all the bounds are convex.
    fn proved(&mut self) -> Option<Outcome> {
        let count = self.stnu.nodes;
        let windows = self.stnu.controllable()?.windows(count)?;
        let first = self.nodes.iter().map(|node| node[0]).min_by_key(|&node| windows[node])?;
        let (low, high) = windows[first];
        let at = |minute: Minute| Bound { from: 0, to: first, low: minute, high: minute };
        let low = self.nearest(low, high, &at)?;
        let high = -self.nearest(-high, -low, &|minute| at(-minute))?;
        self.stnu.bounds.push(Bound { from: 0, to: first, low, high });
        let windows = self.stnu.controllable()?.windows(count)?;
        let start = self.window(windows[first]);
        Some(Outcome::Proved(start, self.step_windows(&windows)))
    }

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
        let (mut fails, mut wins) =
            (low, (low..=high).step_by(5).chain([high]).find(|&minute| holds(minute))?);
        while wins - fails > 1 {
            let middle = fails + (wins - fails) / 2;
            if holds(middle) { wins = middle } else { fails = middle }
        }
        Some(wins)
    }

    fn hopeful_windows(&self) -> Option<Vec<(Window, Window)>> {
        Some(self.step_windows(&self.stnu.hopeful()?))
    }

    fn step_windows(&self, windows: &[(Minute, Minute)]) -> Vec<(Window, Window)> {
        let of = |node: usize| self.window(windows[node]);
        self.nodes.iter().map(|&[start, end]| (of(start), of(end))).collect()
    }

    fn window(&self, (earliest, latest): (Minute, Minute)) -> Window {
        let latest = latest.min(earliest + super::needs::LONGEST);
        Window { earliest: earliest + self.zero, latest: latest + self.zero }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Found {
    Yes,
    No,
    GaveUp,
}

/// Choices with a single way are bounds.
fn settle_single(stnu: &mut Stnu, choices: &mut Vec<Choice>) {
    choices.retain(|choice| match choice.ways.as_slice() {
        [only] => {
            stnu.bounds.extend(only);
            false
        }
        _ => true,
    });
}

/// Whether some `size` of the jobs may all go on side by side.
fn has_crowd(pairs: &[(usize, usize)], size: usize) -> bool {
    let beside = |a: usize, b: usize| pairs.contains(&(a, b)) || pairs.contains(&(b, a));
    fn grow(from: &[usize], size: usize, beside: &dyn Fn(usize, usize) -> bool) -> bool {
        size == 0
            || from.iter().enumerate().any(|(n, &job)| {
                let others: Vec<usize> =
                    from[n + 1..].iter().copied().filter(|&other| beside(job, other)).collect();
                others.len() + 1 >= size && grow(&others, size - 1, beside)
            })
    }
    let mut jobs: Vec<usize> = pairs.iter().flat_map(|&(a, b)| [a, b]).collect();
    jobs.sort_unstable();
    jobs.dedup();
    grow(&jobs, size, &beside)
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
