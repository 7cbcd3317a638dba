//! A timeline for people.

use super::page::Page;
use super::{outlook, picture, words};
use crate::output::clean;
use crate::quantity::Scale;
use crate::timing::{JobLine, PhaseLine, State, Timeline, Window};

/// The timeline for people: the promise, then what to do by the clock, then what the food does.
pub fn text(timeline: &Timeline, scale: Scale) -> String {
    let mut page = Page { out: String::new(), clock: timeline.clock };
    page.line(0, &clean::line(&timeline.title));
    page.out.push('\n');
    page.line(0, &words::promise(timeline));
    if let Some(now) = timeline.now {
        let now = words::moment(&timeline.clock, Window { earliest: now, latest: now });
        page.line(0, &format!("This is the plan from now on, {now}."));
    }
    if let Some(start) = words::start(timeline) {
        page.line(0, &start);
    }
    let menu = timeline.is_menu();
    for serving in timeline.servings.iter().filter_map(|serving| words::serving(timeline, serving)) {
        page.line(0, &clean::line(&serving));
    }
    for reservation in words::reservations(timeline) {
        page.line(0, reservation);
    }
    if !timeline.jobs.is_empty() {
        page.heading("What to do");
        let mut day = None;
        for job in &timeline.jobs {
            page.day(&mut day, job.at.earliest);
            page.job(job, scale, menu);
        }
    }
    page.branches(timeline);
    page.overruns(timeline);
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

impl Page {
    fn branches(&mut self, timeline: &Timeline) {
        if timeline.branches.is_empty() {
            return;
        }
        self.heading("How it may go");
        for branch in &timeline.branches {
            for case in outlook::branch(timeline, branch) {
                self.line(2, &clean::line(&case));
            }
        }
    }

    fn overruns(&mut self, timeline: &Timeline) {
        if let Some(count) = timeline.too_many {
            self.heading("Not over by then?");
            self.line(2, &outlook::too_many(count));
        }
        if timeline.overruns.is_empty() {
            return;
        }
        self.heading("Not over by then?");
        self.line(2, &format!("{} {}", outlook::above_overruns(timeline), outlook::ASK_AGAIN));
        let mut day = None;
        for overrun in &timeline.overruns {
            let (moment, text) = outlook::overrun(timeline, overrun);
            self.day(&mut day, moment);
            self.entry(&self.clock.time_of_day(moment), &clean::line(&text));
        }
    }

    fn job(&mut self, job: &JobLine, scale: Scale, menu: bool) {
        let times = words::times(&self.clock, job.at);
        self.entry(&times, &clean::line(&words::job(job, scale, menu)));
    }

    fn phase(&mut self, phase: &PhaseLine, menu: bool) {
        let times = phase.start.map_or_else(String::new, |start| words::times(&self.clock, start));
        let mut text = words::named(&phase.cook, &phase.name, menu);
        if let Some(kit) = &phase.kit {
            text.push_str(&format!(": {kit}"));
        }
        if !phase.lasts.is_empty() {
            let who = words::decided_by(phase);
            text.push_str(&format!(", {} ({who})", phase.lasts));
        }
        if let Some(end) = words::end(&self.clock, phase) {
            text.push_str(&format!(", ends {end}"));
        }
        text.push_str(match phase.state {
            State::Done => " (over)",
            State::Going => " (going on)",
            State::ToCome => "",
        });
        self.entry(&times, &clean::line(&text));
    }
}
