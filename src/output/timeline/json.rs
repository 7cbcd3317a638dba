//! A timeline for tools. The same type stands in `dwell timeline --format json` and in `dwell export`.

use serde::Serialize;

use crate::quantity::Scale;
use crate::timing::{
    Branch, Case, DecidedBy, Give, Minute, Named, OnTime, Overrun, State, Then, Timeline, Window, Windows,
};

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
    /// Whether it is decided as it goes who has shared kit and hands first.
    pub order_open: bool,
    /// `false` where the cook names no crew: sleep and hands were not looked at.
    pub hands_judged: bool,
    pub servings: Vec<ServingJson>,
    pub phases: Vec<PhaseJson>,
    pub jobs: Vec<JobJson>,
    /// How it goes on after each phase that nature may stretch by much: if it is quick, and if it is slow. Only in a plan that
    /// is always on time.
    pub branches: Vec<BranchJson>,
    /// Until when each phase that nature ends may last, in the order of the clock. Only in a plan that is on time always or
    /// with luck.
    pub overruns: Vec<OverrunJson>,
    /// How many phases nature ends, where those are too many for `branches` and `overruns`, which are then empty.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub too_many: Option<usize>,
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

#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct BranchJson {
    pub cook: String,
    pub phase: String,
    pub quick: CaseJson,
    pub slow: CaseJson,
}

/// One length of a phase, and what follows from it.
#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct CaseJson {
    pub lasts_s: i64,
    pub end_earliest: Stamp,
    pub end_latest: Stamp,
    /// The same phases in both cases.
    pub then: Vec<ThenJson>,
}

#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct ThenJson {
    pub cook: String,
    pub phase: String,
    pub start_earliest: Stamp,
    pub start_latest: Stamp,
    /// How short and how long it then lasts, where that is what takes it up; else null.
    pub lasts_least_s: Option<i64>,
    pub lasts_most_s: Option<i64>,
}

#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct OverrunJson {
    pub cook: String,
    pub phase: String,
    /// By then it is over, if it lasts no longer than the file says and the plan is kept to.
    pub promised_latest: Stamp,
    /// How much longer than its range it may last so that dinner is still always on time; null where not all of its range is,
    /// or with `withheld`. It is about the clock alone: a probe and the rules say whether the food may still be eaten.
    pub spare_s: Option<i64>,
    /// Nothing is to spare, whatever the clock leaves: food that takes longer may have to be thrown away.
    pub withheld: bool,
    /// Where not all of its range is: if it is over by then, the rest is always on time. Null where that is not known.
    pub sure_latest: Option<Stamp>,
    /// If it is not over by then, something is late whatever else happens, or with `possible_asleep` perhaps somebody is
    /// needed in sleep instead; null where that is not known.
    pub possible_latest: Option<Stamp>,
    pub possible_asleep: bool,
    /// What is shorter if it takes all that it may spare.
    pub taken_up: Vec<PhaseNameJson>,
    /// What would have to be shorter than it may be to spare more.
    pub gives: Vec<GiveJson>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, schemars::JsonSchema)]
pub struct PhaseNameJson {
    pub cook: String,
    pub phase: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct GiveJson {
    pub cook: String,
    pub phase: String,
    /// The least that it lasts by the file.
    pub least_s: i64,
    /// If it could be as short as one likes, how much longer than its range the other might last.
    pub spare_s: i64,
}

fn branch(branch: &Branch, stamp: &dyn Fn(Minute) -> Stamp) -> BranchJson {
    let then = |then: &Then| ThenJson {
        cook: then.cook.clone(),
        phase: then.phase.clone(),
        start_earliest: stamp(then.starts.earliest),
        start_latest: stamp(then.starts.latest),
        lasts_least_s: then.lasts.map(|lasts| lasts.earliest * 60),
        lasts_most_s: then.lasts.map(|lasts| lasts.latest * 60),
    };
    let case = |case: &Case| CaseJson {
        lasts_s: case.lasts * 60,
        end_earliest: stamp(case.ends.earliest),
        end_latest: stamp(case.ends.latest),
        then: case.then.iter().map(then).collect(),
    };
    let Branch { cook, phase, quick, slow } = branch;
    BranchJson { cook: cook.clone(), phase: phase.clone(), quick: case(quick), slow: case(slow) }
}

fn overrun(overrun: &Overrun, stamp: &dyn Fn(Minute) -> Stamp) -> OverrunJson {
    let give = |give: &Give| GiveJson {
        cook: give.cook.clone(),
        phase: give.phase.clone(),
        least_s: give.least * 60,
        spare_s: give.spare * 60,
    };
    let named = |one: &Named| PhaseNameJson { cook: one.cook.clone(), phase: one.phase.clone() };
    OverrunJson {
        cook: overrun.cook.clone(),
        phase: overrun.phase.clone(),
        promised_latest: stamp(overrun.longest),
        spare_s: overrun.spare.map(|spare| spare * 60),
        withheld: overrun.withheld,
        sure_latest: overrun.sure.map(stamp),
        possible_latest: overrun.lost.map(stamp),
        possible_asleep: overrun.asleep,
        taken_up: overrun.taken_up.iter().map(named).collect(),
        gives: overrun.gives.iter().map(give).collect(),
    }
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
        order_open: timeline.order_open,
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
        branches: timeline.branches.iter().map(|one| branch(one, &stamp)).collect(),
        overruns: timeline.overruns.iter().map(|one| overrun(one, &stamp)).collect(),
        too_many: timeline.too_many,
    }
}
