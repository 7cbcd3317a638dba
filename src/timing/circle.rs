//! Order clauses that run in a circle: each waits for the other, and nothing can come first.

use super::build::Built;
use super::clock::Minute;
use super::network::{Network, Point};
use super::sets::FAR;
use crate::cook::{Cook, Edge, Moment, Order, OrderBound, PhaseId};
use crate::findings::{Code, Finding, Text};
use crate::say;

/// `to` comes at least `least` minutes after `from`.
#[derive(Debug, Clone, Copy)]
struct Arc {
    from: usize,
    to: usize,
    least: Minute,
    /// The link that says so; `None` for the length of a step or the way of food.
    link: Option<usize>,
}

/// The finding for the first circle, if there is one. Clocks and the most that a phase may last are left
/// out: what contradicts those is a plan that is never on time.
pub fn finding(cook: &Cook, built: &Built) -> Option<Finding> {
    let circle = circle(&built.network)?;
    let mut clauses: Vec<(PhaseId, &Order)> = Vec::new();
    for link in circle.iter().filter_map(|arc| arc.link) {
        let said = built.clauses.iter().find(|clause| clause.link == link);
        let order = said.and_then(|said| Some((said.phase, cook.phase(said.phase).orders.get(said.nth)?)));
        clauses.extend(order);
    }
    clauses.sort_by_key(|(_, order)| order.span);
    clauses.dedup_by_key(|(_, order)| order.span);
    let (first, others) = clauses.split_first()?;
    let message = if others.is_empty() {
        let clause = words(cook, *first);
        say![clause, " runs in a circle with the way the food goes: it waits for what comes later."]
    } else {
        let all: Vec<String> = clauses.iter().map(|clause| words(cook, *clause)).collect();
        say![all.join(", and "), " run in a circle: each waits for the other, so none can come first."]
    };
    let remedy = if others.is_empty() {
        say!["Take this clause out, or name a phase that comes before."]
    } else {
        say!["Take one of these clauses out, or turn it round."]
    };
    let named = |clause: &(PhaseId, &Order)| cook.phase(clause.0).name.clone();
    let finding = Finding::new(Code::OrderCircular, first.1.span, message, remedy).in_phase(named(first));
    let also = |finding: Finding, clause: &(PhaseId, &Order)| {
        finding.also(clause.1.span, say!["this is in the circle too"])
    };
    Some(others.iter().fold(finding, also))
}

/// The arcs of a circle that takes time to go round, which no clock can meet.
fn circle(network: &Network) -> Option<Vec<Arc>> {
    let arcs = arcs(network);
    let count = 2 * network.steps.len();
    let mut earliest = vec![0; count];
    let mut reached_by: Vec<Option<Arc>> = vec![None; count];
    let mut last = None;
    for _ in 0..=count {
        last = None;
        for arc in &arcs {
            if earliest[arc.from] + arc.least > earliest[arc.to] {
                earliest[arc.to] = earliest[arc.from] + arc.least;
                reached_by[arc.to] = Some(*arc);
                last = Some(arc.to);
            }
        }
        last?;
    }
    // Whatever still moves hangs on a circle: go back until inside it, then once round.
    let mut at = last?;
    for _ in 0..count {
        at = reached_by[at]?.from;
    }
    let mut found = Vec::new();
    let inside = at;
    loop {
        let arc = reached_by[at]?;
        found.push(arc);
        at = arc.from;
        if at == inside {
            return Some(found);
        }
    }
}

fn arcs(network: &Network) -> Vec<Arc> {
    let node = |point: Point| 2 * point.step + usize::from(point.end);
    let mut arcs = Vec::new();
    for (n, step) in network.steps.iter().enumerate() {
        let (start, end) = (2 * n, 2 * n + 1);
        arcs.push(Arc { from: start, to: end, least: step.lasts.low(), link: None });
        for &before in &step.follows {
            arcs.push(Arc { from: 2 * before + 1, to: start, least: 0, link: None });
            arcs.push(Arc { from: start, to: 2 * before + 1, least: 0, link: None });
        }
    }
    for (n, link) in network.links.iter().enumerate() {
        let (from, to) = (node(link.from), node(link.to));
        if link.low > -FAR {
            arcs.push(Arc { from, to, least: link.low, link: Some(n) });
        }
        if link.high < FAR {
            arcs.push(Arc { from: to, to: from, least: -link.high, link: Some(n) });
        }
    }
    arcs
}

/// "`starts after dry ends` in `roast`".
pub fn words(cook: &Cook, (phase, order): (PhaseId, &Order)) -> String {
    let edge = if order.edge == Edge::Start { "starts" } else { "ends" };
    let moment = |moment: Moment| match moment {
        Moment::Starts(other) => format!("{} starts", cook.phase(other).name),
        Moment::Ends(other) => format!("{} ends", cook.phase(other).name),
        Moment::Serving(_) => "serving".to_owned(),
        Moment::Clock(when) => when.time.to_string(),
    };
    let gap = |by: crate::quantity::Duration, at_least: bool| {
        let mut text = Text::default();
        if at_least {
            text.push("at least ");
        }
        text.push(by);
        text.render(cook.scale)
    };
    let bound = match order.bound {
        OrderBound::When(other) => format!("when {}", moment(other)),
        OrderBound::NoSooner(other) => format!("after {}", moment(other)),
        OrderBound::NoLater(other) => format!("by {}", moment(other)),
        OrderBound::Before { by, at_least, moment: other } => {
            format!("{} before {}", gap(by, at_least), moment(other))
        }
        OrderBound::After { by, at_least, moment: other } => {
            format!("{} after {}", gap(by, at_least), moment(other))
        }
        OrderBound::OnDay(_) => "on a day".to_owned(),
    };
    format!("`{edge} {bound}` in `{}`", cook.phase(phase).name)
}
