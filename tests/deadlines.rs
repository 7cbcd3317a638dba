//! Until when at the latest: the figures are those of the rules, counted from where the food leaves the heat or the cold.

mod common;

use common::sheets::{example, of_text, part};
use dwell::compile::Compiled;
use dwell::output::prep;
use dwell::output::sheet::{self, Part, Wanted};
use dwell::quantity::Temperature;
use dwell::safety::{ByThen, Deadline, Since};

fn checked(text: &str) -> Compiled {
    let file = of_text(text);
    assert!(file.understood(), "{:#?}", file.findings);
    file
}

/// Stew that is cooled by the stages of the rules, in a kitchen that keeps to them.
fn stew(rules: &str, after: &str) -> String {
    format!(
        "cook \"Stew\"\n  serves 4\n  rules {rules}\n\
         kit hob is hob\nkit fridge is fridge\n  air 3 °C\nkit bench is bench\nkit chiller is blast chiller\nkit probe is probe thermometer\n\
         food beef is beef chuck\n  1 kg\n  starts at 4 °C\n\
         phase simmer is cook\n  beef on hob\n  liquid 95 °C\n  until core 85 °C, takes 2 h to 3 h\n{after}\
         phase chill is cool\n  beef in chiller\n  air 0 °C\n  until core 3 °C, within 90 min\n\
         phase store is cold hold\n  beef in fridge\n  air 3 °C\n  for 12 h\n\
         serve beef\n  at 13:00\n"
    )
}

fn deadlines(file: &Compiled) -> Vec<(String, f64, ByThen, Since)> {
    let cooks = file.cooks();
    let all = cooks.iter().flat_map(|worked| worked.deadlines);
    let seen = |deadline: &Deadline| {
        (deadline.rule.clone(), deadline.within.minutes(), deadline.by_then, deadline.since)
    };
    all.map(seen).collect()
}

fn phase(file: &Compiled, name: &str) -> dwell::cook::PhaseId {
    let cook = file.cooks()[0].cook;
    cook.phases().find(|(_, phase)| phase.name == name).expect("a phase").0
}

fn celsius(figure: f64) -> Temperature {
    Temperature::from_celsius(figure)
}

#[test]
fn cooling_is_counted_from_the_end_of_the_heat() {
    let file = checked(&stew("us-food-code", ""));
    let heat = Since::EndOf(phase(&file, "simmer"));
    let all = deadlines(&file);
    // FDA Food Code 2022, 3-501.14 (A): from 57 °C to 21 °C within 2 h, and within 6 h in all to 5 °C (41 °F).
    let cold = |at: f64, minutes: f64| {
        all.iter().any(|(_, within, by_then, since)| {
            let figure = match by_then {
                ByThen::Cold(figure) => figure.celsius(),
                _ => f64::NAN,
            };
            (*within - minutes).abs() < 0.01 && (figure - at).abs() < 0.2 && *since == heat
        })
    };
    assert!(cold(21.0, 120.0) && cold(5.0, 360.0), "{all:?}");
    // What stands in the room in between takes nothing away from it: the clock is that of the heat.
    let rest = "phase settle is rest\n  beef on bench\n  for 10 min\n";
    let rested = checked(&stew("us-food-code", rest));
    assert!(deadlines(&rested).iter().any(|(_, within, by, since)| *within == 120.0
        && matches!(by, ByThen::Cold(_))
        && *since == Since::EndOf(phase(&rested, "simmer"))));
}

#[test]
fn a_stage_that_follows_on_says_both_times() {
    let file = checked(&stew("au-nz", ""));
    let all = deadlines(&file);
    // Standard 3.2.2, clause 7(3): 60 °C to 21 °C in 2 h, and on to 5 °C within a further 4 h.
    let further = all.iter().find_map(|(_, within, by_then, _)| match by_then {
        ByThen::ColdAfter { at, from, further } => Some((*within, *at, *from, further.minutes())),
        _ => None,
    });
    assert_eq!(further, Some((360.0, celsius(5.0), celsius(21.0), 240.0)));
}

#[test]
fn advice_is_none_to_throw_food_away_by() {
    // The law of the United Kingdom has no figure for cooling; the agency advises one to two hours.
    let all = deadlines(&checked(&stew("uk", "")));
    assert!(all.iter().all(|(_, _, by_then, _)| *by_then == ByThen::Used), "{all:?}");
}

