//! One test for each row of the table of blocks.

use crate::common::kit::CLASSES;
use crate::common::texts::{clean, lamb, roast, said, says, with_stock};
use crate::common::{cook, resolve_files};
use dwell::cook::{Allergen, Amount, Capacity, CoverKind, Document, Form, Medium, Origin, Stock, Structure};

const ROAST: &str = "  lamb in oven\n  air 140 °C\n  for 2 h";

fn stock(text: &str) -> Stock {
    let cook = clean(text);
    let item = cook.items.iter().find(|item| item.name == "lamb" || item.name == "thing").expect("stock");
    match &item.origin {
        Origin::Food(stock) | Origin::Ingredient(stock) => (**stock).clone(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn dwell_1_is_an_optional_first_line() {
    let text = roast(ROAST);
    clean(&format!("dwell 1\n{text}"));
    clean(&format!("// a remark\n\ndwell 1\n{text}"));
    says(&format!("dwell 2\n{text}"), &[("edition-unknown", "dwell 2")]);
    says(&format!("{text}dwell 1\n"), &[("clause-out-of-place", "dwell 1")]);
    says(&format!("dwell 1\n  serves 8\n{text}"), &[("clause-out-of-place", "serves 8")]);
}

#[test]
fn cook_says_what_the_file_is() {
    let text = roast(ROAST).replace(
        "  serves 8\n",
        "  serves 8 with 170 g each\n  about \"Sunday.\"\n  by \"the cox\"\n  adapted from \"the old book\"\n  measures metric\n  elevation 1200 m\n  for vulnerable guests\n  note \"Printed.\"\n",
    );
    let cook = clean(&text);
    let serves = cook.serves.as_ref().expect("for how many");
    assert_eq!(serves.people, 8);
    let Some(Amount::Mass(each)) = serves.each.as_ref().map(|each| &each.value) else { panic!() };
    assert!((each.kg() - 0.17).abs() < 1e-12);
    assert_eq!(cook.rules.as_ref().map(|rules| rules.value.as_str()), Some("uk"));
    let texts =
        [&cook.about, &cook.by, &cook.adapted_from].map(|text| text.as_ref().map(|t| t.value.as_str()));
    assert_eq!(texts, [Some("Sunday."), Some("the cox"), Some("the old book")]);
    assert_eq!(cook.elevation.map(|height| height.value.metres()), Some(1200.0));
    assert!(cook.vulnerable_guests.is_some());
    assert_eq!(cook.notes[0].value, "Printed.");
    assert_eq!(cook.title.value, "Leg of lamb");
    says(&text.replace("serves 8", "serves 8.5"), &[("figure-impossible", "8.5")]);
    says(&text.replace("rules uk", "rules ukk"), &[("rules-unknown", "ukk")]);
    says(&text.replace("  about", "  serves 9\n  about"), &[("clause-twice", "serves 9")]);
}

#[test]
fn kit_brings_its_class_and_its_clauses_override_it() {
    let text = with_stock(
        "kit big is smoking cabinet\n  air 30 °C to 150 °C\n  swing ± 5 °C\n  preheat 30 min\n  cools down 40 min\n  shelves 4\n  holds 12 kg\n  moisture 30 %\n  room 28 °C\n  vented\n  programmable",
        "  lamb in big\n  air 140 °C\n  for 2 h",
    );
    let cook = clean(&text);
    let kit = cook.kit.iter().find(|kit| kit.name.value == "big").expect("the kit");
    let air = kit.ranges.iter().find(|range| range.medium == Medium::Air).expect("a range");
    assert_eq!((air.low.celsius(), air.high.celsius()), (30.0, 150.0));
    assert_eq!(kit.swing.map(|swing| swing.kelvin()), Some(5.0));
    assert_eq!(kit.preheat.map(|time| time.minutes()), Some(30.0));
    assert_eq!(kit.cools_down.map(|time| time.minutes()), Some(40.0));
    assert_eq!(kit.shelves.map(|shelves| shelves.value), Some(4.0));
    assert!(matches!(kit.holds.map(|holds| holds.value), Some(Capacity::Mass(mass)) if mass.kg() == 12.0));
    assert_eq!(kit.moisture.map(|share| share.fraction()), Some(0.3));
    assert_eq!(kit.room.map(|room| room.celsius()), Some(28.0));
    assert!(kit.vented && kit.programmable);
    says(&text.replace("  vented\n", "  vented\n  swing ± 2 °C\n"), &[("clause-twice", "swing ± 2 °C")]);
    says(&text.replace("smoking cabinet", "smoking cabnet"), &[("kit-class-unknown", "smoking cabnet")]);
}

#[test]
fn every_class_of_the_page_is_known() {
    for class in CLASSES {
        let cook = clean(&with_stock(&format!("kit one is {class}"), ROAST));
        assert_eq!(cook.kit.last().expect("kit").class.name, class);
    }
}

#[test]
fn kit_from_another_file_is_one_line() {
    let text = "cook \"x\"\nkit from \"kitchen.dwell\"\nfood lamb is lamb leg\n  2 kg\nphase roast is cook\n  lamb in oven\n  air 140 °C\n  for 2 h\nserve lamb\n  at 19:00\n";
    let kitchen = ("kitchen.dwell", "kit oven is fan oven\n  shelves 3\n");
    let (_, document, findings) = resolve_files(&[("a.dwell", text), kitchen]);
    assert!(findings.is_empty(), "{findings:#?}");
    let Some(Document::Cook(cook)) = document else { panic!() };
    assert!(cook.kit[0].imported && cook.kit[0].shelves.is_some());
    let below = text.replace("kitchen.dwell\"\n", "kitchen.dwell\"\n  shelves 9\n");
    let (_, _, findings) = resolve_files(&[("a.dwell", &below), kitchen]);
    assert_eq!(findings.iter().map(|f| f.code.name()).collect::<Vec<_>>(), ["clause-out-of-place"]);
}

#[test]
fn food_by_the_piece_or_by_weight() {
    for lines in ["  2 pieces of 3.2 kg", "  2 pieces of 3.2 kg each", "  2 tubs of 3200 g", "  6.4 kg"] {
        let stock = stock(&lamb(lines));
        let Some(Amount::Mass(mass)) = stock.amount.map(|amount| amount.value) else { panic!("{lines}") };
        assert!((mass.kg() - 6.4).abs() < 1e-9, "{lines}");
    }
    let stock = stock(&lamb("  3 jars of 500 ml"));
    assert!(
        matches!(stock.amount.map(|amount| amount.value), Some(Amount::Volume(v)) if (v.cubic_metres() - 1.5e-3).abs() < 1e-12)
    );
    assert_eq!(stock.shape.pieces.map(|pieces| pieces.word), Some("jars".into()));
}

#[test]
fn food_has_shape_state_and_losses() {
    let stock = stock(&lamb(
        "  1 piece of 3 kg\n  thickness 11 cm ± 1 cm\n  depth 6 cm\n  shape cylinder\n  starts at -18 °C\n  frozen\n  cooked\n  trim loss 8 %\n  cooked yield 60 %\n  injected\n  salt 2.5 %\n  pH 4.6\n  contains milk and celery\n  from \"butcher\"\n  covered",
    ));
    let shape = &stock.shape;
    assert_eq!(shape.thickness.map(|length| length.value.metres()), Some(0.11));
    assert_eq!(shape.thickness_tolerance.map(|length| length.metres()), Some(0.01));
    assert_eq!(shape.depth.map(|length| length.value.metres()), Some(0.06));
    assert_eq!(shape.form.map(|form| form.value), Some(Form::Cylinder));
    assert_eq!(shape.structure.map(|structure| structure.value), Some(Structure::Injected));
    assert_eq!(shape.salt.map(|share| share.value.fraction()), Some(0.025));
    assert_eq!(shape.ph.map(|ph| ph.value), Some(4.6));
    assert_eq!(shape.covers[0].kind, CoverKind::Covered);
    assert!(stock.frozen.is_some() && stock.cooked.is_some());
    assert_eq!(stock.trim_loss.map(|share| share.value.fraction()), Some(0.08));
    assert_eq!(stock.cooked_yield.map(|share| share.value.fraction()), Some(0.6));
    let allergens: Vec<Allergen> = stock.contains.iter().map(|allergen| allergen.value).collect();
    assert_eq!(allergens, [Allergen::Milk, Allergen::Celery]);
    assert_eq!(stock.supplier.map(|name| name.value), Some("butcher".into()));
    for state in ["intact", "ground", "tenderised"] {
        clean(&lamb(&format!("  3 kg\n  {state}")));
    }
    for form in ["slab", "cylinder", "ball"] {
        clean(&lamb(&format!("  3 kg\n  shape {form}")));
    }
    says(&lamb("  3 kg\n  shape cube"), &[("name-unknown", "cube")]);
}

#[test]
fn every_kind_of_the_page_is_in_the_food_table() {
    for kind in ["pork shoulder", "beef short rib", "turkey crown", "cooked beans"] {
        clean(&lamb("  2 kg").replace("lamb leg", kind));
    }
    says(&lamb("  2 kg").replace("lamb leg", "lamb legg"), &[("food-kind-unknown", "lamb legg")]);
}

#[test]
fn ingredient_is_the_short_line() {
    let line = "70 g coarse sea salt, from \"dry store\", on hand 500 g, same for any number, nitrite 6.25 %, contains mustard";
    let stock = stock(&crate::common::texts::ingredient(line));
    assert_eq!(stock.supplier.map(|name| name.value), Some("dry store".into()));
    assert!(matches!(stock.on_hand.map(|amount| amount.value), Some(Amount::Mass(mass)) if mass.kg() == 0.5));
    assert!(stock.same_for_any_number.is_some());
    assert_eq!(stock.nitrite.map(|share| share.value.fraction()), Some(0.0625));
    assert_eq!(stock.contains[0].value, Allergen::Mustard);
    let taste = self::stock(&crate::common::texts::ingredient("black pepper, to taste"));
    assert!(taste.to_taste.is_some() && taste.amount.is_none());
    let paper = self::stock(&crate::common::texts::ingredient("2 m butcher paper"));
    assert!(
        matches!(paper.amount.map(|amount| amount.value), Some(Amount::Length(length)) if length.metres() == 2.0)
    );
    says(
        &crate::common::texts::ingredient("sea salt"),
        &[("amount-missing", "ingredient thing is sea salt")],
    );
    // Words of `food` alone.
    says(
        &crate::common::texts::ingredient("70 g salt, starts at 4 °C"),
        &[("clause-out-of-place", "starts at 4 °C")],
    );
}

#[test]
fn crew_has_people_sleep_and_absence() {
    let crew = "crew\n  2 people\n  asleep 23:00 to 06:30\n  away 09:00 to 17:00";
    let crew = clean(&with_stock(crew, ROAST)).crew.expect("a crew");
    assert_eq!((crew.people, crew.asleep.len(), crew.away.len()), (2, 1, 1));
    assert_eq!((crew.asleep[0].value.0.minutes(), crew.asleep[0].value.1.minutes()), (23 * 60, 390));
    clean(&with_stock("crew\n  1 person", ROAST));
    says(&with_stock("crew\n  0 people", ROAST), &[("figure-impossible", "0 people")]);
    says(&with_stock("crew\n  asleep 23.00 to 06:30", ROAST), &[("clock-time-form", "23.00")]);
}

#[test]
fn a_menu_has_dishes_kit_crew_and_a_time() {
    let dish = roast(ROAST);
    let menu = "menu \"Supper\"\n  rules uk\nserve at Saturday 18:30\ndish \"lamb.dwell\" for 40\ndish \"lamb.dwell\"\nkit from \"kitchen.dwell\"\ncrew\n  2 people\n";
    let files =
        [("menu.dwell", menu), ("lamb.dwell", dish.as_str()), ("kitchen.dwell", "kit spare is oven\n")];
    let (_, document, findings) = resolve_files(&files);
    assert!(findings.is_empty(), "{findings:#?}");
    let Some(Document::Menu(menu)) = document else { panic!() };
    assert_eq!(menu.dishes.iter().map(|dish| dish.serves).collect::<Vec<_>>(), [Some(40), None]);
    assert_eq!(menu.serve.expect("a time").value.time.to_string(), "18:30");
    assert_eq!((menu.crew.expect("a crew").people, menu.kit.len()), (2, 1));
}

#[test]
fn clauses_stand_in_their_own_block() {
    for (line, at) in [
        ("starts at 4 °C", "starts at 4 °C"),
        ("serves 4", "serves 4"),
        ("shelves 3", "shelves 3"),
        ("at 19:00", "at 19:00"),
    ] {
        says(&roast(&format!("{ROAST}\n  {line}")), &[("clause-out-of-place", at)]);
    }
    let found = said(&roast(ROAST).replace("  at 19:00", "  at 19:00\n  shelves 3"));
    assert_eq!(found, [("clause-out-of-place".to_string(), "shelves 3".to_string())]);
    assert!(cook(&roast(ROAST)).1.is_some());
}
