//! The kill, and raw food that meets cooked: both sides of each figure of the cooking tables.

mod common;

use common::judge::{NONE, codes, cooked, judged, points_at, run, verdict};
use dwell::safety::Verdict;

#[test]
fn the_end_of_a_cook_against_the_cooking_table() {
    let at = |rules: &str, food: &str, core: &str| {
        codes(&cooked(
            rules,
            food,
            &format!("joint in oven\n  air 140 °C\n  until core {core}, takes 2 h to 3 h"),
        ))
    };
    let cold = ["cook-end-too-cool error"];
    // FDA Food Code 2022, 3-401.11(A)(3): poultry 165 °F (74 °C).
    assert_eq!(at("us-food-code", "chicken breast", "74 °C"), NONE);
    assert_eq!(at("us-food-code", "chicken breast", "73.8 °C"), cold);
    assert_eq!(at("us-food-code", "chicken breast", "165 °F"), NONE);
    // 3-401.11(A)(2) and its chart: minced meat 145 °F (63 °C) for 3 min at the least.
    assert_eq!(at("us-food-code", "beef mince", "145 °F"), NONE);
    assert_eq!(at("us-food-code", "beef mince", "144.9 °F"), cold);
    // 3-401.11(B)(1): whole roasts 130 °F (54.4 °C) for 112 min at the least.
    assert_eq!(at("us-food-code", "beef topside", "130 °F"), NONE);
    assert_eq!(at("us-food-code", "beef topside", "129.9 °F"), cold);
    assert_eq!(at("us-food-code", "pork loin", "54.4 °C"), NONE);
    assert_eq!(at("us-food-code", "pork loin", "54.3 °C"), cold);
    // 3-401.11(A)(1): fish 145 °F (63 °C) for 15 s.
    assert_eq!(at("us-food-code", "salmon", "63 °C"), NONE);
    let fish = ["parasites-not-frozen warning", "cook-end-too-cool error"];
    assert_eq!(at("us-food-code", "salmon", "62.7 °C"), fish);
    // Food Standards Agency: nothing below 60 °C; whole cuts of beef and lamb may be rare inside.
    assert_eq!(at("uk", "pork loin", "60 °C"), NONE);
    assert_eq!(at("uk", "pork loin", "59.9 °C"), cold);
    assert_eq!(at("uk", "chicken breast", "59.9 °C"), cold);
    assert_eq!(at("uk", "lamb leg", "54 °C"), NONE);
    assert_eq!(at("uk", "lamb mince", "54 °C"), cold);
}

#[test]
fn only_an_end_that_counts_when_it_is_reached_is_met() {
    let at = |food: &str, core: &str| {
        cooked(
            "us-food-code",
            food,
            &format!("joint in oven\n  air 140 °C\n  until core {core}, takes 2 h to 3 h"),
        )
    };
    assert_eq!(verdict(&at("chicken breast", "74 °C"), "us-fc.cook.165", "roast"), [Verdict::Met]);
    // 70 °C counts at once (158 °F, published as 0 s); 69.4 °C has to last 14 s, and nothing says that.
    assert_eq!(verdict(&at("pork loin", "70 °C"), "us-fc.roast", "roast"), [Verdict::Met]);
    assert_eq!(verdict(&at("salmon", "68 °C"), "us-fc.cook.145", "roast"), [Verdict::NotJudged]);
    // A spoken test never counts as a kill.
    let spoken = cooked(
        "us-food-code",
        "chicken breast",
        "joint in oven\n  air 140 °C\n  until \"juices clear\", takes 2 h to 3 h",
    );
    assert_eq!(codes(&spoken), NONE);
    assert_eq!(verdict(&spoken, "us-fc.cook.165", "roast"), [Verdict::NotJudged]);
}

