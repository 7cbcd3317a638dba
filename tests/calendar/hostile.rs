//! Whatever stands in a file, it comes back as the text that it is, and adds nothing to the calendar.

use chrono::NaiveDate;
use dwell::cook::Purpose;
use dwell::output::clean;
use dwell::output::timeline::{Above, NoCalendar, ics};
use dwell::quantity::Scale;
use dwell::say;
use dwell::timing::{
    Clock, DecidedBy, JobLine, OnTime, PhaseLine, ServingLine, State, Timeline, Window, Windows,
};
use proptest::prelude::*;

use crate::reading::{calendar, events};

const HOSTILE: [&str; 10] = [
    "a,b;c\\d:e\"f",
    "one\nEND:VALARM\nEND:VEVENT\nBEGIN:VEVENT\nUID:mine",
    "one\r\nSUMMARY:two",
    "\\n is no line, \\, no comma",
    "لحم ضأن، مطهو؛ ببطء شديد جدا حتى يصبح طريا ولذيذا للغاية في الفرن طوال الليل",
    "🦀🍖👩\u{200d}🍳🇮🇪 crab, crab; crab and then some more of them until the line is full 🦀🦀🦀🦀🦀",
    "salt\u{202e}tlas\u{7}\u{1b}]0;owned\u{0}\u{9b}31m\u{2028}x",
    "a\tb\u{85}c",
    "",
    " ends in a backslash and blanks \\ ",
];

const AT: fn(i64) -> Window = |minute| Window { earliest: minute, latest: minute + 5 };

fn phase(cook: &str, name: &str, from: i64) -> PhaseLine {
    PhaseLine {
        cook: cook.into(),
        name: name.into(),
        purpose: Purpose::Cook,
        foods: vec![name.into()],
        kit: Some(name.into()),
        start: Some(AT(from)),
        end: Some(AT(from + 60)),
        decided_by: DecidedBy::Nature,
        lasts: name.into(),
        state: State::ToCome,
    }
}

fn job(cook: &str, phase: &str, text: &str, at: i64) -> JobLine {
    JobLine {
        at: AT(at),
        cook: cook.into(),
        phase: phase.into(),
        text: say![text.to_owned()],
        hands: 1,
        busy: None,
        dropped: false,
        breaks_sleep: false,
    }
}

/// One text in every field.
fn filled(text: &str) -> Timeline {
    Timeline {
        title: text.into(),
        clock: Clock::dated(NaiveDate::from_ymd_opt(2026, 12, 12).expect("a day"), None),
        start: Some(AT(600)),
        on_time: OnTime::IfLucky,
        windows: Windows::Exact,
        order_open: false,
        hands_judged: true,
        servings: vec![ServingLine {
            cook: text.into(),
            foods: vec![text.into()],
            promised: Some(AT(660)),
            on_time: OnTime::IfLucky,
            because: text.into(),
        }],
        phases: vec![phase(text, text, 600)],
        jobs: vec![job(text, text, text, 610)],
        now: None,
        branches: Vec::new(),
        overruns: Vec::new(),
        too_many: None,
        asleep: Vec::new(),
    }
}

fn comes_back(text: &str) {
    let above = Above { caution: Some(text.into()), notes: vec![text.into()] };
    let written = ics(&filled(text), Scale::Celsius, &above).expect("a calendar");
    assert!(
        written.split("\r\n").all(|line| line.len() <= 75 && !line.contains(['\r', '\n'])),
        "{written:?}"
    );
    assert!(!written.replace("\r\n", "\n").chars().any(|c| c != '\n' && clean::acts(c)), "{written:?}");
    for (one, many) in
        [("BEGIN:VCALENDAR", 1), ("BEGIN:VEVENT", 1), ("BEGIN:VALARM", 1), ("UID:", 1), ("SUMMARY:", 1)]
    {
        assert_eq!(written.split("\r\n").filter(|line| line.starts_with(one)).count(), many, "{written:?}");
    }
    let read = events(&written);
    let text = clean::page(text);
    assert_eq!(read.len(), 1, "{written:?}");
    assert_eq!(read[0].summary, format!("CAUTION, {text}: {text} (on time only with luck)"));
    assert_eq!(read[0].alarms.len(), 1);
    assert!(read[0].alarms[0].1.starts_with(&format!("{text}, {text}: {text} (between ")), "{read:?}");
    for part in [
        format!("{text}\n{text}\nOn time only with luck"),
        format!("late.\n{text}\n"),
        format!("\nCook: {text} ({text}).\n"),
        if text.is_empty() { String::new() } else { format!("\nLasts {text}, as nature decides.\n") },
        format!("2026: {text}\n"),
    ] {
        assert!(read[0].description.contains(&part), "{part:?} is not in {:?}", read[0].description);
    }
}

