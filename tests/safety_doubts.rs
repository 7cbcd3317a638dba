//! Food that looks looked after and is not: each danger is said, and the mended cook is quiet.

mod common;

use common::judge::{NONE, codes, run, verdict};
use dwell::safety::Verdict;

const SERVE: &str = "serve joint\n  at Saturday 19:00\n";

#[test]
fn raw_juice_over_another_dish() {
    let cook = |boil: &str| {
        run(
            "chicken thigh",
            &format!(
                "food salad is celery\n  1 kg\n\
                 phase hang is cold hold\n  joint in fridge\n  for 3 h\n  collect 100 ml of juice\n\
                 phase bake is cook\n  joint in oven\n  air 180 °C\n  until core 76 °C, takes 30 min to 40 min\n{boil}\
                 phase toss is prep\n  salad on bench\n  use all juice\n  takes 5 min to 6 min\n\
                 serve joint and salad\n  at Saturday 19:00\n"
            ),
        )
    };
    assert_eq!(codes(&cook("")), ["raw-into-cooked warning"]);
    let boil =
        "phase boil is cook\n  juice on hob\n  liquid 100 °C\n  until core 80 °C, takes 5 min to 10 min\n";
    assert_eq!(codes(&cook(boil)), NONE);
}

#[test]
fn a_short_or_tepid_heating_does_not_start_the_time_afresh() {
    let stew = |warm: &str, rest: &str| {
        let stand = |name: &str| format!("phase {name} is rest\n  joint on bench\n  for {rest}\n");
        let heat = |name: &str| format!("phase {name} is cook\n  joint on hob\n  {warm}\n");
        run(
            "meat stew",
            &format!(
                "phase boil is cook\n  joint on hob\n  liquid 98 °C\n  until core 90 °C, takes 30 min to 40 min\n\
                 {}{}{}{}{}{SERVE}",
                stand("one"),
                heat("two"),
                stand("three"),
                heat("four"),
                stand("five")
            ),
        )
    };
    // FDA Food Code 2022, 3-501.19: 4 h in all.
    let warned = ["time-without-control warning"];
    assert_eq!(codes(&stew("liquid 60 °C\n  for 5 min", "3 h")), warned);
    assert_eq!(codes(&stew("liquid 60 °C\n  for 2 h", "3 h")), warned, "60 °C reheats nothing");
    assert_eq!(codes(&stew("liquid 98 °C\n  for 5 min", "3 h")), warned, "nothing says that it gets hot");
    assert_eq!(codes(&stew("liquid 45 °C\n  for 5 min", "3 h")), ["time-without-control error"]);
    assert_eq!(codes(&stew("liquid 60 °C\n  for 5 min", "1 h")), NONE);
    assert_eq!(codes(&stew("liquid 98 °C\n  until core 75 °C, takes 10 min to 15 min", "3 h")), NONE);
}

#[test]
fn tepid_phases_add_up() {
    let bath = |first: &str, second: &str| {
        run(
            "beef short rib",
            &format!(
                "phase one is cook\n  joint in bath\n  water 48 °C\n  for {first}\n\
                 phase two is cook\n  joint in bath\n  water 52 °C\n  for {second}\n\
                 phase three is cook\n  joint in bath\n  water 57 °C\n  for 24 h\n{SERVE}"
            ),
        )
    };
    assert_eq!(codes(&bath("3 h", "3 h")), ["time-without-control error"]);
    assert_eq!(codes(&bath("2 h", "2 h")), NONE);
    assert_eq!(codes(&bath("2 h", "121 min")), ["time-without-control error"]);
}