#[test]
fn what_has_been_done_to_the_muscle_decides() {
    let at = |clause: &str, core: &str| {
        let food = format!("beef topside\n  {clause}");
        codes(&cooked(
            "us-food-code",
            &food,
            &format!("joint in oven\n  air 140 °C\n  until core {core}, takes 2 h to 3 h"),
        ))
    };
    assert_eq!(at("intact", "57 °C"), NONE);
    for clause in ["ground", "tenderised", "injected"] {
        assert_eq!(at(clause, "57 °C"), ["cook-end-too-cool error"], "{clause}");
        assert_eq!(at(clause, "63 °C"), NONE, "{clause}");
    }
}

#[test]
fn food_gets_no_hotter_than_what_is_around_it() {
    let bath = |food: &str, water: &str, time: &str| {
        cooked("us-food-code", food, &format!("joint in bath\n  water {water}\n  for {time}"))
    };
    // The chart for roasts: 133 °F (56.1 °C) for 56 min, 130 °F (54.4 °C) for 112 min.
    assert_eq!(codes(&bath("beef short rib", "57 °C", "36 h")), NONE);
    assert_eq!(codes(&bath("beef short rib", "57 °C", "56 min")), NONE);
    assert_eq!(codes(&bath("beef short rib", "57 °C", "55 min")), ["cook-end-too-cool error"]);
    assert_eq!(codes(&bath("beef short rib", "54.4 °C", "112 min")), NONE);
    assert_eq!(codes(&bath("beef short rib", "54.4 °C", "111 min")), ["cook-end-too-cool error"]);
    assert_eq!(codes(&bath("beef short rib", "54 °C", "48 h")), ["cook-end-too-cool error"]);
    // The Code's poultry has no chart: 60 °C for hours does not satisfy it.
    assert_eq!(codes(&bath("chicken breast", "60 °C", "4 h")), ["cook-end-too-cool error"]);
    assert_eq!(points_at(&bath("chicken breast", "60 °C", "4 h")), "water 60 °C");
    // What may be enough is not met by a setting.
    let text = bath("beef short rib", "57 °C", "36 h");
    assert_eq!(verdict(&text, "us-fc.roast", "roast"), [Verdict::NotJudged]);
}

#[test]
fn consecutive_phases_are_one_run_judged_once() {
    let low = "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 60 °C, takes 1 h to 2 h\n";
    let dress = "phase dress is prep\n  joint on bench\n  takes 5 min to 10 min\n";
    let finish =
        "phase finish is cook\n  joint in oven\n  air 200 °C\n  until core 74 °C, takes 1 h to 2 h\n";
    let serve = "serve joint\n  at 19:00\n";
    let with = |parts: &[&str]| codes(&run("chicken breast", &parts.concat()));
    assert_eq!(with(&[low, dress, finish, serve]), NONE);
    assert_eq!(with(&[low, dress, serve]), ["cook-end-too-cool error"]);
    // A rest counts when it says what it is to bring.
    let rest = "phase rest is rest\n  joint on bench\n  for 30 min\n  expect core 74 °C to 78 °C\n";
    assert_eq!(with(&[low, rest, serve]), NONE);
    // A hot hold may not quietly finish a cook.
    let hold = "phase wait is hot hold\n  joint in oven\n  air 90 °C\n  for 2 h\n";
    assert_eq!(with(&[low, hold, serve]), ["cook-end-too-cool error"]);
    // Nor is a cook taken up again after the fridge.
    let chill = "phase ice is cool\n  joint in ice\n  until core 4 °C, takes 1 h to 2 h\n";
    assert_eq!(with(&[low, chill, finish, serve]), ["cook-end-too-cool error"]);
    // Browning first, then an end that says the core was never hotter.
    let brown = "phase brown is cook\n  joint on hob\n  takes 5 min to 10 min\n";
    assert_eq!(with(&[brown, low, serve]), ["cook-end-too-cool error"]);
    assert_eq!(with(&[brown, serve]), NONE, "no figure: not judged");
}

