//! Stock that nobody recognises is said by name, and nothing that needs its kind is met.

mod common;

use common::judge::{NONE, codes, judged, points_at};
use dwell::safety::Verdict;

fn pot(words: &str) -> String {
    format!(
        "cook \"Pot\"\n  serves 6\n  rules us-food-code\nkit hob is hob\nkit bench is bench\nkit fridge is fridge\n  air 3 °C\n\
         kit probe is probe thermometer\nfood beans is cooked beans\n  2 kg\n  depth 6 cm\n\
         ingredient extra is {words}\n\
         phase mix is prep\n  beans on bench\n  use all extra\n  becomes pot, depth 8 cm\n  for 20 min\n\
         phase simmer is cook\n  pot on hob\n  liquid 95 °C\n  until core 90 °C, takes 40 min to 1 h\n\
         phase keep is cold hold\n  pot in fridge\n  for 1 day\nserve pot\n  at Saturday 18:30\n"
    )
}

/// Without the finding on food put away hot, which is not the matter here.
fn said(words: &str) -> Vec<String> {
    codes(&pot(words)).into_iter().filter(|code| !code.starts_with("cool-too-slow")).collect()
}

#[test]
fn nobody_takes_a_fowl_for_a_turnip_in_silence() {
    let text = pot("2 kg best Sunday fowl");
    assert_eq!(said("2 kg best Sunday fowl"), ["food-unrecognised note"]);
    let (_, verdicts) = judged(&text);
    let met: Vec<_> = verdicts.judged.iter().filter(|j| j.verdict == Verdict::Met).collect();
    assert!(met.is_empty(), "{met:#?}");
    let named = |j: &&dwell::safety::Judged| j.food.as_deref() == Some("extra");
    let cooking = verdicts.judged.iter().find(named).expect("a row for it");
    assert_eq!((cooking.rule.as_str(), cooking.verdict), ("us-fc.cook.145", Verdict::NotJudged));
    // The same pot with something known has verdicts.
    let (_, known) = judged(&pot("2 kg carrots"));
    assert!(known.judged.iter().any(|j| j.verdict == Verdict::Met));
}

#[test]
fn the_note_points_at_the_name() {
    let text =
        pot("2 kg best Sunday fowl").replace("phase keep is cold hold\n  pot in fridge\n  for 1 day\n", "");
    assert_eq!(points_at(&text), "extra");
}

#[test]
fn pantry_and_paper_are_not_nagged_about() {
    for words in [
        "70 g coarse sea salt",
        "200 g chilli spice mix",
        "80 g black treacle",
        "2 m butcher paper",
        "8 vacuum bags",
        "3 onions \"quartered, roots on\"",
        "120 ml cold-pressed rapeseed oil",
        "2 bay leaves",
        "30 g parsley",
        "1 l water",
        "40 g garlic and thyme",
        "20 ml fish sauce",
        "500 g carrots for soup",
        "10 g smoked paprika",
        "200 g pudding rice",
    ] {
        assert_eq!(said(words), NONE, "{words}");
    }
}

#[test]
fn an_animal_does_not_hide_behind_a_plant() {
    for words in [
        "2 kg chicken pepper",
        "1 kg beans and bacon bits",
        "1 kg fowl in oil",
        "300 g pork noodles",
        "500 g scallops in oil",
        "1 kg ox cheek in ale",
        "500 g herring in brine",
        "1 kg hen and rice",
        "500 g tripe and onion",
    ] {
        assert_eq!(said(words), ["food-unrecognised note"], "{words}");
    }
    // What is recognised is judged: tuna in oil is tuna, with a row for its cooking.
    let (_, verdicts) = judged(&pot("1 kg tuna in oil"));
    let rows: Vec<_> = verdicts.judged.iter().filter(|j| j.food.as_deref() == Some("extra")).collect();
    assert!(rows.iter().any(|j| j.rule == "us-fc.cook.145"), "{rows:#?}");
}

/// A set that gives no time out of control still asks for heat and cold: a day on the bench is not let be.
#[test]
fn hours_of_the_unknown_count_under_sets_without_a_time() {
    let text = pot("2 kg best Sunday fowl")
        .replace("phase simmer", "phase stand is rest\n  pot on bench\n  for 20 h\nphase simmer");
    for set in ["us-food-code", "ca-nb", "uk-scotland"] {
        let text = text.replace("rules us-food-code", &format!("rules {set}"));
        let (_, verdicts) = judged(&text);
        let left_out = |finding: &&dwell::findings::Finding| {
            finding.code == dwell::findings::Code::TimeWithoutControl
                && finding.phase.as_deref() == Some("stand")
        };
        assert!(
            verdicts.findings.iter().any(|finding| left_out(&finding)),
            "{set}: {:#?}",
            verdicts.findings
        );
    }
}
