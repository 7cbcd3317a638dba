//! Days, zones and the nights on which clocks change.
//!
//! Europe/Dublin goes from UTC to UTC+1 at 01:00 UTC on the last Sunday in March and back at 01:00 UTC
//! on the last Sunday in October (Directive 2000/84/EC): 28 March 2027 and 25 October 2026.

mod common;

use chrono::{DateTime, NaiveDate, Weekday};
use chrono_tz::Tz;
use dwell::compile::{Compiled, compile};
use dwell::cook::{Cook, Day, When};
use dwell::findings::{Code, Finding};
use dwell::output::timeline::{Stamp, TimelineJson, json};
use dwell::output::timelines;
use dwell::quantity::{ClockTime, Scale};
use dwell::timing::{Clock, OnTime, Options, Reading, plan};

const DUBLIN: Tz = chrono_tz::Europe::Dublin;

fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).expect("a date")
}

/// A hold of 9 h, hands at either end, eaten at the time given.
fn held(serve: &str, crew: &str) -> Cook {
    let text = format!(
        "cook \"Held\"\n  rules us-food-code\n{crew}\nkit oven is oven\nkit bench is bench\n\
         food lamb is lamb leg\n  2 kg\n\
         phase keep is hot hold\n  lamb in oven\n  air 80 °C\n  for 9 h\n\
         phase carve is prep\n  lamb on bench\n  for 30 min, hands-on\n\
         serve lamb\n  {serve}\n"
    );
    let (_, cook, findings) = common::cook(&text);
    assert!(findings.is_empty(), "{findings:#?}");
    cook.expect("a cook")
}

fn timed(cook: &Cook, options: &Options) -> (TimelineJson, Vec<Finding>) {
    let (timeline, findings) = plan(cook, options);
    (json(&timeline, Scale::Celsius), findings)
}

fn time(stamp: &Option<Stamp>) -> &str {
    match stamp {
        Some(Stamp::Time(time)) => time,
        other => panic!("a clock time, not {other:?}"),
    }
}

#[test]
fn a_hold_over_the_night_clocks_go_forward_is_as_long_as_it_says() {
    let cook = held("at 2027-03-28 08:00 in Europe/Dublin", "");
    let (timeline, findings) = timed(&cook, &Options::default());
    assert!(findings.is_empty(), "{findings:#?}");
    assert_eq!(timeline.on_time, OnTime::Always);
    // 9 h 30 min before 08:00 summer time is 21:30 winter time, an hour earlier on the wall.
    assert_eq!(time(&timeline.start_earliest), "2027-03-27T21:30:00+00:00");
    assert_eq!(time(&timeline.servings[0].from), "2027-03-28T08:00:00+01:00");
    let keep = &timeline.phases[0];
    let [start, end] = [&keep.start_earliest, &keep.end_latest]
        .map(|stamp| DateTime::parse_from_rfc3339(time(stamp)).expect("RFC 3339"));
    assert_eq!((end - start).num_minutes(), 9 * 60);
}

#[test]
fn a_hold_over_the_night_clocks_go_back_is_as_long_as_it_says() {
    let cook = held("at 2026-10-25 08:00 in Europe/Dublin", "");
    let (timeline, _) = timed(&cook, &Options::default());
    assert_eq!(time(&timeline.start_earliest), "2026-10-24T23:30:00+01:00");
    assert_eq!(time(&timeline.servings[0].from), "2026-10-25T08:00:00+00:00");
}

#[test]
fn sleep_follows_the_clock_on_the_wall() {
    let crew = "crew\n  1 person\n  asleep 23:00 to 06:30\n";
    // On the night of the jump the lamb goes in at 21:30; a week earlier it would be 22:30, still awake.
    for day in ["2027-03-28", "2027-03-21"] {
        let (timeline, _) =
            timed(&held(&format!("at {day} 08:00 in Europe/Dublin"), crew), &Options::default());
        assert_eq!(timeline.on_time, OnTime::Always, "{day}");
    }
    // When clocks go back it would be 23:30, and everybody is asleep.
    let cook = held("at 2026-10-25 08:00 in Europe/Dublin", crew);
    let (timeline, findings) = timed(&cook, &Options::default());
    assert_eq!(timeline.on_time, OnTime::Never);
    assert_eq!(findings.iter().map(|finding| finding.code).collect::<Vec<_>>(), [Code::NeverOnTime]);
}

