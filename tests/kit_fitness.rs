//! What kit is made for: heat, cold, smoke, bags in water, and a thermometer for the core.

mod common;

use common::kit::{faults, one};
use dwell::findings::{Code, Severity};
use dwell::quantity::Scale;

fn fault(code: &str, place: &str) -> Vec<(String, String)> {
    vec![(code.into(), place.into())]
}

/// A cook of one phase with lamb.
fn lamb(kit: &str, phase: &str) -> String {
    food("lamb leg", kit, phase)
}

fn food(kind: &str, kit: &str, phase: &str) -> String {
    format!(
        "cook \"One phase\"\n{kit}\nfood lamb is {kind}\n  2 kg\n  thickness 4 cm\n\
         ingredient beech is 100 g beech chips\n\
         phase one {phase}\nserve lamb\n  at 19:00\n"
    )
}

const PROBE: &str = "kit probe is probe thermometer";

#[test]
fn a_core_temperature_needs_a_thermometer() {
    let oven = "kit oven is oven";
    for asks in [
        "until core 70 °C, takes 1 h to 2 h",
        "until surface 70 °C, takes 1 h to 2 h",
        "for 1 h\n  expect core 60 °C to 70 °C",
        "for 1 h\n  at core 60 °C do \"Turn.\"",
    ] {
        let phase = format!("is cook\n  lamb in oven\n  air 160 °C\n  {asks}");
        let found = one(&lamb(oven, &phase), Code::ProbeMissing);
        assert!(found.remedy.render(Scale::Celsius).contains("`kit probe is probe thermometer`"));
        assert_eq!(faults(&lamb(&format!("{oven}\n{PROBE}"), &phase)), [], "{asks}");
    }
    let clock = "is cook\n  lamb in oven\n  air 160 °C\n  for 1 h\n  expect weight 80 % to 90 %";
    assert_eq!(faults(&lamb(oven, clock)), [], "a clock and a scale need no probe");
    let served = lamb(oven, clock).replace("at 19:00", "at 19:00\n  core 60 °C or above");
    assert_eq!(faults(&served), fault("probe-missing", "core 60 °C or above"));
}

#[test]
fn a_missing_thermometer_is_one_fault_however_often_it_is_wanted() {
    let phase = "is cook\n  lamb in oven\n  air 160 °C\n  until core 70 °C, takes 1 h to 2 h\n  at core 50 °C do \"Turn.\"";
    let text = lamb("kit oven is oven", phase).replace("at 19:00", "at 19:00\n  core 60 °C or above");
    assert_eq!(one(&text, Code::ProbeMissing).also.len(), 2);
}

/// US Consumer Product Safety Commission, document 5012: burning fuel indoors gives off carbon
/// monoxide, and an open window or a fan does not make it safe.
#[test]
fn smoke_has_to_be_led_outside() {
    let phase = "is cook\n  lamb in cabinet\n  air 110 °C\n  smoke from beech\n  for 5 h";
    let found = one(&lamb("kit cabinet is smoking cabinet", phase), Code::SmokeUnvented);
    assert_eq!(found.severity, Severity::Error);
    assert!(found.message.render(Scale::Celsius).contains("carbon monoxide"));
    assert!(found.remedy.render(Scale::Celsius).contains("`vented`"));
    assert_eq!(faults(&lamb("kit cabinet is smoking cabinet\n  vented", phase)), []);
    let no_smoke = phase.replace("  smoke from beech\n", "  use all beech\n");
    assert_eq!(faults(&lamb("kit cabinet is smoking cabinet", &no_smoke)), []);
}

#[test]
fn smoke_is_made_where_it_can_be_made() {
    let phase = "is cook\n  lamb in cabinet\n  air 110 °C\n  smoke from beech\n  for 5 h";
    let text = lamb("kit cabinet is fan oven\n  vented", phase);
    assert_eq!(faults(&text), fault("smoke-not-had", "smoke from beech"));
    let hob = phase.replace("air 110 °C", "plate 150 °C");
    assert_eq!(faults(&lamb("kit cabinet is hob\n  vented", &hob)), []);
    assert_eq!(faults(&lamb("kit cabinet is hob", &hob)), fault("smoke-unvented", "smoke from beech"));
}

