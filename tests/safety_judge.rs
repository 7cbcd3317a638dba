//! Each safety finding, on both sides of its limit.

mod common;

use dwell::quantity::Scale;
use dwell::safety::{Verdict, Verdicts, judge};

fn judged(text: &str) -> (dwell::text::Sources, Verdicts) {
    let (sources, cook, findings) = common::cook(text);
    let said: Vec<_> =
        findings.iter().map(|f| format!("{} {}", f.code.name(), f.message.render(Scale::Celsius))).collect();
    assert!(said.is_empty(), "{said:#?} in\n{text}");
    let cook = cook.expect("a cook");
    let verdicts = judge(&cook, common::rules_of(&cook));
    (sources, verdicts)
}

/// `code severity` of each finding.
fn codes(text: &str) -> Vec<String> {
    judged(text).1.findings.iter().map(|f| format!("{} {}", f.code.name(), f.severity.name())).collect()
}

/// The text that the only finding points at.
fn points_at(text: &str) -> String {
    let (sources, verdicts) = judged(text);
    let [finding] = verdicts.findings.as_slice() else { panic!("{:#?}", verdicts.findings) };
    sources.slice(finding.span).to_string()
}

fn verdict(text: &str, rule: &str, phase: &str) -> Vec<Verdict> {
    let (_, verdicts) = judged(text);
    let about = |j: &&dwell::safety::Judged| j.rule == rule && j.phase.as_deref() == Some(phase);
    verdicts.judged.iter().filter(about).map(|j| j.verdict).collect()
}

const NONE: [&str; 0] = [];

/// A joint that is cooked and held; the clauses of both phases are given.
fn held(rules: &str, food: &str, cook: &str, hold: &str) -> String {
    format!(
        "cook \"Joint\"\n  serves 6\n  rules {rules}\nkit oven is oven\nkit probe is probe thermometer\n\
         food joint is {food}\n  2 kg\n  thickness 9 cm\n  starts at 4 °C\n\
         phase roast is cook\n  joint in oven\n  {cook}\n\
         phase wait is hot hold\n  joint in oven\n  {hold}\n  for 1 h to 2 h\n\
         serve joint\n  at 19:00\n"
    )
}

/// A joint that is cooked and served.
fn cooked(rules: &str, food: &str, cook: &str) -> String {
    format!(
        "cook \"Joint\"\n  serves 6\n  rules {rules}\nkit oven is oven\nkit bath is water bath\n\
         kit probe is probe thermometer\nfood joint is {food}\n  2 kg\n  thickness 9 cm\n  starts at 4 °C\n\
         phase roast is cook\n  {cook}\nserve joint\n  at 19:00\n"
    )
}

#[test]
fn a_hot_hold_below_the_limit() {
    let at = |rules: &str, setting: &str| {
        codes(&held(rules, "pork loin", "air 140 °C, until core 71 °C, takes 2 h to 3 h", setting))
    };
    // FDA Food Code 2022, 3-501.16: 135 °F, printed as 57 °C.
    assert_eq!(at("us-food-code", "air 56.9 °C"), ["hold-too-cool error"]);
    assert_eq!(at("us-food-code", "air 57 °C"), NONE);
    assert_eq!(at("us-food-code", "air 134.5 °F"), ["hold-too-cool error"]);
    assert_eq!(at("us-food-code", "air 135 °F"), NONE);
    // Food Hygiene Regulations 2006, schedule 4: 63 °C.
    assert_eq!(at("uk", "air 62.9 °C"), ["hold-too-cool error"]);
    assert_eq!(at("uk", "air 63 °C"), NONE);
    let text =
        held("us-food-code", "pork loin", "air 140 °C, until core 71 °C, takes 2 h to 3 h", "air 48 °C");
    assert_eq!(points_at(&text), "air 48 °C");
}

