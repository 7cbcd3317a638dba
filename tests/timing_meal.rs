//! The meal itself: who comes when, what waits for whom, and courses, from the text of a file to its plan.

mod common;

use common::Memory;
use dwell::compile::{Compiled, Options, compile};
use dwell::findings::Code;
use dwell::output::timelines;
use dwell::timing::{OnTime, Timeline};

fn compiled(files: &[(&str, String)], options: &Options) -> Compiled {
    let named: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
    compile(&Memory(&named), named[0].0.into(), named[0].1.into(), options)
}

const TIMING: [Code; 3] = [Code::NeverOnTime, Code::OnTimeIfLucky, Code::TimingNotProved];

/// What is said of the time, and what to do.
fn said(compiled: &Compiled) -> (String, String) {
    let about_time = compiled.findings.iter().filter(|finding| TIMING.contains(&finding.code));
    about_time
        .map(|one| (one.message.render(compiled.scale), one.remedy.render(compiled.scale)))
        .next()
        .unwrap_or_default()
}

/// Lunch at the boathouse: lamb from the oven to the table, maybe by way of a box.
fn lunch(away: &str, phases: &str, serve: &str) -> Compiled {
    let text = format!(
        "cook \"Lunch\"\n  rules us-food-code\ncrew\n  2 people\n  away {away}\nkit oven is oven\n  preheat 15 min\n\
         kit chest is insulated box\nfood lamb is lamb leg\n  2 kg\n  thickness 9 cm\n{phases}serve lamb\n  {serve}\n"
    );
    compiled(&[("lunch.dwell", text)], &Options::default())
}

fn on_time(compiled: &Compiled) -> OnTime {
    let faults: Vec<String> =
        compiled.findings.iter().map(|finding| finding.message.render(compiled.scale)).collect();
    assert!(compiled.understood(), "{faults:#?}");
    compiled.cooks()[0].timeline.expect("a plan").on_time
}

fn kept(most: &str) -> String {
    format!(
        "phase roast is cook\n  lamb in oven\n  air 160 °C\n  for 2 h\n\
         phase keep is hot hold\n  lamb in chest\n  for {most}\n"
    )
}

/// Everybody is on the water from 13:00 on. Those who come at 12:30 are served; those who come when they like may
/// find nobody, and the lamb does not last until the crew is back.
#[test]
fn the_same_cook_is_always_on_time_at_one_time_and_never_for_guests_who_come_when_they_like() {
    let guests = "guests between 2026-12-13 12:30 and 2026-12-13 14:00 in UTC, up to 10 min late";
    let at = "at 2026-12-13 12:30 in UTC, up to 10 min late";
    let cook = |away: &str, most: &str, serve: &str| lunch(away, &kept(most), serve);
    assert_eq!(on_time(&cook("13:00 to 17:00", "up to 2 h", at)), OnTime::Always);
    let never = cook("13:00 to 17:00", "up to 2 h", guests);
    assert_eq!(on_time(&never), OnTime::Never);
    // Carrying takes 5 min, so whoever comes after 12:55 and waits 10 min is not served before 13:00.
    let (message, _) = said(&never);
    assert!(
        message.contains("the guests may come at 12:56, and nobody is there to serve them by 13:06"),
        "{message}"
    );
    // What only is late in some outcome is a matter of luck: here the lamb lasts until they are back.
    assert_eq!(on_time(&cook("13:00 to 17:00", "up to 24 h", guests)), OnTime::IfLucky);
    // And nothing is wrong where they are back before anybody has waited too long.
    assert_eq!(on_time(&cook("13:00 to 13:05", "up to 2 h", guests)), OnTime::Always);
    assert_eq!(on_time(&cook("15:00 to 17:00", "up to 2 h", guests)), OnTime::Always);
}

/// Who can serve guests whenever they come can serve those who come at the first of these minutes and wait as
/// long. The other way round the difference is what may be late: guests wait, and so does `up to`.
#[test]
fn the_same_cook_is_never_on_time_at_one_time_and_always_for_guests_who_wait() {
    let cook = |serve: &str| on_time(&lunch("11:00 to 12:45", &kept("up to 2 h"), serve));
    let from = "2026-12-13 12:30";
    assert_eq!(cook(&format!("at {from} in UTC")), OnTime::Never);
    assert_eq!(cook(&format!("at {from} in UTC, up to 10 min late")), OnTime::Never);
    let guests = format!("guests between {from} and 2026-12-13 14:00 in UTC, up to 30 min late");
    assert_eq!(cook(&guests), OnTime::Always);
    assert_eq!(cook(&format!("at {from} in UTC, up to 30 min late")), OnTime::Always);
}

