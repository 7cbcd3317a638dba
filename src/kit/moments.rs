//! Moments that the text ties together: how far apart they are for certain, if at all.
//!
//! Starts and ends of phases are joined where they are a known time apart: a food's next phase begins
//! as the last one ends, `for 5 h` is five hours long, `starts when roast ends` says so itself. Two
//! phases then meet for certain or the text leaves it open; only the first is reported.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::cook::{Cook, Day, Edge, Lasts, Moment, Order, OrderBound, Origin, PhaseId, Placing, When};
use crate::quantity::Duration;

pub(super) struct Moments {
    /// For each moment the one it is measured from, and how many seconds after that it is.
    from: Vec<(usize, f64)>,
    /// How long each phase lasts at the least, in seconds.
    least: Vec<f64>,
}

impl Moments {
    pub(super) fn of(cook: &Cook) -> Self {
        let mut moments = Self {
            from: (0..2 * cook.phases.len()).map(|node| (node, 0.0)).collect(),
            least: cook.phases.iter().map(|phase| least(phase.lasts).seconds()).collect(),
        };
        let mut clock = BTreeMap::new();
        for (id, phase) in cook.phases() {
            if let Lasts::Fixed(time) = phase.lasts {
                moments.tie(end(id), start(id), time.seconds());
            }
            for placing in &phase.placings {
                if let Some(before) = straight_from(cook, placing) {
                    moments.tie(start(id), end(before), 0.0);
                }
            }
            for order in &phase.orders {
                moments.order(id, order, &mut clock);
            }
        }
        moments
    }

    /// Ties the moments that an order clause puts at an exact distance.
    fn order(&mut self, id: PhaseId, order: &Order, clock: &mut BTreeMap<(NaiveDate, u32), usize>) {
        let (moment, after) = match order.bound {
            OrderBound::When(moment) => (moment, 0.0),
            OrderBound::Before { by, at_least: false, moment } => (moment, -by.seconds()),
            OrderBound::After { by, at_least: false, moment } => (moment, by.seconds()),
            _ => return,
        };
        let this = match order.edge {
            Edge::Start => start(id),
            Edge::End => end(id),
        };
        let other = match moment {
            Moment::Starts(other) | Moment::Serving(other) => start(other),
            Moment::Ends(other) => end(other),
            Moment::Clock(when) => {
                let Some(minute) = minute_of(when) else { return };
                *clock.entry(minute).or_insert_with(|| {
                    self.from.push((self.from.len(), 0.0));
                    self.from.len() - 1
                })
            }
        };
        self.tie(this, other, after);
    }

    /// Says that `later` is `after` seconds after `earlier`.
    fn tie(&mut self, later: usize, earlier: usize, after: f64) {
        let (later_root, later_offset) = self.root(later);
        let (earlier_root, earlier_offset) = self.root(earlier);
        // Two ties that contradict each other are timing's to report.
        if later_root != earlier_root {
            self.from[later_root] = (earlier_root, earlier_offset + after - later_offset);
        }
    }

    /// The moment that `node` is measured from in the end. Shortens the way for the next asker.
    fn root(&mut self, node: usize) -> (usize, f64) {
        self.from[node] = self.seen(node);
        self.from[node]
    }

    /// The stretches of time in which these phases go on for certain, whatever is left open: those
    /// that hang on one moment together, in order.
    pub(super) fn presences(&self, phases: impl Iterator<Item = PhaseId>) -> Vec<Presence> {
        let mut presences: Vec<Presence> = phases.flat_map(|id| self.presences_of(id)).collect();
        presences.sort_by(|a, b| {
            a.hangs_on.cmp(&b.hangs_on).then(a.from.total_cmp(&b.from)).then(a.phase.cmp(&b.phase))
        });
        presences
    }

    fn presences_of(&self, phase: PhaseId) -> Vec<Presence> {
        let least = self.least[phase.0 as usize];
        let ((starts_on, start), (ends_on, end)) = (self.seen(start(phase)), self.seen(end(phase)));
        let stretch = |hangs_on, from, to| Presence { phase, hangs_on, from, to };
        let stretches = if starts_on == ends_on {
            vec![stretch(starts_on, start, end)]
        } else {
            vec![stretch(starts_on, start, start + least), stretch(ends_on, end - least, end)]
        };
        stretches.into_iter().filter(|one| one.to - one.from > SLACK.seconds()).collect()
    }

    fn seen(&self, node: usize) -> (usize, f64) {
        let (mut at, mut offset) = (node, 0.0);
        while self.from[at].0 != at {
            offset += self.from[at].1;
            at = self.from[at].0;
        }
        (at, offset)
    }
}

/// A stretch of time in which a phase goes on for certain, in seconds from the moment it hangs on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Presence {
    pub(super) phase: PhaseId,
    hangs_on: usize,
    from: f64,
    to: f64,
}

impl Presence {
    /// Whether this one, which began no later, still goes on while `next` does.
    pub(super) fn meets(&self, next: &Self) -> bool {
        self.hangs_on == next.hangs_on && self.to - next.from > SLACK.seconds()
    }
}

/// `when` is the same minute, give or take the moves that one person makes in turn, 5 min each
/// (the language, edition 1). Less than that is no meeting.
const SLACK: Duration = Duration::from_minutes(10.0);

fn start(phase: PhaseId) -> usize {
    2 * phase.0 as usize
}

fn end(phase: PhaseId) -> usize {
    2 * phase.0 as usize + 1
}

fn least(lasts: Lasts) -> Duration {
    match lasts {
        Lasts::Fixed(time) => time,
        Lasts::Chosen { low, .. } | Lasts::Nature { low, .. } => low,
        Lasts::Open | Lasts::Serving | Lasts::Unsaid => Duration::ZERO,
    }
}

/// The phase that a food comes straight out of. What was collected may wait beside its parent.
fn straight_from(cook: &Cook, placing: &Placing) -> Option<PhaseId> {
    let before = placing.before?;
    let collected =
        matches!(cook.item(placing.item).origin, Origin::Collected { phase, .. } if phase == before);
    (!collected).then_some(before)
}

/// A date and minute. `18:00` or a weekday alone may be another day for another serving.
fn minute_of(when: When) -> Option<(NaiveDate, u32)> {
    match when.day? {
        Day::Date(date) => Some((date, when.time.minutes())),
        Day::Weekday(_) => None,
    }
}
