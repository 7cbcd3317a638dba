//! `timeline --format ics`: read back by the parsers of other libraries, and held against the timeline in JSON.

#[path = "../common/mod.rs"]
mod common;

mod hostile;
mod reading;
mod witness;

use std::sync::LazyLock;

use chrono::{DateTime, NaiveDate, NaiveDateTime};
use dwell::compile::{Compiled, Options, compile};
use dwell::output::timeline::NoCalendar;
use dwell::output::timelines;
use dwell::resolve;
use serde_json::Value;

use common::Memory;
use reading::{Event, Time, calendar, events};

/// Ten hours to the minute, so that every time can be worked out by hand.
const ROAST: &str = r#"cook "Long roast"
  serves 6
  rules uk

kit oven is oven
  air 40 °C to 250 °C

food lamb is lamb leg
  1 piece of 2.4 kg
  thickness 9 cm
  starts at 5 °C

phase roast is cook
  lamb in oven
  air 100 °C
  for 10 h
  every 4 h do "Turn it."

serve lamb
  at 2026-12-12 18:30 in Europe/Dublin
"#;

const FILES: [(&str, &str); 5] = [
    ("club-supper.dwell", include_str!("../../examples/club-supper.dwell")),
    ("clubhouse.dwell", include_str!("../../examples/clubhouse.dwell")),
    ("overnight-shoulder.dwell", include_str!("../../examples/overnight-shoulder.dwell")),
    ("baked-beans.dwell", include_str!("../../examples/baked-beans.dwell")),
    ("roast-celeriac.dwell", include_str!("../../examples/roast-celeriac.dwell")),
];

fn planned(text: &str, serve: Option<&str>) -> Compiled {
    let mut options = Options::default();
    options.timing.serve = serve.map(|typed| resolve::when(typed).expect("a time"));
    compile(&Memory(&FILES), "cook.dwell".into(), text.as_bytes().to_vec(), &options)
}

fn written(file: &Compiled) -> String {
    timelines::ics(file, Vec::new()).expect("a calendar")
}

/// Of the cook, served then.
fn served(text: &str, serve: &str) -> Vec<Event> {
    events(&written(&planned(text, Some(serve))))
}

fn file(name: &str) -> &'static str {
    FILES.iter().find(|(other, _)| *other == name).expect("it is there").1
}

/// Cooks of every sort, served on nights of every sort.
static COOKS: LazyLock<Vec<Compiled>> = LazyLock::new(cooks);

fn cooks() -> Vec<Compiled> {
    let mut cooks = vec![planned(file("club-supper.dwell"), None), planned(ROAST, None)];
    for name in ["club-supper.dwell", "overnight-shoulder.dwell", "baked-beans.dwell", "roast-celeriac.dwell"]
    {
        for serve in [
            "2026-10-25 18:30 in Europe/Dublin",
            "2027-03-28 09:30 in Europe/Dublin",
            "2026-12-12 18:30 in Asia/Kathmandu",
        ] {
            cooks.push(planned(file(name), Some(serve)));
        }
    }
    cooks.push(planned(file("overnight-shoulder.dwell"), Some("2026-12-12 18:30")));
    cooks
}

fn at(year: i32, month: u32, day: u32, hour: u32, minute: u32) -> NaiveDateTime {
    NaiveDate::from_ymd_opt(year, month, day)
        .and_then(|day| day.and_hms_opt(hour, minute, 0))
        .expect("a time")
}

/// A time of the timeline in JSON, in UTC; a floating one as it stands on the wall.
fn told(stamp: &Value, like: Time) -> Time {
    let moment = DateTime::parse_from_rfc3339(stamp.as_str().expect("a time")).expect("RFC 3339");
    match like {
        Time::Utc(_) => Time::Utc(moment.naive_utc()),
        Time::Floating(_) => Time::Floating(moment.naive_local()),
    }
}

