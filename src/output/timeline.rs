//! A timeline as text for people and as JSON for tools.

use serde::Serialize;

use super::clean;
use crate::quantity::Scale;
use crate::timing::{Clock, DecidedBy, JobLine, Minute, OnTime, PhaseLine, Timeline, Wall, Window};

/// The width that the text keeps to.
const WIDTH: usize = 80;
/// Where the text of a line begins, after its window.
const INDENT: usize = 18;

/// RFC 3339 where a date is known, else seconds from the start of the cook.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, schemars::JsonSchema)]
#[serde(untagged)]
pub enum Stamp {
    Time(String),
    Seconds(i64),
}

/// `dwell.timeline/1`. A stamp is null where nothing can be timed.
#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct TimelineJson {
    pub format: String,
    pub title: String,
    pub start_earliest: Option<Stamp>,
    pub start_latest: Option<Stamp>,
    pub on_time: OnTime,
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
}

#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct JobJson {
    pub at: Option<Stamp>,
    pub at_latest: Option<Stamp>,
    pub phase: String,
    pub text: String,
    pub hands: u32,
    /// It falls in sleep and is left out.
    pub dropped: bool,
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
        on_time: timeline.on_time,
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
            })
            .collect(),
        jobs: timeline
            .jobs
            .iter()
            .map(|job| JobJson {
                at: Some(stamp(job.at.earliest)),
                at_latest: Some(stamp(job.at.latest)),
                phase: job.phase.clone(),
                text: job.text.render(scale),
                hands: job.hands,
                dropped: job.dropped,
            })
            .collect(),
    }
}

/// The timeline for people: the promise, then what to do by the clock, then what the food does.
pub fn text(timeline: &Timeline, scale: Scale) -> String {
    let mut page = Page { out: String::new(), clock: timeline.clock };
    page.line(0, &clean::line(&timeline.title));
    page.out.push('\n');
    page.line(0, &promise(timeline));
    if let Some(start) = timeline.start {
        page.line(0, &format!("Start {}.", page.moment(start)));
    }
    for serving in &timeline.servings {
        page.serving(serving, timeline.servings.len() > 1);
    }
    if !timeline.hands_judged {
        page.line(0, "Sleep and hands were not looked at: the file has no `crew`.");
    }
    if !timeline.jobs.is_empty() {
        page.heading("What to do");
        let mut day = None;
        for job in &timeline.jobs {
            page.day(&mut day, job.at.earliest);
            page.job(job, scale);
        }
    }
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
        page.phase(phase);
    }
    page.out
}

fn promise(timeline: &Timeline) -> String {
    let timed = timeline.phases.iter().all(|phase| phase.start.is_some());
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
        OnTime::NotProved if timed => {
            "On time is not proved. Below is one way it may go, with everything at its longest.".into()
        }
        OnTime::NotProved => "On time is not proved: not every phase can be timed yet.".into(),
    }
}

struct Page {
    out: String,
    clock: Clock,
}

impl Page {
    /// A paragraph from column `indent` on, wrapped.
    fn line(&mut self, indent: usize, text: &str) {
        self.hanging(&" ".repeat(indent), indent, text);
    }

    /// A first line with something before it, and the rest beneath its text.
    fn hanging(&mut self, head: &str, indent: usize, text: &str) {
        use unicode_width::UnicodeWidthStr;
        let mut line = format!("{head:<indent$}");
        let mut used = line.width();
        let mut fresh = true;
        for word in text.split_whitespace() {
            if !fresh && used + 1 + word.width() > WIDTH {
                self.out.push_str(line.trim_end());
                self.out.push('\n');
                line = " ".repeat(indent);
                used = indent;
                fresh = true;
            }
            if !fresh {
                line.push(' ');
                used += 1;
            }
            line.push_str(word);
            used += word.width();
            fresh = false;
        }
        self.out.push_str(line.trim_end());
        self.out.push('\n');
    }

    fn heading(&mut self, text: &str) {
        self.out.push('\n');
        self.line(0, text);
    }

