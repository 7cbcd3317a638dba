//! What is settled before a proof is tried: waking hours for every job, and who has hands or kit first.

use super::Model;
use crate::timing::chain;
use crate::timing::clock::Minute;
use crate::timing::network::Serving;
use crate::timing::sets::{FAR, Set};
use crate::timing::stnu::{Bound, Stnu};

/// Something to be settled before the proof: each way adds bounds.
pub(super) struct Choice {
    pub(super) ways: Vec<Vec<Bound>>,
    /// Two jobs that the first way lets go on side by side.
    pub(super) pair: Option<(usize, usize)>,
}

impl Model<'_> {
    /// The clock's bounds and the waking hours of every job; `None` if something has no time at all.
    pub(super) fn clock_choices(&self) -> Option<Vec<Choice>> {
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
            if step.needs.before.is_some() {
                self.ways(start, &chain::prepared(step, &awake).intersect(&reach(start)), &mut choices)?;
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
    pub(super) fn order_choices(&self) -> Vec<Choice> {
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

    /// Every two steps that want one kit at two settings, in one order or the other.
    pub(super) fn kit_choices(&self) -> Vec<Choice> {
        let choices = self.network.apart.iter().map(|apart| {
            let way = |first: usize, then: usize, gap: Minute| {
                let (from, to) = (self.nodes[first][1], self.nodes[then][0]);
                vec![Bound { from, to, low: gap, high: FAR }]
            };
            let ([a, b], [ab, ba]) = (apart.steps, apart.gaps);
            Choice { ways: vec![way(a, b, ab), way(b, a, ba)], pair: None }
        });
        choices.collect()
    }

    fn is_busy_throughout(&self, step: usize) -> bool {
        let step = &self.network.steps[step];
        step.serving.is_none() && step.needs.busy >= step.lasts.high()
    }
}

/// Choices with a single way are bounds.
pub(super) fn settle_single(stnu: &mut Stnu, choices: &mut Vec<Choice>) {
    choices.retain(|choice| match choice.ways.as_slice() {
        [only] => {
            stnu.bounds.extend(only);
            false
        }
        _ => true,
    });
}

/// Whether some `size` of the jobs may all go on side by side.
pub(super) fn has_crowd(pairs: &[(usize, usize)], size: usize) -> bool {
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
