//! Time out of the heat and the cold, and cooling: both sides of each limit.

mod common;

use common::judge::{NONE, codes, points_at, roasted, run, verdict};
use dwell::safety::Verdict;

#[test]
fn time_out_of_the_heat_and_the_cold() {
    let waits = |first: &str, second: &str| {
        roasted(&format!(
            "phase stand is rest\n  joint on bench\n  {first}\nphase carve is prep\n  joint on bench\n  {second}\n"
        ))
    };
    let fifteen = "takes 15 min to 20 min";
    // FDA Food Code 2022, 3-501.19: 4 h in all.
    assert_eq!(codes(&waits("for 3 h 40 min", fifteen)), NONE);
    assert_eq!(
        codes(&waits("for 3 h 45 min", fifteen)),
        ["time-without-control warning"],
        "if the hands are slow"
    );
    assert_eq!(codes(&waits("for 3 h 46 min", fifteen)), ["time-without-control error"]);
    // What the cook may choose is declared, too.
    assert_eq!(codes(&waits("for up to 5 h", fifteen)), ["time-without-control error"]);
    assert_eq!(points_at(&waits("for up to 5 h", fifteen)), "for up to 5 h");
    assert_eq!(verdict(&waits("for 3 h", fifteen), "us-fc.tphc.4h", "carve"), [Verdict::Met]);
    // The fridge and a hot place are control.
    let fridge = waits("for 3 h", fifteen).replace(
        "phase stand is rest\n  joint on bench\n  for 3 h",
        "phase stand is rest\n  joint in fridge\n  for 6 h",
    );
    assert_eq!(codes(&fridge), NONE);
    // How hot a box keeps it is not declared: for no longer than a set allows on the bench, it is left alone.
    let boxed = |time: &str| {
        codes(&waits("for 3 h", fifteen).replace(
            "phase stand is rest\n  joint on bench\n  for 3 h",
            &format!("phase stand is rest\n  joint in box\n  for {time}"),
        ))
    };
    assert_eq!(boxed("3 h"), NONE);
    assert_eq!(boxed("6 h"), ["time-without-control warning"]);
}

#[test]
fn only_heat_that_is_sure_starts_the_time_afresh() {
    let text = |end: &str| {
        let stand = |name: &str| format!("phase {name} is rest\n  joint on bench\n  for 3 h\n");
        run(
            "cooked ham",
            &format!(
                "{}phase warm is reheat\n  joint in oven\n  air 150 °C\n  {end}\n{}serve joint\n  at 19:00\n",
                stand("first-wait"),
                stand("last-wait")
            ),
        )
    };
    let sure = text("until core 75 °C, takes 30 min to 1 h");
    assert_eq!(verdict(&sure, "us-fc.tphc.4h", "last-wait"), [Verdict::Met]);
    // Three minutes are too few to rely on; 3 h and 3 h may be 6 h.
    assert_eq!(codes(&text("for 3 min")), ["time-without-control warning"]);
    let unsure = text("for 30 min");
    assert_eq!(codes(&unsure), NONE);
    assert_eq!(verdict(&unsure, "us-fc.tphc.4h", "last-wait"), [Verdict::NotJudged]);
}

#[test]
fn cooling_in_the_room_without_an_end_is_time_without_control() {
    let text = |cool: &str| roasted(&format!("phase down is cool\n  joint on bench\n  {cool}\n"));
    assert_eq!(codes(&text("for 4 h")), NONE);
    assert_eq!(codes(&text("for 5 h")), ["time-without-control error"]);
}

