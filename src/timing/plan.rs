//! One cook to its timeline and findings.

use super::Options;
use super::build::{Built, build};
use super::network::Network;
use super::solution::{self, Solution};
use super::timeline::{DecidedBy, OnTime, PhaseLine, ServingLine, Timeline, Window};
use super::{jobs, words};
use crate::cook::{Cook, Lasts, Phase};
use crate::findings::Finding;

/// Plans one cook. Pure: what day it is comes from the file or the options.
pub fn plan(cook: &Cook, options: &Options) -> (Timeline, Vec<Finding>) {
    let built = build(cook, options);
    let solution = solve(&built);
    let findings = Vec::new();
    let judged = built.anchored;
    let on_time = if judged { solution.on_time } else { OnTime::NotProved };
    let windows = windows(&built, &solution);
    let timeline = Timeline {
        title: cook.title.value.clone(),
        clock: built.times.clock,
        start: solution.start.or_else(|| windows.iter().flatten().map(|w| w.0).min_by_key(|w| w.earliest)),
        on_time,
        hands_judged: cook.crew.is_some(),
        servings: servings(cook, &built, &windows, on_time),
        phases: cook
            .phases()
            .map(|(id, phase)| phase_line(cook, phase, windows.get(id.0 as usize).copied().flatten()))
            .collect(),
        jobs: jobs::list(cook, &built.network, &windows),
    };
    (timeline, findings)
}

fn solve(built: &Built) -> Solution {
    match built.untimed.last() {
        None => solution::solve(&built.network),
        Some(&last) => {
            let mut tail = solution::solve(&after(&built.network, last));
            tail.start = None;
            tail.on_time = OnTime::NotProved;
            tail
        }
    }
}

/// What comes after step `last`, on its own.
fn after(network: &Network, last: usize) -> Network {
    let mut tail = network.clone();
    tail.steps.drain(..=last);
    for step in &mut tail.steps {
        step.follows.retain(|&before| before > last);
        step.follows.iter_mut().for_each(|before| *before -= last + 1);
    }
    tail.links.retain(|link| link.from.step > last && link.to.step > last);
    for link in &mut tail.links {
        link.from.step -= last + 1;
        link.to.step -= last + 1;
    }
    tail
}

/// Windows by phase; none up to a phase that cannot be timed.
fn windows(built: &Built, solution: &Solution) -> Vec<Option<(Window, Window)>> {
    let count = built.network.steps.len();
    let missing = count - solution.windows.len().min(count);
    let known = solution.windows.iter().copied().map(Some);
    std::iter::repeat_n(None, missing).chain(known).collect()
}

fn servings(
    cook: &Cook,
    built: &Built,
    windows: &[Option<(Window, Window)>],
    on_time: OnTime,
) -> Vec<ServingLine> {
    let mut lines = Vec::new();
    for (id, phase) in cook.phases().filter(|(_, phase)| phase.service.is_some()) {
        let n = id.0 as usize;
        let promised = match (built.times.servings[n], built.network.steps[n].serving) {
            (Some((first, last)), _) => Some(Window { earliest: first, latest: last }),
            _ => windows[n].map(|(start, _)| start),
        };
        lines.push(ServingLine {
            cook: cook.title.value.clone(),
            foods: foods(cook, phase),
            promised,
            on_time,
            because: String::new(),
        });
    }
    lines
}

fn foods(cook: &Cook, phase: &Phase) -> Vec<String> {
    let placed = phase.placings.iter().map(|placing| placing.item);
    let made = phase.becomes.map(|made| made.item);
    let items: Vec<_> = if phase.placings.is_empty() { made.into_iter().collect() } else { placed.collect() };
    items.into_iter().map(|item| cook.item(item).name.clone()).collect()
}

fn phase_line(cook: &Cook, phase: &Phase, window: Option<(Window, Window)>) -> PhaseLine {
    PhaseLine {
        cook: cook.title.value.clone(),
        name: phase.name.clone(),
        purpose: phase.purpose,
        foods: foods(cook, phase),
        kit: phase.place.map(|place| cook.kit(place.value).name.value.clone()),
        start: window.map(|(start, _)| start),
        end: window.map(|(_, end)| end),
        decided_by: match phase.lasts {
            Lasts::Chosen { .. } => DecidedBy::Cook,
            Lasts::Nature { .. } | Lasts::Open => DecidedBy::Nature,
            Lasts::Fixed(_) | Lasts::Serving | Lasts::Unsaid => DecidedBy::Fixed,
        },
        lasts: words::lasts(&phase.lasts).unwrap_or_default(),
    }
}
