//! A timeline as a calendar (RFC 5545), for a telephone that is to ring when somebody is needed.
//!
//! Times are in UTC where the cook names a zone. In local time a calendar cannot tell the two times apart that a
//! clock shows on the night it is put back: RFC 5545 (3.3.5) takes the first, and a cook runs through both. Every reader
//! understands UTC, none has to trust a table of clock changes in the file, and each shows it by the clock of
//! whoever looks. The zone stands in `X-WR-TIMEZONE` and, in words, in every event. Without a zone times float: they are
//! those of the clock in the kitchen, wherever it hangs.
//!
//! Nothing is asked of the day of writing, so that the same cook gives the same bytes. `DTSTAMP`, which a calendar has to
//! have, is the start of the day of the first serving, and `SEQUENCE` stays 0, for a file cannot know how often it
//! was written before.

mod lines;
mod words;

use chrono::{NaiveDate, Utc};
use uuid::Uuid;

use self::lines::Lines;
use crate::quantity::Scale;
use crate::timing::{JobLine, Minute, PhaseLine, Timeline};

/// Names made from it are dwell's own. Changing it doubles the events of everybody's calendar.
const NAMES: Uuid = Uuid::from_u128(0xa3d815d1_4aec_48c9_833f_08104c3bd90c);

/// Why there is no calendar of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoCalendar {
    #[error(
        "a calendar needs a date, and the first serving has none. Give it with `--serve \"2026-12-12 18:30\"`, or write \
         it where the file says when it is served: `at 2026-12-12 18:30`"
    )]
    NoDate,
    #[error(
        "there is nothing to put into a calendar: no phase can be timed. `dwell check` says what is missing"
    )]
    NothingTimed,
}

/// What has to be said of a whole plan besides what it says itself.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Above {
    /// That nobody should cook from it. It stands in every event, and its first word in every title.
    pub caution: Option<String>,
    pub notes: Vec<String>,
}

/// An event for each phase that is timed, from its earliest start to its latest end, with an alarm for each job that
/// takes hands, at its earliest time.
///
/// # Errors
/// [`NoCalendar`] without a date, or where no phase can be timed.
pub fn ics(timeline: &Timeline, scale: Scale, above: &Above) -> Result<String, NoCalendar> {
    let date = timeline.clock.date().ok_or(NoCalendar::NoDate)?;
    let events = events(timeline);
    if events.is_empty() {
        return Err(NoCalendar::NothingTimed);
    }
    let mut calendar = Calendar { timeline, scale, above, date, lines: Lines::default() };
    calendar.write(&events);
    Ok(calendar.lines.out)
}

/// A phase that is timed, and what there is to do in it.
struct Event<'t> {
    phase: &'t PhaseLine,
    uid: Uuid,
    from: Minute,
    to: Minute,
    jobs: Vec<&'t JobLine>,
}

fn events(timeline: &Timeline) -> Vec<Event<'_>> {
    let mut events: Vec<Event<'_>> = Vec::new();
    for (n, phase) in timeline.phases.iter().enumerate() {
        let (Some(start), Some(end)) = (phase.start, phase.end) else { continue };
        let same = |other: &&PhaseLine| (&other.cook, &other.name) == (&phase.cook, &phase.name);
        let before = timeline.phases[..n].iter().filter(same).count();
        let uid = uid(&timeline.title, phase, before);
        events.push(Event { phase, uid, from: start.earliest, to: end.latest, jobs: Vec::new() });
    }
    for job in &timeline.jobs {
        // Two dishes of one title may have phases of one name; the job is then of the nearer one.
        let own =
            events.iter_mut().filter(|event| event.phase.cook == job.cook && event.phase.name == job.phase);
        if let Some(event) = own.min_by_key(|event| (event.from - job.at.earliest).abs()) {
            event.jobs.push(job);
        }
    }
    events
}

/// The same whenever the cook is made and however long it takes: a calendar that knows it moves the event.
fn uid(title: &str, phase: &PhaseLine, same_before: usize) -> Uuid {
    let name = serde_json::json!([title, phase.cook, phase.name, same_before]);
    Uuid::new_v5(&NAMES, name.to_string().as_bytes())
}

struct Calendar<'t> {
    timeline: &'t Timeline,
    scale: Scale,
    above: &'t Above,
    date: NaiveDate,
    lines: Lines,
}

impl Calendar<'_> {
    fn write(&mut self, events: &[Event<'_>]) {
        self.lines.plain("BEGIN", "VCALENDAR");
        self.lines.plain("VERSION", "2.0");
        self.lines.plain("PRODID", "-//dwell//timeline//EN");
        self.lines.text("NAME", &self.timeline.title);
        if let Some(zone) = self.timeline.clock.zone() {
            self.lines.text("X-WR-TIMEZONE", zone.name());
        }
        for event in events {
            self.event(event);
        }
        self.lines.plain("END", "VCALENDAR");
    }

    fn event(&mut self, event: &Event<'_>) {
        self.lines.plain("BEGIN", "VEVENT");
        self.lines.plain("UID", &event.uid.to_string());
        self.lines.plain("DTSTAMP", &self.date.format("%Y%m%dT000000Z").to_string());
        self.lines.plain("SEQUENCE", "0");
        self.time("DTSTART", event.from);
        // An event that takes no time has no end (RFC 5545, 3.8.2.2: it has to be later than the start).
        if event.from < event.to {
            self.time("DTEND", event.to);
        }
        // A cook that goes on does not keep anybody from anything else.
        self.lines.plain("TRANSP", "TRANSPARENT");
        self.lines.text("SUMMARY", &words::summary(self.timeline, event.phase, self.above));
        self.lines.text("DESCRIPTION", &words::description(self.timeline, event, self.above, self.scale));
        for job in event.jobs.iter().filter(|job| job.hands > 0 && !job.dropped) {
            self.lines.plain("BEGIN", "VALARM");
            self.lines.plain("ACTION", "DISPLAY");
            self.lines.plain("TRIGGER", &after(job.at.earliest - event.from));
            self.lines.text("DESCRIPTION", &words::alarm(job, &self.timeline.clock, self.scale));
            self.lines.plain("END", "VALARM");
        }
        self.lines.plain("END", "VEVENT");
    }

    fn time(&mut self, name: &str, minute: Minute) {
        // Whatever was planned for a date lies within reach of its calendar.
        let Some(moment) = self.timeline.clock.real(minute) else { return };
        let time = match self.timeline.clock.zone() {
            Some(_) => moment.with_timezone(&Utc).format("%Y%m%dT%H%M%SZ"),
            None => moment.format("%Y%m%dT%H%M%S"),
        };
        self.lines.plain(name, &time.to_string());
    }
}

/// So long after the start of the event, as RFC 5545 (3.3.6) writes it.
fn after(minutes: Minute) -> String {
    match minutes {
        0 => "PT0S".into(),
        later if later > 0 => format!("PT{later}M"),
        before => format!("-PT{}M", -before),
    }
}