#[test]
fn food_that_keeps_in_a_cupboard_is_left_alone() {
    let stands = |food: &str| {
        run(food, "phase stand is rest\n  joint on bench\n  for 10 h\nserve joint\n  at 19:00\n")
    };
    for food in ["white bread", "potato", "butter", "tomato"] {
        assert_eq!(codes(&stands(food)), NONE, "{food}");
    }
    for food in ["cooked rice", "baked beans", "milk", "hard-boiled egg", "firm tofu"] {
        assert_eq!(codes(&stands(food)), ["time-without-control error"], "{food}");
    }
    // FDA Food Code 2022, 1-201.10(B) table B: pH below 4.2 needs no control at any moisture.
    assert_eq!(codes(&stands("tomato sauce\n  pH 4.1")), NONE);
    assert_eq!(codes(&stands("tomato sauce\n  pH 4.2")), ["time-without-control error"]);
}

#[test]
fn a_raw_plant_needs_control_once_it_is_cooked() {
    let text = run(
        "potato",
        "phase boil is cook\n  joint on hob\n  liquid 100 °C\n  until core 95 °C, takes 30 min to 40 min\n\
         phase stand is rest\n  joint on bench\n  for 5 h\nserve joint\n  at 19:00\n",
    );
    assert_eq!(codes(&text), ["time-without-control error"]);
}

#[test]
fn cooling_limits_that_are_declared() {
    let text = |rules: &str, cool: &str| {
        roasted(&format!("phase ice is cool\n  joint in ice\n  {cool}\nphase keep is cold hold\n  joint in fridge\n  for 1 day\n"))
        .replace("rules us-food-code", &format!("rules {rules}"))
    };
    // FDA Food Code 2022, 3-501.14: 6 h in all to 41 °F (5 °C), 2 h to 70 °F (21 °C).
    assert_eq!(codes(&text("us-food-code", "until core 5 °C, takes 2 h to 5 h, within 6 h")), NONE);
    assert_eq!(
        codes(&text("us-food-code", "until core 5 °C, takes 2 h to 5 h, within 6 h 1 min")),
        ["cool-too-slow error"]
    );
    assert_eq!(
        codes(&text("us-food-code", "until core 3 °C, takes 2 h to 5 h, within 6 h 1 min")),
        ["cool-too-slow warning"]
    );
    assert_eq!(codes(&text("us-food-code", "until core 5 °C, takes 6 h to 7 h")), NONE);
    assert_eq!(
        codes(&text("us-food-code", "until core 5 °C, takes 6 h 1 min to 7 h")),
        ["cool-too-slow error"]
    );
    assert_eq!(codes(&text("us-food-code", "until core 21 °C, takes 1 h to 2 h, within 2 h")), NONE);
    assert_eq!(
        codes(&text("us-food-code", "until core 21 °C, takes 1 h to 2 h, within 2 h 1 min")),
        ["cool-too-slow error"]
    );
    // Food Standards Agency: in the fridge within one to two hours; advice, so a warning.
    assert_eq!(codes(&text("uk", "until core 8 °C, takes 1 h to 2 h, within 2 h")), NONE);
    assert_eq!(
        codes(&text("uk", "until core 8 °C, takes 1 h to 2 h, within 2 h 1 min")),
        ["cool-too-slow warning"]
    );
    // What is inside the limit is still not met: only the curve can say.
    let text = text("us-food-code", "until core 5 °C, takes 2 h to 5 h, within 6 h");
    assert_eq!(verdict(&text, "us-fc.cool.total", "ice"), [Verdict::NotJudged]);
}

#[test]
fn food_that_starts_warm_has_a_past_that_nobody_declares() {
    let text = |starts: &str| {
        run("cooked rice", "phase mix is prep\n  joint on bench\n  for 1 h\nserve joint\n  at 19:00\n")
            .replace("starts at 4 °C", &format!("starts at {starts}"))
    };
    assert_eq!(verdict(&text("5 °C"), "us-fc.tphc.4h", "mix"), [Verdict::Met]);
    assert_eq!(verdict(&text("15 °C"), "us-fc.tphc.4h", "mix"), [Verdict::NotJudged]);
}