#[test]
fn raw_food_on_a_plate_or_in_a_hold() {
    let serve = "serve joint\n  at 19:00\n";
    assert_eq!(codes(&run("salmon", serve)), ["parasites-not-frozen warning", "raw-into-cooked error"]);
    let keep = "phase keep is cold hold\n  joint in fridge\n  for 4 h\n";
    assert_eq!(
        codes(&run("salmon", &format!("{keep}{serve}"))),
        ["parasites-not-frozen warning", "raw-into-cooked error"]
    );
    let hold = "phase wait is hot hold\n  joint in oven\n  air 70 °C\n  for 2 h\n";
    assert_eq!(
        codes(&run("salmon", &format!("{hold}{serve}"))),
        ["parasites-not-frozen warning", "hold-entered-cold error"]
    );
    // Cured or fermented in place of cooked: other hurdles, not judged yet, and no nonsense.
    let cure = "phase cure is cure\n  joint in fridge\n  for 2 days\n";
    assert_eq!(codes(&run("salmon", &format!("{cure}{serve}"))), ["parasites-not-frozen warning"]);
    assert_eq!(codes(&run("tomato", serve)), NONE);
}

#[test]
fn raw_that_meets_cooked_needs_a_cook_afterwards() {
    let text = |after: &str| {
        format!(
            "cook \"Rice\"\n  serves 4\n  rules us-food-code\nkit hob is hob\nkit bench is bench\nkit oven is oven\n\
             kit probe is probe thermometer\n\
             food rice is cooked rice\n  1 kg\n  starts at 4 °C\ningredient eggs is 4 eggs\n\
             phase mix is prep\n  rice on bench\n  becomes bowl\n  use all eggs\n  takes 5 min to 10 min\n{after}\
             serve bowl\n  at 19:00\n"
        )
    };
    assert_eq!(codes(&text("")), ["raw-into-cooked error"]);
    assert_eq!(points_at(&text("")), "all eggs");
    assert_eq!(
        codes(&text(
            "phase bake is cook\n  bowl in oven\n  air 180 °C\n  until core 75 °C, takes 30 min to 40 min\n"
        )),
        NONE
    );
    let weak = text(
        "phase bake is cook\n  bowl in oven\n  air 180 °C\n  until core 55 °C, takes 30 min to 40 min\n",
    );
    assert_eq!(codes(&weak), ["cook-end-too-cool error"], "a cook was tried: one finding, not two");
}

#[test]
fn what_is_collected_raw_is_raw() {
    let text = |core: &str, between: &str, then: &str| {
        run(
            "chicken thigh",
            &format!(
                "phase start is cook\n  joint in oven\n  air 140 °C\n  until core {core}, takes 1 h to 2 h\n  collect 100 ml of juices\n\
                 {between}\
                 phase dress is {then}\n  use all juices\n  takes 5 min to 10 min\nserve joint\n  at 19:00\n"
            ),
        )
    };
    let finish =
        "phase finish is cook\n  joint in oven\n  air 200 °C\n  until core 80 °C, takes 1 h to 2 h\n";
    // Collected at 50 °C; used on the finished food.
    assert_eq!(codes(&text("80 °C", "", "prep\n  joint on bench")), NONE);
    let collected_raw = "phase start is thaw\n  joint in fridge\n  for 8 h\n  collect 100 ml of juices\n\
        phase finish is cook\n  joint in oven\n  air 200 °C\n  until core 80 °C, takes 1 h to 2 h\n";
    let taken_out = format!(
        "{collected_raw}phase dress is prep\n  joint on bench\n  use all juices\n  takes 5 min to 10 min\nserve joint\n  at 19:00\n"
    );
    // It may have stayed beside its parent in the oven; nobody says so, and raw juice on food is a danger.
    assert_eq!(codes(&run("chicken thigh\n  frozen", &taken_out)), ["raw-into-cooked warning"]);
    let placed = taken_out.replace("joint in oven", "joint and juices in oven");
    assert_eq!(codes(&run("chicken thigh\n  frozen", &placed)), NONE);
    let apart = format!(
        "phase start is thaw\n  joint in fridge\n  for 8 h\n  collect 100 ml of juices\n\
         phase keep is cold hold\n  juices in fridge\n  for 1 h\n{finish}\
         phase dress is prep\n  joint on bench\n  use all juices\n  takes 5 min to 10 min\nserve joint\n  at 19:00\n"
    );
    assert_eq!(codes(&run("chicken thigh\n  frozen", &apart)), ["raw-into-cooked error"]);
    let then_cooked = format!(
        "phase start is thaw\n  joint in fridge\n  for 8 h\n  collect 100 ml of juices\n\
         phase keep is cold hold\n  juices in fridge\n  for 1 h\n{finish}\
         phase glaze is cook\n  joint in oven\n  air 200 °C\n  use all juices\n  until core 84 °C, takes 5 min to 10 min\nserve joint\n  at 19:00\n"
    );
    assert_eq!(codes(&run("chicken thigh\n  frozen", &then_cooked)), NONE);
}

