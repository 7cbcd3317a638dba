//! A word does not make food keep: `thaw`, `ferment`, a kind, and days that nobody counts.

mod common;

use common::judge::{NONE, codes, judged, roasted, run, verdict};
use dwell::quantity::Scale;
use dwell::safety::Verdict;

const SERVE: &str = "serve joint\n  at Saturday 19:00\n";

#[test]
fn bought_cooked_food_has_days_too() {
    let keep = |food: &str, days: &str| {
        run(food, &format!("phase keep is cold hold\n  joint in fridge\n  for {days}\n{SERVE}"))
    };
    // FDA Food Code 2022, 3-501.17: 7 days, the first included.
    assert_eq!(codes(&keep("cooked beans", "8 days")), ["kept-too-long error"]);
    assert_eq!(codes(&keep("cooked beans", "7 days")), NONE);
    let short = keep("cooked beans", "1 day");
    assert_eq!(
        verdict(&short, "us-fc.date.7d", "keep"),
        [Verdict::NotJudged],
        "never met: who knows when it was opened"
    );
    let why = judged(&short)
        .1
        .judged
        .iter()
        .find(|j| j.rule == "us-fc.date.7d")
        .map(|j| j.why.render(Scale::Celsius));
    assert!(why.is_some_and(|why| why.contains("yours to add") && why.contains("24 h")));
    // Cheese may be exempt, and counts once it is opened.
    assert_eq!(codes(&keep("hard cheese", "8 days")), ["kept-too-long warning"]);
}

#[test]
fn a_thaw_of_what_was_never_frozen() {
    let thaw = |food: &str, place: &str, time: &str, before: &str| {
        run(food, &format!("{before}phase melt is thaw\n  joint {place}\n  for {time}\n{SERVE}"))
    };
    let freeze = "phase ice-up is freeze\n  joint in freezer\n  for 1 day\n";
    assert_eq!(codes(&thaw("cooked beans", "in fridge", "1 day", "")), ["thaw-not-frozen warning"]);
    assert_eq!(codes(&thaw("cooked beans\n  frozen", "in fridge", "1 day", "")), NONE);
    assert_eq!(codes(&thaw("cooked beans", "in fridge", "1 day", freeze)), NONE);
    // Its days count, frozen or not.
    assert_eq!(
        codes(&thaw("cooked beans", "in fridge", "8 days", "")),
        ["thaw-not-frozen warning", "kept-too-long error"]
    );
    assert_eq!(codes(&thaw("cooked beans", "in fridge", "8 days", freeze)), ["kept-too-long error"]);
    // And its hours on the bench do: 3-501.19, 4 h.
    assert!(
        codes(&thaw("cooked beans", "on bench", "5 h", "")).contains(&"time-without-control error".into())
    );
    assert!(
        !codes(&thaw("cooked beans", "on bench", "3 h", "")).contains(&"time-without-control error".into())
    );
}

#[test]
fn a_ferment_does_not_make_cooked_food_keep() {
    let ferment = |food: &str, time: &str| {
        run(food, &format!("phase sour is ferment\n  joint on bench\n  {time}\n{SERVE}"))
    };
    assert_eq!(codes(&ferment("cooked beans", "for 12 h")), ["time-without-control warning"]);
    assert_eq!(codes(&ferment("cooked beans", "for 4 h")), NONE);
    assert_eq!(
        codes(&ferment("pork mince", "for 12 h")),
        ["time-without-control warning", "raw-into-cooked warning"],
        "nor does it cook raw meat"
    );
    // An end that is measured is the writer's word, and stays not judged.
    let measured = ferment("cooked beans", "until pH 4.1, takes 12 h to 24 h");
    assert_eq!(codes(&measured), NONE);
    assert_eq!(verdict(&measured, "us-fc.tphc.4h", "sour"), [Verdict::NotJudged]);
    // Not acid enough is no proof.
    let mild = ferment("cooked beans", "until pH 5.5, takes 12 h to 24 h");
    assert_eq!(codes(&mild), ["time-without-control warning"]);
    assert_eq!(codes(&ferment("cabbage", "for 12 h")), NONE, "raw plants ferment as they are");
    // Two short ones are one long one.
    let twice = "phase one is ferment\n  joint on bench\n  for 3 h\nphase two is ferment\n  joint on bench\n  for 3 h\n";
    assert_eq!(codes(&run("cooked beans", &format!("{twice}{SERVE}"))), ["time-without-control warning"]);
}