/// Lamb on the bench before and after hours in hot air.
fn lamb(first: &str, last: &str) -> String {
    format!(
        "cook \"Lamb\"\n  serves 6\n  rules us-food-code\n\
         kit oven is oven\n  air 40 °C to 250 °C\nkit bench is bench\nkit probe is probe thermometer\n\
         food lamb is lamb leg\n  1 piece of 2.4 kg\n  thickness 9 cm\n  starts at 4 °C\n\
         phase season is prep\n  lamb on bench\n  takes {first}\n\
         phase roast is cook\n  lamb in oven\n  air 140 °C\n  until core 63 °C, takes 1 h 45 min to 3 h\n\
         phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  sealed in foil\n  for 1 h to 3 h\n\
         phase carve is prep\n  lamb on bench\n  takes {last}\n\
         serve lamb\n  at 19:00\n"
    )
}

#[test]
fn time_out_is_counted_from_where_food_last_left_the_heat_or_the_cold() {
    let file = checked(&lamb("20 min to 30 min", "10 min to 15 min"));
    let all = deadlines(&file);
    let out: Vec<_> = all.iter().filter(|(_, _, by_then, _)| *by_then == ByThen::Used).collect();
    // FDA Food Code 2022, 3-501.19 (B): 4 h. Hours in a hot oven between two outings are no outing.
    let starts = (240.0, Since::StartOf(phase(&file, "season")));
    assert!(out.iter().any(|(_, within, _, since)| (*within, *since) == starts), "{out:?}");
    for (_, within, _, since) in &out {
        assert_ne!(*since, Since::EndOf(phase(&file, "roast")), "{out:?}");
        assert!((0.0..=240.0).contains(within), "{out:?}");
    }
    // Food that is out for longer than it may be is an error, and nothing is promised of it.
    let broken = checked(&lamb("5 h", "10 min"));
    assert!(
        deadlines(&broken).iter().all(|(_, _, _, since)| *since != Since::StartOf(phase(&broken, "season")))
    );
}

#[test]
fn what_is_left_is_never_more_than_the_rule_gives() {
    for (name, _) in common::examples() {
        let file = example(&name);
        for worked in file.cooks() {
            for deadline in worked.deadlines.iter().filter(|deadline| deadline.by_then == ByThen::Used) {
                assert!(
                    deadline.within.minutes() > 0.0 && deadline.within.minutes() <= 240.0,
                    "{name}: {deadline:?}"
                );
            }
        }
    }
}

#[test]
fn prep_says_it_in_words_and_figures() {
    let file = checked(&stew("us-food-code", ""));
    let list = prep::judged(&file.cooks());
    let text = prep::text(&list).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        text.contains("2 h after simmer ends: beef core 21 °C or below. Not so by then: throw it away."),
        "{text}"
    );
    let row = list.cooks[0].deadlines.iter().find(|row| row.within_s == 7200.0).expect("the first stage");
    assert_eq!(row.after_end_of.as_deref(), Some("simmer"));
    assert_eq!(row.set, "us-food-code");
}

/// Beef and rice, of which the rice only waits for the braise.
fn rice(braise: &str) -> String {
    format!(
        "cook \"Braise\"\n  serves 4\n  rules us-food-code\n\
         kit hob is hob\nkit bench is bench\nkit probe is probe thermometer\n\
         food beef is beef chuck\n  1 kg\n  starts at 4 °C\n\
         food rice is cooked rice\n  500 g\n  starts at 4 °C\n\
         phase sear is cook\n  beef and rice on hob\n  liquid 95 °C\n  until core 75 °C, takes 30 min\n\
         phase settle is rest\n  beef on bench\n  for 20 min\n\
         phase braise is cook\n  beef on hob\n  use all rice\n  liquid 95 °C\n  {braise}\n\
         serve beef\n  at 13:00\n"
    )
}

#[test]
fn a_wait_takes_what_it_lasts_and_not_what_comes_after_it() {
    for braise in
        ["until core 90 °C, takes 2 h to 3 h", "for 2 h to 3 h", "until \"soft\"", "until core 90 °C"]
    {
        let file = checked(&rice(braise));
        let cooks = file.cooks();
        let of_rice: Vec<&Deadline> =
            cooks[0].deadlines.iter().filter(|deadline| deadline.food == "rice").collect();
        assert!(!of_rice.is_empty(), "{braise}");
        for deadline in of_rice {
            // FDA Food Code 2022, 3-501.19 (B): 4 h.
            let said = (deadline.since, deadline.within.minutes(), deadline.by_then);
            assert_eq!(said, (Since::EndOf(phase(&file, "sear")), 240.0, ByThen::Used), "{braise}");
        }
        sheet::html(&file, &Wanted::default()).expect("a sheet");
        let json = serde_json::to_string(&prep::judged(&file.cooks())).expect("JSON");
        assert!(!json.contains("\"within_s\":null"), "{json}");
    }
}