#[test]
fn a_mixture_is_the_worst_of_its_parents() {
    let text = |core: &str| {
        format!(
            "cook \"Stew\"\n  serves 4\n  rules us-food-code\nkit hob is hob\nkit probe is probe thermometer\n\
             food beef is stewing beef\n  1 kg\nfood bird is chicken thigh\n  1 kg\nfood beans is cooked haricot beans\n  1 kg\n\
             phase stew is cook\n  beef and bird and beans on hob\n  becomes stew is meat stew, depth 12 cm\n  liquid 95 °C\n\
             until core {core}, takes 1 h to 2 h\nserve stew\n  at 19:00\n"
        )
    };
    // Beef alone would do at 63 °C; the chicken in it asks for 74 °C.
    assert_eq!(codes(&text("70 °C")), ["cook-end-too-cool error"]);
    assert_eq!(codes(&text("74 °C")), NONE);
    assert_eq!(judged(&text("70 °C")).1.findings[0].food.as_deref(), Some("bird"));
}

#[test]
fn parts_carry_the_history_of_the_whole() {
    let text = "phase keep is cold hold\n  joint in fridge\n  for 1 h\n\
        phase roast is cook\n  1 kg of joint in oven\n  becomes half-one\n  air 140 °C\n  until core 80 °C, takes 1 h to 2 h\n\
        serve half-one\n  at 19:00\nserve joint\n  at 20:00\n";
    assert_eq!(codes(&run("chicken thigh", text)), ["raw-into-cooked error"]);
}

#[test]
fn what_a_set_has_no_row_for_is_not_judged() {
    let text = |end: &str| {
        run("salmon", &format!("phase bake is cook\n  joint in oven\n  air 140 °C\n  until core {end}, takes 20 min to 30 min\nserve joint\n  at 19:00\n"))
            .replace("rules us-food-code", "rules uk")
    };
    assert_eq!(codes(&text("63 °C")), NONE);
    assert_eq!(verdict(&text("63 °C"), "uk.cook", "bake"), [Verdict::NotJudged]);
    // Cooler than anything that the set calls cooking, it is as good as raw, figure or none.
    assert_eq!(codes(&text("45 °C")), ["parasites-not-frozen warning", "raw-into-cooked warning"]);
    assert_eq!(verdict(&text("45 °C"), "uk.cook", "bake"), [Verdict::NotJudged]);
}

#[test]
fn vulnerable_guests_lose_what_is_not_for_them() {
    let steak = |guests: &str| {
        format!(
            "cook \"Steak\"\n  serves 2\n  rules us-food-code\n  {guests}\nkit griddle is griddle\nkit probe is probe thermometer\n\
             food steak is beef rump\n  500 g\n  thickness 3 cm\n\
             phase sear is cook\n  steak on griddle\n  plate 250 °C\n  until core 50 °C, takes 5 min to 8 min\n  expect surface 63 °C to 200 °C\n\
             serve steak\n  at 19:00\n"
        )
    };
    // FDA Food Code 2022, 3-401.11(C): a steak seared to 145 °F outside; not for vulnerable guests.
    assert_eq!(codes(&steak("about \"Friday\"")), NONE);
    assert_eq!(codes(&steak("for vulnerable guests")), ["cook-end-too-cool error"]);
}