#[test]
fn the_clock_reads_what_is_skipped_and_what_comes_twice() {
    let spring = Clock::dated(date(2027, 3, 28), Some(DUBLIN));
    let (Reading::One(before), Reading::One(after)) = (spring.read(59), spring.read(120)) else {
        panic!("both exist");
    };
    assert_eq!(after - before, 1, "00:59 is followed by 02:00");
    assert_eq!(spring.read(60), Reading::Skipped(after));
    assert_eq!(spring.read(119), Reading::Skipped(after));
    let autumn = Clock::dated(date(2026, 10, 25), Some(DUBLIN));
    let Reading::Twice(first, second) = autumn.read(90) else { panic!("01:30 comes twice") };
    assert_eq!(second - first, 60);
    assert_eq!((autumn.wall(first), autumn.wall(second)), (90, 90));
    assert_eq!(autumn.rfc3339(first).as_deref(), Some("2026-10-25T01:30:00+01:00"));
    assert_eq!(autumn.rfc3339(second).as_deref(), Some("2026-10-25T01:30:00+00:00"));
}

#[test]
fn every_minute_of_both_nights_reads_back() {
    for day in [date(2027, 3, 28), date(2026, 10, 25)] {
        let clock = Clock::dated(day, Some(DUBLIN));
        for minute in -2000..3000 {
            let reading = clock.read(clock.wall(minute));
            assert!(reading.first() == minute || reading.last() == minute, "{day} {minute}: {reading:?}");
        }
    }
}

#[test]
fn times_that_do_not_exist_or_come_twice_are_said() {
    let codes = |serve: &str| -> Vec<Code> {
        let (_, findings) = timed(&held(serve, ""), &Options::default());
        findings.iter().map(|finding| finding.code).collect()
    };
    assert_eq!(codes("at 2027-03-28 01:30 in Europe/Dublin"), [Code::ClockTimeSkipped]);
    assert_eq!(codes("at 2026-10-25 01:30 in Europe/Dublin"), [Code::ClockTimeTwice]);
    assert_eq!(codes("at 2026-10-25 01:30 in UTC"), []);
}

fn when(day: Option<Day>, hour: u32, minute: u32, zone: Option<Tz>) -> Options {
    let time = ClockTime::new(hour, minute).expect("a time");
    Options { serve: Some(When { day, time, zone }), zone: None, ..Options::default() }
}

#[test]
fn serve_moves_the_cook_and_all_its_times() {
    let options = when(Some(Day::Date(date(2026, 12, 12))), 20, 0, Some(DUBLIN));
    let (timeline, findings) = timed(&held("at 18:30", ""), &options);
    assert!(findings.is_empty());
    assert_eq!(time(&timeline.servings[0].from), "2026-12-12T20:00:00+00:00");
    assert_eq!(time(&timeline.start_latest), "2026-12-12T10:30:00+00:00");
}

#[test]
fn a_weekday_that_no_longer_fits_is_said() {
    let friday = when(Some(Day::Date(date(2026, 12, 11))), 18, 30, None);
    let (_, findings) = timed(&held("at Saturday 18:30", ""), &friday);
    assert_eq!(findings.iter().map(|finding| finding.code).collect::<Vec<_>>(), [Code::WeekdayMoved]);
    let saturday = when(Some(Day::Date(date(2026, 12, 12))), 18, 30, None);
    assert!(timed(&held("at Saturday 18:30", ""), &saturday).1.is_empty());
    let later = when(None, 20, 0, None);
    assert!(timed(&held("at Saturday 18:30", ""), &later).1.is_empty());
}

#[test]
fn without_a_date_times_are_seconds_from_the_start() {
    let (timeline, _) = timed(&held("at 18:30", ""), &Options::default());
    assert_eq!(timeline.start_earliest, Some(Stamp::Seconds(0)));
    assert_eq!(timeline.servings[0].from, Some(Stamp::Seconds(9 * 3600 + 1800)));
}

