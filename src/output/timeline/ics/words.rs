//! What an event of the calendar says.

use super::super::words::{moment, named, who};
use super::{Above, Event};
use crate::quantity::Scale;
use crate::timing::{Clock, DecidedBy, JobLine, OnTime, PhaseLine, State, Timeline, Window, Windows};

/// The dish and the phase, with a mark where the plan cannot be relied on.
pub(super) fn summary(timeline: &Timeline, phase: &PhaseLine, above: &Above) -> String {
    let caution = if above.caution.is_some() { "CAUTION, " } else { "" };
    let mark = match timeline.on_time {
        OnTime::Always => "",
        OnTime::IfLucky => " (on time only with luck)",
        OnTime::Never => " (never on time)",
        OnTime::NotProved => " (on time not proved)",
    };
    format!("{caution}{}: {}{mark}", phase.cook, phase.name)
}

/// What may be relied on, what happens and when, and what there is to do.
pub(super) fn description(timeline: &Timeline, event: &Event<'_>, above: &Above, scale: Scale) -> String {
    let Event { phase, jobs, .. } = event;
    let moment = |window| moment(&timeline.clock, window);
    let mut lines: Vec<String> = above.caution.iter().chain(&above.notes).cloned().collect();
    lines.push(promise(timeline));
    let reasons = timeline.servings.iter().filter(|serving| serving.cook == phase.cook);
    lines.extend(reasons.map(|serving| serving.because.clone()).filter(|because| !because.is_empty()));
    lines.extend(left_out(timeline));
    lines.push(String::new());
    lines.push(happens(phase));
    if let (Some(start), Some(end)) = (phase.start, phase.end) {
        lines.push(format!("Starts {}.", moment(start)));
        if end != start {
            lines.push(format!("Ends {}.", moment(end)));
        }
        if !certain(start) || !certain(end) {
            lines.push(windows(timeline.windows).into());
        }
    }
    lines.extend(lasts(phase));
    lines.extend(match phase.state {
        State::Done => Some("It is over.".to_owned()),
        State::Going => Some("It is going on.".to_owned()),
        State::ToCome => None,
    });
    if !jobs.is_empty() {
        lines.extend([String::new(), "What to do:".into()]);
        lines.extend(jobs.iter().map(|job| format!("{}: {}", moment(job.at), job_words(job, scale))));
    }
    lines.extend([String::new(), clock(&timeline.clock)]);
    lines.join("\n")
}

/// What is shown when it rings.
pub(super) fn alarm(job: &JobLine, clock: &Clock, scale: Scale) -> String {
    let until = if certain(job.at) { String::new() } else { format!(" ({})", moment(clock, job.at)) };
    format!("{}: {}{until}", named(&job.cook, &job.phase, true), job_words(job, scale))
}

fn promise(timeline: &Timeline) -> String {
    let promise = match timeline.on_time {
        OnTime::Always => "On time always, whatever happens inside the ranges of the file.",
        OnTime::IfLucky => {
            "On time only with luck: some of what may happen inside the ranges of the file makes it late."
        }
        OnTime::Never => {
            "Never on time. This is how it would go with everything at its longest and nobody asleep."
        }
        OnTime::NotProved => "On time is not proved: it may be on time or late. Do not rely on it.",
    };
    let hands = if timeline.hands_judged {
        ""
    } else {
        " Sleep and hands were not looked at: the file has no `crew`."
    };
    format!("{promise}{hands}")
}

/// The phases that have no event: nobody should take the calendar for the whole of the cook.
fn left_out(timeline: &Timeline) -> Option<String> {
    let untimed = timeline.phases.iter().filter(|phase| phase.start.is_none() || phase.end.is_none());
    let names: Vec<String> =
        untimed.map(|phase| named(&phase.cook, &phase.name, timeline.is_menu())).collect();
    (!names.is_empty()).then(|| format!("Not in the calendar, for it cannot be timed: {}.", names.join("; ")))
}

/// "Cook: shoulder (cabinet)."
fn happens(phase: &PhaseLine) -> String {
    let mut purpose: String = phase.purpose.words().into();
    if let Some(first) = purpose.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    let foods =
        if phase.foods.is_empty() { String::new() } else { format!(": {}", phase.foods.join(" and ")) };
    let kit = phase.kit.as_ref().map_or_else(String::new, |kit| format!(" ({kit})"));
    format!("{purpose}{foods}{kit}.")
}

fn windows(windows: Windows) -> &'static str {
    match windows {
        Windows::Exact => "The event runs from the earliest start to the latest end.",
        Windows::Bounds => {
            "The event runs from the earliest start to the latest end. These are bounds: nothing falls outside them, \
             but not every minute inside is open once other things have happened."
        }
        Windows::OneWay => "This is one way it may go, with everything at its longest; nothing is promised.",
    }
}

fn lasts(phase: &PhaseLine) -> Option<String> {
    let who = match phase.decided_by {
        DecidedBy::Fixed => "fixed",
        DecidedBy::Cook => "as you choose",
        DecidedBy::Nature => "as nature decides",
    };
    (!phase.lasts.is_empty()).then(|| format!("Lasts {}, {who}.", phase.lasts))
}

fn job_words(job: &JobLine, scale: Scale) -> String {
    format!("{}{}", job.text.render(scale), who(job))
}

fn certain(window: Window) -> bool {
    window.earliest == window.latest
}

fn clock(clock: &Clock) -> String {
    match clock.zone() {
        Some(zone) => format!("Times in words are by the clock of {}.", zone.name()),
        None => "Times are by the clock in the kitchen: the file names no zone.".into(),
    }
}
