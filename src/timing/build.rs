//! From a typed cook to the plain network that the solvers know.

use super::Options;
use super::clock::Minute;
use super::heat;
use super::kitchen::Kitchen;
use super::needs::{self, MOVE, minutes};
use super::network::{Lasts, Link, Network, Point, Serving, Step};
use super::progress::Past;
use super::sets::{FAR, Set};
use super::times::Times;
use crate::cook::{Cook, Edge, Moment, Order, OrderBound, Origin, PhaseId, Service};
use crate::ledger::Ledger;

/// The network of a cook, one step a phase, and what was met on the way.
#[derive(Debug)]
pub struct Built {
    pub network: Network,
    pub times: Times,
    /// Which order clause each link comes from that comes from one.
    pub clauses: Vec<Clause>,
    /// Phases whose length nobody says; they stand in the network as if they took no time.
    pub untimed: Vec<usize>,
    /// A serving has a time.
    pub anchored: bool,
    /// It lasts longer than a timeline reaches.
    pub too_long: bool,
    /// What has happened so far, where somebody said it.
    pub past: Option<Past>,
}

/// An order clause that became a link.
#[derive(Debug, Clone, Copy)]
pub struct Clause {
    pub link: usize,
    pub phase: PhaseId,
    /// Which of the phase's orders.
    pub nth: usize,
}

pub fn build(cook: &Cook, ledger: &Ledger, options: &Options) -> Built {
    let mut times = Times::of(cook, options);
    let anchored = times.servings.iter().any(Option::is_some);
    let crew = cook.crew.as_ref();
    let mut network = Network { people: crew.map(|crew| crew.people), ..Network::default() };
    let (mut untimed, mut clauses) = (Vec::new(), Vec::new());
    for (id, phase) in cook.phases() {
        let n = id.0 as usize;
        let at = times.servings[n];
        let mut step = match &phase.service {
            Some(service) => serving(service, at),
            None => Step::new(needs::lasts(phase).unwrap_or_else(|| {
                untimed.push(n);
                Lasts::Fixed(0)
            })),
        };
        if crew.is_some() {
            step.needs = needs::needs(cook, id);
        }
        for placing in &phase.placings {
            let Some(before) = placing.before else { continue };
            if waits_for_free(cook, placing.item, before) {
                network.links.push(after(before, id));
            } else if !step.follows.contains(&(before.0 as usize)) {
                step.follows.push(before.0 as usize);
            }
        }
        network.links.extend(phase.uses.iter().filter_map(|draw| Some(after(draw.before?, id))));
        network.steps.push(step);
        for (nth, order) in phase.orders.iter().enumerate() {
            let link = network.links.len();
            bind(cook, &mut times, &mut network, id, order);
            if network.links.len() > link {
                clauses.push(Clause { link, phase: id, nth });
            }
        }
    }
    let kitchen = Kitchen::of(vec![(cook, 0)]);
    heat::bind(&kitchen, &mut network);
    kitchen.make_room(&[ledger], &mut network);
    let longest: Minute = network.steps.iter().map(|step| step.lasts.high()).sum();
    let too_long = longest > needs::LONGEST || times.servings.iter().flatten().any(|at| at.0.abs() > FAR / 4);
    if anchored && let (Some(crew), false) = (crew, too_long) {
        let (first, last) = ends(&times);
        network.absent = times.absent(crew, first - longest - 3 * DAY, last + longest + 3 * DAY);
    }
    if !anchored {
        moor(&mut network);
    }
    Built { network, times, clauses, untimed, anchored, too_long, past: None }
}

const DAY: Minute = super::clock::DAY;

/// First and last minute of all servings.
fn ends(times: &Times) -> (Minute, Minute) {
    let all = times.servings.iter().flatten();
    all.fold((FAR, -FAR), |(first, last), at| (first.min(at.0), last.max(at.1)))
}

