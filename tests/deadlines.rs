//! Until when at the latest: the figures are those of the rules, counted from where the food leaves the heat or the cold.

mod common;

use dwell::compile::{Compiled, Options, compile};
use dwell::output::prep;
use dwell::quantity::Temperature;
use dwell::safety::{ByThen, Deadline, Since};

fn checked(text: &str) -> Compiled {
    let file = compile(&common::Memory(&[]), "test.dwell".into(), text.into(), &Options::default());
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
         phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  covered\n  for 1 h to 3 h\n\
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
    for (name, text) in common::examples() {
        let all = common::examples();
        let files: Vec<(&str, &str)> =
            all.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        let file = compile(&common::Memory(&files), name.clone(), text.into(), &Options::default());
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