/// USDA FSIS, Cooking for Groups: do not reheat in a slow cooker, steam table or holding cabinet.
/// USDA FSIS, Smoking Meat and Poultry: thaw fully before a slow cooker or smoker.
#[test]
fn slow_kit_neither_reheats_nor_takes_frozen_food() {
    for (class, setting) in [("slow cooker", "liquid 95 °C"), ("holding cabinet", "air 95 °C")] {
        let text = lamb(
            &format!("kit place is {class}"),
            &format!("is reheat\n  lamb in place\n  {setting}\n  for 2 h"),
        );
        assert_eq!(one(&text, Code::KitUnfit).severity, Severity::Error, "{class}");
        let hold = text.replace("is reheat", "is hot hold");
        assert_eq!(faults(&hold), [], "{class}");
    }
    for (class, setting) in [("slow cooker", "liquid 95 °C"), ("smoking cabinet", "air 110 °C")] {
        let text = lamb(
            &format!("kit place is {class}"),
            &format!("is cook\n  lamb in place\n  {setting}\n  for 6 h"),
        );
        assert_eq!(faults(&text), [], "{class}");
        let frozen = text.replace("  2 kg", "  2 kg\n  frozen");
        assert_eq!(one(&frozen, Code::KitUnfit).food.as_deref(), Some("lamb"), "{class}");
        let thawed = frozen
            .replace("phase one", "phase thaw\n  lamb in fridge\n  for 24 h\nphase one")
            .replace("food lamb", "kit fridge is fridge\n  air 4 °C\nfood lamb");
        assert_eq!(faults(&thawed), [], "{class}");
        let kept = frozen
            .replace("phase one", "phase keep is cold hold\n  lamb in freezer\n  for 24 h\nphase one")
            .replace("food lamb", "kit freezer is freezer\n  air -18 °C\nfood lamb");
        assert_eq!(one(&kept, Code::KitUnfit).code, Code::KitUnfit, "{class}");
    }
    let roots =
        food("carrot", "kit place is slow cooker", "is cook\n  lamb in place\n  liquid 95 °C\n  for 6 h");
    assert_eq!(faults(&roots.replace("  2 kg", "  2 kg\n  frozen")), []);
    let oven = lamb("kit place is oven", "is cook\n  lamb in place\n  air 160 °C\n  for 6 h");
    assert_eq!(faults(&oven.replace("  2 kg", "  2 kg\n  frozen")), []);
}

/// USDA FSIS on deep fat frying: thaw fully first (from memory).
#[test]
fn nothing_frozen_goes_into_hot_oil() {
    for class in ["fryer", "hob"] {
        let kit = format!("kit place is {class}\n{PROBE}");
        let phase = "is cook\n  lamb in place\n  oil 175 °C\n  until core 75 °C, takes 40 min to 1 h";
        let thawed = food("whole turkey", &kit, phase);
        assert_eq!(faults(&thawed), [], "{class}");
        let frozen = thawed.replace("  2 kg", "  2 kg\n  frozen");
        let found = one(&frozen, Code::KitUnfit);
        assert_eq!(found.severity, Severity::Error, "{class}");
        assert!(found.remedy.render(Scale::Celsius).contains("catches fire"), "{class}");
    }
}

#[test]
fn food_does_not_cool_in_heat() {
    let cooling = |kit: &str, at: &str| lamb(kit, &format!("is cool\n  lamb in place\n{at}  for 3 h"));
    let hot = cooling("kit place is hob", "  liquid 98 °C\n");
    assert_eq!(faults(&hot), fault("kit-unfit", "liquid 98 °C"));
    assert_eq!(faults(&cooling("kit place is hob", "")), []);
    assert_eq!(faults(&cooling("kit place is blast chiller", "  air -5 °C\n")), []);
}

#[test]
fn cold_kit_does_not_heat_and_hot_kit_does_not_chill() {
    for (kit, phase, place) in [
        ("fridge\n  air 3 °C", "is cook\n  lamb in place\n  for 1 h", "cook"),
        ("freezer\n  air -18 °C", "is hot hold\n  lamb in place\n  for 1 h", "hot hold"),
        ("oven", "is cold hold\n  lamb in place\n  for 1 h", "cold hold"),
        ("smoking cabinet", "is freeze\n  lamb in place\n  air 20 °C\n  for 1 h", "freeze"),
        ("fridge\n  air 3 °C", "is freeze\n  lamb in place\n  for 1 h", "freeze"),
        ("bench", "is freeze\n  lamb on place\n  for 1 h", "freeze"),
        ("insulated box", "is cook\n  lamb in place\n  for 1 h", "cook"),
    ] {
        let found = one(&lamb(&format!("kit place is {kit}"), phase), Code::KitUnfit);
        assert!(found.message.render(Scale::Celsius).contains(place), "{kit}: {:?}", found.message);
    }
    for (kit, phase) in [
        ("fridge\n  air 3 °C", "is cold hold\n  lamb in place\n  for 1 h"),
        ("freezer\n  air -18 °C", "is freeze\n  lamb in place\n  for 1 h"),
        ("blast chiller\n  air -20 °C", "is freeze\n  lamb in place\n  for 1 h"),
        ("blast chiller\n  air -20 °C", "is cool\n  lamb in place\n  for 1 h"),
        ("insulated box", "is hot hold\n  lamb in place\n  for 1 h"),
        ("bench", "is rest\n  lamb on place\n  for 1 h"),
    ] {
        assert_eq!(faults(&lamb(&format!("kit place is {kit}"), phase)), [], "{kit} {phase}");
    }
}