#[test]
fn every_time_is_that_of_the_timeline_in_json() {
    for file in COOKS.iter() {
        let json: Value = serde_json::from_str(&timelines::json(file)).expect("JSON");
        let calendar = events(&written(file));
        let phases = json["phases"].as_array().expect("phases");
        assert_eq!(calendar.len(), phases.len());
        for (event, phase) in calendar.iter().zip(phases) {
            let name = format!("{}: {}", phase["cook"].as_str().unwrap(), phase["name"].as_str().unwrap());
            let summary = event.summary.trim_start_matches("CAUTION, ");
            assert!(summary.starts_with(&name), "{summary} is not {name}");
            assert_eq!(event.from, told(&phase["start_earliest"], event.from));
            assert_eq!(event.to.unwrap_or(event.from), told(&phase["end_latest"], event.from));
            assert_ne!(event.to, Some(event.from), "RFC 5545, 3.8.2.2: an end is later than its start");
            let rings = json["jobs"].as_array().expect("jobs").iter().filter(|job| {
                job["cook"] == phase["cook"]
                    && job["phase"] == phase["name"]
                    && job["hands"] != 0
                    && job["dropped"] == false
            });
            let expected: Vec<_> = rings.map(|job| told(&job["at"], event.from).face()).collect();
            assert_eq!(event.alarms.iter().map(|(at, _)| *at).collect::<Vec<_>>(), expected, "{name}");
        }
        let hands = json["jobs"].as_array().unwrap().iter();
        let hands = hands.filter(|job| job["hands"] != 0 && job["dropped"] == false).count();
        assert_eq!(calendar.iter().map(|event| event.alarms.len()).sum::<usize>(), hands);
        assert!(hands > 0);
    }
}

/// Clocks in Ireland went from 02:00 IST to 01:00 GMT on the last Sunday of October, and go from 01:00 GMT to 02:00 IST
/// on the last one of March, at 01:00 UTC both times: Directive 2000/84/EC, articles 2 and 3.
#[test]
fn hours_are_hours_on_the_nights_when_clocks_change() {
    let roast = |serve| served(ROAST, serve).swap_remove(0);
    let autumn = roast("2026-10-25 09:00 in Europe/Dublin");
    assert_eq!(autumn.from, Time::Utc(at(2026, 10, 24, 23, 0)));
    assert_eq!(autumn.to, Some(Time::Utc(at(2026, 10, 25, 9, 0))));
    assert!(
        autumn.description.contains("Starts at 00:00, Sunday 25 October 2026."),
        "{}",
        autumn.description
    );
    let spring = roast("2027-03-28 09:00 in Europe/Dublin");
    assert_eq!(spring.from, Time::Utc(at(2027, 3, 27, 22, 0)));
    assert_eq!(spring.to, Some(Time::Utc(at(2027, 3, 28, 8, 0))));
    assert!(
        spring.description.contains("Starts at 22:00, Saturday 27 March 2027."),
        "{}",
        spring.description
    );
    // 01:30 comes twice, and only in UTC can the second one be said.
    let second = roast("2026-10-25 11:30 in Europe/Dublin");
    assert_eq!(second.from, Time::Utc(at(2026, 10, 25, 1, 30)));
    let first = roast("2026-10-25 10:30 in Europe/Dublin");
    assert_eq!(first.from, Time::Utc(at(2026, 10, 25, 0, 30)));
    let face = "Starts at 01:30, Sunday 25 October 2026.";
    assert!(first.description.contains(face) && second.description.contains(face));
    assert_eq!(calendar(&written(&planned(ROAST, None))).get_timezone(), Some("Europe/Dublin"));
}

#[test]
fn without_a_zone_times_float() {
    let text = ROAST.replace(" in Europe/Dublin", "");
    let roast = served(&text, "2026-10-25 09:00").swap_remove(0);
    assert_eq!(roast.from, Time::Floating(at(2026, 10, 24, 23, 0)));
    assert_eq!(roast.to, Some(Time::Floating(at(2026, 10, 25, 9, 0))));
    assert!(roast.description.contains("names no zone"), "{}", roast.description);
    assert_eq!(calendar(&written(&planned(&text, None))).get_timezone(), None);
    // A zone of the file stays when only the time is moved, and UTC is a zone like another.
    assert_eq!(served(ROAST, "2026-10-25 09:00")[0].from, Time::Utc(at(2026, 10, 24, 23, 0)));
    let utc = ROAST.replace("Europe/Dublin", "UTC");
    assert_eq!(served(&utc, "2026-10-25 09:00")[0].from, Time::Utc(at(2026, 10, 24, 23, 0)));
}