#[test]
fn a_word_does_not_make_cooked_food_keep() {
    let named = |food: &str, time: &str| {
        run(
            food,
            &format!(
                "phase name is prep\n  joint on bench\n  becomes thing is white bread\n  for {time}\nserve thing\n  at 19:00\n"
            ),
        )
    };
    for food in ["cooked beans", "cooked rice", "cooked ham", "milk"] {
        assert_eq!(codes(&named(food, "5 h")), ["time-without-control error"], "{food}");
        assert_eq!(codes(&named(food, "3 h")), NONE, "{food}");
    }
    // Dough that is baked keeps, milk in it or not.
    let loaf = "cook \"Loaf\"\n  serves 6\n  rules us-food-code\nkit oven is oven\nkit bench is bench\nkit probe is probe thermometer\n\
        food dough is enriched dough\n  1 kg\n  thickness 6 cm\ningredient milk is 200 ml milk\n\
        phase knead is prep\n  dough on bench\n  use all milk\n  becomes loaf is bread dough, thickness 6 cm\n  for 1 h\n\
        phase bake is cook\n  loaf in oven\n  air 200 °C\n  until core 94 °C, takes 30 min to 40 min\n\
        phase stand is rest\n  loaf on bench\n  for 12 h\nserve loaf\n  at 19:00\n";
    assert_eq!(codes(loaf), NONE);
}

#[test]
fn a_word_does_not_make_keep_what_was_cooked_here() {
    let called = |food: &str, between: &str, time: &str| {
        run(
            food,
            &format!(
                "phase boil is cook\n  joint on hob\n  liquid 100 °C\n  until core 85 °C, takes 10 min to 20 min\n{between}\
                 phase stand is rest\n  joint on bench\n  becomes thing is white bread\n  for {time}\nserve thing\n  at Saturday 19:00\n"
            ),
        )
    };
    let chill = "phase ice-up is cool\n  joint in ice\n  until core 4 °C, takes 1 h to 2 h, within 2 h\n\
        phase keep is cold hold\n  joint in fridge\n  for 1 day\n";
    for food in ["whole egg", "pork loin", "salmon", "chicken", "milk", "potato"] {
        for between in ["", chill] {
            assert_eq!(
                codes(&called(food, between, "5 h")),
                ["time-without-control error"],
                "{food} {between}"
            );
        }
        assert_eq!(codes(&called(food, "", "1 h")), NONE, "{food}");
    }
    // Boiled rice with an egg in it, called a dough and baked.
    let baked = |stock: &str, boil: &str, name: &str| {
        format!(
            "cook \"Loaf\"\n  serves 6\n  rules us-food-code\nkit oven is oven\nkit hob is hob\nkit bench is bench\nkit probe is probe thermometer\n\
             {stock}ingredient flour is 1 kg strong white flour\ningredient eggs is 2 eggs\ningredient butter is 60 g butter\n\
             phase boil is cook\n  on hob\n  becomes pot\n  {boil}\n  until core 90 °C, takes 10 min to 20 min\n\
             phase knead is prep\n  pot on bench\n  becomes dough is {name}, depth 8 cm\n  use all flour, use all eggs, use all butter\n  for 15 min\n\
             phase bake is cook\n  dough in oven\n  becomes loaf is white bread\n  air 200 °C\n  until core 94 °C, takes 30 min to 40 min\n\
             phase stand is rest\n  loaf on bench\n  for 12 h\nserve loaf\n  at 19:00\n"
        )
    };
    let rice = baked("ingredient rice is 2 kg rice\n", "use all rice", "bread dough");
    assert_eq!(codes(&rice), ["time-without-control error"]);
    // Milk that was scalded for a dough, with egg and butter: a real loaf.
    let milk = baked("ingredient milk is 600 ml milk\n", "use all milk", "enriched dough");
    assert_eq!(codes(&milk), NONE);
}

