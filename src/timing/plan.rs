//! One cook to its timeline and findings.

use super::Options;
use super::build::{Built, build};
use super::clock::Minute;
use super::lines::Effort;
use super::network::{Network, Serving};
use super::outlook::{Named, Outlook, outlook};
use super::progress::{self, Past, Progress, State};
use super::sets::{FAR, Set};
use super::solution::{self, Solution};
use super::timeline::{DecidedBy, JobLine, OnTime, PhaseLine, ServingLine, Timeline, Window, Windows};
use super::{circle, jobs, verdict, words};
use crate::cook::{Call, Cook, KitId, Lasts, Phase, PhaseId, Service};
use crate::findings::{Code, Finding, Severity};
use crate::ledger::{self, Ledger};
use crate::say;

/// More servings than this are not judged one by one.
const MOST_SERVINGS: usize = 12;

/// Plans one cook. Pure: what day it is comes from the file or the options.
pub fn plan(cook: &Cook, options: &Options) -> (Timeline, Vec<Finding>) {
    plan_with(cook, &ledger::balance(cook).0, options)
}

/// As [`plan`], with the ledger at hand.
pub fn plan_with(cook: &Cook, ledger: &Ledger, options: &Options) -> (Timeline, Vec<Finding>) {
    let Alone { built, solution, findings, .. } = alone(cook, ledger, options);
    let windows = windows(&built, &solution);
    let servings = servings(cook, &built, &windows, &solution, &findings);
    let timeline = timeline(cook, &built, &solution, &windows, servings, |_| true);
    let outlook = match options.outlook {
        true => outlook(&built.network, &solution, &|n| named(cook, &built, n)),
        false => Outlook::default(),
    };
    (timeline.with(outlook), findings)
}

/// The phase of a step.
pub fn named(cook: &Cook, built: &Built, n: usize) -> Named {
    Named {
        cook: cook.title.value.clone(),
        phase: cook.phase(PhaseId(n as u32)).name.clone(),
        gone: built.past.as_ref().map_or(0, |past| past.elapsed(n)),
    }
}

/// A cook as if there were no other.
pub struct Alone {
    pub built: Built,
    pub solution: Solution,
    pub findings: Vec<Finding>,
    /// Something keeps a verdict from being given at all, or there is none to give.
    pub doubted: bool,
}

pub fn alone(cook: &Cook, ledger: &Ledger, options: &Options) -> Alone {
    let mut built = build(cook, ledger, options);
    let mut findings = std::mem::take(&mut built.times.findings);
    built.past = happened(cook, &mut built, &options.progress, &mut findings);
    let mut doubted = doubts(cook, &built, &mut findings);
    let circle = circle::finding(cook, &built);
    let mut solution = solve(&built);
    if let Some(circle) = circle {
        solution = Solution { on_time: OnTime::Never, start: None, kind: Windows::OneWay, ..solution };
        solution.windows = solution::nominal(&built.network);
        findings.push(circle);
        doubted = true;
    } else if doubted {
        solution.on_time = OnTime::NotProved;
    } else {
        findings.extend(verdict::finding(cook, &built, &solution));
    }
    Alone { built, solution, findings, doubted }
}

/// The lines of a cook from its solution; `lit` tells which kit is switched on for it.
pub fn timeline(
    cook: &Cook,
    built: &Built,
    solution: &Solution,
    windows: &[Option<(Window, Window)>],
    servings: Vec<ServingLine>,
    lit: impl Fn(KitId) -> bool,
) -> Timeline {
    let past = built.past.as_ref();
    let state = |n: usize| past.map_or(State::ToCome, |past| past.states[n]);
    Timeline {
        title: cook.title.value.clone(),
        clock: built.times.clock,
        start: solution
            .start
            .filter(|_| past.is_none())
            .or_else(|| windows.iter().flatten().map(|w| w.0).min_by_key(|w| w.earliest)),
        on_time: solution.on_time,
        windows: solution.kind,
        order_open: solution.order_open,
        hands_judged: cook.crew.is_some() && built.anchored,
        servings,
        phases: cook
            .phases()
            .map(|(id, phase)| PhaseLine {
                state: state(id.0 as usize),
                ..phase_line(cook, phase, windows.get(id.0 as usize).copied().flatten())
            })
            .collect(),
        jobs: still_to_do(jobs::list(cook, &built.network, windows, lit), cook, past),
        now: past.map(|past| past.now),
        branches: Vec::new(),
        overruns: Vec::new(),
        too_many: None,
        asleep: asleep(&built.network.absent, windows),
    }
}