#[test]
fn whatever_moves_keeps_its_name() {
    for text in [ROAST, file("club-supper.dwell"), file("overnight-shoulder.dwell")] {
        let uids = |events: &[Event]| events.iter().map(|event| event.uid.clone()).collect::<Vec<_>>();
        let here = served(text, "2026-12-12 18:30");
        let there = served(text, "2027-03-28 09:30 in Europe/Dublin");
        assert_eq!(uids(&here), uids(&there));
        assert!(here.iter().zip(&there).all(|(here, there)| here.from != there.from));
        let mut different = uids(&here);
        different.sort_unstable();
        different.dedup();
        assert_eq!(different.len(), here.len());
    }
    let longer = served(&ROAST.replace("for 10 h", "for 11 h"), "2026-12-12 18:30");
    let here = served(ROAST, "2026-12-12 18:30");
    assert_eq!(longer[0].uid, here[0].uid);
    assert_ne!(longer[0].from, here[0].from);
    let other = served(&ROAST.replace("Long roast", "Short roast"), "2026-12-12 18:30");
    assert_ne!(other[0].uid, here[0].uid, "another cook has events of its own");
    // Everybody's calendar holds names that were given before: a change here doubles all their events. The name is that of
    // `uuid.uuid5` in Python 3.11 for ["Long roast","Long roast","roast",0].
    assert_eq!(here[0].uid, "5adbdb5b-a926-5628-b5ce-690874786457");
}

#[test]
fn the_same_bytes_twice_and_no_time_of_writing() {
    for (one, other) in COOKS.iter().zip(cooks()) {
        let text = written(one);
        assert_eq!(text, written(&other));
        for event in events(&text) {
            assert_eq!(event.sequence, 0);
            assert!(event.stamp.ends_with("T000000Z"), "{}", event.stamp);
        }
    }
    assert_eq!(served(ROAST, "2027-01-02 18:30")[0].stamp, "20270102T000000Z");
}

#[test]
fn lines_are_short_and_end_as_they_should() {
    for file in COOKS.iter() {
        let text = written(file);
        assert!(text.starts_with("BEGIN:VCALENDAR\r\n") && text.ends_with("END:VCALENDAR\r\n"));
        for line in text.split("\r\n") {
            assert!(line.len() <= 75 && !line.contains(['\r', '\n']), "{line:?}");
        }
    }
}

#[test]
fn an_event_says_what_is_chosen_what_is_natures_and_what_can_be_relied_on() {
    let supper = events(&written(&planned(file("club-supper.dwell"), None)));
    let named = |name: &str| supper.iter().find(|event| event.summary.contains(name)).expect("an event");
    assert!(named(": set-crust").description.contains("Lasts 2 h to 4 h, as nature decides."));
    assert!(named("shoulder: wait").description.contains(", as you choose."));
    assert!(named(": smoke").description.contains("Lasts 6 h, fixed."));
    assert!(
        named(": smoke").description.contains("Starts between 22:30 and 22:55, Friday 11 December 2026.")
    );
    assert!(
        named(": smoke").description.contains("Ends between 04:30 and 04:55, Saturday 12 December 2026.")
    );
    assert!(named(": smoke").description.contains("(everybody asleep: left out)"));
    assert!(named(": smoke").description.contains("by the clock of Europe/Dublin"));
    let lit = &named(": smoke").alarms[0];
    assert_eq!(lit.0, at(2026, 12, 11, 22, 0), "half an hour before it goes in");
    assert!(lit.1.contains("smoke: Light cabinet: air 110 °C, 30 min to heat."), "{}", lit.1);
    for event in &supper {
        assert!(event.description.starts_with("On time always"), "{}", event.description);
        assert!(!event.summary.contains("on time"), "{}", event.summary);
    }
}

#[test]
fn what_cannot_be_relied_on_is_marked_where_everybody_sees_it() {
    // It would have to go in at 00:30.
    let night = ROAST.replace("\nkit oven", "\ncrew\n  1 person\n  asleep 23:00 to 06:30\n\nkit oven");
    for event in served(&night, "2026-12-12 10:30") {
        assert!(event.summary.ends_with(" (never on time)"), "{event:?}");
        assert!(event.description.contains("\nNever on time. "), "{event:?}");
    }
    let wrong = include_str!("../../examples/too-cool.dwell");
    for event in served(wrong, "2026-12-12 18:30") {
        assert!(event.summary.starts_with("CAUTION, "), "{event:?}");
        assert!(event.description.starts_with("CAUTION: cook.dwell has "), "{event:?}");
    }
}

#[test]
fn there_is_no_calendar_without_a_date_or_a_time() {
    let refused = |text: &str, serve| timelines::ics(&planned(text, serve), vec![]).expect_err("no calendar");
    let undated = ROAST.replace("2026-12-12 18:30 in Europe/Dublin", "18:30");
    assert_eq!(refused(&undated, None), NoCalendar::NoDate);
    assert_eq!(refused(&undated, Some("Saturday 18:30")), NoCalendar::NoDate);
    assert!(NoCalendar::NoDate.to_string().contains("--serve \"2026-12-12 18:30\""));
    assert!(timelines::ics(&planned(&undated, Some("2026-12-12 18:30")), vec![]).is_ok());
}
