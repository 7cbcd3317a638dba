//! What a set has no figure for is still said: its own rule about heat and cold stands in, or it is listed.

mod common;

use common::judge::{NONE, codes, judged, run, verdict};
use dwell::quantity::Scale;
use dwell::safety::Verdict;

fn by(rules: &str, text: &str) -> String {
    text.replace("us-food-code", rules)
}

fn message(text: &str) -> String {
    judged(text).1.findings[0].message.render(Scale::Celsius)
}

/// Scots law, Irish advice (for cold food) and New Brunswick law print no time for which food may be out; no set prints
/// more than 4 h (FDA Food Code 2022, 3-501.19; FSANZ, 2-hour/4-hour rule).
#[test]
fn food_in_the_room_under_a_set_without_a_time() {
    let stands = |rules: &str, long: &str| {
        let phases = format!(
            "phase stand is rest\n  joint on bench\n  for {long}\nserve joint\n  at Saturday 19:00\n"
        );
        by(rules, &run("cooked chicken", &phases).replace("starts at 4 °C", "starts at 2 °C"))
    };
    for (rules, rule) in
        [("uk-scotland", "uk.hold.cold.advice"), ("eu-ie", "ie.hold.cold"), ("ca-nb", "ca.hold.cold")]
    {
        assert_eq!(codes(&stands(rules, "5 h")), ["time-without-control warning"], "{rules}");
        let said = message(&stands(rules, "5 h"));
        assert!(said.contains("This set has no figure for that, and no other gives more than 4 h"), "{said}");
        // What is shorter is not called right.
        assert_eq!(codes(&stands(rules, "4 h")), NONE, "{rules}");
        assert_eq!(verdict(&stands(rules, "4 h"), rule, "stand"), [Verdict::NotJudged], "{rules}");
    }
    // Hot food in France: annex IV has a time for cold dishes alone.
    let hot = |long: &str| {
        by(
            "fr",
            &run(
                "pork loin",
                &format!(
                    "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 75 °C, takes 1 h to 2 h\n\
                     phase stand is rest\n  joint on bench\n  for {long}\nserve joint\n  at Saturday 19:00\n"
                ),
            )
            .replace("starts at 4 °C", "starts at 2 °C"),
        )
    };
    assert_eq!(codes(&hot("5 h")), ["time-without-control warning"]);
    assert_eq!(codes(&hot("3 h")), NONE);
}

/// FDA Food Code 2022, 3-501.13 has figures for thawing; the others that are built in have figures for cold food alone.
#[test]
fn a_thaw_under_a_set_without_a_figure_for_it() {
    let thaw = |rules: &str, place: &str| {
        let roast =
            "phase roast is cook\n  joint in oven\n  air 160 °C\n  until core 85 °C, takes 2 h to 3 h\n";
        let phases = format!(
            "phase thaw is thaw\n  joint {place}\n  for 12 h\n{roast}serve joint\n  at Saturday 19:00\n"
        );
        by(rules, &run("turkey crown\n  frozen", &phases))
            .replace("kit bench is bench\n", "kit bench is bench\n  air 21 °C\n")
    };
    for rules in ["uk", "uk-scotland", "eu-ie", "fr", "au-nz", "ca", "ca-nb", "who"] {
        assert_eq!(codes(&thaw(rules, "on bench")), ["thaw-too-warm warning"], "{rules}");
        assert!(message(&thaw(rules, "on bench")).contains("no figure for thawing"), "{rules}");
        assert_eq!(codes(&thaw(rules, "in fridge")), NONE, "{rules}");
    }
    assert_eq!(codes(&thaw("us-food-code", "on bench")), ["thaw-too-warm error"]);
}
