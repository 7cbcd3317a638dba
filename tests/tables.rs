//! The food table and the kit table: what is in them, and how a name is found.

mod common;

use common::kit::CLASSES;
use dwell::cook::Medium;
use dwell::tables::{FoodState, Properties, Species, Tables, UnfitUse};

fn found(name: &str) -> Option<String> {
    Tables::built_in().foods.find(name).map(|kind| kind.name.clone())
}

fn composition(name: &str) -> [f64; 6] {
    let kind = Tables::built_in().foods.find(name).unwrap_or_else(|| panic!("no {name}"));
    match kind.properties {
        Properties::Composition(c) => [
            c.water_percent,
            c.protein_percent,
            c.fat_percent,
            c.carbohydrate_percent,
            c.fibre_percent,
            c.ash_percent,
        ],
        Properties::Measured { .. } => panic!("{name} has no composition"),
    }
}

/// Figures as printed in USDA National Nutrient Database for Standard Reference, Release 28 (2015),
/// under the NDB numbers beside them; oxtail as printed in CoFID 2021 (ash there by difference).
#[test]
fn rows_carry_the_published_figures() {
    for (name, id, printed) in [
        ("beef brisket, flat", "NDB 13805", [59.07, 17.94, 22.18, 0.0, 0.0, 0.81]),
        ("beef short rib", "NDB 13147", [48.29, 14.40, 36.23, 0.0, 0.0, 0.68]),
        ("pork shoulder", "NDB 10070", [64.02, 17.18, 17.99, 0.0, 0.0, 0.88]),
        ("pork belly", "NDB 10005", [36.74, 9.34, 53.01, 0.0, 0.0, 0.49]),
        ("celeriac", "NDB 11141", [88.00, 1.50, 0.30, 9.20, 1.8, 1.00]),
        ("chicken, whole", "NDB 05006", [65.99, 18.60, 15.06, 0.0, 0.0, 0.79]),
        ("salmon", "NDB 15236", [64.89, 20.42, 13.42, 0.0, 0.0, 1.13]),
        ("potato", "NDB 11352", [79.25, 2.05, 0.09, 17.49, 2.1, 1.11]),
        ("beans, cooked", "NDB 16050", [63.08, 9.73, 0.35, 25.09, 6.3, 1.75]),
    ] {
        assert_eq!(composition(name), printed, "{name}");
        let kind = Tables::built_in().foods.find(name).unwrap();
        assert_eq!(kind.source_id, id);
        assert_eq!((kind.source_edition.as_str(), kind.status.as_str()), ("USDA SR28 (2015)", "verified"));
    }
    assert_eq!(Tables::built_in().foods.find("oxtail").unwrap().source_edition, "CoFID 2021");
}

/// The whole file read at once says the same as row by row, and every row says where it comes from.
#[test]
fn every_row_reads_and_has_its_source() {
    let text = include_str!("../src/tables/data/foods.toml");
    let whole: toml::Table = toml::from_str(text).unwrap();
    let rows = whole["food"].as_array().unwrap();
    let kinds = Tables::built_in().foods.kinds();
    assert_eq!(kinds.len(), 163);
    assert_eq!(rows.len(), kinds.len());
    for (row, kind) in rows.iter().zip(&kinds) {
        assert_eq!(row["name"].as_str(), Some(kind.name.as_str()));
        let also: Vec<&str> = row
            .get("also")
            .map(|list| list.as_array().unwrap().iter().map(|name| name.as_str().unwrap()).collect())
            .unwrap_or_default();
        assert_eq!(also, kind.also);
        for name in also.iter().chain([&kind.name.as_str()]) {
            assert_eq!(found(name).as_deref(), Some(kind.name.as_str()), "{name} leads elsewhere");
        }
        assert!(!kind.name.contains(','), "in a cook a comma ends the clause");
        assert!(!kind.source_id.is_empty() && !kind.source_description.is_empty(), "{}", kind.name);
        assert!(["verified", "computed"].contains(&kind.status.as_str()), "{}", kind.name);
    }
    assert_eq!(kinds.iter().filter(|kind| kind.status == "computed").count(), 10);
}