/// Calendars full of hostile text, each with what its one event is called and what its one alarm begins with.
pub fn calendars() -> impl Iterator<Item = (String, String, String)> {
    HOSTILE.into_iter().map(|text| {
        let written = ics(&filled(text), Scale::Celsius, &Above::default()).expect("a calendar");
        let text = clean::page(text);
        (
            written,
            format!("{text}: {text} (on time only with luck)"),
            format!("{text}, {text}: {text} (between "),
        )
    })
}

#[test]
fn hostile_text_comes_back_as_text() {
    for text in HOSTILE {
        comes_back(text);
        comes_back(&text.repeat(7));
    }
    let named = ics(&filled(HOSTILE[0]), Scale::Celsius, &Above::default()).expect("a calendar");
    assert!(named.contains("\r\nNAME:a\\,b\\;c\\\\d:e\"f\r\n"), "{named}");
    assert_eq!(calendar(&named).components.len(), 1);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_comes_back_as_text(text in "(?s).{0,200}") {
        comes_back(&text);
    }

    #[test]
    fn so_does_any_mixture_of_what_a_calendar_is_made_of(
        parts in proptest::collection::vec(prop_oneof![
            Just(","), Just(";"), Just("\\"), Just("\n"), Just("\r"), Just("\""), Just(" "), Just("n"), Just("N"),
            Just(":"), Just("END:VEVENT"), Just("é"), Just("ع"), Just("🦀"), Just("\u{feff}"), Just("x"),
        ], 0..120)
    ) {
        comes_back(&parts.concat());
    }
}

#[test]
fn phases_of_one_name_are_told_apart() {
    let mut twice = filled("x");
    twice.phases =
        vec![phase("beans", "bake", 0), phase("beans", "bake", 600), phase("beans, bake", "", 900)];
    twice.jobs = vec![job("beans", "bake", "first", 10), job("beans", "bake", "second", 590)];
    let read = events(&ics(&twice, Scale::Celsius, &Above::default()).expect("a calendar"));
    assert_ne!(read[0].uid, read[1].uid);
    assert_ne!(read[1].uid, read[2].uid);
    assert!(read[0].alarms.len() == 1 && read[0].alarms[0].1.contains("first"));
    assert!(read[1].alarms.len() == 1 && read[1].alarms[0].1.contains("second"));
    assert!(read[2].alarms.is_empty());
}

#[test]
fn what_takes_no_time_or_cannot_be_timed_is_told() {
    let mut plan = filled("x");
    let moment = Window { earliest: 700, latest: 700 };
    plan.phases.push(PhaseLine { start: Some(moment), end: Some(moment), ..phase("x", "serve", 0) });
    plan.phases.push(PhaseLine { start: None, end: None, ..phase("x", "wait", 0) });
    let read = events(&ics(&plan, Scale::Celsius, &Above::default()).expect("a calendar"));
    assert_eq!(read.len(), 2);
    assert_eq!(read[1].to, None);
    for event in &read {
        assert!(
            event.description.contains("Not in the calendar, for it cannot be timed: wait."),
            "{event:?}"
        );
    }
    plan.phases.drain(..2);
    assert_eq!(ics(&plan, Scale::Celsius, &Above::default()), Err(NoCalendar::NothingTimed));
}

#[test]
fn only_hands_ring() {
    let mut plan = filled("x");
    plan.jobs = vec![
        JobLine { hands: 0, dropped: true, ..job("x", "x", "left out", 600) },
        JobLine { hands: 0, ..job("x", "x", "by itself", 600) },
        JobLine { breaks_sleep: true, ..job("x", "x", "at night", 600) },
    ];
    let read = events(&ics(&plan, Scale::Celsius, &Above::default()).expect("a calendar"));
    assert_eq!(read[0].alarms.len(), 1);
    assert!(read[0].alarms[0].1.contains("at night (falls in sleep: somebody would have to be awake)"));
    for told in ["left out (everybody asleep: left out)", "by itself (no hands)", "at night"] {
        assert!(read[0].description.contains(told), "{told}");
    }
}

#[test]
fn every_promise_but_the_best_is_marked() {
    for (on_time, mark, said) in [
        (OnTime::Always, "", "On time always, "),
        (OnTime::IfLucky, " (on time only with luck)", "On time only with luck: "),
        (OnTime::Never, " (never on time)", "Never on time. "),
        (OnTime::NotProved, " (on time not proved)", "On time is not proved: it may be on time or late. "),
    ] {
        let plan = Timeline { on_time, hands_judged: false, ..filled("x") };
        let read = events(&ics(&plan, Scale::Celsius, &Above::default()).expect("a calendar"));
        assert_eq!(read[0].summary, format!("x: x{mark}"));
        assert!(read[0].description.starts_with(said), "{}", read[0].description);
        assert!(read[0].description.contains("Sleep and hands were not looked at"));
    }
}