/// Lamb that is done when it likes, and served as it is done.
#[test]
fn ready_some_time_is_not_there_all_the_while() {
    let phases = "phase roast is cook\n  lamb in oven\n  air 160 °C\n  takes 90 min to 2 h\n";
    let cook = |serve: &str| lunch("12:00 to 12:45", phases, serve);
    let late = cook("at 2026-12-13 12:30 in UTC, up to 1 h late");
    assert_eq!(on_time(&late), OnTime::Always);
    let throughout = cook("from 2026-12-13 12:30 to 2026-12-13 14:00 in UTC");
    assert_eq!(on_time(&throughout), OnTime::Never, "nobody is there to set it out at 12:30");
    let (message, _) = said(&throughout);
    assert!(message.contains("12:30") && message.contains("nobody is there"), "{message}");
}

/// What is put on when the guests are there needs no guess.
#[test]
fn the_first_step_may_wait_for_the_guests() {
    let phases = "phase boil is cook\n  lamb in oven\n  air 160 °C\n  for 20 min\n";
    let serve = |late: &str| format!("guests between 2026-12-13 12:30 and 2026-12-13 14:00 in UTC{late}");
    let cook = |late: &str| lunch("17:00 to 18:00", phases, &serve(late));
    let patient = cook(", up to 30 min late");
    assert_eq!(on_time(&patient), OnTime::Always);
    let start = patient.cooks()[0].timeline.and_then(|plan| plan.start).expect("a start");
    assert_eq!((start.earliest, start.latest), (12 * 60 + 30, 14 * 60 + 10));
    assert_eq!(on_time(&cook(", up to 10 min late")), OnTime::IfLucky);
}

#[test]
fn what_cannot_wait_for_the_last_guests_is_told_and_cured() {
    let serve = |late: &str| format!("guests between 2026-12-13 12:30 and 2026-12-13 14:00 in UTC{late}");
    let short = lunch("15:00 to 17:00", &kept("up to 1 h"), &serve(""));
    assert_eq!(on_time(&short), OnTime::IfLucky);
    let (message, cure) = said(&short);
    assert!(message.contains("may come any time within 1 h 30 min"), "{message}");
    assert!(!message.contains("nobody is there"), "{message}");
    for offered in ["`up to 30 min late`", "`for up to 1 h 30 min` in `keep`"] {
        assert!(cure.contains(offered), "{cure}");
    }
    assert_eq!(
        on_time(&lunch("15:00 to 17:00", &kept("up to 1 h"), &serve(", up to 30 min late"))),
        OnTime::Always
    );
    assert_eq!(on_time(&lunch("15:00 to 17:00", &kept("up to 1 h 30 min"), &serve(""))), OnTime::Always);
}

/// The lamb keeps in the oven until the guests are there, and the roots go in when it is out. That can be done
/// for guests who come once for both, and not for two parties of which either may come first.
#[test]
fn guests_of_a_menu_come_once_for_all_dishes() {
    let dish = |title: &str, phases: &str, to: &str, late: i64| {
        format!(
            "cook \"{title}\"\n  rules us-food-code\nkit oven is oven\n  preheat 10 min\n  cools down 10 min\n  programmable\n\
             food piece is potato\n  2 kg\n  thickness 4 cm\n{phases}serve piece\n  \
             guests between 2026-12-13 12:30 and 2026-12-13 {to} in UTC, up to {late} min late\n"
        )
    };
    let kept = "phase roast is cook\n  piece in oven\n  air 160 °C\n  for 2 h\n\
                phase keep is hot hold\n  piece in oven\n  air 80 °C\n  for up to 3 h\n";
    let fresh = "phase bake is cook\n  piece in oven\n  air 200 °C\n  for 30 min\n";
    let menu = |to: &str, order: [&str; 2]| {
        let menu = format!(
            "menu \"Sunday\"\n  rules us-food-code\ncrew\n  2 people\n  asleep 23:00 to 06:30\n\
             dish \"{}\"\ndish \"{}\"\n",
            order[0], order[1]
        );
        let files = [
            ("menu.dwell", menu),
            ("lamb.dwell", dish("Lamb", kept, "13:30", 10)),
            ("roots.dwell", dish("Roots", fresh, to, 45)),
        ];
        plan(&compiled(&files, &Options::default())).on_time
    };
    for order in [["lamb.dwell", "roots.dwell"], ["roots.dwell", "lamb.dwell"]] {
        assert_eq!(menu("13:30", order), OnTime::Always);
        assert_ne!(menu("13:29", order), OnTime::Always, "other guests, who come for themselves");
    }
}

/// A dish of a supper in courses, whose own file has another time.
fn course(title: &str, phases: &str, serve: &str) -> String {
    format!(
        "cook \"{title}\"\n  rules us-food-code\nkit bench is bench\nkit hob is hob\nfood piece is potato\n  2 kg\n  \
         thickness 4 cm\n{phases}serve piece\n  {serve}\n"
    )
}