#[test]
fn a_ferment_does_not_cook_meat() {
    let sour = |food: &str, purpose: &str, uses: &str| {
        run(
            food,
            &format!(
                "ingredient salt is 200 g fine salt\ningredient pepper is 20 g pepper\n\
                 phase season is prep\n  joint on bench\n  use all pepper\n  for 1 min\n\
                 phase sour is {purpose}\n  joint in fridge\n  {uses}for 2 days\n{SERVE}"
            ),
        )
        .replace(if uses.is_empty() { "ingredient salt is 200 g fine salt\n" } else { "\0" }, "")
    };
    let warned = ["raw-into-cooked warning"];
    let salt = "use all salt\n  ";
    for food in ["chicken breast", "pork loin", "beef short rib"] {
        assert_eq!(codes(&sour(food, "ferment", salt)), warned, "{food}");
        assert_eq!(codes(&sour(food, "cure", "")), warned, "{food} without salt");
    }
    assert_eq!(codes(&sour("chicken breast", "cure", salt)), warned, "no cure makes up for heat here");
    assert_eq!(codes(&sour("pork loin", "cure", salt)), NONE, "a ham");
    let acid = run(
        "chicken breast",
        &format!("phase sour is ferment\n  joint on bench\n  until pH 4.6, takes 2 days to 3 days\n{SERVE}"),
    );
    assert_eq!(codes(&acid), warned);
    // What is cooked afterwards is cooked.
    let cooked = sour("chicken breast", "ferment", salt).replace(
        SERVE,
        &format!("phase roast is cook\n  joint in oven\n  air 180 °C\n  until core 75 °C, takes 1 h to 2 h\n{SERVE}"),
    );
    assert_eq!(codes(&cooked), NONE);
    assert_eq!(codes(&sour("tofu", "ferment", salt)), NONE, "no animal");
}

#[test]
fn raw_food_that_starts_warm() {
    let roast = |food: &str, rules: &str, starts: &str| {
        run(
            food,
            &format!(
                "phase roast is cook\n  joint in oven\n  air 180 °C\n  until core 80 °C, takes 1 h to 2 h\n{SERVE}"
            ),
        )
        .replace("us-food-code", rules)
        .replace("starts at 4 °C", &format!("starts at {starts}"))
    };
    let warned = ["time-without-control warning"];
    assert_eq!(codes(&roast("chicken breast", "us-food-code", "30 °C")), warned);
    assert_eq!(codes(&roast("chicken breast", "us-food-code", "6 °C")), warned, "3-501.16: 5 °C");
    assert_eq!(codes(&roast("chicken breast", "us-food-code", "5 °C")), NONE);
    assert_eq!(codes(&roast("chicken breast", "uk", "9 °C")), warned, "schedule 4: 8 °C");
    assert_eq!(codes(&roast("chicken breast", "uk", "8 °C")), NONE);
    assert_eq!(codes(&roast("potato", "us-food-code", "20 °C")), NONE);
    // In the shell: 7 °C in the Food Code, no figure in UK law.
    assert_eq!(codes(&roast("whole egg", "us-food-code", "8 °C")), warned);
    assert_eq!(codes(&roast("whole egg", "us-food-code", "7 °C")), NONE);
    assert_eq!(codes(&roast("whole egg", "uk", "18 °C")), NONE);
}

#[test]
fn a_set_without_a_figure_does_not_make_raw_food_fit_to_eat() {
    let uk = |food: &str, phases: &str| run(food, &format!("{phases}{SERVE}")).replace("us-food-code", "uk");
    let bake = |end: &str| {
        format!(
            "phase bake is cook\n  joint in oven\n  air 150 °C\n  until core {end}, takes 20 min to 30 min\n"
        )
    };
    let raw = "raw-into-cooked warning";
    assert_eq!(codes(&uk("whole egg", "")), [raw]);
    assert_eq!(codes(&uk("whole egg", &bake("75 °C"))), NONE);
    assert_eq!(codes(&uk("whole egg", &bake("40 °C"))), [raw], "as good as raw");
    assert_eq!(codes(&uk("salmon", "")), ["parasites-not-frozen warning", raw]);
    assert_eq!(codes(&uk("salmon", &bake("63 °C"))), NONE);
    // From memory, Regulation (EC) No 853/2004: -20 °C for 24 h, or -35 °C for 15 h.
    let frozen = |cold: &str, time: &str| {
        uk(
            "salmon",
            &format!(
                "phase ice-up is freeze\n  joint in freezer\n  air {cold}\n  for {time}\n\
            phase melt is thaw\n  joint in fridge\n  for 1 day\n"
            ),
        )
    };
    assert_eq!(codes(&frozen("-20 °C", "24 h")), [raw]);
    assert_eq!(codes(&frozen("-20 °C", "23 h")), ["parasites-not-frozen warning", raw]);
    assert_eq!(codes(&frozen("-35 °C", "15 h")), [raw]);
}

