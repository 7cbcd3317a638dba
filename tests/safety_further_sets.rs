//! A further rule set is a further file: figures of other places, judged without a line of code.

mod common;

use dwell::safety::{judge, listing};
use dwell::tables::RuleSet;

/// Some figures of Australia's Food Standards Code (Standard 3.2.2, clauses 5 to 8), of Scotland's Food
/// Hygiene Regulations 2006 (schedule 4) and of Reg. (EC) 853/2004, annex III, thrown together.
const ELSEWHERE: &str = r#"
id = "elsewhere"
title = "Figures from elsewhere"
edition = "2006"
place = "A test"
source = "Elsewhere"

[[rule]]
id = "hot"
kind = "hot-hold"
clause = "1"
asks = "Hot food is kept above this."
status = "verified"
strict = true
min = { c = 63.0 }

[[rule]]
id = "cold"
kind = "cold-hold"
clause = "2"
asks = "Cold food is kept at this or below."
status = "verified"
max = { c = 5.0 }

[[rule]]
id = "cold.mince"
kind = "cold-hold"
clause = "3"
asks = "Minced meat is kept at this or below."
status = "verified"
foods = [{ species = ["beef", "pork", "lamb"], structures = ["ground"] }]
max = { c = 2.0 }

[[rule]]
id = "cool.1"
kind = "cool"
clause = "4"
asks = "First stage."
status = "verified"
from = { c = 60.0 }
to = { c = 21.0 }
max_s = 7200

[[rule]]
id = "cool.2"
kind = "cool"
clause = "4"
asks = "Second stage."
status = "verified"
from = { c = 21.0 }
to = { c = 5.0 }
max_s = 14400
further = true

[[rule]]
id = "reheat"
kind = "reheat"
clause = "5"
asks = "Reheated to this."
status = "verified"
points = [{ c = 82.0, hold_s = 0 }]
"#;

fn codes(text: &str) -> Vec<&'static str> {
    let set: RuleSet = toml::from_str(ELSEWHERE).expect("a rule set");
    let text = format!(
        "cook \"Elsewhere\"\n  serves 6\n  rules uk\nkit oven is oven\nkit ice is ice bath\n\
         kit fridge is fridge\n  air 0 °C to 8 °C\nkit probe is probe thermometer\n{text}serve joint\n  at 19:00\n"
    );
    let (_, cook, findings) = common::cook(&text);
    assert!(findings.is_empty(), "{findings:#?}");
    judge(&cook.expect("a cook"), &set, &Default::default()).findings.iter().map(|f| f.code.name()).collect()
}

const NONE: [&str; 0] = [];
const ROAST: &str = "food joint is pork loin\n  2 kg\n  thickness 9 cm\nphase roast is cook\n  joint in oven\n  air 140 °C\n  until core 75 °C, takes 1 h to 2 h\n";

#[test]
fn a_strict_limit_is_missed_by_the_limit_itself() {
    let at = |air: &str| {
        codes(&format!("{ROAST}phase wait is hot hold\n  joint in oven\n  air {air}\n  for 1 h\n"))
    };
    assert_eq!(at("63 °C"), ["hold-too-cool"]);
    assert_eq!(at("63.1 °C"), NONE);
}

#[test]
fn a_rule_about_one_food_stands_in_place_of_the_general_one() {
    let at = |food: &str, air: &str| {
        codes(&format!(
            "food joint is {food}\n  1 kg\n  thickness 4 cm\nphase keep is cold hold\n  joint in fridge\n  air {air}\n  for 1 day\n\
             phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 75 °C, takes 1 h to 2 h\n"
        ))
    };
    assert_eq!(at("beef mince", "2 °C"), NONE);
    assert_eq!(at("beef mince", "3 °C"), ["hold-too-warm"]);
    assert_eq!(at("pork loin", "5 °C"), NONE);
    assert_eq!(at("pork loin", "6 °C"), ["hold-too-warm"]);
}

#[test]
fn a_further_four_hours_come_on_top_of_the_first_two() {
    let at = |within: &str| {
        codes(&format!(
            "{ROAST}phase down is cool\n  joint in ice\n  until core 5 °C, takes 1 h to 2 h, within {within}\n"
        ))
    };
    assert_eq!(at("6 h"), NONE);
    assert_eq!(at("6 h 1 min"), ["cool-too-slow"]);
    let set: RuleSet = toml::from_str(ELSEWHERE).expect("a rule set");
    let figures: Vec<String> = listing(&set).into_iter().map(|row| row.figures).collect();
    assert!(figures.contains(&"21 °C to 5 °C within a further 4 h".to_string()), "{figures:?}");
}

#[test]
fn a_reheat_without_a_clock_or_a_hold_time() {
    let at = |core: &str| {
        codes(&format!(
            "{ROAST}phase down is cool\n  joint in ice\n  until core 5 °C, takes 1 h to 2 h\n\
             phase warm is reheat\n  joint in oven\n  air 150 °C\n  until core {core}, takes 3 h to 4 h\n\
             phase wait is hot hold\n  joint in oven\n  air 70 °C\n  for 1 h\n"
        ))
    };
    assert_eq!(at("82 °C"), NONE);
    assert_eq!(at("81.9 °C"), ["reheat-too-cool"]);
}
