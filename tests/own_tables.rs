//! `dwell.toml`: own foods and kit laid over the built-in tables.

mod common;

use dwell::findings::{Code, Finding};
use dwell::quantity::Scale;
use dwell::tables::{FoodState, Project, Properties, Species, Tables};
use dwell::text::FileId;

fn read(text: &str) -> (Project, Vec<Finding>) {
    Project::read(FileId(0), text)
}

/// Code and the text it points at.
fn faults(text: &str) -> Vec<(&'static str, &str)> {
    read(text).1.iter().map(|f| (f.code.name(), &text[f.span.range()])).collect()
}

/// The example of the interface contract.
const KITCHEN: &str = r#"
rules = "us-food-code"

[foods."test slab"]
species = "beef"
state = "intact"
conductivity_w_mk = 0.48
density_kg_m3 = 1050
specific_heat_j_kgk = 3400

[kit."test oven"]
class = "fan oven"
film_w_m2k = 25
moisture_percent = 30
heats_k_min = 8
cools_k_min = 2
swing_k = 5
"#;

#[test]
fn own_rows_are_found_beside_the_built_in_ones() {
    let (project, findings) = read(KITCHEN);
    assert_eq!(findings, []);
    assert_eq!(project.rules.as_ref().map(|rules| rules.value.as_str()), Some("us-food-code"));
    let tables = project.tables();
    let slab = tables.foods.find("Test Slab").unwrap();
    assert_eq!((slab.species, slab.state), (Species::Beef, FoodState::Intact));
    assert_eq!(
        slab.properties,
        Properties::Measured { conductivity_w_mk: 0.48, density_kg_m3: 1050.0, specific_heat_j_kgk: 3400.0 }
    );
    assert!(tables.foods.find("pork shoulder").is_some());

    let oven = tables.kit.find("test oven").unwrap();
    let plain = Tables::built_in().kit.find("fan oven").unwrap();
    assert_eq!(oven.base.as_deref(), Some("fan oven"));
    assert_eq!(oven.ranges, plain.ranges, "what is not written comes from the class");
    assert_eq!(oven.preheat_min, plain.preheat_min);
    assert_eq!((oven.film_w_m2k, oven.moisture_percent, oven.swing_k), (Some(25.0), Some(30.0), Some(5.0)));
    assert_eq!((oven.heats_k_min, oven.cools_k_min), (Some(8.0), Some(2.0)));
    assert_eq!(oven.source_of("film_w_m2k"), ("dwell.toml", "own"));
    assert_eq!(oven.source_of("preheat_min").1, "practice");
    assert!(Tables::built_in().foods.find("test slab").is_none());
}

#[test]
fn an_own_row_hides_the_built_in_one_of_its_name() {
    let text = "[foods.\"pork shoulder\"]\nspecies = \"pork\"\nstate = \"intact\"\nwater_percent = 70\nprotein_percent = 20\nfat_percent = 9\nash_percent = 1\n\n[kit.oven]\nclass = \"oven\"\nswing_k = 3\n";
    let (project, findings) = read(text);
    assert_eq!(findings, []);
    let tables = project.tables();
    let Properties::Composition(parts) = tables.foods.find("shoulder of pork").unwrap().properties else {
        panic!("a composition was given")
    };
    assert_eq!((parts.water_percent, parts.carbohydrate_percent), (70.0, 0.0));
    assert_eq!(tables.kit.find("oven").unwrap().swing_k, Some(3.0));
}

#[test]
fn an_empty_file_changes_nothing() {
    for text in ["", "\n# nothing here\n", "\u{feff}"] {
        let (project, findings) = read(text);
        assert_eq!(findings, [], "{text:?}");
        assert!(project.rules.is_none() && project.foods.is_empty() && project.kit.is_empty());
    }
}

#[test]
fn a_bad_key_is_shown_where_it_stands() {
    let text = KITCHEN.replace("film_w_m2k", "film_w_mk").replace("species", "speceis");
    let findings = read(&text).1;
    assert_eq!(faults(&text), [("own-key-unknown", "speceis"), ("own-key-unknown", "film_w_mk")]);
    assert!(findings[1].remedy.render(Scale::Celsius).contains("`film_w_m2k`"));
    assert_eq!(faults("colour = \"red\""), [("own-key-unknown", "colour")]);
}

#[test]
fn a_value_no_real_thing_has_is_refused() {
    for (good, bad) in [
        ("density_kg_m3 = 1050", "density_kg_m3 = 1.05"),
        ("specific_heat_j_kgk = 3400", "specific_heat_j_kgk = 3.4"),
        ("conductivity_w_mk = 0.48", "conductivity_w_mk = -0.48"),
        ("conductivity_w_mk = 0.48", "conductivity_w_mk = nan"),
        ("moisture_percent = 30", "moisture_percent = 130"),
        ("heats_k_min = 8", "heats_k_min = 0"),
        ("swing_k = 5", "swing_k = \"5\""),
        ("film_w_m2k = 25", "film_w_m2k = inf"),
        ("species = \"beef\"", "species = \"bear\""),
        ("state = \"intact\"", "state = 3"),
        ("rules = \"us-food-code\"", "rules = 2022"),
    ] {
        let text = KITCHEN.replace(good, bad);
        let value = bad.split(" = ").nth(1).unwrap();
        assert_eq!(faults(&text), [("own-value-wrong", value)], "{bad}");
    }
    let sums = "[foods.x]\nspecies = \"beef\"\nstate = \"intact\"\nwater_percent = 70\nfat_percent = 7\n";
    assert_eq!(faults(sums), [("own-value-wrong", "x")]);
}