#[test]
fn what_it_was_out_before_is_taken_off_a_wait_too() {
    let file = checked(
        "cook \"Pot\"\n  serves 4\n  rules us-food-code\n\
         kit hob is hob\nkit bench is bench\nkit fridge is fridge\n  air 3 °C\nkit probe is probe thermometer\n\
         food beef is beef chuck\n  1 kg\n  starts at 4 °C\n\
         food hen is chicken thigh\n  1 kg\n  starts at 4 °C\n\
         phase bone is prep\n  hen on bench\n  takes 2 h\n\
         phase chill is cold hold\n  hen in fridge\n  air 3 °C\n  for 1 h\n\
         phase trim is prep\n  beef and hen on bench\n  takes 10 min\n\
         phase settle is rest\n  beef on bench\n  for 20 min\n\
         phase braise is cook\n  beef on hob\n  use all hen\n  liquid 95 °C\n  until core 90 °C, takes 3 h\n\
         serve beef\n  at 13:00\n",
    );
    let chilled = Since::EndOf(phase(&file, "chill"));
    let all = deadlines(&file);
    let left: Vec<f64> =
        all.iter().filter(|(.., since)| *since == chilled).map(|(_, within, ..)| *within).collect();
    assert!(!left.is_empty(), "{all:?}");
    assert!(left.iter().all(|within| *within <= 120.0), "{all:?}");
}

#[test]
fn what_is_cool_is_no_heat_to_count_from() {
    let smoke = "phase smoke is cook\n  beef in oven\n  air 25 °C\n  for 1 h\n";
    let text =
        stew("us-food-code", smoke).replace("kit hob", "kit oven is oven\n  air 20 °C to 250 °C\nkit hob");
    let file = checked(&text);
    let cold: Vec<_> =
        deadlines(&file).into_iter().filter(|(_, _, by, _)| matches!(by, ByThen::Cold(_))).collect();
    assert!(!cold.is_empty());
    assert!(cold.iter().all(|(.., since)| *since == Since::EndOf(phase(&file, "simmer"))), "{cold:?}");
}

/// Lamb that is roasted to `core`, perhaps held, and cooled.
fn roast(core: &str, hold: &str) -> Compiled {
    checked(&format!(
        "cook \"Roast\"\n  serves 6\n  rules us-food-code\n\
         kit oven is oven\n  air 40 °C to 250 °C\nkit chiller is blast chiller\nkit fridge is fridge\n  air 3 °C\n\
         kit bench is bench\nkit probe is probe thermometer\n\
         food lamb is lamb leg\n  1 piece of 2.4 kg\n  thickness 9 cm\n  starts at 4 °C\n\
         phase season is prep\n  lamb on bench\n  takes 10 min\n\
         phase roast is cook\n  lamb in oven\n  air 140 °C\n  until core {core} °C, takes 1 h 45 min to 3 h\n{hold}\
         phase chill is cool\n  lamb in chiller\n  air 0 °C\n  until core 3 °C, within 6 h\n\
         phase store is cold hold\n  lamb in fridge\n  air 3 °C\n  for 12 h to 20 h\n\
         serve lamb\n  at 13:00\n"
    ))
}

/// From where the stages of cooling are counted, each once.
fn cooling_since(file: &Compiled) -> Vec<Since> {
    let all = deadlines(file).into_iter().filter(|(_, _, by, _)| matches!(by, ByThen::Cold(_)));
    let mut since: Vec<Since> = all.map(|(.., since)| since).collect();
    since.dedup();
    since
}

/// FDA Food Code 2022, 3-501.14 (A): the clock of cooling starts at 57 °C.
#[test]
fn heat_that_may_leave_the_food_below_the_start_of_the_clock_is_not_counted_from() {
    let hold = |how: &str| format!("phase wait is hot hold\n  lamb in oven\n  {how}\n  for 1 h to 3 h\n");
    for how in ["air 85 °C\n  sealed in foil", "air 70 °C\n  covered\n  expect core 60 °C or above"] {
        let hot = roast("63", &hold(how));
        assert_eq!(cooling_since(&hot), [Since::EndOf(phase(&hot, "wait"))], "{how}");
    }
    // At the cold end of what is predicted it is below 57 °C for the last of three hours: the roast is the last that is sure.
    for how in ["air 70 °C\n  covered", "air 60 °C\n  uncovered"] {
        let doubtful = roast("63", &hold(how));
        assert_eq!(cooling_since(&doubtful), [Since::EndOf(phase(&doubtful, "roast"))], "{how}");
    }
}