#[test]
fn a_tolerance_that_reaches_below_the_limit_is_a_warning() {
    let at = |setting: &str| {
        codes(&held("us-food-code", "pork loin", "air 140 °C, until core 71 °C, takes 2 h to 3 h", setting))
    };
    assert_eq!(at("air 60 °C ± 3 °C"), NONE);
    assert_eq!(at("air 60 °C ± 3.5 °C"), ["hold-too-cool warning"]);
}

#[test]
fn a_roast_cooked_by_the_chart_may_be_held_cooler() {
    // FDA Food Code 2022, 3-501.16: 130 °F (54 °C) for a roast cooked under 3-401.11(B).
    let at = |food: &str, cook: &str, setting: &str| codes(&held("us-food-code", food, cook, setting));
    let low = "air 140 °C, until core 58 °C, takes 2 h to 3 h";
    assert_eq!(at("beef topside", low, "air 54 °C"), NONE);
    assert_eq!(at("beef topside", low, "air 53.9 °C"), ["hold-too-cool error"]);
    let text = held("us-food-code", "beef topside", low, "air 54 °C");
    assert_eq!(
        verdict(&text, "us-fc.hold.hot.roast", "wait"),
        [Verdict::NotJudged],
        "never met on a setting"
    );
    // Cooked to 63 °C it was not cooked by the chart, whatever it is.
    assert_eq!(
        at("beef topside", "air 140 °C, until core 63 °C, takes 2 h to 3 h", "air 54 °C"),
        ["hold-too-cool error"]
    );
    assert_eq!(
        at("beef topside", "air 140 °C, until core 84 °C, takes 4 h to 6 h", "air 54 °C"),
        ["hold-too-cool error"]
    );
}

#[test]
fn a_setting_speaks_only_for_what_is_around_the_food() {
    let text =
        held("us-food-code", "pork loin", "air 140 °C, until core 71 °C, takes 2 h to 3 h", "air 70 °C");
    assert_eq!(verdict(&text, "us-fc.hold.hot", "wait"), [Verdict::Met, Verdict::NotJudged]);
}

#[test]
fn a_checkpoint_that_lets_cool_food_pass() {
    let at = |check: &str| {
        codes(&held(
            "us-food-code",
            "pork loin",
            "air 140 °C, until core 71 °C, takes 2 h to 3 h",
            &format!("air 70 °C\n  expect core {check}"),
        ))
    };
    assert_eq!(at("57 °C to 72 °C"), NONE);
    assert_eq!(at("56.9 °C to 72 °C"), ["hold-too-cool error"]);
}

#[test]
fn a_cold_hold_above_the_limit() {
    let text = |rules: &str, setting: &str| {
        format!(
            "cook \"Cold\"\n  serves 4\n  rules {rules}\nkit fridge is fridge\n  air 0 °C to 12 °C\n\
             food beans is cooked haricot beans\n  1 kg\n  starts at 4 °C\n\
             phase keep is cold hold\n  beans in fridge\n  {setting}\n  for 1 day\nserve beans\n  at 19:00\n"
        )
    };
    // FDA Food Code 2022, 3-501.16: 41 °F (5 °C). Food Hygiene Regulations 2006, schedule 4: 8 °C.
    assert_eq!(codes(&text("us-food-code", "air 5 °C")), NONE);
    assert_eq!(codes(&text("us-food-code", "air 5.1 °C")), ["hold-too-warm error"]);
    assert_eq!(codes(&text("us-food-code", "air 41 °F")), NONE);
    assert_eq!(codes(&text("us-food-code", "air 41.5 °F")), ["hold-too-warm error"]);
    assert_eq!(codes(&text("uk", "air 8 °C")), NONE);
    assert_eq!(codes(&text("uk", "air 8.1 °C")), ["hold-too-warm error"]);
    assert_eq!(points_at(&text("us-food-code", "air 7 °C")), "air 7 °C");
    // No figure: not judged, and not a fault.
    assert_eq!(codes(&text("us-food-code", "covered")), NONE);
    assert_eq!(verdict(&text("us-food-code", "covered"), "us-fc.hold.cold", "keep"), [Verdict::NotJudged]);
    // Nor is what fridges can be set to (0 to 8 °C) said of this one.
    let unsaid = text("uk", "covered").replace("  air 0 °C to 12 °C\n", "");
    assert_eq!(verdict(&unsaid, "uk.hold.cold", "keep"), [Verdict::NotJudged]);
}

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
    assert_eq!(at("us-food-code", "salmon", "62.7 °C"), cold);
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

