//! Settings: of a kind the kit has, within its range, and there where the purpose needs one.

mod common;

use common::kit::{faults, findings, one};
use dwell::findings::{Code, Severity};
use dwell::quantity::Scale;

/// A roast in an oven whose block and setting are given.
fn roast(kit: &str, setting: &str) -> String {
    format!(
        "cook \"Leg of lamb\"\n\
         kit probe is probe thermometer\n{kit}\n\
         food lamb is lamb leg\n  2 kg\n  thickness 9 cm\n\
         phase roast is cook\n  lamb in place\n  {setting}\n  for 2 h\n\
         serve lamb\n  at 19:00\n"
    )
}

#[test]
fn a_setting_lies_within_the_range() {
    for (kit, setting, code) in [
        ("kit place is oven\n  air 50 °C to 250 °C", "air 250 °C", None),
        ("kit place is oven\n  air 50 °C to 250 °C", "air 482 °F", None),
        ("kit place is oven\n  air 50 °C to 250 °C", "air 251 °C", Some("setting-out-of-range")),
        ("kit place is oven\n  air 50 °C to 250 °C", "air 40 °C", Some("setting-out-of-range")),
        // The block of the kit goes before its class.
        ("kit place is oven\n  air 50 °C to 300 °C", "air 280 °C", None),
        ("kit place is oven", "air 280 °C", Some("setting-out-of-range")),
        ("kit place is water bath", "water 96 °C", Some("setting-out-of-range")),
        ("kit place is steam oven", "steam 100 °C", None),
        ("kit place is hob", "liquid 95 °C", None),
        ("kit place is hob", "oil 180 °C", None),
        ("kit place is hob", "plate 250 °C", None),
    ] {
        let found = faults(&roast(kit, setting));
        let found: Vec<_> = found.iter().filter(|(code, _)| code.starts_with("setting")).collect();
        match code {
            None => assert!(found.is_empty(), "{kit} {setting}: {found:?}"),
            Some(code) => assert_eq!(found, [&(code.to_string(), setting.to_string())], "{kit}"),
        }
    }
}

#[test]
fn the_message_offers_the_range_and_a_line_to_type() {
    let found = one(&roast("kit place is oven", "air 280 °C"), Code::SettingOutOfRange);
    assert_eq!(
        found.message.render(Scale::Celsius),
        "`place` goes no higher than 250 °C, so it cannot be set to 280 °C."
    );
    assert!(found.remedy.render(Scale::Celsius).contains("`air 30 °C to 280 °C`"));
    assert!(found.remedy.render(Scale::Fahrenheit).contains("`air 86 °F to 536 °F`"));
    assert_eq!(found.phase.as_deref(), Some("roast"));
}

#[test]
fn a_fixed_figure_is_the_setting() {
    let kit = "kit place is blast chiller\n  air -5 °C";
    let cool = |setting: &str| roast(kit, setting).replace("is cook", "is cool");
    assert_eq!(faults(&cool("")), []);
    assert_eq!(faults(&cool("air -5 °C")), []);
    // 23 °F is -5 °C; people round to 5 °F.
    assert_eq!(faults(&cool("air 25 °F")), []);
    let found = one(&cool("air 2 °C"), Code::SettingOutOfRange);
    assert_eq!(found.message.render(Scale::Celsius), "`place` stays at -5 °C and cannot be set to 2 °C.");
    assert_eq!(found.also.len(), 1, "the line that fixes it is shown");
}

#[test]
fn a_setting_is_of_a_kind_the_kit_has() {
    for (kit, setting, remedy) in [
        ("kit place is oven", "water 57 °C", "`air`"),
        ("kit place is water bath", "air 57 °C", "`water`"),
        ("kit place is griddle", "air 200 °C", "`plate`"),
        ("kit place is steam oven", "oil 150 °C", "`air` or `steam`"),
        ("kit place is insulated box", "air 70 °C", "takes no setting"),
    ] {
        let bagged = format!("{setting}, vacuum bagged");
        let found = one(&roast(kit, &bagged).replace("is cook", "is rest"), Code::SettingNotHad);
        assert!(found.remedy.render(Scale::Celsius).contains(remedy), "{kit}: {:?}", found.remedy);
    }
}

#[test]
fn a_range_of_a_kind_no_such_kit_has_is_shown_in_the_block_of_the_kit() {
    let text = roast("kit place is oven\n  water 20 °C to 95 °C", "water 57 °C");
    assert_eq!(faults(&text), [("setting-not-had".into(), "water 20 °C to 95 °C".into())]);
}

#[test]
fn kit_that_keeps_a_setting_needs_one_where_food_is_heated() {
    for class in ["oven", "fan oven", "steam oven", "smoking cabinet", "slow cooker", "fryer"] {
        let text = roast(&format!("kit place is {class}"), "");
        assert_eq!(faults(&text), [("setting-missing".into(), "roast".into())], "{class}");
    }
    let hold = roast("kit place is holding cabinet", "").replace("is cook", "is hot hold");
    assert_eq!(one(&hold, Code::SettingMissing).severity, Severity::Error);
    // By eye: common practice, no source.
    for class in ["hob", "griddle"] {
        assert_eq!(faults(&roast(&format!("kit place is {class}"), "")), [], "{class}");
    }
    // Nothing depends on it.
    for purpose in ["rest", "prep"] {
        let text = roast("kit place is oven", "").replace("is cook", &format!("is {purpose}"));
        assert_eq!(faults(&text), [], "{purpose}");
    }
}

