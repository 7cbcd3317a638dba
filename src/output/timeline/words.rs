//! The sentences of a plan: one wording for the terminal and for paper.

use super::page::day_name;
use crate::quantity::Scale;
use crate::timing::{
    Clock, DecidedBy, JobLine, Minute, OnTime, PhaseLine, ServingLine, State, Timeline, Window, Windows,
};

/// Stands where the windows are bounds.
pub const BOUNDS: &str = "Times below that read from one to another are bounds: nothing falls outside them, but not every \
                          minute inside is open once other things have happened.";

/// Stands where it is decided as it goes who has shared kit and hands first.
pub const OPEN_ORDER: &str = "The order is not fixed: who is done first goes first, so the jobs below may come in another order. \
                              When something is done, ask again with `--done` and `--now`.";

/// Stands where nobody is named who cooks.
pub const NO_CREW: &str = "Sleep and hands were not looked at: the file has no `crew`.";

/// What the plan can promise.
pub fn promise(timeline: &Timeline) -> String {
    match timeline.on_time {
        OnTime::Always => "On time always, whatever happens inside the ranges below.".into(),
        OnTime::IfLucky => {
            "On time only with luck: some of what may happen inside the ranges below makes it late.".into()
        }
        OnTime::Never => {
            "Never on time. Below is how it would go with everything at its longest and nobody asleep.".into()
        }
        OnTime::NotProved if timeline.servings.iter().all(|serving| serving.promised.is_none()) => {
            "Nothing is promised: no serving can be timed.".into()
        }
        OnTime::NotProved => format!("On time is not proved. {}", not_proved(timeline)),
    }
}

/// What "not proved" means, and what to do about it.
fn not_proved(timeline: &Timeline) -> &'static str {
    if timeline.phases.iter().all(|phase| phase.start.is_some()) {
        "It may be on time or late: no plan was found that is on time whatever happens inside the ranges \
         below, and none was ruled out. Below is one way it may go, with everything at its longest. Do not \
         rely on it. What to do: follow the findings of `dwell check`; give waits more room \
         (`for 30 min to 2 h`); where two foods want hands at once, start one of them sooner or add a person \
         to the `crew`."
    } else {
        "It may be on time or late: how long something takes is not known, so not every phase can be timed. \
         What to do: add `takes` with the shortest and the longest you have seen to the phases that the \
         findings of `dwell check` name."
    }
}

/// "Start between 22:00 and 22:05, the day before.", and when kit is lit if that is sooner; `None` where it has begun or cannot be timed.
pub fn start(timeline: &Timeline) -> Option<String> {
    let begun = timeline.phases.iter().any(|phase| phase.state != State::ToCome);
    let start = timeline.start.filter(|_| !begun)?;
    // Kit that has to heat up first.
    let sooner =
        timeline.jobs.iter().map(|job| job.at.earliest).min().filter(|&first| first < start.earliest);
    let sooner = sooner
        .map(|first| format!("; the first job comes before that, at {}", timeline.clock.time_of_day(first)));
    Some(format!("Start {}{}.", moment(&timeline.clock, start), sooner.unwrap_or_default()))
}

/// What else has to be known of the windows before they are relied on.
pub fn reservations(timeline: &Timeline) -> impl Iterator<Item = &'static str> {
    let bounds = (timeline.windows == Windows::Bounds).then_some(BOUNDS);
    let open = timeline.order_open.then_some(OPEN_ORDER);
    bounds.into_iter().chain(open).chain((!timeline.hands_judged).then_some(NO_CREW))
}

/// "Serve pulled between 18:30 and 18:45, on the day."; `None` where it cannot be timed.
pub fn serving(timeline: &Timeline, serving: &ServingLine) -> Option<String> {
    let promised = serving.promised?;
    let dish = if timeline.is_menu() { format!("{}: serve", serving.cook) } else { "Serve".to_owned() };
    let mut text = format!("{dish} {} {}", serving.foods.join(" and "), moment(&timeline.clock, promised));
    if timeline.servings.len() > 1 {
        text.push_str(match serving.on_time {
            OnTime::Always => ": always on time",
            OnTime::IfLucky => ": only with luck",
            OnTime::Never => ": never on time",
            OnTime::NotProved => ": not proved",
        });
    }
    text.push('.');
    Some(text)
}

