//! Two foods in one place: one setting, and room for both. Only what the text makes certain counts.

mod common;

use common::kit::{faults, one};
use dwell::findings::Code;
use dwell::quantity::Scale;

/// Lamb and roots in one oven; `lamb` and `roots` are their phases.
fn two(kit: &str, lamb: &str, roots: &str, serve: &str) -> String {
    format!(
        "cook \"Lamb and roots\"\n{kit}\nkit bench is bench\n\
         food lamb is lamb leg\n  2 kg\n  thickness 9 cm\n\
         food roots is potato\n  3 kg\n  thickness 4 cm\n\
         phase roast is cook\n  lamb in oven\n  {lamb}\n\
         phase crisp is cook\n  roots in oven\n  {roots}\n{serve}\n"
    )
}

const TOGETHER: &str = "serve lamb and roots\n  at 19:00";
const APART: &str = "serve lamb\n  at 18:00\nserve roots\n  at 19:00";

#[test]
fn what_ends_together_needs_one_setting() {
    let clash = two("kit oven is oven", "air 160 °C\n  for 3 h", "air 210 °C\n  for 1 h", TOGETHER);
    let found = one(&clash, Code::SettingsClash);
    assert_eq!(
        found.message.render(Scale::Celsius),
        "`oven` is needed at air 210 °C for `crisp` and at air 160 °C for `roast` at the same time."
    );
    assert_eq!(found.also.len(), 1);
    for (lamb, roots, serve) in [
        // One setting, in either scale (320 °F is 160 °C).
        ("air 160 °C\n  for 3 h", "air 160 °C\n  for 1 h", TOGETHER),
        ("air 160 °C\n  for 3 h", "air 320 °F\n  for 1 h", TOGETHER),
        // Served apart: there may be time for one after the other.
        ("air 160 °C\n  for 3 h", "air 210 °C\n  for 1 h", APART),
        // It need not last.
        ("air 160 °C\n  for 3 h", "air 210 °C\n  for up to 1 h", TOGETHER),
    ] {
        assert_eq!(faults(&two("kit oven is oven", lamb, roots, serve)), [], "{lamb} / {roots}");
    }
}

#[test]
fn order_clauses_tie_phases_together_or_apart() {
    for (order, clash) in [
        ("starts when roast starts", true),
        ("starts 1 h after roast starts", true),
        ("starts 30 min before roast starts", true),
        ("ends 1 h before roast ends", true),
        ("starts 1 h before roast ends", true),
        ("ends when roast ends", true),
        ("starts when roast ends", false),
        ("starts after roast ends", false),
        ("starts 3 h after roast starts", false),
        ("ends when roast starts", false),
        ("ends 2 h before roast ends", false),
        // Of 18:00 alone nobody knows the day here.
        ("ends at 18:00", false),
        // Open: it could be any time later.
        ("starts at least 1 h after roast starts", false),
    ] {
        let roots = format!("air 210 °C\n  for 1 h\n  {order}");
        let text = two("kit oven is oven", "air 160 °C\n  for 2 h", &roots, APART);
        let found: Vec<_> = faults(&text).into_iter().map(|(code, _)| code).collect();
        let expected: &[&str] = if clash { &["settings-clash"] } else { &[] };
        assert_eq!(found, expected, "{order}");
    }
}

#[test]
fn a_date_ties_and_a_time_alone_does_not() {
    let at = |when: &str| {
        let lamb = format!("air 160 °C\n  for 2 h\n  ends at {when}");
        let roots = format!("air 210 °C\n  for 1 h\n  ends at {when}");
        let text = two("kit oven is oven", &lamb, &roots, APART);
        faults(&text).into_iter().map(|(code, _)| code).collect::<Vec<_>>()
    };
    assert_eq!(at("2026-12-12 18:00"), ["settings-clash"]);
    assert_eq!(at("18:00"), [""; 0]);
}

#[test]
fn nature_counts_with_the_least_she_takes() {
    let roots = |order: &str| format!("air 210 °C\n  for 1 h\n  {order}");
    let lamb = "air 160 °C\n  until \"tender\", takes 2 h to 4 h";
    let text = two("kit oven is oven", lamb, &roots("starts 1 h after roast starts"), APART);
    assert_eq!(one(&text, Code::SettingsClash).code, Code::SettingsClash);
    let text = two("kit oven is oven", lamb, &roots("starts 2 h after roast starts"), APART);
    assert_eq!(faults(&text), [], "she may be done by then");
}

#[test]
fn every_pan_on_a_hob_has_its_own_setting() {
    let text = two("kit oven is hob", "plate 160 °C\n  for 3 h", "liquid 95 °C\n  for 1 h", TOGETHER);
    assert_eq!(faults(&text), []);
}

#[test]
fn shelves_add_up_over_what_stands_side_by_side() {
    let at = |shelves: &str, lamb: &str, roots: &str, serve: &str| {
        two(
            &format!("kit oven is oven\n  shelves {shelves}"),
            &format!("air 160 °C\n  for 3 h\n  {lamb}"),
            &format!("air 160 °C\n  for 1 h\n  {roots}"),
            serve,
        )
    };
    assert_eq!(faults(&at("3", "fills 2 shelves", "fills 1 shelf", TOGETHER)), []);
    let found = one(&at("3", "fills 2 shelves", "fills 2 shelves", TOGETHER), Code::KitTooFull);
    assert_eq!(
        found.message.render(Scale::Celsius),
        "`oven` has room for 3 shelves; `roast` and `crisp` need 4 shelves at the same time."
    );
    assert_eq!(faults(&at("3", "fills 2 shelves", "fills 2 shelves", APART)), []);
    assert_eq!(
        faults(&at("3", "fills 4 shelves", "", APART)),
        [("kit-too-full".to_string(), "fills 4 shelves".to_string())]
    );
}

#[test]
fn food_is_weighed_against_what_the_kit_holds() {
    let at = |holds: &str, serve: &str| {
        let kit = format!("kit oven is oven\n  holds {holds}");
        two(&kit, "air 160 °C\n  for 3 h", "air 160 °C\n  for 1 h", serve)
    };
    assert_eq!(faults(&at("5 kg", TOGETHER)), []);
    let in_pounds = one(&at("8 lb", TOGETHER), Code::KitTooFull).message.render(Scale::Celsius);
    assert!(in_pounds.contains("8 lb") && !in_pounds.contains(" kg"), "{in_pounds}");
    let found = one(&at("4 kg", TOGETHER), Code::KitTooFull);
    assert!(
        found.message.render(Scale::Celsius).contains("need 5 kg at the same time"),
        "{:?}",
        found.message
    );
    assert_eq!(faults(&at("4 kg", APART)), []);
    assert_eq!(faults(&at("2.5 kg", APART)), [("kit-too-full".to_string(), "roots".to_string())]);
    // A kilogram a litre: common practice, no source.
    assert_eq!(faults(&at("5 l", TOGETHER)), []);
    assert_eq!(one(&at("4 l", TOGETHER), Code::KitTooFull).code, Code::KitTooFull);
}
