//! Food that looks looked after and is not: each danger is said, and the mended cook is quiet.

mod common;

use common::judge::{NONE, codes, run};

const SERVE: &str = "serve joint\n  at Saturday 19:00\n";

#[test]
fn raw_marinade_is_no_sauce() {
    let cook = |collect: &str, places: &str, serves: &str| {
        run(
            "chicken thigh",
            &format!(
                "food yog is yoghurt\n  300 ml\n  starts at 4 °C\n\
                 phase soak is cold hold\n  joint in fridge\n  with 300 ml of yog\n  for 8 h to 12 h\n  {collect}\n\
                 phase bake is cook\n  {places} in oven\n  air 180 °C\n  until core 76 °C, takes 30 min to 40 min\n\
                 serve {serves}\n  at Saturday 19:00\n"
            ),
        )
    };
    let warned = ["raw-into-cooked warning"];
    let named = "collect 200 ml of sauce is yoghurt";
    assert_eq!(codes(&cook(named, "joint", "joint and sauce")), warned);
    assert_eq!(codes(&cook("collect 200 ml of sauce", "joint", "joint and sauce")), warned);
    assert_eq!(codes(&cook(named, "joint and sauce", "joint and sauce")), NONE);
}

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
