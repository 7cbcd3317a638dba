//! What to buy, where the examples do not go: on hand, several cooks, other people's text.

mod common;

use dwell::cook::{Cook, Origin};
use dwell::ledger::balance;
use dwell::output::{buy, prep};

/// A cook of one bread and these lines of stock, all of it used.
fn cook(title: &str, stock: &[(&str, &str)]) -> Cook {
    let mut text = format!("cook \"{title}\"\n kit bench is bench\n food bread is white bread, 2 kg\n");
    for (name, is) in stock {
        text += &format!("ingredient {name} is {is}\n");
    }
    text += "phase spread is prep\n bread on bench\n for 10 min\n";
    for (name, _) in stock {
        text += &format!(" use all {name}\n");
    }
    text += "serve bread\n at 18:30\n";
    let (_, cook, findings) = common::cook(&text);
    assert!(findings.is_empty(), "{findings:#?}");
    cook.expect("a cook")
}

fn text(cooks: &[&Cook]) -> String {
    buy::text(&buy::list(cooks))
}

#[test]
fn what_is_on_hand_comes_off() {
    let cook = cook(
        "Bread",
        &[
            ("salt", "70 g sea salt, on hand 20 g"),
            ("oil", "500 ml oil, on hand 2 l"),
            ("bags", "8 vacuum bags, on hand 3 bags"),
        ],
    );
    assert_eq!(
        text(&[&cook]),
        "To buy for Bread

  2 kg white bread
  50 g sea salt
      70 g needed, 20 g on hand
  5 vacuum bags
      8 vacuum bags needed, 3 bags on hand

On hand, nothing to buy
  500 ml oil
      500 ml needed, 2 l on hand
"
    );
}

/// A cook who writes pounds buys and weighs in pounds; other tools read SI.
#[test]
fn amounts_are_in_the_units_of_the_file() {
    let cook = cook(
        "Bread",
        &[
            ("butter", "2 lb butter, on hand 4 oz"),
            ("salt", "10 oz sea salt"),
            ("paper", "6 ft baking paper"),
            ("oil", "500 ml oil"),
        ],
    );
    let list = buy::list(&[&cook]);
    assert_eq!(
        buy::text(&list),
        "To buy for Bread

  2 kg white bread
  1.75 lb butter
      2 lb needed, 4 oz on hand
  10 oz sea salt
  6 ft baking paper
  500 ml oil
"
    );
    let json = serde_json::to_value(&list).expect("JSON");
    assert_eq!(json["suppliers"][0]["lines"][2]["buy"], serde_json::json!({ "mass_kg": 0.283495231 }));
    let (ledger, _) = balance(&cook);
    let sheet = prep::text(&prep::list(&[(&cook, &ledger)]));
    assert!(sheet.contains("2 lb of butter, 10 oz of salt (sea salt), 6 ft of paper"), "{sheet}");
}

#[test]
fn nothing_is_rounded_to_less_than_is_needed() {
    let cook = cook("Bread", &[("salt", "10.4 g sea salt"), ("flour", "12.344 kg flour")]);
    let text = text(&[&cook]);
    assert!(text.contains("11 g sea salt") && text.contains("12.35 kg flour"), "{text}");
}

#[test]
fn the_same_thing_from_the_same_supplier_is_one_line() {
    let one = cook("One", &[("salt", "70 g Sea Salt, from \"Dry store\""), ("oil", "100 ml oil")]);
    let two = cook(
        "Two",
        &[("coarse", "1 oz sea  salt, from \"dry store\", contains celery"), ("oil", "2 bottles of oil")],
    );
    let list = buy::list(&[&one, &two]);
    let lines: Vec<(Option<&str>, &str, Option<f64>, usize)> = list
        .suppliers
        .iter()
        .flat_map(|supplier| {
            supplier.lines.iter().map(|line| {
                let mass = line.buy.as_ref().and_then(|buy| buy.mass_kg);
                (supplier.supplier.as_deref(), line.description.as_str(), mass, line.cooks.len())
            })
        })
        .collect();
    assert_eq!(
        lines,
        [
            (None, "white bread", Some(4.0), 2),
            (None, "oil", None, 1),
            (None, "bottles of oil", None, 1),
            // 70 g and 28.349 523 g: an ounce is a sixteenth of 0.453 592 37 kg (NIST SP 811).
            (Some("Dry store"), "Sea Salt", Some(0.098_349_523), 2),
        ]
    );
    assert_eq!(list.suppliers[1].lines[0].contains, ["celery"]);
}

