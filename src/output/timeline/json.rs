//! A timeline for tools. The same type stands in `dwell timeline --format json` and in `dwell export`.

use serde::Serialize;

use crate::quantity::Scale;
use crate::timing::{DecidedBy, Minute, OnTime, State, Timeline, Window, Windows};

/// RFC 3339 where a date is known, else seconds from the start of the cook.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, schemars::JsonSchema)]
#[serde(untagged)]
pub enum Stamp {
    Time(String),
    Seconds(i64),
}

/// `dwell.timeline/1`. A stamp is null where nothing can be timed.
#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
#[schemars(rename = "Timeline")]
pub struct TimelineJson {
    /// Always "dwell.timeline/1".
    pub format: String,
    pub title: String,
    pub start_earliest: Option<Stamp>,
    pub start_latest: Option<Stamp>,
    /// The plan is from here on: `timeline --now`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub now: Option<Stamp>,
    /// `not-proved` is neither a yes nor a no: see its description.
    pub on_time: OnTime,
    pub windows: Windows,
    /// `false` where the cook names no crew: sleep and hands were not looked at.
    pub hands_judged: bool,
    pub servings: Vec<ServingJson>,
    pub phases: Vec<PhaseJson>,
    pub jobs: Vec<JobJson>,
}

#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct ServingJson {
    pub cook: String,
    pub foods: Vec<String>,
    pub from: Option<Stamp>,
    pub to: Option<Stamp>,
    pub on_time: OnTime,
    pub because: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct PhaseJson {
    pub cook: String,
    pub name: String,
    pub purpose: String,
    pub food: Vec<String>,
    pub kit: Option<String>,
    pub start_earliest: Option<Stamp>,
    pub start_latest: Option<Stamp>,
    pub end_earliest: Option<Stamp>,
    pub end_latest: Option<Stamp>,
    pub decided_by: DecidedBy,
    /// In a plan from now on: is it over, or going on?
    pub state: State,
}

#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct JobJson {
    pub at: Option<Stamp>,
    pub at_latest: Option<Stamp>,
    pub cook: String,
    pub phase: String,
    pub text: String,
    /// How many people it takes; 0 where the kit does it, or where it is left out.
    pub hands: u32,
    /// It falls in sleep and is left out.
    pub dropped: bool,
    /// It falls in sleep and cannot be left out: somebody would have to be awake.
    pub breaks_sleep: bool,
}

/// The timeline for tools.
pub fn json(timeline: &Timeline, scale: Scale) -> TimelineJson {
    let zero = timeline.start.map_or(0, |start| start.earliest);
    let stamp = |minute: Minute| match timeline.clock.rfc3339(minute) {
        Some(time) => Stamp::Time(time),
        None => Stamp::Seconds((minute - zero) * 60),
    };
    let earliest = |window: Option<Window>| window.map(|window| stamp(window.earliest));
    let latest = |window: Option<Window>| window.map(|window| stamp(window.latest));
    TimelineJson {
        format: "dwell.timeline/1".into(),
        title: timeline.title.clone(),
        start_earliest: earliest(timeline.start),
        start_latest: latest(timeline.start),
        now: timeline.now.map(stamp),
        on_time: timeline.on_time,
        windows: timeline.windows,
        hands_judged: timeline.hands_judged,
        servings: timeline
            .servings
            .iter()
            .map(|serving| ServingJson {
                cook: serving.cook.clone(),
                foods: serving.foods.clone(),
                from: earliest(serving.promised),
                to: latest(serving.promised),
                on_time: serving.on_time,
                because: serving.because.clone(),
            })
            .collect(),
        phases: timeline
            .phases
            .iter()
            .map(|phase| PhaseJson {
                cook: phase.cook.clone(),
                name: phase.name.clone(),
                purpose: phase.purpose.words().into(),
                food: phase.foods.clone(),
                kit: phase.kit.clone(),
                start_earliest: earliest(phase.start),
                start_latest: latest(phase.start),
                end_earliest: earliest(phase.end),
                end_latest: latest(phase.end),
                decided_by: phase.decided_by,
                state: phase.state,
            })
            .collect(),
        jobs: timeline
            .jobs
            .iter()
            .map(|job| JobJson {
                at: Some(stamp(job.at.earliest)),
                at_latest: Some(stamp(job.at.latest)),
                cook: job.cook.clone(),
                phase: job.phase.clone(),
                text: job.text.render(scale),
                hands: job.hands,
                dropped: job.dropped,
                breaks_sleep: job.breaks_sleep,
            })
            .collect(),
    }
}
