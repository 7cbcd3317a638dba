//! A timeline for people.

use super::page::{Page, day_name};
use super::picture;
use crate::output::clean;
use crate::quantity::{Duration, Scale};
use crate::timing::{
    Branch, Case, DecidedBy, JobLine, Minute, OnTime, PhaseLine, ServingLine, State, Timeline, Window,
    Windows,
};

/// The timeline for people: the promise, then what to do by the clock, then what the food does.
pub fn text(timeline: &Timeline, scale: Scale) -> String {
    let mut page = Page { out: String::new(), clock: timeline.clock };
    page.line(0, &clean::line(&timeline.title));
    page.out.push('\n');
    page.line(0, &promise(timeline));
    let begun = timeline.phases.iter().any(|phase| phase.state != State::ToCome);
    if let Some(now) = timeline.now {
        let now = page.moment(Window { earliest: now, latest: now });
        page.line(0, &format!("This is the plan from now on, {now}."));
    }
    if let Some(start) = timeline.start.filter(|_| !begun) {
        page.line(0, &format!("Start {}.", page.moment(start)));
    }
    let menu = timeline.is_menu();
    for serving in &timeline.servings {
        page.serving(serving, timeline.servings.len() > 1, menu);
    }
    if timeline.windows == Windows::Bounds {
        page.line(
            0,
            "Times below that read from one to another are bounds: nothing falls outside them, but not every \
             minute inside is open once other things have happened.",
        );
    }
    if !timeline.hands_judged {
        page.line(0, "Sleep and hands were not looked at: the file has no `crew`.");
    }
    if !timeline.jobs.is_empty() {
        page.heading("What to do");
        let mut day = None;
        for job in &timeline.jobs {
            page.day(&mut day, job.at.earliest);
            page.job(job, scale, menu);
        }
    }
    page.branches(&timeline.branches);
    page.heading("What happens meanwhile");
    let mut phases: Vec<&PhaseLine> = timeline.phases.iter().collect();
    phases.sort_by_key(|phase| phase.start.map(|start| start.earliest));
    let mut day = None;
    for phase in phases {
        match phase.start {
            Some(start) => page.day(&mut day, start.earliest),
            None if day.is_none() => page.line(2, "Not timed"),
            None => {}
        }
        page.phase(phase, menu);
    }
    picture::draw(&mut page, timeline);
    page.out
}

fn promise(timeline: &Timeline) -> String {
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

/// A phase, with its dish where there are several.
pub(super) fn named(cook: &str, phase: &str, menu: bool) -> String {
    if menu { format!("{cook}, {phase}") } else { phase.to_owned() }
}

/// Whom a job asks for, in brackets; nothing where it is a moment of anybody.
pub(super) fn who(job: &JobLine) -> String {
    let mut who = match (job.dropped, job.hands, &job.busy) {
        (true, ..) => " (everybody asleep: left out)".to_string(),
        (_, 0, _) => " (no hands)".to_string(),
        (_, _, Some(busy)) => format!(" (hands for {busy})"),
        (_, _, None) => String::new(),
    };
    if job.breaks_sleep {
        who.push_str(" (falls in sleep: somebody would have to be awake)");
    }
    who
}

impl Page {
    /// "If `set-crust` takes 2 h, …; if it takes 4 h, …".
    fn branches(&mut self, branches: &[Branch]) {
        if branches.is_empty() {
            return;
        }
        self.heading("How it may go");
        for Branch { phase, then, quick, slow } in branches {
            let case = |case: &Case| {
                let length = |minutes: Minute| Duration::from_minutes(minutes as f64).show();
                let (least, most) = (length(case.then.earliest), length(case.then.latest));
                let then_lasts = if least == most { least } else { format!("{least} to {most}") };
                format!(
                    "takes {}, it ends {}, and {then} then lasts {then_lasts}",
                    length(case.lasts),
                    self.times(case.ends)
                )
            };
            let late = self.clock.time_of_day(slow.ends.latest);
            let (quick, slow) = (case(quick), case(slow));
            self.line(2, &clean::line(&format!("If {phase} {quick}.")));
            self.line(2, &clean::line(&format!("If it {slow}. Not over by {late}? Then this plan no longer holds: ask again with `--now`.")));
        }
    }

    fn serving(&mut self, serving: &ServingLine, several: bool, menu: bool) {
        let Some(promised) = serving.promised else { return };
        let dish = if menu { format!("{}: serve", serving.cook) } else { "Serve".to_owned() };
        let mut text = format!("{dish} {} {}", serving.foods.join(" and "), self.moment(promised));
        if several {
            text.push_str(match serving.on_time {
                OnTime::Always => ": always on time",
                OnTime::IfLucky => ": only with luck",
                OnTime::Never => ": never on time",
                OnTime::NotProved => ": not proved",
            });
        }
        text.push('.');
        self.line(0, &clean::line(&text));
    }

    fn job(&mut self, job: &JobLine, scale: Scale, menu: bool) {
        let times = self.times(job.at);
        let mut text = format!("{}: {}", named(&job.cook, &job.phase, menu), job.text.render(scale));
        text.push_str(&who(job));
        self.entry(&times, &clean::line(&text));
    }

    fn phase(&mut self, phase: &PhaseLine, menu: bool) {
        let times = phase.start.map_or_else(String::new, |start| self.times(start));
        let mut text = named(&phase.cook, &phase.name, menu);
        if let Some(kit) = &phase.kit {
            text.push_str(&format!(": {kit}"));
        }
        if !phase.lasts.is_empty() {
            let who = match phase.decided_by {
                DecidedBy::Fixed => "fixed",
                DecidedBy::Cook => "your choice",
                DecidedBy::Nature => "nature's",
            };
            text.push_str(&format!(", {} ({who})", phase.lasts));
        }
        if let (Some(start), Some(end)) = (phase.start, phase.end)
            && end != start
        {
            text.push_str(&format!(", ends {}", self.times(end)));
            if self.clock.day(end.latest) != self.clock.day(start.earliest)
                && self.clock.day(end.earliest) == self.clock.day(end.latest)
            {
                text.push_str(&format!(", {}", day_name(&self.clock, self.clock.day(end.latest))));
            }
        }
        text.push_str(match phase.state {
            State::Done => " (over)",
            State::Going => " (going on)",
            State::ToCome => "",
        });
        self.entry(&times, &clean::line(&text));
    }
}
