//! `dwell foods` and `dwell kit` as people and other tools see them.

use dwell::output::tables::{foods, foods_json, kit, kit_json};
use dwell::quantity::Scale;
use dwell::tables::{Project, Tables};
use dwell::text::FileId;

fn tables() -> &'static Tables {
    Tables::built_in()
}

#[test]
fn pages_fit_eighty_columns() {
    let mut pages = vec![
        foods(&tables().foods, None).unwrap(),
        kit(&tables().kit, None, Scale::Celsius).unwrap(),
        kit(&tables().kit, None, Scale::Fahrenheit).unwrap(),
    ];
    pages.extend(tables().foods.kinds().iter().map(|kind| foods(&tables().foods, Some(&kind.name)).unwrap()));
    let classes = tables().kit.classes();
    pages.extend(classes.iter().map(|class| kit(&tables().kit, Some(&class.name), Scale::Celsius).unwrap()));
    for page in pages {
        for line in page.lines() {
            assert!(line.chars().count() <= 80 && line.trim_end() == line, "{line:?}");
        }
        assert!(page.ends_with('\n') && !page.ends_with("\n\n"));
    }
}

#[test]
fn the_list_has_a_line_for_every_row() {
    let list = foods(&tables().foods, None).unwrap();
    for kind in tables().foods.kinds() {
        assert!(list.lines().any(|line| line.starts_with(&kind.name)), "{}", kind.name);
    }
    let list = kit(&tables().kit, None, Scale::Celsius).unwrap();
    for class in tables().kit.classes() {
        assert!(list.lines().any(|line| line.starts_with(&class.name)), "{}", class.name);
    }
}

#[test]
fn one_food_is_shown_with_its_source() {
    let page = foods(&tables().foods, Some("ground beef")).unwrap();
    // USDA SR28 (2015), NDB 23572.
    for piece in
        ["beef mince 20 % fat", "water 61.87 %", "NDB 23572", "USDA SR28 (2015)", "verified", "minced beef"]
    {
        assert!(page.contains(piece), "{piece} is missing in\n{page}");
    }
}

#[test]
fn one_class_is_shown_with_its_sources() {
    let page = kit(&tables().kit, Some("fan oven"), Scale::Celsius).unwrap();
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    for piece in ["30 °C to 250 °C", "common practice, no source", "3 % (Chiavaro et al.", "verified"] {
        assert!(page.contains(piece), "{piece} is missing in\n{page}");
    }
    let page = kit(&tables().kit, Some("fan oven"), Scale::Fahrenheit).unwrap();
    assert!(page.contains("86 °F to 482 °F") && page.contains("± 14.4 °F"), "{page}");
    assert!(kit(&tables().kit, Some("slow cooker"), Scale::Celsius).unwrap().contains("reheating"));
}

#[test]
fn own_rows_are_listed_as_own() {
    let text = "[foods.slab]\nspecies = \"beef\"\nstate = \"intact\"\nconductivity_w_mk = 0.48\ndensity_kg_m3 = 1050\nspecific_heat_j_kgk = 3400\n[kit.hot]\nclass = \"oven\"\nfilm_w_m2k = 25\n";
    let own = Project::read(FileId(0), text).0.tables();
    let page = foods(&own.foods, Some("slab")).unwrap();
    assert!(page.contains("conductivity 0.48 W/m K") && page.contains("dwell.toml"), "{page}");
    let page = kit(&own.kit, Some("hot"), Scale::Celsius).unwrap();
    assert!(page.contains("25 W/m² K (dwell.toml; own)"), "{page}");
}

#[test]
fn a_name_that_is_not_there_gets_the_nearest() {
    let foods = foods(&tables().foods, Some("lamb legg")).unwrap_err().to_string();
    assert!(foods.starts_with("there is no food called lamb legg; the nearest: lamb leg"), "{foods}");
    let kit = kit(&tables().kit, Some("fryr"), Scale::Celsius).unwrap_err().to_string();
    assert!(kit.starts_with("there is no class of kit called fryr; the nearest: fryer"), "{kit}");
    assert_eq!(
        foods_json(&tables().foods, Some("qqq")).unwrap_err().to_string(),
        "there is no food called qqq"
    );
}

#[test]
fn json_has_a_format_and_units_in_its_keys() {
    let json: serde_json::Value = serde_json::from_str(&foods_json(&tables().foods, None).unwrap()).unwrap();
    assert_eq!(json["format"], "dwell.foods/1");
    assert_eq!(json["foods"].as_array().unwrap().len(), 163);
    let json: serde_json::Value =
        serde_json::from_str(&foods_json(&tables().foods, Some("celeriac")).unwrap()).unwrap();
    assert_eq!(json["foods"][0]["water_percent"], 88.0);
    assert_eq!(json["foods"][0]["source_id"], "NDB 11141");
    let json: serde_json::Value =
        serde_json::from_str(&kit_json(&tables().kit, Some("smoker")).unwrap()).unwrap();
    assert_eq!(json["format"], "dwell.kit/1");
    assert_eq!(json["classes"][0]["name"], "smoking cabinet");
    assert_eq!(json["classes"][0]["preheat_s"], 1800.0);
}