    /// The name of the day, where it is not the one before.
    fn day(&mut self, last: &mut Option<Wall>, minute: Minute) {
        let day = self.clock.day(minute);
        if *last != Some(day) {
            *last = Some(day);
            self.line(2, &capital(&day_name(&self.clock, day)));
        }
    }

    /// `22:30 to 22:55`; with the day of the second where it is another.
    fn times(&self, window: Window) -> String {
        let first = self.clock.time_of_day(window.earliest);
        if window.earliest == window.latest {
            return first;
        }
        let last = self.clock.time_of_day(window.latest);
        if self.clock.day(window.earliest) == self.clock.day(window.latest) {
            format!("{first} to {last}")
        } else {
            format!("{first} to {last} ({})", day_name(&self.clock, self.clock.day(window.latest)))
        }
    }

    /// "at 18:30 on Saturday", "between 22:00 and 22:05 the day before".
    fn moment(&self, window: Window) -> String {
        let day = |minute: Minute| day_name(&self.clock, self.clock.day(minute));
        let (first, last) = (self.clock.time_of_day(window.earliest), self.clock.time_of_day(window.latest));
        if window.earliest == window.latest {
            format!("at {first}, {}", day(first_of(window)))
        } else if self.clock.day(window.earliest) == self.clock.day(window.latest) {
            format!("between {first} and {last}, {}", day(window.earliest))
        } else {
            format!("from {first}, {}, to {last}, {}", day(window.earliest), day(window.latest))
        }
    }

    fn serving(&mut self, serving: &crate::timing::ServingLine, several: bool) {
        let Some(promised) = serving.promised else { return };
        let mut text = format!("Serve {} {}", serving.foods.join(" and "), self.moment(promised));
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

    fn job(&mut self, job: &JobLine, scale: Scale) {
        let times = self.times(job.at);
        let mut text = format!("{}: {}", job.phase, job.text.render(scale));
        let who = match (job.dropped, job.hands, &job.busy) {
            (true, ..) => " (everybody asleep: left out)".to_string(),
            (_, 0, _) => " (no hands)".to_string(),
            (_, _, Some(busy)) => format!(" (hands for {busy})"),
            (_, _, None) => String::new(),
        };
        text.push_str(&who);
        self.entry(&times, &clean::line(&text));
    }

    fn phase(&mut self, phase: &PhaseLine) {
        let times = phase.start.map_or_else(String::new, |start| self.times(start));
        let mut text = phase.name.clone();
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
        self.entry(&times, &clean::line(&text));
    }

    /// A window and what goes with it; a window too wide for its column has a line to itself.
    fn entry(&mut self, times: &str, text: &str) {
        let head = format!("  {times}");
        if head.len() + 2 > INDENT + 2 {
            self.line(2, times);
            self.line(INDENT + 2, text);
        } else {
            self.hanging(&head, INDENT + 2, text);
        }
    }
}

fn first_of(window: Window) -> Minute {
    window.earliest
}

/// "Friday 11 December 2026", "Friday", "the day before".
fn day_name(clock: &Clock, day: Wall) -> String {
    if let Some(date) = clock.date_of(day) {
        return date.format("%A %-d %B %Y").to_string();
    }
    if let Some(weekday) = clock.weekday_of(day).filter(|_| (-6..=6).contains(&day)) {
        return weekday_name(weekday).into();
    }
    match day {
        0 => "on the day".into(),
        -1 => "the day before".into(),
        1 => "the day after".into(),
        before if before < 0 => format!("{} days before", -before),
        after => format!("{after} days after"),
    }
}

fn weekday_name(weekday: chrono::Weekday) -> &'static str {
    match weekday {
        chrono::Weekday::Mon => "Monday",
        chrono::Weekday::Tue => "Tuesday",
        chrono::Weekday::Wed => "Wednesday",
        chrono::Weekday::Thu => "Thursday",
        chrono::Weekday::Fri => "Friday",
        chrono::Weekday::Sat => "Saturday",
        chrono::Weekday::Sun => "Sunday",
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