/// The absences that lie inside the plan.
fn asleep(absent: &Set, windows: &[Option<(Window, Window)>]) -> Vec<(Minute, Minute)> {
    let known = || windows.iter().flatten();
    let first = known().map(|(start, _)| start.earliest).min();
    let last = known().map(|(_, end)| end.latest).max();
    first.zip(last).map_or_else(Vec::new, |(first, last)| {
        absent.intersect(&Set::range(first, last)).intervals().to_vec()
    })
}

/// Cuts the network down to what is still to come, and says what is wrong with what was said of it.
fn happened(cook: &Cook, built: &mut Built, said: &Progress, findings: &mut Vec<Finding>) -> Option<Past> {
    let lengths: Vec<_> = built.network.steps.iter().map(|step| step.lasts).collect();
    match progress::cut(cook, built, said) {
        Ok(past) => {
            let late =
                past.iter().flat_map(|past| progress::overdue(cook, &lengths, past, &built.times.clock));
            findings.extend(late);
            past
        }
        Err(finding) => {
            findings.push(*finding);
            None
        }
    }
}

/// Without the jobs of what is over, and those whose time has passed.
fn still_to_do(mut jobs: Vec<JobLine>, cook: &Cook, past: Option<&Past>) -> Vec<JobLine> {
    if let Some(past) = past {
        let over: Vec<&str> = cook
            .phases
            .iter()
            .zip(&past.states)
            .filter(|(_, state)| **state == State::Done)
            .map(|(phase, _)| phase.name.as_str())
            .collect();
        jobs.retain(|job| job.at.latest >= past.now && !over.contains(&job.phase.as_str()));
    }
    jobs
}

/// Whatever keeps a verdict from being given at all, said once each. What only follows from another
/// finding is not said.
fn doubts(cook: &Cook, built: &Built, findings: &mut Vec<Finding>) -> bool {
    let mut doubted = findings.iter().any(|finding| finding.severity == Severity::Error)
        || cook.phases.iter().any(|phase| phase.damaged || phase.lasts == Lasts::Unsaid);
    let mut unproved = |span, phase: &Phase, message, remedy| {
        findings.push(Finding::new(Code::TimingNotProved, span, message, remedy).in_phase(&phase.name));
        doubted = true;
    };
    for &n in &built.untimed {
        let phase = &cook.phases[n];
        if phase.lasts == Lasts::Open && !phase.damaged {
            unproved(
                phase.lasts_span,
                phase,
                say![format!(
                    "How long `{}` takes is not said, so nothing up to its end can be timed.",
                    phase.name
                )],
                say!["Add the shortest and the longest you have seen: `takes 2 h to 4 h`."],
            );
        }
    }
    if built.too_long
        && let Some(phase) = cook.phases.first()
    {
        unproved(
            phase.span,
            phase,
            say!["This cook lasts more than a year, which is further than times are worked out."],
            say!["Look for a length with the wrong unit."],
        );
    }
    if let Some(absent) = unguarded_core(cook, built) {
        let phase = &cook.phases[absent];
        unproved(
            phase.name_span,
            phase,
            say![format!(
                "Something in `{}` is to be done at a core temperature, and nobody may be awake when it comes.",
                phase.name
            )],
            say![
                "Do it at a time that can be planned (`every`, `at end`), or end the phase there with `until core …`."
            ],
        );
    }
    let serving = cook.phases.iter().find(|phase| phase.service.is_some());
    if let Some(phase) = serving.filter(|phase| !built.anchored && !phase.damaged) {
        if !doubted {
            findings.push(
                Finding::new(
                    Code::ServingTimeMissing,
                    phase.span,
                    say!["It is not said when this is served, so there are no clock times."],
                    say!["Add `at 18:30` here, or give the time with `dwell timeline --serve 18:30`."],
                )
                .in_phase(&phase.name),
            );
        }
        return true;
    }
    doubted || !built.anchored
}

