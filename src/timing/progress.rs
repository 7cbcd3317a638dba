//! What has happened so far, and the network of what is still to come.
//!
//! From now on nothing can be done sooner than now. What is over takes no time and stands at now; what is going on starts
//! now and takes what is left of it. The times at which things really happened are kept beside the network, for show.

mod rest;
mod split;

pub use rest::settle;
pub use split::{one_now, split};

use super::build::Built;
use super::clock::{Clock, Minute};
use super::network::{Lasts, Network};
use super::solution;
use super::timeline::Window;
use crate::cook::{Cook, Edge, Happened};
use crate::findings::{Code, Finding};
use crate::quantity::Duration;
use crate::say;

/// What somebody in the kitchen says of the cook so far.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Progress {
    pub now: Option<Happened>,
    /// Where that lies on the axis, if it is known already.
    pub now_at: Option<Minute>,
    /// Phases that have started, by name, and when; without a name, the first.
    pub started: Vec<(Option<String>, Happened)>,
    /// Phases that are over, by name, and when each ended.
    pub done: Vec<(String, Happened)>,
}

impl Progress {
    /// Whether anything is said of what has happened.
    pub fn tells(&self) -> bool {
        !self.started.is_empty() || !self.done.is_empty()
    }
}

/// How far a phase has got.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    Done,
    /// It started, and is not over.
    Going,
    ToCome,
}

/// What happened, on the clock of the plan.
#[derive(Debug, Clone)]
pub struct Past {
    pub now: Minute,
    /// By step: when it really started and ended. For what is going on the end is now.
    times: Vec<Option<(Minute, Minute)>>,
    pub states: Vec<State>,
}

impl Past {
    /// How much of a step is behind.
    pub fn elapsed(&self, step: usize) -> Minute {
        match (self.states.get(step), self.times.get(step)) {
            (Some(State::Going), Some(Some((start, end)))) => end - start,
            _ => 0,
        }
    }

    /// What really happened, in place of what stands for it in the network.
    pub fn put_into(&self, windows: &mut [Option<(Window, Window)>]) {
        let at = |minute: Minute| Window { earliest: minute, latest: minute };
        for ((window, times), state) in windows.iter_mut().zip(&self.times).zip(&self.states) {
            let (Some(window), Some((start, end))) = (window, *times) else { continue };
            window.0 = at(start);
            if *state == State::Done {
                window.1 = at(end);
            }
        }
    }
}

/// Cuts a network down to what is still to come. `None` where nothing was said of the time.
///
/// # Errors
/// A finding where what was said cannot be, or cannot be put on the clock.
pub fn cut(cook: &Cook, built: &mut Built, said: &Progress) -> Result<Option<Past>, Box<Finding>> {
    if *said == Progress::default() {
        return Ok(None);
    }
    let Some(now) = said.now else {
        return Err(unclear(
            cook,
            say!["It was said what is done, and not how late it is now."],
            say!["Add the time: `--now 07:40`."],
        ));
    };
    if !built.anchored {
        return Err(unclear(
            cook,
            say!["No serving has a time, so there is nothing to be on time for."],
            say!["Give it with `--serve 18:30`, or write it in the file."],
        ));
    }
    let plan = solution::nominal(&built.network);
    let clock = &built.times.clock;
    let ended = said.done.iter().map(|(name, when)| (Some(name.as_str()), *when));
    let mut ends = moments(cook, clock, ended, &plan, Edge::End)?;
    let began = said.started.iter().map(|(name, when)| (name.as_deref(), *when));
    let starts = moments(cook, clock, began, &plan, Edge::Start)?;
    let last = ends.iter().chain(&starts).flatten().copied().max();
    let now = match (said.now_at, last) {
        (Some(now), last) => Some(now).filter(|now| last.is_none_or(|last| last <= *now)),
        // The first such time after what is known to have happened.
        (None, Some(last)) => clock.first_from(now, last),
        (None, None) => Some(placed(cook, clock, now, plan[0].0.earliest, "--now")?),
    };
    let now = now.ok_or_else(|| unplaced(cook, "--now"))?;
    infer(&built.network, &plan, &starts, &mut ends);
    let past = past(cook, &built.network, &plan, &ends, &starts, now)?;
    rest::shorten(built, &past);
    Ok(Some(past))
}

/// A warning for each phase that goes on for longer than was said.
pub fn overdue(cook: &Cook, lengths: &[Lasts], past: &Past, clock: &Clock) -> Vec<Finding> {
    let late = lengths.iter().enumerate().filter(|(n, lasts)| past.elapsed(*n) > lasts.high());
    let finding = |(n, lasts): (usize, &Lasts)| {
        let phase = &cook.phases[n];
        let length = |minutes: Minute| Duration::from_minutes(minutes as f64);
        let until = clock.time_of_day(past.now - past.elapsed(n) + lasts.high());
        Finding::new(
            Code::PhaseOverdue,
            phase.lasts_span,
            say![
                format!("`{}` has gone on for ", phase.name),
                length(past.elapsed(n)),
                ", and was to take at most ",
                length(lasts.high()),
                format!(", until {until}. The plan from here takes it to end now."),
            ],
            say![format!(
                "If it is over, say when: `--done \"{}={until}\"`. If it is not, ask again when it is; write what you have seen in the file.",
                phase.name
            )],
        )
        .in_phase(&phase.name)
    };
    late.map(finding).collect()
}