fn serving(service: &Service, at: Option<(Minute, Minute)>) -> Step {
    let mut step = Step::new(Lasts::Fixed(0));
    let Some((first, last)) = at else { return step };
    step.serving = Some(match service {
        Service::At { late, .. } => Serving::Within { first, last: first + late.map_or(0, minutes) },
        Service::Guests { late, .. } => Serving::Guests { first, last, late: late.map_or(0, minutes) },
        Service::Throughout { .. } => {
            step.lasts = Lasts::Fixed(last - first);
            Serving::Within { first, last: first }
        }
        Service::Unsaid => Serving::Within { first, last: first },
    });
    step
}

/// What is collected stays beside its parent until it is wanted; all other food goes straight on.
fn waits_for_free(cook: &Cook, item: crate::cook::ItemId, before: PhaseId) -> bool {
    matches!(cook.item(item).origin, Origin::Collected { phase, .. } if phase == before)
}

fn after(before: PhaseId, id: PhaseId) -> Link {
    Link { from: end(before), to: start(id), low: 0, high: FAR }
}

fn start(id: PhaseId) -> Point {
    Point { step: id.0 as usize, end: false }
}

fn end(id: PhaseId) -> Point {
    Point { step: id.0 as usize, end: true }
}

/// Without a serving at a clock time the axis begins as the cook does, or ends at the last serving.
fn moor(network: &mut Network) {
    for step in &mut network.steps {
        (step.start_in, step.end_in) = (Set::all(), Set::all());
    }
    match network.steps.iter_mut().rev().find(|step| step.serving.is_some()) {
        Some(last) => last.start_in = Set::range(0, 0),
        None => {
            if let Some(first) = network.steps.first_mut() {
                first.start_in = Set::range(0, 0);
            }
        }
    }
}

/// How an edge lies to its moment, in minutes.
struct Bound {
    moment: Moment,
    low: Minute,
    high: Minute,
}

fn bind(cook: &Cook, times: &mut Times, network: &mut Network, id: PhaseId, order: &Order) {
    let bound = match order.bound {
        OrderBound::OnDay(day) => {
            if let Some(set) = times.whole_day(cook, id, day, order.span) {
                keep_within(network, id, order.edge, &set);
            }
            return;
        }
        OrderBound::When(moment @ Moment::Clock(_)) => Bound { moment, low: 0, high: 0 },
        // One person makes the moves of both in turn.
        OrderBound::When(moment) => Bound { moment, low: -MOVE, high: MOVE },
        OrderBound::NoSooner(moment) => Bound { moment, low: 0, high: FAR },
        OrderBound::NoLater(moment) => Bound { moment, low: -FAR, high: 0 },
        OrderBound::Before { by, at_least, moment } => {
            let by = minutes(by);
            Bound { moment, low: if at_least { -FAR } else { -by }, high: -by }
        }
        OrderBound::After { by, at_least, moment } => {
            let by = minutes(by);
            Bound { moment, low: by, high: if at_least { FAR } else { by } }
        }
    };
    let to = Point { step: id.0 as usize, end: order.edge == Edge::End };
    let from = match bound.moment {
        Moment::Starts(other) | Moment::Serving(other) => start(other),
        Moment::Ends(other) => end(other),
        Moment::Clock(when) => {
            if let Some(at) = times.moment(cook, id, when, order.span) {
                let set = Set::range((at + bound.low).max(-FAR), (at + bound.high).min(FAR));
                keep_within(network, id, order.edge, &set);
            }
            return;
        }
    };
    network.links.push(Link { from, to, low: bound.low, high: bound.high });
}

fn keep_within(network: &mut Network, id: PhaseId, edge: Edge, set: &Set) {
    let Some(step) = network.steps.get_mut(id.0 as usize) else { return };
    let kept = if edge == Edge::End { &mut step.end_in } else { &mut step.start_in };
    *kept = kept.intersect(set);
}
