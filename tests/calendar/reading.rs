//! A calendar as the parser of another library reads it.

use chrono::NaiveDateTime;
use icalendar::{Calendar, CalendarComponent, CalendarDateTime, Component, DatePerhapsTime};

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Event {
    pub uid: String,
    pub stamp: String,
    pub sequence: u32,
    pub from: Time,
    /// None where it takes no time.
    pub to: Option<Time>,
    pub summary: String,
    pub description: String,
    /// When it rings, and what it then shows.
    pub alarms: Vec<(NaiveDateTime, String)>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Time {
    Utc(NaiveDateTime),
    Floating(NaiveDateTime),
}

impl Time {
    pub fn face(self) -> NaiveDateTime {
        match self {
            Self::Utc(time) | Self::Floating(time) => time,
        }
    }
}

pub fn calendar(text: &str) -> Calendar {
    text.parse().unwrap_or_else(|why| panic!("{why}: {text}"))
}

pub fn events(text: &str) -> Vec<Event> {
    calendar(text).components.iter().map(event).collect()
}

fn event(component: &CalendarComponent) -> Event {
    let CalendarComponent::Event(event) = component else { panic!("not an event: {component:?}") };
    let value = |name: &str| event.property_value(name).unwrap_or_else(|| panic!("no {name}")).to_owned();
    let from = time(event.get_start().expect("a start"));
    let alarms = event.components().iter().map(|alarm| {
        let value = |name: &str| alarm.property_value(name).unwrap_or_else(|| panic!("no {name}"));
        assert_eq!((alarm.component_kind().as_str(), value("ACTION")), ("VALARM", "DISPLAY"));
        (from.face() + after(value("TRIGGER")), value("DESCRIPTION").to_owned())
    });
    Event {
        uid: value("UID"),
        stamp: value("DTSTAMP"),
        sequence: event.get_sequence().expect("a number"),
        from,
        to: event.get_end().map(time),
        summary: value("SUMMARY"),
        description: value("DESCRIPTION"),
        alarms: alarms.collect(),
    }
}

fn time(time: DatePerhapsTime) -> Time {
    match time {
        DatePerhapsTime::DateTime(CalendarDateTime::Utc(time)) => Time::Utc(time.naive_utc()),
        DatePerhapsTime::DateTime(CalendarDateTime::Floating(time)) => Time::Floating(time),
        other => panic!("neither UTC nor floating: {other:?}"),
    }
}

/// RFC 5545, 3.3.6, as far as it is used.
fn after(trigger: &str) -> chrono::Duration {
    let (sign, rest) = trigger.strip_prefix('-').map_or((1, trigger), |rest| (-1, rest));
    let minutes = match rest.strip_prefix("PT").expect("a time") {
        "0S" => 0,
        minutes => minutes.strip_suffix('M').expect("minutes").parse::<i64>().expect("a number"),
    };
    chrono::Duration::minutes(sign * minutes)
}
