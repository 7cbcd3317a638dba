//! Hot holds, cold holds, reheating before a hold, thawing and days in the cold: both sides of each limit.

mod common;

use common::judge::{NONE, codes, held, judged, points_at, run, verdict};
use dwell::quantity::Scale;
use dwell::safety::Verdict;

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
fn a_setting_that_only_goes_on_is_pointed_at_from_the_phase() {
    let text =
        held("us-food-code", "beef topside", "air 50 °C, until core 49 °C, takes 6 h to 9 h", "covered");
    let (sources, verdicts) = judged(&text);
    let hold = verdicts.findings.iter().find(|f| f.code.name() == "hold-too-cool").expect("a finding");
    assert_eq!(sources.slice(hold.span), "wait");
    assert_eq!(sources.slice(hold.also[0].0), "air 50 °C");
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

#[test]
fn a_serving_that_keeps_food_hot_takes_none_in_cold() {
    let text = |core: &str, at: &str| {
        run(
            "meat stew",
            &format!(
                "phase warm is reheat\n  joint on hob\n  liquid 95 °C\n  until core {core}, takes 20 min to 40 min\n\
                 serve joint\n  in oven, air 80 °C\n  {at}\n"
            ),
        )
    };
    let stands = "from 12:00 to 15:00";
    // FDA Food Code 2022, 3-403.11(A): 165 °F (74 °C) before it is held hot; (D): any temperature at once.
    assert_eq!(codes(&text("50 °C", stands)), ["reheat-too-cool error"]);
    assert_eq!(codes(&text("74 °C", stands)), NONE);
    assert_eq!(codes(&text("50 °C", "at 12:00")), NONE);
    let straight = run("cooked ham", &format!("serve joint\n  in oven, air 80 °C\n  {stands}\n"));
    assert_eq!(codes(&straight), ["hold-entered-cold error"]);
}