#[test]
fn food_in_water_has_something_around_it() {
    let bath = |cover: &str| format!("is cook\n  lamb in bath\n  water 60 °C\n  {cover}\n  for 20 h");
    let kit = "kit bath is water bath";
    for cover in ["vacuum bagged", "bagged", "sealed in foil"] {
        assert_eq!(faults(&lamb(kit, &bath(cover))), [], "{cover}");
    }
    for cover in ["", "uncovered", "covered", "wrapped in foil"] {
        assert_eq!(faults(&lamb(kit, &bath(cover))), fault("bag-missing", "lamb"), "{cover}");
    }
    let jars = lamb(kit, &bath("")).replace("  2 kg", "  6 jars of 300 g");
    assert_eq!(faults(&jars), []);
    // A bag lasts until another cover is named; a new count starts uncovered.
    let before = |prep: &str| {
        let prep = format!("phase prep\n  lamb on bench\n  {prep}\n  for 10 min\nphase one");
        lamb("kit bath is water bath\nkit bench is bench", &bath("")).replace("phase one", &prep)
    };
    assert_eq!(faults(&before("vacuum bagged")), []);
    assert_eq!(faults(&before("8 pieces of 250 g, thickness 3 cm")), fault("bag-missing", "lamb"));
}

/// Common practice, no source: eggs are cooked in their shell; roots and leaves are chilled bare.
#[test]
fn some_food_goes_into_water_as_it_is() {
    let bath = "is cook\n  lamb in bath\n  water 64 °C\n  for 1 h";
    assert_eq!(faults(&food("egg", "kit bath is water bath", bath)), []);
    assert_eq!(faults(&food("potato", "kit bath is water bath", bath)), fault("bag-missing", "lamb"));
    let ice = "is cool\n  lamb in ice\n  for 20 min";
    assert_eq!(faults(&food("boiled potato", "kit ice is ice bath", ice)), []);
    assert_eq!(faults(&food("chicken breast", "kit ice is ice bath", ice)), fault("bag-missing", "lamb"));
}

#[test]
fn a_bag_does_not_go_on_great_heat() {
    for (kit, setting, cover, bad) in [
        ("griddle", "plate 250 °C", "vacuum bagged", true),
        ("griddle", "plate 250 °C", "bagged", true),
        ("fryer", "oil 180 °C", "vacuum bagged", true),
        ("oven", "air 160 °C", "vacuum bagged", true),
        // There are bags for roasting. Common practice, no source.
        ("oven", "air 160 °C", "bagged", false),
        ("oven", "air 80 °C", "vacuum bagged", false),
        ("steam oven", "steam 85 °C", "vacuum bagged", false),
        ("griddle", "plate 250 °C", "uncovered", false),
    ] {
        let phase = format!("is cook\n  lamb in place\n  {setting}\n  {cover}\n  for 1 h");
        let found = faults(&lamb(&format!("kit place is {kit}"), &phase));
        let expected = if bad { fault("bag-too-hot", setting) } else { vec![] };
        assert_eq!(found, expected, "{kit} {setting} {cover}");
    }
}

/// The examples are whole cooks that people would write; nothing in their kit is amiss.
#[test]
fn the_examples_have_no_fault_in_their_kit() {
    let kitchen = common::examples().into_iter().find(|(name, _)| name == "clubhouse.dwell").unwrap().1;
    for (name, text) in common::examples() {
        let files = [(name.as_str(), text.as_str()), ("clubhouse.dwell", kitchen.as_str())];
        let (_, document, _) = common::resolve_files(&files);
        let Some(dwell::cook::Document::Cook(cook)) = document else { continue };
        let (ledger, _) = dwell::ledger::balance(&cook);
        assert_eq!(dwell::kit::check(&cook, &ledger), [], "{name}");
    }
}