#[test]
fn food_is_reheated_once() {
    let warm = |name: &str| {
        format!(
            "phase {name} is reheat\n  joint on hob\n  liquid 98 °C\n  until core 80 °C, takes 20 min to 30 min\n"
        )
    };
    let chill = "phase ice-up is cool\n  joint in ice\n  until core 5 °C, takes 1 h to 90 min, within 2 h\n\
                 phase keep is cold hold\n  joint in fridge\n  for 1 day\n";
    let uk = |phases: String| run("cooked ham", &format!("{phases}{SERVE}")).replace("us-food-code", "uk");
    assert_eq!(codes(&uk(warm("one"))), NONE);
    assert_eq!(codes(&uk(format!("{}{}", warm("one"), warm("two")))), NONE, "one reheat in two steps");
    let twice = uk(format!("{}{chill}{}", warm("one"), warm("two")));
    assert_eq!(codes(&twice), ["reheated-twice warning"]);
    assert_eq!(
        codes(&twice.replace("rules uk", "rules us-food-code")),
        NONE,
        "the Food Code does not say so"
    );
}

#[test]
fn raw_milk_is_not_milk() {
    let cup = |words: &str, phases: &str| {
        format!(
            "cook \"Cup\"\n  serves 2\n  rules us-food-code\nkit hob is hob\nkit bench is bench\nkit probe is probe thermometer\n\
             ingredient milk is 500 ml {words}\n\
             phase pour is prep\n  on bench\n  becomes drink\n  use all milk\n  for 5 min\n{phases}serve drink\n  at Saturday 19:00\n"
        )
    };
    let heat =
        "phase heat is cook\n  drink on hob\n  liquid 90 °C\n  until core 75 °C, takes 5 min to 10 min\n";
    for words in ["raw milk", "unpasteurised milk", "raw whole milk"] {
        assert_eq!(codes(&cup(words, "")), ["raw-into-cooked warning"], "{words}");
        assert_eq!(codes(&cup(words, heat)), NONE, "{words}");
    }
    for words in ["milk", "pasteurised milk"] {
        assert_eq!(codes(&cup(words, "")), NONE, "{words}");
    }
}

#[test]
fn an_animal_that_no_table_lists_is_no_pantry_stock() {
    let pot = |words: &str| {
        run(
            "cooked beans",
            &format!(
                "ingredient extra is 500 g {words}\n\
                 phase stir is prep\n  joint on bench\n  use all extra\n  for 5 min\n{SERVE}"
            ),
        )
    };
    for words in
        ["crocodile in brine", "axolotl and pepper", "kangaroo lemon", "axolotl in oil", "emu with salt"]
    {
        assert_eq!(codes(&pot(words)), ["food-unrecognised note"], "{words}");
    }
    for words in ["coarse sea salt", "salt and pepper", "onions", "ripe tomatoes"] {
        assert_eq!(codes(&pot(words)), NONE, "{words}");
    }
}

#[test]
fn nitrite_is_added_up() {
    let dry = |rules: &str, food: &str, grams: &str| {
        run(
            food,
            &format!(
                "ingredient pink is {grams} curing salt\n  nitrite 6.25 %\n\
                 phase salt is cure\n  joint in fridge\n  use all pink\n  for 5 days\n\
                 phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 75 °C, takes 1 h to 2 h\n{SERVE}"
            ),
        )
        .replace("us-food-code", rules)
    };
    let wrong = ["nitrite-too-high error"];
    // From memory, 9 CFR 424.21(c): 625 ppm on whole pieces; 2 kg of meat, so 1.25 g of nitrite, 20 g of the salt.
    assert_eq!(codes(&dry("us-food-code", "pork belly", "200 g")), wrong);
    assert_eq!(codes(&dry("us-food-code", "pork belly", "20.5 g")), wrong);
    assert_eq!(codes(&dry("us-food-code", "pork belly", "20 g")), NONE);
    assert_eq!(
        verdict(&dry("us-food-code", "pork belly", "20 g"), "us.nitrite.dry", "salt"),
        [Verdict::NotJudged]
    );
    // Minced: 156 ppm, 4.99 g.
    assert_eq!(codes(&dry("us-food-code", "pork mince", "5.1 g")), wrong);
    assert_eq!(codes(&dry("us-food-code", "pork mince", "4.9 g")), NONE);
    // From memory, Regulation (EC) No 1333/2008: 150 ppm, 4.8 g.
    assert_eq!(codes(&dry("uk", "pork belly", "5 g")), wrong);
    assert_eq!(codes(&dry("uk", "pork belly", "4.8 g")), NONE);
    // Twice half as much is as much.
    let twice = dry("us-food-code", "pork belly", "24 g").replace(
        "use all pink\n  for 5 days\n",
        "use 12 g of pink\n  for 2 days\nphase more is cure\n  joint in fridge\n  use 12 g of pink\n  for 3 days\n",
    );
    assert_eq!(codes(&twice), wrong);
}