#[test]
fn a_day_in_an_order_is_the_last_one_before_the_serving() {
    let clock = Clock::undated(Some(Weekday::Sat));
    assert_eq!(clock.weekday_of(-2), Some(Weekday::Thu));
    let text = |line: &str, serve: &str| {
        format!(
            "cook \"Ham\"\n  rules us-food-code\nkit fridge is fridge\nkit bench is bench\n\
             food ham is ham\n  2 kg\n\
             phase keep is cold hold\n  ham in fridge\n  {line}\n  for 1 day to 3 days\n\
             phase carve is prep\n  ham on bench\n  for 30 min\n\
             serve ham\n  {serve}\n"
        )
    };
    let started = |line: &str, serve: &str| {
        let (_, cook, _) = common::cook(&text(line, serve));
        let (timeline, findings) = plan(&cook.expect("a cook"), &Options::default());
        assert!(findings.is_empty(), "{line}, {serve}: {findings:#?}");
        let start = timeline.start.expect("a start");
        (start.earliest, start.latest)
    };
    let minutes = |days: i64, hours: i64, minutes: i64| days * 1440 + hours * 60 + minutes;
    // Thursday before Saturday: as much of it as three days before 18:00 leave.
    assert_eq!(started("starts on Thursday", "at Saturday 18:30"), (minutes(-2, 0, 0), minutes(-2, 23, 59)));
    assert_eq!(
        started("starts on Wednesday", "at Saturday 18:30"),
        (minutes(-3, 18, 0), minutes(-3, 23, 59))
    );
    assert_eq!(
        started("starts at Thursday 21:00", "at 2026-12-12 18:30"),
        (minutes(-2, 21, 0), minutes(-2, 21, 0))
    );
    // A time without a day is the last one before the serving.
    assert_eq!(started("ends by 18:10", "at 18:30"), (minutes(-3, 18, 0), minutes(-1, 18, 0)));
}

/// Breakfast after the night: lamb that goes in the evening before, and soup an hour after it.
fn breakfast(day: &str, most: &str) -> Compiled {
    let kit = "kit oven is oven\n  programmable\nkit hob is hob\nkit bench is bench\n";
    let lamb = format!(
        "cook \"Braise\"\n  rules us-food-code\n{kit}food lamb is lamb shoulder\n  2 kg\n  thickness 9 cm\n\
         phase trim is prep\n  lamb on bench\n  takes 15 min to 20 min\n\
         phase braise is cook\n  lamb in oven\n  air 120 °C\n  takes 7 h to 8 h\n\
         phase keep is rest\n  lamb in oven\n  air 80 °C\n  for 1 h to {most}\n\
         phase carve is prep\n  lamb on bench\n  takes 10 min to 15 min\nserve lamb\n  at 12:00, up to 15 min late\n"
    );
    let soup = format!(
        "cook \"Soup\"\n  rules us-food-code\n{kit}food piece is cooked lentils\n  2 kg\n  thickness 4 cm\n\
         phase boil is cook\n  piece on hob\n  liquid 98 °C\n  takes 20 min to 30 min\n\
         phase keep is hot hold\n  piece on hob\n  liquid 85 °C\n  for up to 1 h\nserve piece\n  at 12:00\n"
    );
    let menu = format!(
        "menu \"Breakfast\"\n  serve at {day} 10:00 in Europe/Dublin\n  rules us-food-code\ncrew\n  2 people\n  \
         asleep 23:00 to 06:30\ndish \"lamb.dwell\"\ndish \"soup.dwell\", at 11:00\n"
    );
    let files = common::Memory(&[("lamb.dwell", &lamb), ("soup.dwell", &soup)]);
    compile(&files, "menu.dwell".into(), menu.into_bytes(), &Default::default())
}

/// The first, the second and the last: when the lamb is trimmed at the earliest, when it is served, and the soup.
fn shown(meal: &Compiled) -> [String; 3] {
    let json: serde_json::Value = serde_json::from_str(&timelines::json(meal)).expect("JSON");
    let text = |value: &serde_json::Value| value.as_str().expect("a time").to_owned();
    [text(&json["start_earliest"]), text(&json["servings"][0]["from"]), text(&json["servings"][1]["from"])]
}