#[test]
fn a_row_with_a_fault_is_left_out_and_the_others_stay() {
    let (project, findings) = read(&KITCHEN.replace("1050", "0"));
    assert_eq!(findings.len(), 1);
    assert!(project.foods.is_empty());
    assert_eq!(project.kit.len(), 1);
}

#[test]
fn half_a_row_is_not_a_row() {
    for line in ["species = \"beef\"\n", "state = \"intact\"\n", "density_kg_m3 = 1050\n"] {
        assert_eq!(faults(&KITCHEN.replace(line, "")), [("own-row-incomplete", "\"test slab\"")], "{line}");
    }
    let both = KITCHEN.replace("[kit", "fat_percent = 5\n[kit");
    assert_eq!(faults(&both), [("own-row-incomplete", "\"test slab\"")]);
    assert_eq!(
        faults(&KITCHEN.replace("class = \"fan oven\"\n", "")),
        [("own-row-incomplete", "\"test oven\"")]
    );
}

#[test]
fn an_unknown_class_gets_its_remedy() {
    let text = KITCHEN.replace("fan oven", "fan ofen");
    let findings = read(&text).1;
    assert_eq!(faults(&text), [("kit-class-unknown", "\"fan ofen\"")]);
    assert!(findings[0].remedy.render(Scale::Celsius).contains("`fan oven`"));
}

#[test]
fn what_is_not_toml_is_shown_and_the_rest_still_counts() {
    let text = KITCHEN.replace("swing_k = 5", "swing_k = = 5");
    let findings = read(&text).1;
    assert!(findings.iter().all(|f| f.code == Code::OwnFileUnreadable), "{findings:?}");
    assert_eq!(read(&text).0.foods.len(), 1);
    for text in [
        "[foods",
        "foods = 3",
        "[foods]\nx = 2",
        "kit = []",
        "rules = \"a\"\nrules = \"b\"",
        "[[kit]]",
        "é = = ü",
    ] {
        assert!(!read(text).1.is_empty(), "{text}");
    }
}

/// Whatever stands in the file: no panic, every place lies in it, and what is not whole is said.
#[test]
fn a_damaged_file_is_never_taken_in_silence() {
    for cut in (0..KITCHEN.len()).filter(|&cut| KITCHEN.is_char_boundary(cut)) {
        for text in [
            KITCHEN[..cut].to_owned(),
            KITCHEN[cut..].to_owned(),
            format!("{}=ü\"[{}", &KITCHEN[..cut], &KITCHEN[cut..]),
        ] {
            let (project, findings) = read(&text);
            for finding in &findings {
                assert!(text.get(finding.span.range()).is_some(), "{finding:?}\n{text}");
            }
            if findings.is_empty() {
                for class in &project.kit {
                    assert!(text.contains(&format!("[kit.\"{}\"]", class.name)), "{text}");
                }
            }
        }
    }
}

proptest::proptest! {
    #![proptest_config(proptest::test_runner::Config::with_cases(32))]

    #[test]
    fn any_text_is_read_or_refused(text in "(?s).{0,200}") {
        let (_, findings) = read(&text);
        for finding in findings {
            proptest::prop_assert!(text.get(finding.span.range()).is_some());
        }
        let tables = Tables::built_in();
        let _ = (tables.foods.find(&text), tables.foods.suggest(&text), tables.kit.suggest(&text));
    }
}

/// A bench of one's own is a bench to every stage: nobody has to be told that `prep` on it takes hands.
#[test]
fn own_kit_is_treated_as_its_class() {
    use dwell::compile::{Options, compile};
    let cook = "cook \"Peeled\"\n  rules uk\n\ncrew\n  1 person\n\nkit place is marble\n\nfood roots is potato\n  2 kg\n\nphase peel is prep\n  roots on place\n  for 20 min\n\nserve roots\n  at 19:00\n";
    let own = "[kit.marble]\nclass = \"bench\"\n";
    let files = [("test.dwell", cook), ("dwell.toml", own)];
    let compiled =
        compile(&common::Memory(&files), "test.dwell".into(), cook.as_bytes().to_vec(), &Options::default());
    assert_eq!(compiled.findings, []);
    let Some(dwell::cook::Document::Cook(cook)) = &compiled.document else { panic!("a cook") };
    assert!(cook.phases[0].hands.on.seconds() > 0.0, "hands are needed at a bench");
}

/// A row with a fault is reported where it stands; a cook that names it is not told again.
#[test]
fn what_only_follows_from_a_faulty_row_is_not_said() {
    let cook = "cook \"Slab\"\n  rules uk\nkit place is test oven\nkit probe is probe thermometer\nfood slab is test slab\n  2 kg\n\
                phase roast is cook\n  slab in place\n  air 140 °C\n  until core 75 °C, takes 1 h to 2 h\nserve slab\n  at 19:00, up to 1 h late\n";
    let codes = |own: &str| -> Vec<&str> {
        let files = [("test.dwell", cook), ("dwell.toml", own)];
        common::findings(&files).iter().map(|finding| finding.code.name()).collect()
    };
    let own = KITCHEN.replace("rules = \"us-food-code\"", "");
    assert_eq!(codes(&own), [""; 0]);
    assert_eq!(codes(&own.replace("1050", "0")), ["own-value-wrong"], "the food");
    assert_eq!(codes(&own.replace("swing_k = 5", "swing_k = 900")), ["own-value-wrong"], "the kit");
    assert_eq!(codes(&own.replace("state = \"intact\"\n", "")), ["own-row-incomplete"]);
    let other = own.replace("test slab", "test slap").replace("1050", "0");
    assert_eq!(codes(&other), ["food-kind-unknown", "own-value-wrong"], "another name is another matter");
}