#[test]
fn food_that_never_was_as_hot_as_the_clock_starts_at_has_no_limit_of_cooling() {
    let (hot, rare) = (roast("63", ""), roast("54", ""));
    assert_eq!(cooling_since(&hot), [Since::EndOf(phase(&hot, "roast"))]);
    assert_eq!(cooling_since(&rare), []);
}

/// Ribs in a bath at what the clock of cooling starts at, 57 °C: usually they get there, and surely they do not.
#[test]
fn heat_in_doubt_is_counted_from_where_there_is_none_before() {
    let rib = example("short-rib.dwell");
    assert_eq!(cooling_since(&rib), [Since::EndOf(phase(&rib, "bath"))]);
}

/// What is cold in between ends what the heat before it is good for.
#[test]
fn heat_before_the_cold_is_not_counted_from() {
    let again = |core: &str| {
        let again = format!(
            "phase store is cold hold\n  lamb in fridge\n  air 3 °C\n  for 12 h\n\
             phase warm is reheat\n  lamb in oven\n  air 140 °C\n  until core {core} °C, takes 1 h to 2 h\n\
             phase chill-again is cool\n  lamb in chiller\n  air 0 °C\n  until core 3 °C, within 6 h\n"
        );
        let chill =
            "phase chill-first is cool\n  lamb in chiller\n  air 0 °C\n  until core 3 °C, within 6 h\n";
        let file = roast("63", &format!("{chill}{}", again.replace("phase store", "phase keep")));
        let since = cooling_since(&file);
        let of = |name: &str| since.contains(&Since::EndOf(phase(&file, name)));
        (of("roast"), of("warm"), since.len())
    };
    assert_eq!(again("75"), (true, true, 2));
    assert_eq!(again("50"), (true, false, 1));
}

/// A roast on the bench before and after heat that leaves it at 54 °C.
#[test]
fn time_out_counts_on_through_heat_that_leaves_the_food_lukewarm() {
    let used = |core: &str, takes: &str| {
        let file = checked(
            &lamb("20 min", "10 min")
                .replace("core 63 °C, takes 1 h 45 min to 3 h", &format!("core {core} °C, takes {takes}"))
                .replace("phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  sealed in foil\n  for 1 h to 3 h\n", ""),
        );
        let all = deadlines(&file).into_iter().filter(|(_, _, by, _)| *by == ByThen::Used);
        let since: Vec<Since> = all.map(|(.., since)| since).collect();
        let carved = since.contains(&Since::EndOf(phase(&file, "roast")));
        (carved, since.contains(&Since::StartOf(phase(&file, "season"))), since.len())
    };
    // FDA Food Code 2022, 3-501.19 (B): from 57 °C, or from the cold.
    assert_eq!(used("63", "1 h 45 min to 3 h"), (true, true, 2));
    // The whole of it takes 3 h 30 min at most: that is one outing.
    assert_eq!(used("54", "1 h 45 min to 3 h"), (false, true, 1));
    // In 4 h 30 min it may be out for longer than the rule gives: what is known of the time before the heat is left.
    assert_eq!(used("54", "1 h 45 min to 4 h"), (false, true, 1));
}

/// What is set around food says how warm it may get, not how warm it is: so little heat starts no clock anew.
#[test]
fn heat_that_is_not_followed_is_not_taken_to_leave_the_food_as_hot_as_its_oven() {
    let warmed = |how: &str| {
        let oven = "kit oven is oven\n  air 50 °C to 250 °C\nkit hob";
        let wait = |name: &str| format!("phase {name} is rest\n  beef on bench\n  for 20 min\n");
        let warm = format!("phase warm is reheat\n  beef in oven\n  {how}\n");
        let text = stew("us-food-code", &format!("{}{warm}{}", wait("settle"), wait("stand")));
        let file = checked(&text.replace("kit hob", oven));
        let (cooling, all) = (cooling_since(&file), deadlines(&file));
        let used: Vec<Since> =
            all.iter().filter(|(_, _, by, _)| *by == ByThen::Used).map(|(.., since)| *since).collect();
        let from = |name: &str| {
            let end = Since::EndOf(phase(&file, name));
            (cooling.contains(&end), used.contains(&end))
        };
        (from("simmer"), from("warm"))
    };
    for how in ["air 180 °C\n  for 5 min", "air 60 °C\n  for 1 h", "air 50 °C\n  for 30 min"] {
        assert_eq!(warmed(how), ((true, true), (false, false)), "{how}");
    }
    // A probe says that it is hot again.
    assert_eq!(warmed("air 180 °C\n  until core 75 °C, takes 10 min").1, (true, true));
    // It stays in there for longer than it may be out, and comes out hot if at all.
    assert_eq!(warmed("air 180 °C\n  for 5 h"), ((true, true), (false, true)));
}