#[test]
fn a_setting_that_is_kept_is_not_missed_and_not_reported_twice() {
    let text = |setting: &str| {
        roast("kit place is oven", setting).replace(
            "serve",
            "phase wait is hot hold\n  lamb in place\n  for 1 h\nphase more is cook\n  lamb in place\n  for 1 h\nserve",
        )
    };
    assert_eq!(faults(&text("air 160 °C")), []);
    assert_eq!(faults(&text("air 260 °C")), [("setting-out-of-range".into(), "air 260 °C".into())]);
}

#[test]
fn heat_that_is_left_on_is_asked_about_where_food_rests_or_cools() {
    for purpose in ["rest", "prep", "cool"] {
        let text = |second: &str| {
            roast("kit place is oven", "air 160 °C").replace(
                "serve",
                &format!("phase stand is {purpose}\n  lamb in place\n  {second}\n  for 9 h\nserve"),
            )
        };
        let found = one(&text(""), Code::SettingMissing);
        assert_eq!(found.severity, Severity::Warning, "{purpose}");
        assert!(found.message.render(Scale::Celsius).contains("stays at air 160 °C"), "{purpose}");
        assert_eq!(
            faults(
                &text("")
                    .replace("lamb in place\n  \n", "lamb on table\n")
                    .replace("food lamb", "kit table is bench\nfood lamb",)
            ),
            [],
            "{purpose}"
        );
    }
    let said = roast("kit place is oven", "air 160 °C")
        .replace("serve", "phase stand is rest\n  lamb in place\n  air 60 °C\n  for 1 h\nserve");
    assert_eq!(faults(&said), []);
}

#[test]
fn how_cold_a_fridge_is_is_asked_once() {
    let text = roast("kit place is fridge", "")
        .replace("is cook", "is cold hold")
        .replace("serve", "phase later is cold hold\n  lamb in place\n  for 1 h\nserve");
    let found = one(&text, Code::SettingMissing);
    assert_eq!(found.severity, Severity::Warning);
    assert_eq!(found.also.len(), 1);
    assert!(found.remedy.render(Scale::Celsius).contains("`air 3 °C`"));
    assert_eq!(faults(&text.replace("is fridge", "is fridge\n  air 4 °C")), []);
}

#[test]
fn a_setting_lost_with_a_bad_line_is_not_asked_for() {
    let (resolved, kit) = findings(&roast("kit place is oven", "air 150"));
    assert!(!resolved.is_empty());
    assert_eq!(kit, []);
}

/// The letter is easily slipped: where the figure fits in the other scale, that is asked first.
#[test]
fn a_slip_between_the_scales_is_asked_about() {
    for (kit, setting, meant) in [
        ("oven", "air 350 °C", Some("`air 350 °F`")),
        ("oven", "air 37.4 °F", Some("`air 37.4 °C`")),
        ("fridge", "air 3 °F", Some("`air 3 °C`")),
        ("water bath", "water 14 °F", None),
        ("oven", "air 490 °C", None),
    ] {
        let text = roast(&format!("kit place is {kit}"), setting);
        let (_, found) = findings(&text);
        let found = found.iter().find(|f| f.code == Code::SettingOutOfRange).expect(setting);
        let remedy = found.remedy.render(Scale::Celsius);
        match meant {
            Some(meant) => assert!(remedy.starts_with(&format!("Did you mean {meant}? Else")), "{remedy}"),
            None => assert!(remedy.starts_with("Choose from"), "{remedy}"),
        }
    }
}

#[test]
fn a_kitchen_by_itself_is_looked_at_too() {
    let (_, document, _) =
        common::resolve_files(&[("k.dwell", "kit oven is oven\n  water 20 °C to 95 °C\n")]);
    let Some(dwell::cook::Document::Kitchen(kit)) = document else { panic!("a kitchen") };
    let found: Vec<Code> = dwell::kit::check_kitchen(&kit).iter().map(|f| f.code).collect();
    assert_eq!(found, [Code::SettingNotHad]);
}

#[test]
fn no_water_is_hotter_than_boiling() {
    let text = |range: &str| {
        roast(&format!("kit place is water bath\n  {range}"), "water 90 °C")
            .replace("  2 kg", "  2 kg, vacuum bagged")
    };
    assert_eq!(faults(&text("water 20 °C to 100 °C")), []);
    assert_eq!(faults(&text("water 68 °F to 212 °F")), []);
    let range = "water 20 °C to 120 °C";
    assert_eq!(faults(&text(range)), [("setting-out-of-range".to_string(), range.to_string())]);
}

#[test]
fn hours_of_heat_need_a_figure_on_the_hob_too() {
    let found = |setting: &str, time: &str| {
        let text = roast("kit place is hob", setting).replace("for 2 h", time);
        faults(&text).into_iter().map(|(code, _)| code).collect::<Vec<_>>()
    };
    // FDA Food Code 2022, 3-501.19: nobody lets food be neither hot nor cold for more than 4 h.
    assert_eq!(found("covered", "for 9 h"), ["setting-missing"]);
    assert!(found("covered", "for 4 h").is_empty());
    assert!(found("covered", "takes 20 min to 30 min").is_empty());
    assert!(found("covered\n  expect core 75 °C or above", "for 9 h").is_empty());
    assert!(found("liquid 95 °C", "for 9 h").is_empty());
}