/// When each phase that is said to have started, or ended, did so, by step.
fn moments<'s>(
    cook: &Cook,
    clock: &Clock,
    said: impl Iterator<Item = (Option<&'s str>, Happened)>,
    plan: &[(Window, Window)],
    edge: Edge,
) -> Result<Vec<Option<Minute>>, Box<Finding>> {
    let (option, did) = match edge {
        Edge::Start => ("--started", "started"),
        Edge::End => ("--done", "ended"),
    };
    let mut moments = vec![None; cook.phases.len()];
    for (name, happened) in said {
        let known =
            |phase: &crate::cook::Phase| name.is_none_or(|name| phase.name.eq_ignore_ascii_case(name));
        let Some(n) = cook.phases.iter().position(known) else {
            let names: Vec<&str> = cook.phases.iter().map(|phase| phase.name.as_str()).collect();
            return Err(unclear(
                cook,
                say![format!(
                    "`{option}` names `{}`, which is no phase of this cook.",
                    name.unwrap_or_default()
                )],
                say![format!("Its phases are {}.", names.join(", "))],
            ));
        };
        let around = if edge == Edge::End { plan[n].1.latest } else { plan[n].0.earliest };
        let moment = placed(cook, clock, happened, around, option)?;
        if moments[n].replace(moment).is_some_and(|before| before != moment) {
            return Err(unclear(
                cook,
                say![format!("`{}` is said to have {did} at two times.", cook.phases[n].name)],
                say![format!("Say it once: `{option}` with the time at which it really {did}.")],
            ));
        }
    }
    Ok(moments)
}

/// What came before something that has started is over, by when that began, or would have begun at the latest.
fn infer(
    network: &Network,
    plan: &[(Window, Window)],
    starts: &[Option<Minute>],
    ends: &mut [Option<Minute>],
) {
    for n in (0..network.steps.len()).rev() {
        let planned = plan[n].1.latest - plan[n].0.latest;
        let Some(start) = starts[n].or(ends[n].map(|end| end - planned)) else { continue };
        for &before in &network.steps[n].follows {
            ends[before].get_or_insert(start);
        }
    }
}

fn past(
    cook: &Cook,
    network: &Network,
    plan: &[(Window, Window)],
    ends: &[Option<Minute>],
    starts: &[Option<Minute>],
    now: Minute,
) -> Result<Past, Box<Finding>> {
    let mut past = Past { now, times: Vec::new(), states: Vec::new() };
    for (n, step) in network.steps.iter().enumerate() {
        let before = step.follows.iter().map(|&before| ends[before]).collect::<Option<Vec<_>>>();
        let followed = before.and_then(|ends| ends.into_iter().max());
        // Nothing starts before what it follows is over.
        if starts[n].zip(followed).is_some_and(|(start, end)| start < end) {
            return Err(out_of_order(cook, n));
        }
        let began = starts[n].or(followed);
        // Who has begun to eat has been served.
        let end = ends[n].or(starts[n].filter(|_| step.serving.is_some()));
        let (state, times) = match (end, began) {
            (Some(end), began) => {
                let planned = plan[n].1.latest - plan[n].0.latest;
                let start = began.unwrap_or(end - planned);
                if start > end {
                    return Err(out_of_order(cook, n));
                }
                (State::Done, Some((start, end)))
            }
            // People sit down when they are called: what is served is not going on before.
            (None, Some(start)) if step.serving.is_none() => (State::Going, Some((start, now))),
            (None, _) => (State::ToCome, None),
        };
        past.states.push(state);
        past.times.push(times);
    }
    Ok(past)
}

fn placed(
    cook: &Cook,
    clock: &Clock,
    happened: Happened,
    around: Minute,
    option: &str,
) -> Result<Minute, Box<Finding>> {
    clock.nearest(happened, around).ok_or_else(|| unplaced(cook, option))
}

fn unplaced(cook: &Cook, option: &str) -> Box<Finding> {
    unclear(
        cook,
        say![format!("The time of `{option}` is on a day that is not near the plan.")],
        say!["Write the day of the plan with it, such as `\"Sat 07:40\"`."],
    )
}

fn out_of_order(cook: &Cook, n: usize) -> Box<Finding> {
    let name = &cook.phases[n].name;
    unclear(
        cook,
        say![format!("`{name}` is said to have started or ended before what came before it did.")],
        say![
            "Look at the times of `--done` and `--started`; write the day with each if the night lies between."
        ],
    )
}

fn unclear(cook: &Cook, message: crate::findings::Text, remedy: crate::findings::Text) -> Box<Finding> {
    Box::new(Finding::new(Code::ProgressUnclear, cook.title.span, message, remedy))
}