/// The limits on the wall, without what marks them up.
fn wall(file: &Compiled) -> String {
    limits(&part(file, Part::Wall))
}

fn limits(page: &str) -> String {
    let limits = page.split_once("No later than").expect("limits").1;
    let limits = limits.split_once("</table>").expect("its end").0;
    let words: Vec<&str> =
        limits.split('<').map(|part| part.split_once('>').map_or("", |(_, text)| text)).collect();
    words.concat().replace('\u{a0}', " ")
}

#[test]
fn a_time_on_the_clock_stands_only_where_the_plan_always_holds() {
    let timed = stew("us-food-code", "").replace("within 90 min", "takes 1 h to 90 min");
    let lucky = wall(&checked(&timed));
    assert!(lucky.contains("2 h after simmer ends"), "{lucky}");
    assert!(!has_time(&lucky), "{lucky}");
    let timed = timed.replace("for 12 h", "for 12 h to 20 h");
    let always = wall(&checked(&timed));
    // The simmer ends within an hour: the time for its earliest end says that it is one.
    assert!(has_time(&always) && always.contains("2 h after simmer ends"), "{always}");
    assert!(always.contains(", the earliest: by "), "{always}");
    let certain = timed.replace("takes 2 h to 3 h", "takes 2 h").replace("takes 1 h to 90 min", "takes 1 h");
    let certain = certain.replace("for 12 h to 20 h", "for 12 h");
    let certain = wall(&checked(&certain));
    assert!(has_time(&certain) && !certain.contains("the earliest"), "{certain}");
}

#[test]
fn a_time_on_the_clock_that_rests_on_a_predicted_length_says_so() {
    let text = lamb("20 min", "10 min")
        .replace("for 1 h to 3 h", "for 1 h to 16 h")
        .replace("at 19:00", "at 19:00, up to 30 min late");
    let predicted = text.replace(", takes 1 h 45 min to 3 h", "");
    for (text, marked) in [(&text, false), (&predicted, true)] {
        let file = checked(text);
        for shown in [Part::Wall, Part::Station, Part::Full] {
            let said = limits(&part(&file, shown));
            assert!(has_time(&said), "{said}");
            // The seasoning comes before the roast, whose length is not in the file.
            let (seasoned, carved) = said.split_once("after wait ends").expect("both");
            assert!(seasoned.contains("after season starts") && !seasoned.contains("predicted"), "{said}");
            assert_eq!(carved.contains("as predicted"), marked, "{said}");
        }
    }
}

/// Something like "14:10".
fn has_time(text: &str) -> bool {
    let digit = |at: Option<&u8>| at.is_some_and(u8::is_ascii_digit);
    let bytes = text.as_bytes();
    bytes
        .iter()
        .enumerate()
        .any(|(n, byte)| *byte == b':' && n > 0 && digit(bytes.get(n - 1)) && digit(bytes.get(n + 1)))
}

#[test]
fn programs_see_the_second_time_of_a_stage() {
    let list = prep::judged(&checked(&stew("au-nz", "")).cooks());
    let json = serde_json::to_value(&list).expect("JSON");
    let schema = serde_json::to_value(schemars::schema_for!(prep::PrepList)).expect("a schema");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    assert!(validator.is_valid(&json), "{json}");
    let rows = json["cooks"][0]["deadlines"].as_array().expect("rows");
    // Standard 3.2.2, clause 7(3).
    let further = rows.iter().find(|row| row["core_c"] == 5.0).expect("the second stage");
    assert_eq!(
        (&further["after_core_c"], &further["further_s"]),
        (&21.0.into(), &14400.0.into()),
        "{further}"
    );
    let first = rows.iter().find(|row| row["core_c"] == 21.0).expect("the first stage");
    assert!(first.get("further_s").is_none() && first.get("after_core_c").is_none(), "{first}");
}