#[test]
fn raw_fish_is_frozen_first() {
    let fish = |food: &str, freezer: &str, time: &str| {
        let text = run(
            food,
            &format!(
                "phase ice-up is freeze\n  joint in freezer\n  {freezer}for {time}\nphase melt is thaw\n  joint in fridge\n  for 1 day\n\
                 phase salt is cure\n  joint in fridge\n  for 1 day\n{SERVE}"
            ),
        );
        codes(&text)
    };
    // From memory, FDA Food Code 3-402.11: -4 °F (-20 °C) for 168 h, or -31 °F (-35 °C) for 15 h.
    let warned = ["parasites-not-frozen warning"];
    assert_eq!(fish("salmon", "air -20 °C\n  ", "168 h"), NONE);
    assert_eq!(fish("salmon", "air -20 °C\n  ", "167 h"), warned);
    assert_eq!(fish("salmon", "air -19 °C\n  ", "200 h"), warned);
    assert_eq!(fish("salmon", "air -35 °C\n  ", "15 h"), NONE);
    assert_eq!(fish("salmon", "air -35 °C\n  ", "14 h"), warned);
    assert_eq!(fish("salmon", "", "200 h"), warned, "nobody says how cold it is");
    assert_eq!(fish("tuna", "", "1 day"), NONE, "some species are exempt");
    assert_eq!(
        fish("pork loin", "", "1 day"),
        ["raw-into-cooked warning"],
        "no fish, and a cure without salt"
    );
    // Cooked through, nothing is asked; never is the rule met.
    let cook = |end: &str| {
        run(
            "salmon",
            &format!("phase bake is cook\n  joint in oven\n  air 160 °C\n  {end}\nserve joint\n  at 19:00\n"),
        )
    };
    assert_eq!(codes(&cook("until core 63 °C, takes 20 min to 30 min")), NONE);
    assert_eq!(verdict(&cook("for 30 min"), "us-fc.parasites", "bake"), [Verdict::NotJudged]);
}

#[test]
fn bags_are_listed_for_what_is_bagged() {
    let keep = |cover: &str| {
        run("cooked ham", &format!("phase keep is cold hold\n  joint in fridge\n  {cover}for 1 day\n{SERVE}"))
    };
    assert_eq!(verdict(&keep(""), "us-fc.rop", "keep"), []);
    assert_eq!(verdict(&keep("vacuum bagged\n  "), "us-fc.rop", "keep"), [Verdict::NotJudged]);
    // Only for the food that is in one, and only as long as it is.
    let two = |between: &str| {
        let text = format!(
            "food rice is cooked rice\n  1 kg\n  depth 4 cm\n  starts at 4 °C\n\
             phase wrap is prep\n  joint on bench\n  vacuum bagged\n  for 10 min\n{between}\
             phase keep is cold hold\n  joint and rice in fridge\n  for 1 day\nserve joint and rice\n  at Saturday 19:00\n"
        );
        let (_, verdicts) = judged(&run("cooked ham", &text));
        let of_bags = verdicts.judged.into_iter().filter(|j| j.rule == "us-fc.rop");
        of_bags.map(|j| (j.phase, j.food)).collect::<Vec<_>>()
    };
    assert_eq!(two(""), [(Some("keep".to_string()), Some("joint".to_string()))]);
    assert_eq!(two("phase open is prep\n  joint on bench\n  covered\n  for 10 min\n"), []);
    let count = "phase cut is prep\n  joint on bench\n  4 pieces of 500 g, thickness 4 cm\n  for 10 min\n";
    assert_eq!(two(count), [], "a new count starts without a cover");
}