/// "smoke: Shoulder to cabinet, air 110 °C. (hands for 5 min)"
pub fn job(job: &JobLine, scale: Scale, menu: bool) -> String {
    format!("{}: {}{}", named(&job.cook, &job.phase, menu), job.text.render(scale), who(job))
}

/// Whom a job asks for, in brackets; nothing where it is a moment of anybody.
pub fn who(job: &JobLine) -> String {
    let hands = hands(job).map(|hands| format!(" ({hands})")).unwrap_or_default();
    let sleep = breaks_sleep(job).map(|sleep| format!(" ({sleep})")).unwrap_or_default();
    hands + &sleep
}

/// Whose hands it takes, where that is worth saying.
pub fn hands(job: &JobLine) -> Option<String> {
    match (job.dropped, job.hands, &job.busy) {
        (true, ..) => Some("everybody asleep: left out".into()),
        (_, 0, _) => Some("no hands".into()),
        (_, _, Some(busy)) => Some(format!("hands for {busy}")),
        (_, _, None) => None,
    }
}

/// That it wakes somebody.
pub fn breaks_sleep(job: &JobLine) -> Option<&'static str> {
    job.breaks_sleep.then_some("falls in sleep: somebody would have to be awake")
}

/// A phase, with its dish where there are several.
pub fn named(cook: &str, phase: &str, menu: bool) -> String {
    if menu { format!("{cook}, {phase}") } else { phase.to_owned() }
}

/// Who decides how long it takes.
pub fn decided_by(phase: &PhaseLine) -> &'static str {
    match phase.decided_by {
        DecidedBy::Fixed => "fixed",
        DecidedBy::Cook => "your choice",
        DecidedBy::Nature => "nature's",
    }
}

/// When a phase ends, with the day where that is another than it starts on; `None` for a moment.
pub fn end(clock: &Clock, phase: &PhaseLine) -> Option<String> {
    let (start, end) = (phase.start?, phase.end?);
    if end == start {
        return None;
    }
    let mut said = times(clock, end);
    if clock.day(end.latest) != clock.day(start.earliest) && clock.day(end.earliest) == clock.day(end.latest)
    {
        said.push_str(&format!(", {}", day_name(clock, clock.day(end.latest))));
    }
    Some(said)
}

/// `22:30 to 22:55`; with the day of the second where it is another.
pub fn times(clock: &Clock, window: Window) -> String {
    let first = clock.time_of_day(window.earliest);
    if window.earliest == window.latest {
        return first;
    }
    let last = clock.time_of_day(window.latest);
    if clock.day(window.earliest) == clock.day(window.latest) {
        format!("{first} to {last}")
    } else {
        format!("{first} to {last} ({})", day_name(clock, clock.day(window.latest)))
    }
}

/// "at 18:30 on Saturday", "between 22:00 and 22:05 the day before".
pub fn moment(clock: &Clock, window: Window) -> String {
    let day = |minute: Minute| day_name(clock, clock.day(minute));
    let (first, last) = (clock.time_of_day(window.earliest), clock.time_of_day(window.latest));
    if window.earliest == window.latest {
        format!("at {first}, {}", day(window.earliest))
    } else if clock.day(window.earliest) == clock.day(window.latest) {
        format!("between {first} and {last}, {}", day(window.earliest))
    } else {
        format!("from {first}, {}, to {last}, {}", day(window.earliest), day(window.latest))
    }
}

/// The name of a day at the head of what happens on it: "Saturday", "The day before".
pub fn day_heading(clock: &Clock, minute: Minute) -> String {
    let name = day_name(clock, clock.day(minute));
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