/// A run of phases on one piece of food.
fn run(food: &str, phases: &str) -> String {
    format!(
        "cook \"Run\"\n  serves 6\n  rules us-food-code\nkit oven is oven\nkit hob is hob\nkit bench is bench\n\
         kit fridge is fridge\n  air 3 °C\nkit freezer is freezer\nkit ice is ice bath\nkit probe is probe thermometer\n\
         kit box is insulated box\nkit bath is water bath\n\
         food joint is {food}\n  2 kg\n  thickness 9 cm\n  starts at 4 °C\n{phases}"
    )
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
    assert_eq!(codes(&run("salmon", serve)), ["raw-into-cooked error"]);
    let keep = "phase keep is cold hold\n  joint in fridge\n  for 4 h\n";
    assert_eq!(codes(&run("salmon", &format!("{keep}{serve}"))), ["raw-into-cooked error"]);
    let hold = "phase wait is hot hold\n  joint in oven\n  air 70 °C\n  for 2 h\n";
    assert_eq!(codes(&run("salmon", &format!("{hold}{serve}"))), ["hold-entered-cold error"]);
    // Cured or fermented in place of cooked: other hurdles, not judged yet, and no nonsense.
    let cure = "phase cure is cure\n  joint in fridge\n  for 2 days\n";
    assert_eq!(codes(&run("salmon", &format!("{cure}{serve}"))), NONE);
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
    // It stayed beside its parent in the oven: the heat it had is not declared, and not denied.
    assert_eq!(codes(&run("chicken thigh", &taken_out)), NONE);
    let apart = format!(
        "phase start is thaw\n  joint in fridge\n  for 8 h\n  collect 100 ml of juices\n\
         phase keep is cold hold\n  juices in fridge\n  for 1 h\n{finish}\
         phase dress is prep\n  joint on bench\n  use all juices\n  takes 5 min to 10 min\nserve joint\n  at 19:00\n"
    );
    assert_eq!(codes(&run("chicken thigh", &apart)), ["raw-into-cooked error"]);
    let then_cooked = format!(
        "phase start is thaw\n  joint in fridge\n  for 8 h\n  collect 100 ml of juices\n\
         phase keep is cold hold\n  juices in fridge\n  for 1 h\n{finish}\
         phase glaze is cook\n  joint in oven\n  air 200 °C\n  use all juices\n  until core 84 °C, takes 5 min to 10 min\nserve joint\n  at 19:00\n"
    );
    assert_eq!(codes(&run("chicken thigh", &then_cooked)), NONE);
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
fn time_out_of_the_heat_and_the_cold() {
    let waits = |first: &str, second: &str| {
        run(
            "pork loin",
            &format!(
                "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 71 °C, takes 1 h to 2 h\n\
                 phase stand is rest\n  joint on bench\n  {first}\nphase carve is prep\n  joint on bench\n  {second}\nserve joint\n  at 19:00\n"
            ),
        )
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
    let boxed = waits("for 3 h", fifteen).replace(
        "phase stand is rest\n  joint on bench\n  for 3 h",
        "phase stand is rest\n  joint in box\n  for 6 h",
    );
    assert_eq!(codes(&boxed), NONE, "how hot a box keeps it is not declared");
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
    let unsure = text("for 3 min");
    assert_eq!(codes(&unsure), NONE);
    assert_eq!(verdict(&unsure, "us-fc.tphc.4h", "last-wait"), [Verdict::NotJudged]);
}

#[test]
fn cooling_in_the_room_without_an_end_is_time_without_control() {
    let text = |cool: &str| {
        run(
            "pork loin",
            &format!(
                "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 71 °C, takes 1 h to 2 h\n\
                 phase down is cool\n  joint on bench\n  {cool}\nserve joint\n  at 19:00\n"
            ),
        )
    };
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
fn dough_yoghurt_and_ham_raise_no_nonsense() {
    let bread = "cook \"Bread\"\n  serves 8\n  rules us-food-code\nkit oven is oven\nkit bench is bench\nkit probe is probe thermometer\n\
        ingredient flour is 1 kg strong white flour\ningredient milk is 300 ml milk\ningredient eggs is 2 eggs\ningredient yeast is 10 g dried yeast\n\
        phase mix is prep\n  on bench\n  becomes dough is enriched dough, depth 8 cm\n  use all flour, use all milk, use all eggs, use all yeast\n  takes 15 min to 20 min\n\
        phase prove is ferment\n  dough on bench\n  for 8 h to 12 h\n\
        phase bake is cook\n  dough in oven\n  becomes loaf is white bread\n  air 200 °C\n  until core 94 °C, takes 35 min to 45 min\n\
        phase stand is rest\n  loaf on bench\n  for 2 h to 12 h\nserve loaf\n  at 10:00\n";
    assert_eq!(codes(bread), NONE);
    let yoghurt = "cook \"Yoghurt\"\n  serves 8\n  rules us-food-code\nkit hob is hob\nkit bath is water bath\nkit fridge is fridge\n  air 3 °C\nkit probe is probe thermometer\n\
        food milk is milk\n  2 kg\n  starts at 4 °C\ningredient starter is 60 g live yoghurt\n\
        phase scald is cook\n  milk on hob\n  until core 85 °C, takes 20 min to 30 min\n\
        phase down is cool\n  milk on hob\n  until core 43 °C, takes 30 min to 1 h\n\
        phase set is ferment\n  milk in bath\n  becomes yoghurt is yoghurt, depth 10 cm\n  use all starter\n  water 42 °C\n  until pH 4.6, takes 5 h to 8 h\n\
        phase keep is cold hold\n  yoghurt in fridge\n  for 1 day to 3 days\nserve yoghurt\n  at 10:00\n";
    assert_eq!(codes(yoghurt), NONE);
    let ham = run(
        "gammon",
        "phase soak is cure\n  joint in fridge\n  for 1 day\n\
         phase simmer is cook\n  joint on hob\n  liquid 80 °C\n  until core 70 °C, takes 2 h to 3 h\nserve joint\n  at 19:00\n",
    );
    assert_eq!(codes(&ham), NONE);
}

#[test]
fn cooling_limits_that_are_declared() {
    let text = |rules: &str, cool: &str| {
        run(
            "pork loin",
            &format!(
                "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 71 °C, takes 1 h to 2 h\n\
                 phase ice is cool\n  joint in ice\n  {cool}\nphase keep is cold hold\n  joint in fridge\n  for 1 day\nserve joint\n  at 19:00\n"
            ),
        )
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
fn reheating_before_a_hot_hold() {
    let text = |food: &str, cook: &str, reheat: &str, then: &str| {
        run(
            food,
            &format!(
                "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core {cook}, takes 1 h to 2 h\n\
                 phase ice is cool\n  joint in ice\n  until core 4 °C, takes 2 h to 4 h\n\
                 phase keep is cold hold\n  joint in fridge\n  for 1 day\n\
                 {reheat}{then}serve joint\n  at 19:00\n"
            ),
        )
    };
    let hold = "phase wait is hot hold\n  joint in oven\n  air 70 °C\n  for 1 h\n";
    let reheat = |end: &str, takes: &str| {
        format!("phase warm is reheat\n  joint in oven\n  air 150 °C\n  until core {end}, takes {takes}\n")
    };
    // FDA Food Code 2022, 3-403.11(A): 165 °F (74 °C) for 15 s within 2 h.
    assert_eq!(codes(&text("pork loin", "71 °C", &reheat("74 °C", "1 h to 2 h"), hold)), NONE);
    assert_eq!(
        codes(&text("pork loin", "71 °C", &reheat("73.8 °C", "1 h to 2 h"), hold)),
        ["reheat-too-cool error"]
    );
    assert_eq!(
        codes(&text("pork loin", "71 °C", &reheat("74 °C", "2 h 1 min to 3 h"), hold)),
        ["reheat-too-slow error"]
    );
    // Served at once it may have any temperature (3-403.10).
    assert_eq!(codes(&text("pork loin", "71 °C", &reheat("50 °C", "1 h to 2 h"), "")), NONE);
    // 3-403.11(E): a whole roast cooked by the chart is reheated by the chart, however long it takes.
    assert_eq!(codes(&text("beef topside", "57 °C", &reheat("57 °C", "3 h to 4 h"), hold)), NONE);
    assert_eq!(
        codes(&text("beef topside", "57 °C", &reheat("54 °C", "3 h to 4 h"), hold)),
        ["reheat-too-cool error"]
    );
    // Of two rules that apply, the one without a clock is enough.
    assert_eq!(codes(&text("beef topside", "57 °C", &reheat("74 °C", "3 h to 4 h"), hold)), NONE);
    // Straight from the fridge into the hold.
    assert_eq!(codes(&text("pork loin", "71 °C", "", hold)), ["hold-entered-cold error"]);
}

#[test]
fn food_that_comes_to_a_hold_cooler_than_the_hold_may_be() {
    let text = |rules: &str, core: &str, rest: &str| {
        run(
            "lamb leg",
            &format!(
                "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core {core}, takes 1 h to 2 h\n{rest}\
                 phase wait is hot hold\n  joint in oven\n  air 70 °C\n  for 1 h\nserve joint\n  at 19:00\n"
            ),
        )
        .replace("rules us-food-code", &format!("rules {rules}"))
    };
    // UK: rare lamb is allowed, and hot holding starts at 63 °C.
    assert_eq!(codes(&text("uk", "62.9 °C", "")), ["hold-entered-cold error"]);
    assert_eq!(codes(&text("uk", "63 °C", "")), NONE);
    // A rest may raise it: that needs the prediction.
    let rest = "phase rest is rest\n  joint on bench\n  for 20 min\n";
    assert_eq!(codes(&text("uk", "60 °C", rest)), NONE);
    // US: cooked by the chart for roasts, it may be held from 54 °C (130 °F).
    assert_eq!(codes(&text("us-food-code", "55 °C", "")), NONE);
    // One fault, one finding.
    let bird = text("us-food-code", "50 °C", "").replace("lamb leg", "chicken thigh");
    assert_eq!(codes(&bird), ["cook-end-too-cool error"]);
}

#[test]
fn plants_for_a_hot_hold_are_heated_through() {
    let text = |core: &str| {
        run(
            "potato",
            &format!(
                "phase boil is cook\n  joint on hob\n  liquid 100 °C\n  until core {core}, takes 20 min to 30 min\n\
                 phase wait is hot hold\n  joint in oven\n  air 70 °C\n  for 1 h\nserve joint\n  at 19:00\n"
            ),
        )
    };
    // FDA Food Code 2022, 3-401.13: 135 °F (57 °C).
    assert_eq!(codes(&text("57 °C")), NONE);
    assert_eq!(codes(&text("56.9 °C")), ["cook-end-too-cool error"]);
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
fn what_a_set_has_no_row_for_is_not_judged() {
    let text = run("salmon", "phase bake is cook\n  joint in oven\n  air 140 °C\n  until core 45 °C, takes 20 min to 30 min\nserve joint\n  at 19:00\n")
        .replace("rules us-food-code", "rules uk");
    assert_eq!(codes(&text), NONE);
    assert_eq!(verdict(&text, "uk.cook", "bake"), [Verdict::NotJudged]);
}

#[test]
fn cold_smoke_after_a_cure_is_no_cook() {
    let text = |end: &str| {
        format!(
            "cook \"Smoked\"\n  serves 6\n  rules us-food-code\nkit fridge is fridge\n  air 3 °C\n\
             kit cabinet is smoking cabinet\n  air 20 °C to 120 °C\n  vented\nkit probe is probe thermometer\n\
             food side is salmon\n  1 kg\n  thickness 3 cm\ningredient beech is 200 g beech chips\n\
             phase salt is cure\n  side in fridge\n  for 1 day\n\
             phase smoke is cook\n  side in cabinet\n  smoke from beech\n  {end}\nserve side\n  at Saturday 19:00\n"
        )
    };
    assert_eq!(codes(&text("air 25 °C, for 8 h")), NONE);
    // Where the smoke is to cook, its end is judged.
    assert_eq!(codes(&text("air 80 °C, until core 50 °C, takes 1 h to 2 h")), ["cook-end-too-cool error"]);
}

#[test]
fn days_in_the_cold() {
    let text = |days: &str| {
        run(
            "pork loin",
            &format!(
                "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 71 °C, takes 1 h to 2 h\n\
                 phase ice is cool\n  joint in ice\n  until core 4 °C, takes 2 h to 4 h\n\
                 phase keep is cold hold\n  joint in fridge\n  for {days}\nserve joint\n  at 19:00\n"
            ),
        )
    };
    // FDA Food Code 2022, 3-501.17: 7 days, the day of making counted as the first.
    assert_eq!(codes(&text("2 days to 7 days")), NONE);
    assert_eq!(codes(&text("2 days to 8 days")), ["kept-too-long error"]);
    assert_eq!(verdict(&text("6 days"), "us-fc.date.7d", "keep"), [Verdict::Met]);
    assert_eq!(verdict(&text("7 days"), "us-fc.date.7d", "keep"), [Verdict::NotJudged]);
}

#[test]
fn thawing_in_the_warm() {
    let text = |place: &str| {
        run(
            "chicken thigh\n  frozen",
            &format!(
                "phase thaw\n  joint {place}\n  for 8 h\nphase roast is cook\n  joint in oven\n  air 140 °C\n\
                 until core 80 °C, takes 1 h to 2 h\nserve joint\n  at 19:00\n"
            ),
        )
    };
    // FDA Food Code 2022, 3-501.13: 41 °F (5 °C), or running water of 70 °F (21 °C).
    assert_eq!(codes(&text("in fridge")), NONE);
    assert_eq!(codes(&text("on bench")), ["thaw-too-warm error"]);
    assert_eq!(codes(&text("in bath, water 21 °C")), NONE);
    assert_eq!(codes(&text("in bath, water 22 °C")), ["thaw-too-warm error"]);
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

#[test]
fn every_finding_cites_its_rule_and_every_rule_is_in_the_set() {
    let text =
        held("us-food-code", "pork loin", "air 140 °C, until core 50 °C, takes 2 h to 3 h", "air 48 °C");
    let (_, verdicts) = judged(&text);
    assert_eq!(verdicts.findings.len(), 2);
    for finding in &verdicts.findings {
        let rule = finding.rule.as_ref().expect("a rule");
        assert_eq!(rule.set, "us-food-code");
        assert!(rule.source.starts_with("FDA Food Code 2022, 3-"), "{}", rule.source);
        assert!(finding.message.render(Scale::Celsius).contains(&rule.source));
        assert!(finding.phase.is_some() && finding.food.is_some());
    }
    for judged in &verdicts.judged {
        assert!(
            dwell::tables::RuleSets::built_in().assumed().rule(&judged.rule).is_some(),
            "{}",
            judged.rule
        );
    }
}