/// 97.4 to 101.4 as the head of the data file says; the source analyses each part separately.
#[test]
fn parts_add_up_to_a_whole() {
    for kind in Tables::built_in().foods.kinds() {
        let [water, protein, fat, carbohydrate, fibre, ash] = composition(&kind.name);
        let sum = water + protein + fat + carbohydrate + ash;
        assert!((97.3..=101.5).contains(&sum), "{} sums to {sum}", kind.name);
        assert!(fibre <= carbohydrate + 1e-9, "{}: carbohydrate includes fibre", kind.name);
    }
}

#[test]
fn a_name_is_found_however_it_is_written() {
    for (typed, row) in [
        ("beef brisket flat", "beef brisket flat"),
        ("Beef Brisket, Flat", "beef brisket flat"),
        ("BRISKET FLAT", "beef brisket flat"),
        ("cooked beans", "cooked beans"),
        ("beans, cooked", "cooked beans"),
        ("cooked bean", "cooked beans"),
        ("whole chicken", "whole chicken"),
        ("leg of lamb", "lamb leg"),
        ("shoulder of pork", "pork shoulder"),
        ("potatoes", "potato"),
        ("boneless raw pork shoulder", "pork shoulder"),
        ("beef mince 10% fat", "beef mince 10 % fat"),
        ("pig’s trotters", "pig's trotter"),
        ("hard boiled eggs", "hard-boiled egg"),
    ] {
        assert_eq!(found(typed).as_deref(), Some(row), "{typed}");
    }
}

/// Trade names and those of the other side of the ocean: common practice, no source.
#[test]
fn trade_names_lead_to_their_row() {
    for (typed, row) in [
        ("boston butt", "pork shoulder blade end"),
        ("pork butt", "pork shoulder blade end"),
        ("ground beef", "beef mince 20 % fat"),
        ("beef mince", "beef mince 20 % fat"),
        ("eggplant", "aubergine"),
        ("shrimp", "prawns"),
        ("rutabaga", "swede"),
        ("pork tenderloin", "pork fillet"),
        ("chili", "chilli con carne"),
        ("baby back ribs", "pork back rib"),
        ("beef sirloin", "beef rump"),
        ("cream", "whipping cream"),
        ("sausages", "pork sausage"),
        ("pizza dough", "bread dough"),
        ("squash", "butternut squash"),
        ("pork chops", "pork loin"),
        ("rolls", "bread rolls"),
        ("chopped tomatoes", "tomato"),
        ("ragu", "bolognese"),
    ] {
        assert_eq!(found(typed).as_deref(), Some(row), "{typed}");
    }
}

/// The kinds that the worked examples of the language name.
#[test]
fn the_kinds_of_the_examples_are_there() {
    for (typed, species, state) in [
        ("pork shoulder", Species::Pork, FoodState::Intact),
        ("pulled pork", Species::Pork, FoodState::Cooked),
        ("beef short rib", Species::Beef, FoodState::Intact),
        ("beef mince", Species::Beef, FoodState::Ground),
        ("cooked beans", Species::Vegetable, FoodState::Cooked),
        ("meat stew", Species::Beef, FoodState::Thick),
        ("gravy", Species::Beef, FoodState::Thick),
        ("turkey crown", Species::Poultry, FoodState::Intact),
        ("lamb leg", Species::Lamb, FoodState::Intact),
        ("potato", Species::Vegetable, FoodState::Intact),
        ("celeriac", Species::Vegetable, FoodState::Intact),
    ] {
        let kind = Tables::built_in().foods.find(typed).unwrap_or_else(|| panic!("no {typed}"));
        assert_eq!((kind.species, kind.state), (species, state), "{typed}");
    }
}

/// Raw or cooked would be a guess, so nothing is taken; the rows that could be meant are offered.
#[test]
fn a_name_that_could_mean_raw_or_cooked_is_not_guessed() {
    for (typed, offered) in [
        ("ham", "cooked ham"),
        ("rice", "cooked rice"),
        ("beans", "cooked beans"),
        ("beef stew", "homemade beef stew"),
    ] {
        assert_eq!(found(typed), None, "{typed}");
        let offers = Tables::built_in().foods.suggest(typed);
        assert!(offers.contains(&offered), "{typed}: {offers:?}");
    }
    assert_eq!(found("beef chuck, cooked"), None, "there is only a raw row");
}