#[test]
fn smoke_in_the_cure_keeps_nothing() {
    let smoked = |food: &str, before: &str, purpose: &str, after: &str| {
        run(
            food,
            &format!(
                "kit cabinet is smoking cabinet\n  vented\ningredient salt is 100 g salt\ningredient beech is 100 g beech\n\
                 {before}phase smoke is {purpose}\n  joint in cabinet\n  air 28 °C\n  use all salt\n  \
                 smoke from 100 g of beech\n  for 20 h\n{after}{SERVE}"
            ),
        )
    };
    let roast = "phase roast is cook\n  joint in oven\n  air 180 °C\n  until core 80 °C, takes 1 h to 2 h\n";
    let cure = "phase salt-it is cure\n  joint in fridge\n  salt 4 %\n  for 12 h\n";
    let told = |text: &str| codes(text).iter().any(|code| code.starts_with("time-without-control"));
    // 20 h at 28 °C: FDA Food Code 2022, 3-501.19 gives 4 h.
    assert!(told(&smoked("cooked chicken breast", "", "cure", "")));
    assert!(told(&smoked("whole chicken", "", "cure", roast)));
    assert!(told(&smoked("whole chicken", cure, "cook", roast)), "no cure keeps raw poultry");
    assert!(told(&smoked("pork loin", "", "cure", roast)), "it is not cured yet");
    // Pork that is cured first is smoked cold in its own right, and not judged.
    assert!(!told(&smoked("pork loin", cure, "cook", roast)));
}

#[test]
fn hours_of_heat_that_nothing_says() {
    let after = |phases: &str| roasted(phases);
    let wait = |time: &str, clauses: &str| {
        after(&format!("phase wait is hot hold\n  joint on hob\n  covered\n  {time}\n  {clauses}\n"))
    };
    // FDA Food Code 2022, 3-501.19: 4 h without control.
    assert_eq!(codes(&wait("for 4 h", "")), NONE);
    assert_eq!(codes(&wait("for 4 h 1 min", "")), ["hold-too-cool warning"]);
    assert_eq!(codes(&wait("for 9 h", "expect core 65 °C or above")), NONE);
    assert_eq!(codes(&wait("for 9 h", "liquid 80 °C")), NONE);
    let halves = "phase wait is hot hold\n  joint on hob\n  for 3 h\n\
                  phase stay is hot hold\n  joint on hob\n  for 3 h\n";
    assert_eq!(codes(&after(halves)), ["hold-too-cool warning"], "two halves are one long one");
}

#[test]
fn hours_in_a_box_are_no_hold() {
    let boxed = |purpose: &str, time: &str| {
        run("cooked beans", &format!("phase carry is {purpose}\n  joint in box\n  for {time}\n{SERVE}"))
    };
    // FDA Food Code 2022, 3-501.19.
    assert_eq!(codes(&boxed("rest", "4 h")), NONE);
    assert_eq!(codes(&boxed("rest", "12 h")), ["time-without-control warning"]);
    assert_eq!(codes(&boxed("rest", "12 h\n  expect core 4 °C or below")), NONE);
    assert_eq!(codes(&boxed("cold hold", "4 h")), NONE);
    assert_eq!(codes(&boxed("cold hold", "30 h")), ["hold-too-warm warning"]);
}

#[test]
fn raw_meat_that_is_cooked_by_the_clock_alone() {
    let told = |food: &str, end: &str| {
        let text = format!(
            "cook \"Supper\"\n  serves 6\n  rules us-food-code\nkit oven is oven\nkit probe is probe thermometer\n\
             food meat is {food}\n  2 kg\n  starts at 4 °C\nphase roast is cook\n  meat in oven\n  air 120 °C\n  {end}\n\
             serve meat\n  at 19:00, up to 1 h late\n"
        );
        let found = common::findings(&[("test.dwell", &text)]);
        let cooked = found.iter().filter(|finding| finding.code.name() == "cook-end-too-cool");
        cooked.map(|finding| finding.severity.name().to_string()).collect::<Vec<_>>()
    };
    // 45 min at 120 °C, and nobody says how thick it is, or looks.
    assert_eq!(told("whole chicken", "for 45 min"), ["warning"]);
    assert_eq!(told("beef mince", "takes 30 min to 45 min"), ["warning"]);
    assert_eq!(told("whole chicken", "until core 75 °C, takes 1 h to 2 h"), NONE, "a probe shows it");
    assert_eq!(told("carrot", "for 45 min"), NONE, "a plant may be as it likes");
}