#[test]
fn one_cupboard_is_taken_off_once() {
    let one = cook("One", &[("salt", "400 g sea salt, on hand 500 g")]);
    let two = cook("Two", &[("salt", "400 g sea salt, on hand 500 g")]);
    assert!(text(&[&one, &two]).contains("  300 g sea salt  [1, 2]\n      800 g needed, 500 g on hand\n"));
}

#[test]
fn on_hand_in_another_unit_is_refused() {
    let cook = cook("Bread", &[("salt", "70 g sea salt, on hand 2 packets")]);
    let codes: Vec<_> = balance(&cook).1.iter().map(|finding| finding.code.name()).collect();
    assert_eq!(codes, ["units-unrelated"]);
    assert!(text(&[&cook]).contains("70 g sea salt"), "all of it is bought");
}

#[test]
fn text_from_strangers_does_not_act() {
    let mut cook = cook("Bread", &[("salt", "70 g sea salt")]);
    // Reading takes such characters out; a cook that was made otherwise may still hold them.
    cook.title.value = "Bread\u{1b}[31m".into();
    for item in &mut cook.items {
        if let Origin::Ingredient(stock) = &mut item.origin {
            stock.description = "sea\u{202e} salt".into();
        }
    }
    let (ledger, _) = balance(&cook);
    let pages = text(&[&cook]) + &prep::text(&prep::list(&[(&cook, &ledger)]));
    assert!(!pages.contains(['\u{1b}', '\u{202e}']), "{pages}");
    assert!(pages.contains("<U+001B>") && pages.contains("<U+202E>"));
}

#[test]
fn json_reads_back() {
    let cook = cook("Bread", &[("salt", "70 g sea salt, on hand 20 g"), ("pepper", "pepper, to taste")]);
    let (ledger, _) = balance(&cook);
    let list = prep::list(&[(&cook, &ledger)]);
    let text = serde_json::to_string(&list).expect("JSON");
    let back: prep::PrepList = serde_json::from_str(&text).expect("the same form");
    assert_eq!(serde_json::to_string(&back).expect("JSON"), text);
    let list = serde_json::to_value(buy::list(&[&cook])).expect("JSON");
    assert_eq!(list["suppliers"][0]["lines"][1]["buy"]["mass_kg"], 0.05);
    assert!(list["suppliers"][0]["lines"][2].get("buy").is_none(), "to taste has no amount");
    let _: buy::BuyList = serde_json::from_value(list).expect("the same form");
}

#[test]
fn a_line_may_be_missing() {
    let all = common::examples();
    let kitchen: Vec<(&str, &str)> = all
        .iter()
        .filter(|(name, _)| name == "clubhouse.dwell")
        .map(|(name, text)| (name.as_str(), text.as_str()))
        .collect();
    for (skip, (name, whole)) in all.iter().enumerate() {
        let lines: Vec<&str> = whole.lines().collect();
        // Every third line of each: the rest shows nothing new, and takes its time.
        for n in (skip % 3..lines.len()).step_by(3) {
            let mut less = lines.clone();
            less.remove(n);
            let text = less.join("\n");
            let files = [&[(name.as_str(), text.as_str())], kitchen.as_slice()].concat();
            if let Some(dwell::cook::Document::Cook(mut cook)) = common::resolve_files(&files).1 {
                dwell::ledger::scale(&mut cook, 1_000_000);
                let (ledger, _) = balance(&cook);
                let pages = self::text(&[&cook]) + &prep::text(&prep::list(&[(&cook, &ledger)]));
                assert!(!pages.contains("NaN") && !pages.contains("inf "), "{text}\n{pages}");
            }
        }
    }
}