/// By hand: carved from 09:50 on, kept for 4 h, braised for 7 h and trimmed for 15 min is 11 h 15 min before;
/// the lamb is in the oven by 22:55, so trimmed from 22:35 on at the latest.
#[test]
fn a_menu_across_the_night_clocks_go_forward_is_printed_on_both_clocks() {
    let meal = breakfast("2027-03-28", "4 h");
    let plan = meal.meal().expect("a plan");
    assert_eq!(plan.on_time, OnTime::Always);
    let page = timelines::text(&meal);
    for line in [
        "Start between 21:35 and 22:35, Saturday 27 March 2027.",
        "  21:50 to 22:55    Braise, braise: Lamb to oven, air 120 °C.",
        "  11:00             Soup, serve piece: Piece to the table.",
    ] {
        assert!(page.contains(line), "{line}\n{page}");
    }
    assert_eq!(
        shown(&meal),
        ["2027-03-27T21:35:00+00:00", "2027-03-28T10:00:00+01:00", "2027-03-28T11:00:00+01:00"]
    );
    // A week before, the same 11 h 15 min are an hour later on the clock.
    let before = timelines::text(&breakfast("2027-03-21", "4 h"));
    assert!(before.contains("Start at 22:35, Saturday 20 March 2027."), "{before}");
    let calendar = timelines::ics(&meal, Vec::new()).expect("a calendar");
    assert!(calendar.contains("DTSTART:20270327T213500Z"), "{calendar}");
}

/// The night is an hour longer, and the keeping has to take it up: from 09:50 back over 12 h 15 min is 22:35 on
/// the clock of the evening.
#[test]
fn a_menu_across_the_night_clocks_go_back_has_an_hour_more_to_fill() {
    let short = breakfast("2026-10-25", "4 h");
    assert_ne!(short.meal().expect("a plan").on_time, OnTime::Always);
    let cures: String = short.findings.iter().map(|finding| finding.remedy.render(short.scale)).collect();
    assert!(cures.contains("`for 1 h to 5 h` in `keep`"), "{cures}");
    let meal = breakfast("2026-10-25", "5 h");
    assert_eq!(meal.meal().expect("a plan").on_time, OnTime::Always);
    let page = timelines::text(&meal);
    assert!(page.contains("Start at 22:35, Saturday 24 October 2026."), "{page}");
    assert_eq!(
        shown(&meal),
        ["2026-10-24T22:35:00+01:00", "2026-10-25T10:00:00+00:00", "2026-10-25T11:00:00+00:00"]
    );
    let calendar = timelines::ics(&meal, Vec::new()).expect("a calendar");
    assert!(calendar.contains("DTSTART:20261024T213500Z"), "{calendar}");
}

/// Courses are told on the clock on the wall: from 00:30 to 02:30 is an hour in the one night, and three in the other.
#[test]
fn courses_across_a_change_are_as_far_apart_as_the_clock_shows() {
    for (day, hours) in [("2027-03-28", 1), ("2027-03-21", 2), ("2026-10-25", 3)] {
        let menu = format!(
            "menu \"Feast\"\n  serve at {day} 00:30 in Europe/Dublin\n  rules us-food-code\n\
             dish \"fruit.dwell\"\ndish \"fruit.dwell\", at 02:30\n"
        );
        let fruit = "cook \"Fruit\"\n  rules us-food-code\nkit bench is bench\nfood piece is apple\n  2 kg\n\
                     phase cut is prep\n  piece on bench\n  for 10 min\nserve piece\n  at 12:00\n";
        let files = common::Memory(&[("fruit.dwell", fruit)]);
        let meal = compile(&files, "menu.dwell".into(), menu.into_bytes(), &Default::default());
        let plan = meal.meal().expect("a plan");
        let at: Vec<i64> =
            plan.servings.iter().filter_map(|serving| serving.promised).map(|at| at.earliest).collect();
        assert_eq!(at[1] - at[0], hours * 60, "{day}");
    }
}