#[test]
fn nitrite_in_a_brine_is_shared_out() {
    let brine = |grams: &str| {
        run(
            "pork belly",
            &format!(
                "ingredient pink is {grams} curing salt\n  nitrite 6.25 %\n\
                 phase mix is prep\n  on bench\n  becomes brine\n  use all pink, use 2 l of water\n  for 5 min\n\
                 phase soak is cure\n  joint in fridge\n  use all brine\n  for 5 days\n\
                 phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 75 °C, takes 1 h to 2 h\n{SERVE}"
            ),
        )
    };
    // From memory, 9 CFR 424.21(c): 200 ppm, over 2 kg of meat and some 2 kg of brine: 0.8 g, 12.8 g of the salt.
    assert_eq!(codes(&brine("14 g")), ["nitrite-too-high error"]);
    assert_eq!(codes(&brine("12.8 g")), NONE);
}

#[test]
fn plants_under_oil_are_kept_cold_and_not_for_long() {
    let oil = |words: &str, keep: &str| {
        run(
            "olive oil",
            &format!(
                "ingredient plant is 200 g {words}\n\
             phase fill is prep\n  joint on bench\n  becomes jar is olive oil\n  use all plant\n  for 5 min\n\
             phase keep is {keep}\nserve jar\n  at Saturday 19:00\n"
            ),
        )
    };
    // From memory, FDA and CDC advice: 4 days in the fridge.
    for words in ["raw garlic", "fresh basil", "carrot"] {
        assert_eq!(
            codes(&oil(words, "cold hold\n  jar in fridge\n  for 5 days")),
            ["kept-too-long warning"],
            "{words}"
        );
        assert_eq!(codes(&oil(words, "cold hold\n  jar in fridge\n  for 4 days")), NONE, "{words}");
        assert_eq!(
            codes(&oil(words, "rest\n  jar on bench\n  for 14 days")),
            ["time-without-control error"],
            "{words}"
        );
    }
    // Nothing is said of what it is: what is mostly oil is oil, and a spoon of it in vegetables is not.
    let mixed = |oil: &str| {
        format!(
            "cook \"Jar\"\n  serves 6\n  rules us-food-code\nkit bench is bench\nkit fridge is fridge\n  air 3 °C\n\
             ingredient oil is {oil} olive oil\ningredient plant is 200 g raw garlic\n\
             phase fill is prep\n  on bench\n  becomes jar\n  use all plant, use all oil\n  for 5 min\n\
             phase keep is cold hold\n  jar in fridge\n  for 5 days\nserve jar\n  at Saturday 19:00\n"
        )
    };
    assert_eq!(codes(&mixed("1 l")), ["kept-too-long warning"]);
    assert_eq!(codes(&mixed("20 ml")), NONE);
    assert_eq!(codes(&oil("dried oregano", "rest\n  jar on bench\n  for 14 days")), NONE);
    assert_eq!(codes(&oil("salt", "rest\n  jar on bench\n  for 14 days")), NONE);
    let uk = oil("raw garlic", "cold hold\n  jar in fridge\n  for 5 days").replace("us-food-code", "uk");
    assert_eq!(codes(&uk), ["kept-too-long warning"]);
}

#[test]
fn a_sealed_bag_has_its_days() {
    let bag = |food: &str, cover: &str, days: &str| {
        run(
            food,
            &format!(
                "phase keep is cold hold\n  joint in fridge\n  {cover}\n  for {days}\n\
                 phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 80 °C, takes 1 h to 2 h\n{SERVE}"
            ),
        )
        .replace("us-food-code", "uk")
    };
    let warned = ["kept-too-long warning"];
    // Food Standards Agency, 2020: 10 days, and 13 for raw beef, lamb and pork.
    assert_eq!(codes(&bag("cooked ham", "vacuum bagged", "11 days")), warned);
    assert_eq!(codes(&bag("cooked ham", "vacuum bagged", "10 days")), NONE);
    assert_eq!(codes(&bag("cooked ham", "covered", "11 days")), NONE);
    assert_eq!(codes(&bag("chicken thigh", "vacuum bagged", "11 days")), warned);
    assert_eq!(codes(&bag("pork loin", "vacuum bagged", "13 days")), NONE);
    assert_eq!(codes(&bag("pork loin", "vacuum bagged", "14 days")), warned);
}