const BOILED: &str = "phase boil is cook\n  piece on hob\n  liquid 98 °C\n  takes 20 min to 30 min\n\
                      phase keep is rest\n  piece on bench\n  for up to 30 min\n";

fn supper(lines: &str, options: &Options) -> Compiled {
    let menu = format!("menu \"Supper in courses\"\n  rules us-food-code\n{lines}");
    let files = [
        ("menu.dwell", menu),
        ("soup.dwell", course("Soup", BOILED, "at 12:00")),
        ("roast.dwell", course("Roast", BOILED, "at 13:00, up to 10 min late")),
        ("pudding.dwell", course("Pudding", BOILED, "guests between 12:00 and 12:20, up to 10 min late")),
        ("silent.dwell", course("Silent", BOILED, "")),
    ];
    compiled(&files, options)
}

/// In the order of the clock, of each serving its dish and its time, as it is shown to people and programs.
fn served(compiled: &Compiled) -> Vec<(String, String)> {
    let json: serde_json::Value = serde_json::from_str(&timelines::json(compiled)).expect("JSON");
    let servings = json["servings"].as_array().expect("servings");
    let text = |value: &serde_json::Value| value.as_str().unwrap_or_else(|| panic!("{json:#}")).to_owned();
    servings.iter().map(|one| (text(&one["cook"]), text(&one["from"]))).collect()
}

fn plan(compiled: &Compiled) -> &Timeline {
    let faults: Vec<String> =
        compiled.findings.iter().map(|finding| finding.message.render(compiled.scale)).collect();
    compiled.meal().unwrap_or_else(|| panic!("{faults:#?}"))
}

fn pairs(expected: &[(&str, &str)]) -> Vec<(String, String)> {
    expected.iter().map(|&(a, b)| (a.to_owned(), b.to_owned())).collect()
}

const COURSES: &str = "  serve at 2026-12-12 18:30 in Europe/Dublin\ndish \"soup.dwell\"\n\
                       dish \"roast.dwell\", at 19:15\ndish \"pudding.dwell\"\n  at 20:30\n";

#[test]
fn courses_come_one_after_the_other() {
    let meal = supper(COURSES, &Options::default());
    assert_eq!(plan(&meal).on_time, OnTime::Always);
    let times = [
        ("Soup", "2026-12-12T18:30:00+00:00"),
        ("Roast", "2026-12-12T19:15:00+00:00"),
        ("Pudding", "2026-12-12T20:30:00+00:00"),
    ];
    assert_eq!(served(&meal), pairs(&times));
    let page = timelines::text(&meal);
    for time in ["18:30", "19:15", "20:30"] {
        assert!(page.contains(time), "{page}");
    }
    // Each is boiled for its own course.
    let ends: Vec<i64> = plan(&meal)
        .phases
        .iter()
        .filter(|phase| phase.name == "keep")
        .filter_map(|p| p.end)
        .map(|end| end.latest)
        .collect();
    assert_eq!(ends, [18 * 60 + 30, 19 * 60 + 25, 21 * 60]);
}

#[test]
fn serve_moves_all_courses_equally() {
    let options = |when: &str| {
        let serve = Some(dwell::resolve::when(when).expect("a time"));
        Options { timing: dwell::timing::Options { serve, ..Default::default() }, ..Options::default() }
    };
    let moved = supper(COURSES, &options("20:00"));
    let times = [
        ("Soup", "2026-12-12T20:00:00+00:00"),
        ("Roast", "2026-12-12T20:45:00+00:00"),
        ("Pudding", "2026-12-12T22:00:00+00:00"),
    ];
    assert_eq!(served(&moved), pairs(&times));
    let other_day = supper(COURSES, &options("2027-01-09 23:00"));
    let times = [
        ("Soup", "2027-01-09T23:00:00+00:00"),
        ("Roast", "2027-01-09T23:45:00+00:00"),
        ("Pudding", "2027-01-10T01:00:00+00:00"),
    ];
    assert_eq!(served(&other_day), pairs(&times));
    let weekday = supper(COURSES, &options("Sunday 12:00"));
    let times = [
        ("Soup", "2026-12-13T12:00:00+00:00"),
        ("Roast", "2026-12-13T12:45:00+00:00"),
        ("Pudding", "2026-12-13T14:00:00+00:00"),
    ];
    assert_eq!(served(&weekday), pairs(&times));
    // What is served first moves there, wherever it stands.
    let backwards =
        "  serve at 2026-12-12 18:30 in UTC\ndish \"roast.dwell\"\ndish \"soup.dwell\", at 18:00\n";
    let times = [("Soup", "2026-12-12T20:00:00+00:00"), ("Roast", "2026-12-12T20:30:00+00:00")];
    assert_eq!(served(&supper(backwards, &options("20:00"))), pairs(&times));
}