#[test]
fn a_cook_at_the_warmth_of_a_room_is_no_cook() {
    let text = |setting: &str, long: &str| {
        run(
            "pork loin",
            &format!(
                "phase soak is cook\n  joint in bath\n  vacuum bagged\n  {setting}\n  {long}\n\
                 phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 71 °C, takes 1 h to 2 h\nserve joint\n  at 19:00\n"
            ),
        )
    };
    assert_eq!(codes(&text("water 35 °C", "for 20 h")), ["time-without-control error"]);
    assert_eq!(codes(&text("water 35 °C", "for 4 h")), NONE);
    // FDA Food Code 2022, 3-401.11(B): the chart for roasts begins at 130 °F (54.4 °C).
    assert_eq!(codes(&text("water 53 °C", "for 20 h")), ["time-without-control error"]);
    assert_eq!(codes(&text("water 54.4 °C", "for 20 h")), NONE);
}

#[test]
fn raw_meat_cured_on_the_bench() {
    let text = |place: &str, long: &str| {
        run(
            "chicken",
            &format!(
                "phase brine is cure\n  joint {place}\n  {long}\n\
                 phase roast is cook\n  joint in oven\n  air 200 °C\n  until core 74 °C, takes 1 h to 2 h\nserve joint\n  at 19:00\n"
            ),
        )
    };
    let bench = text("on bench", "for 12 h");
    assert_eq!(codes(&bench), ["time-without-control warning"]);
    assert_eq!(verdict(&bench, "us-fc.tphc.4h", "brine"), [Verdict::NotJudged]);
    assert_eq!(codes(&text("on bench", "for 2 h")), NONE);
    assert_eq!(codes(&text("in fridge", "for 12 h")), NONE);
    let warm = text("in fridge", "for 12 h").replace("air 3 °C", "air 12 °C");
    assert_eq!(codes(&warm), ["time-without-control warning"]);
}

#[test]
fn cooked_food_that_goes_hot_into_the_cold() {
    let text = |between: &str| {
        roasted(&format!(
            "{between}\
                 phase keep is cold hold\n  joint in fridge\n  for 1 day\n"
        ))
    };
    assert_eq!(codes(&text("")), ["cool-too-slow warning"]);
    assert_eq!(verdict(&text(""), "us-fc.cool.total", "keep"), [Verdict::NotJudged]);
    let cooled = "phase ice is cool\n  joint in ice\n  until core 5 °C, takes 2 h to 5 h, within 6 h\n";
    assert_eq!(codes(&text(cooled)), NONE);
}

#[test]
fn of_two_faults_in_one_place_the_graver_is_said() {
    let text = roasted("phase down is cool\n  joint on bench\n  until core 20 °C, takes 10 h to 12 h\n");
    // Ten hours are too many for all of the cooling, and perhaps for the first part of it.
    assert_eq!(codes(&text), ["cool-too-slow error"]);
    assert_eq!(verdict(&text, "us-fc.cool.total", "down"), [Verdict::Broken]);
}

#[test]
fn a_rest_in_the_fridge_is_time_in_the_fridge() {
    let text = |long: &str| roasted(&format!("phase sit is rest\n  joint in fridge\n  for {long}\n"));
    assert_eq!(codes(&text("6 h")), NONE);
    // FDA Food Code 2022, 3-501.17: 7 days.
    assert_eq!(codes(&text("8 days")), ["kept-too-long error"]);
    assert_eq!(codes(&text("6 h").replace("air 3 °C", "air 12 °C")), ["time-without-control error"]);
}

#[test]
fn a_word_does_not_make_meat_keep() {
    let stands = |becomes: &str| {
        run(
            "pork loin",
            &format!(
                "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 71 °C, takes 1 h to 2 h\n\
                 phase stand is rest\n  joint on bench\n  becomes thing is {becomes}\n  for 6 h\nserve thing\n  at 19:00\n"
            ),
        )
    };
    for kind in ["pulled pork", "white bread", "lard"] {
        assert_eq!(codes(&stands(kind)), ["time-without-control error"], "{kind}");
    }
}