#[test]
fn a_misspelling_is_offered_the_right_name_first() {
    for (typed, offered) in [
        ("pork sholder", "pork shoulder"),
        ("beef briskit", "beef brisket"),
        ("porc shoulder", "pork shoulder"),
        ("turky crown", "turkey crown"),
        ("celariac", "celeriac"),
        ("egplant", "aubergine"),
        ("lamb legg", "lamb leg"),
    ] {
        assert_eq!(found(typed), None);
        assert_eq!(Tables::built_in().foods.suggest(typed).first(), Some(&offered), "{typed}");
    }
    // What is not in the table gets its neighbours.
    let near = Tables::built_in().foods.suggest("chicken wings");
    assert!(near.len() == 3 && near.iter().all(|name| name.contains("chicken")), "{near:?}");
    assert!(Tables::built_in().foods.suggest("zzyzx").is_empty());
    assert!(Tables::built_in().foods.suggest("").is_empty());
}

#[test]
fn every_class_of_the_language_is_in_the_table() {
    let table = &Tables::built_in().kit;
    assert_eq!(table.classes().iter().map(|class| class.name.as_str()).collect::<Vec<_>>(), CLASSES);
    for class in table.classes() {
        assert!(!class.source.is_empty() && ["verified", "practice"].contains(&class.status.as_str()));
        for range in &class.ranges {
            assert!(range.low_c < range.high_c, "{}", class.name);
        }
        for name in class.also.iter().chain([&class.name]) {
            assert_eq!(table.find(name).unwrap().name, class.name, "{name} leads elsewhere");
        }
        for key in class.sources.keys() {
            assert!(["moisture_percent"].contains(&key.as_str()), "no figure {key} in {}", class.name);
        }
    }
}

#[test]
fn a_class_is_found_by_its_name_in_the_trade() {
    let table = &Tables::built_in().kit;
    for (typed, class) in [
        ("Fan Oven", "fan oven"),
        ("combi oven", "steam oven"),
        ("convection oven", "fan oven"),
        ("hot box", "holding cabinet"),
        ("smoker", "smoking cabinet"),
        ("stove", "hob"),
        ("flat top", "griddle"),
        ("refrigerator", "fridge"),
    ] {
        assert_eq!(table.find(typed).unwrap().name, class, "{typed}");
    }
    assert_eq!(table.find("fan ofen"), None);
    assert_eq!(table.suggest("fan ofen").first(), Some(&"fan oven"));
    assert_eq!(table.suggest("smoking cabnet").first(), Some(&"smoking cabinet"));
}

#[test]
fn classes_say_what_they_can_do() {
    let table = &Tables::built_in().kit;
    let hob = table.find("hob").unwrap();
    for medium in [Medium::Liquid, Medium::Oil, Medium::Plate] {
        assert!(hob.range(medium).is_some(), "{medium:?}");
    }
    assert!(hob.range(Medium::Air).is_none());
    // Common practice, no source: a pan is off, sears, or smokes.
    let unset = hob.unset.as_ref().expect("a pan of which nothing is said");
    assert_eq!((unset.medium, unset.low_c, unset.high_c), (Medium::Plate, 20.0, 260.0));
    assert!(table.find("griddle").unwrap().unset.is_some() && table.find("oven").unwrap().unset.is_none());
    // Chiavaro et al., J. Food Engineering 93 (2009) 158: relative humidity 2 to 5 % in a dry oven.
    let oven = table.find("oven").unwrap();
    assert!((2.0..=5.0).contains(&oven.moisture_percent.unwrap()));
    assert_eq!(oven.source_of("moisture_percent").1, "verified");
    assert_eq!(oven.source_of("swing_k"), ("common practice, no source", "practice"));
    // No class leads smoke outside by itself: the cook has to say `vented`.
    assert!(table.classes().iter().all(|class| !class.vented));
    // USDA FSIS, Cooking for Groups: reheating in a slow cooker or holding cabinet takes too long.
    let unfit = |name: &str, used_for| table.find(name).unwrap().unfit.iter().any(|u| u.used_for == used_for);
    assert!(unfit("slow cooker", UnfitUse::Reheat) && unfit("holding cabinet", UnfitUse::Reheat));
    assert!(unfit("slow cooker", UnfitUse::Frozen) && unfit("smoking cabinet", UnfitUse::Frozen));
    assert!(!unfit("oven", UnfitUse::Reheat));
}