#[test]
fn days_of_courses_are_counted_from_the_meal() {
    let lines = "  serve at 2026-12-12 18:30 in UTC\ndish \"soup.dwell\"\ndish \"roast.dwell\", on Sunday at 12:00\n\
                 dish \"pudding.dwell\", at 13:00\n";
    let times = [
        ("Soup", "2026-12-12T18:30:00+00:00"),
        ("Roast", "2026-12-13T12:00:00+00:00"),
        ("Pudding", "2026-12-13T13:00:00+00:00"),
    ];
    assert_eq!(served(&supper(lines, &Options::default())), pairs(&times));
    // What comes after midnight is in the same night.
    let lines = "  serve at Saturday 23:00\ndish \"soup.dwell\"\ndish \"roast.dwell\", at 00:30\n\
                 dish \"pudding.dwell\", at 23:30\n";
    let meal = supper(lines, &Options::default());
    let at = plan(&meal).servings.iter().filter_map(|serving| serving.promised).map(|at| at.earliest);
    assert_eq!(at.collect::<Vec<_>>(), [23 * 60, 23 * 60 + 30, 24 * 60 + 30]);
    // Who has no time of its own eats at the meal, also below somebody who eats on another day.
    let lines = "  serve at Saturday 18:30\ndish \"roast.dwell\", on Sunday at 12:00\ndish \"soup.dwell\"\n";
    let meal = supper(lines, &Options::default());
    let at = plan(&meal).servings.iter().filter_map(|serving| serving.promised).map(|at| at.earliest);
    assert_eq!(at.collect::<Vec<_>>(), [18 * 60 + 30, 36 * 60]);
    // Without a time of the meal each dish has its own, and who says nothing eats with the first.
    let lines = "dish \"soup.dwell\", at 2026-12-12 18:30 in UTC\ndish \"silent.dwell\"\ndish \"roast.dwell\", at 2026-12-11 19:00\n";
    let times = [
        ("Roast", "2026-12-11T19:00:00+00:00"),
        ("Soup", "2026-12-12T18:30:00+00:00"),
        ("Silent", "2026-12-12T18:30:00+00:00"),
    ];
    assert_eq!(served(&supper(lines, &Options::default())), pairs(&times));
}

#[test]
fn two_dishes_of_one_file_are_told_apart() {
    let lines = "  serve at 2026-12-12 18:30 in UTC\ndish \"soup.dwell\"\ndish \"soup.dwell\", at 20:00\n";
    let meal = supper(lines, &Options::default());
    let times: Vec<(String, String)> = served(&meal);
    assert_eq!(times.iter().map(|(dish, _)| dish.as_str()).collect::<Vec<_>>(), ["Soup", "Soup (2)"]);
}

#[test]
fn courses_that_make_no_sense_are_told() {
    let codes = |lines: &str| {
        let compiled = supper(lines, &Options::default());
        compiled.findings.iter().map(|finding| finding.code).collect::<Vec<_>>()
    };
    let at = "  serve at 2026-12-12 18:30 in UTC\n";
    assert_eq!(codes(&format!("{at}dish \"soup.dwell\", at 18:45\n")), []);
    assert!(codes(&format!("{at}dish \"soup.dwell\", at 18:45, at 19:00\n")).contains(&Code::ClauseTwice));
    assert!(
        codes("  serve at 18:30\ndish \"soup.dwell\", on Sunday at 19:00\n").contains(&Code::WeekdayMissing)
    );
    assert!(
        codes(&format!("{at}dish \"soup.dwell\", at 19:00 in Europe/Dublin\n"))
            .contains(&Code::DishesDisagree)
    );
    assert!(
        codes(&format!("{at}dish \"soup.dwell\", guests between 19:00 and 20:00\n"))
            .contains(&Code::ClauseOutOfPlace)
    );
    let two = "dish \"soup.dwell\"\ndish \"roast.dwell\"\n";
    assert!(codes(two).contains(&Code::DishesDisagree), "at 12:00 and at 13:00");
    assert_eq!(codes("dish \"soup.dwell\"\ndish \"roast.dwell\", at 12:45\n"), []);
}

#[test]
fn a_course_written_otherwise_is_told_how() {
    let told = |line: &str| {
        let compiled = supper(&format!("  serve at 18:30\n{line}\n"), &Options::default());
        let remedies = compiled.findings.iter().map(|finding| finding.remedy.render(compiled.scale));
        remedies.collect::<Vec<_>>().join(" ")
    };
    for line in ["dish \"soup.dwell\", serve at 19:15", "dish \"soup.dwell\" for 8, served at 19:15"] {
        assert_eq!(told(line), "Write `at 19:15`.", "{line}");
    }
    assert!(told("dish \"soup.dwell\" at 19:15").contains("`dish \"soup.dwell\", at 19:15`"));
}