/// A phase with a job at a core temperature, which no prediction times yet, while there is sleep.
fn unguarded_core(cook: &Cook, built: &Built) -> Option<usize> {
    let at_core = |phase: &Phase| phase.jobs.iter().any(|job| matches!(job.call, Call::AtCore(_)));
    let windows = solution::nominal(&built.network);
    cook.phases.iter().zip(windows).position(|(phase, (start, end))| {
        let reach = Set::range(start.earliest - 12 * 60, end.latest + 12 * 60);
        at_core(phase) && !built.network.absent.intersect(&reach).is_empty()
    })
}

fn solve(built: &Built) -> Solution {
    if built.too_long {
        return Solution {
            on_time: OnTime::NotProved,
            start: None,
            windows: Vec::new(),
            kind: Windows::OneWay,
            order_open: false,
            basis: None,
        };
    }
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
    tail.apart.retain(|apart| apart.steps.iter().all(|&step| step > last));
    tail.apart.iter_mut().flat_map(|apart| &mut apart.steps).for_each(|step| *step -= last + 1);
    tail
}

/// Windows by phase; none up to a phase that cannot be timed.
pub fn windows(built: &Built, solution: &Solution) -> Vec<Option<(Window, Window)>> {
    let count = built.network.steps.len();
    let missing = count - solution.windows.len().min(count);
    let known = solution.windows.iter().copied().map(Some);
    let mut windows: Vec<_> = std::iter::repeat_n(None, missing).chain(known).collect();
    if let Some(past) = &built.past {
        past.put_into(&mut windows);
    }
    windows
}

pub fn servings(
    cook: &Cook,
    built: &Built,
    windows: &[Option<(Window, Window)>],
    solution: &Solution,
    findings: &[Finding],
) -> Vec<ServingLine> {
    let count = built.network.steps.iter().filter(|step| step.serving.is_some()).count();
    let several = (2..=MOST_SERVINGS).contains(&count);
    // One serving of several may be safe although another is not.
    let alone = matches!(solution.on_time, OnTime::Never | OnTime::IfLucky) && several;
    let judged = |n: usize| match alone {
        true => solution::verdict(&only(&built.network, n), Effort::SHORT),
        false => solution.on_time,
    };
    let because = because(findings).map(|finding| finding.message.render(cook.scale)).unwrap_or_default();
    serving_lines(cook, built, windows, judged, &because)
}

/// The finding that says why something is not always on time.
pub fn because(findings: &[Finding]) -> Option<&Finding> {
    let verdicts = [Code::OrderCircular, Code::NeverOnTime, Code::OnTimeIfLucky, Code::TimingNotProved];
    findings.iter().find(|finding| verdicts.contains(&finding.code))
}

/// A line for each serving, with the verdict on its phase.
pub fn serving_lines(
    cook: &Cook,
    built: &Built,
    windows: &[Option<(Window, Window)>],
    judged: impl Fn(usize) -> OnTime,
    because: &str,
) -> Vec<ServingLine> {
    let mut lines = Vec::new();
    for (id, phase) in cook.phases().filter(|(_, phase)| phase.service.is_some()) {
        let n = id.0 as usize;
        let promised = match built.times.servings[n] {
            Some((first, last)) => match (&phase.service, built.network.steps[n].serving) {
                // Within its grace the cook decides.
                (Some(Service::At { .. }), Some(Serving::Within { first, last })) => {
                    Some(Window { earliest: first, latest: last })
                }
                _ => Some(Window { earliest: first, latest: last }),
            },
            None => windows[n].map(|(start, _)| start),
        };
        let on_time = judged(n);
        lines.push(ServingLine {
            cook: cook.title.value.clone(),
            foods: foods(cook, phase),
            promised,
            on_time,
            because: if on_time == OnTime::Always { String::new() } else { because.to_owned() },
        });
    }
    lines
}

/// The network with nobody waiting but at one serving; the others are served whenever they are ready.
fn only(network: &Network, serving: usize) -> Network {
    let mut alone = network.clone();
    let others =
        alone.steps.iter_mut().enumerate().filter(|(n, step)| *n != serving && step.serving.is_some());
    for (_, step) in others {
        step.serving = Some(Serving::Within { first: -FAR, last: FAR });
    }
    alone
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
        state: State::ToCome,
    }
}
