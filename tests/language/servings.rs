//! Clock times, days, and what a serving says.

use crate::common::resolve_files;
use crate::common::texts::{clean, named, remedy, roast, said, says};
use dwell::cook::{Check, Day, Document, Service, When};

const ROAST: &str = "  lamb in oven\n  air 140 °C\n  for 2 h";

fn serving(lines: &str) -> dwell::cook::Phase {
    let cook = clean(&roast(ROAST).replace("  at 19:00", lines));
    named(&cook, "serve lamb").clone()
}

fn at(line: &str) -> When {
    match serving(line).service {
        Some(Service::At { at, .. }) => at.value,
        other => panic!("{line}: {other:?}"),
    }
}

#[test]
fn times_days_dates_and_zones() {
    assert_eq!(at("  at 18:30").time.to_string(), "18:30");
    assert_eq!(at("  at 18:30").day, None);
    let saturday = Some(Day::Weekday(chrono::Weekday::Sat));
    for line in [
        "at Saturday 18:30",
        "at saturday 18:30",
        "on Saturday at 18:30",
        "at Sat 18:30",
        "on Saturday 18:30",
        "at SATURDAY at 18:30",
    ] {
        assert_eq!(at(line).day, saturday, "{line}");
    }
    for day in [
        "Monday",
        "Tuesday",
        "Wednesday",
        "Thursday",
        "Friday",
        "Sunday",
        "Mon",
        "Tue",
        "Tues",
        "Wed",
        "Thu",
        "Thur",
        "Thurs",
        "Fri",
        "Sun",
    ] {
        assert!(at(&format!("at {day} 18:30")).day.is_some(), "{day}");
    }
    let dated = at("at 2026-12-12 18:30 in Europe/Dublin");
    assert_eq!(dated.day, Some(Day::Date(chrono::NaiveDate::from_ymd_opt(2026, 12, 12).expect("a day"))));
    assert_eq!(dated.zone, Some(chrono_tz::Europe::Dublin));
    assert_eq!(at("at 18:30 in UTC").zone, Some(chrono_tz::UTC));
    let at = |line: &str| roast(ROAST).replace("at 19:00", line);
    says(&at("at 2026-02-30 18:30"), &[("date-impossible", "2026-02-30")]);
    says(&at("at 18:30 in Dublin"), &[("zone-unknown", "Dublin")]);
    says(&at("at 25:30"), &[("clock-time-form", "25:30")]);
}

#[test]
fn other_ways_to_write_a_time_get_their_remedy() {
    for (typed, meant) in [
        ("6:30 pm", "18:30"),
        ("18.30", "18:30"),
        ("6pm", "18:00"),
        ("18h30", "18:30"),
        ("noon", "12:00"),
        ("12:15 am", "00:15"),
    ] {
        let text = roast(ROAST).replace("at 19:00", &format!("at {typed}"));
        says(&text, &[("clock-time-form", typed)]);
        assert!(remedy(&text).contains(&format!("`{meant}`")), "{typed}: {}", remedy(&text));
        // How late it may be hangs on the time, which is all that is wrong.
        let late = roast(ROAST).replace("at 19:00", &format!("at {typed}, up to 15 min late"));
        says(&late, &[("clock-time-form", typed)]);
    }
}

#[test]
fn the_cook_decides_within_the_lateness() {
    for lines in ["  at 18:30, up to 15 min late", "  up to 15 min late\n  at 18:30"] {
        let Some(Service::At { late: Some(late), .. }) = serving(lines).service else { panic!("{lines}") };
        assert_eq!(late.minutes(), 15.0);
    }
}

#[test]
fn served_all_the_while_or_as_guests_come() {
    assert!(matches!(serving("  from 12:00 to 14:00").service, Some(Service::Throughout { .. })));
    let lines = "  guests between 12:30 and 14:00, up to 30 min late";
    let Some(Service::Guests { late: Some(late), .. }) = serving(lines).service else { panic!() };
    assert_eq!(late.minutes(), 30.0);
    let twice = roast(ROAST).replace("at 19:00", "at 19:00\n  from 12:00 to 14:00");
    says(&twice, &[("clause-twice", "from 12:00 to 14:00")]);
}

#[test]
fn a_serving_has_checks_a_place_and_a_setting() {
    let phase =
        serving("  at 18:30\n  in oven\n  air 80 °C\n  core 60 °C or above\n  every 30 min do \"Probe.\"");
    assert!(phase.place.is_some() && phase.setting.is_some());
    assert!(matches!(phase.checks[0].value, Check::Core { low: Some(_), high: None }));
    let cold = serving("  at 18:30\n  core 8 °C or below").checks;
    assert!(matches!(cold[0].value, Check::Core { low: None, high: Some(_) }));
    // Without a place the food stands on the table.
    assert!(serving("  at 18:30").place.is_none());
}

#[test]
fn a_menu_says_when_in_one_line() {
    let dish = roast(ROAST);
    for line in [
        "serve at 18:30",
        "serve at Saturday 18:30",
        "serve on Saturday at 18:30",
        "serve at 2026-12-12 18:30 in Europe/Dublin",
    ] {
        let menu = format!("menu \"Supper\"\n  {line}\ndish \"lamb.dwell\"\n");
        let (_, document, findings) = resolve_files(&[("menu.dwell", &menu), ("lamb.dwell", &dish)]);
        assert!(findings.is_empty(), "{line}: {findings:#?}");
        let Some(Document::Menu(menu)) = document else { panic!() };
        assert_eq!(menu.serve.expect("a time").value.time.to_string(), "18:30");
    }
    let found = said(&format!("{}serve at 18:30\n", roast(ROAST)));
    assert_eq!(found, [("clause-out-of-place".to_string(), "serve at 18:30".to_string())]);
}
