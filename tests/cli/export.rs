//! `dwell export` and `dwell schema`.

use crate::support::{Folder, GOOD, TOO_COOL, json};

#[test]
fn every_export_is_valid_against_the_schema() {
    let folder = Folder::with("apples.dwell", GOOD);
    folder.file("lamb.dwell", TOO_COOL);
    folder.file(
        "clubhouse.dwell",
        "kit bench is bench\nkit oven is fan oven, air 50 °C to 250 °C, shelves 3\n",
    );
    let schema = json(&folder.run(&["schema"]).out);
    let validator = jsonschema::validator_for(&schema).expect("the schema is one");
    let examples = concat!(env!("CARGO_MANIFEST_DIR"), "/examples");
    let mut paths: Vec<String> = ["apples.dwell", "lamb.dwell", "clubhouse.dwell"].map(String::from).into();
    for entry in std::fs::read_dir(examples).expect("the examples") {
        let path = entry.expect("an example").path();
        if path.extension().is_some_and(|end| end == "dwell") {
            paths.push(path.to_string_lossy().into_owned());
        }
    }
    for path in paths {
        let ran = folder.run(&["export", &path]);
        let export = json(&ran.out);
        let faults: Vec<String> = validator.iter_errors(&export).map(|error| error.to_string()).collect();
        assert!(faults.is_empty(), "{path}: {faults:#?}");
        number_keys_end_in_units(&export, &path);
    }
    assert!(!validator.is_valid(&json(r#"{"format":"dwell.export/2"}"#)));
}

/// Every number stands under a key that ends in its unit, or counts something.
fn number_keys_end_in_units(value: &serde_json::Value, path: &str) {
    const UNITS: [&str; 7] = ["_s", "_c", "_k", "_kg", "_m", "_m3", "_ph"];
    const COUNTS: [&str; 8] =
        ["people", "hands", "count", "shelves", "fills_shelves", "line", "column", "fraction"];
    match value {
        serde_json::Value::Object(fields) => {
            for (key, value) in fields {
                if value.is_number() {
                    // A moment is in seconds where no date is known, else text.
                    let moment = ["from", "to", "at", "at_latest"].contains(&key.as_str())
                        || ["_earliest", "_latest"].iter().any(|end| key.ends_with(end));
                    let fine = moment
                        || UNITS.iter().any(|unit| key.ends_with(unit))
                        || key.ends_with("_fraction")
                        || COUNTS.contains(&key.as_str());
                    assert!(fine, "{path}: {key}: {value}");
                }
                number_keys_end_in_units(value, path);
            }
        }
        serde_json::Value::Array(values) => {
            values.iter().for_each(|value| number_keys_end_in_units(value, path))
        }
        _ => {}
    }
}

#[test]
fn the_export_holds_what_is_written_in_si_units() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    let ran = folder.run(&["export", "lamb.dwell"]);
    assert_eq!(ran.status, Some(1), "it has an error, and is written all the same");
    let export = json(&ran.out);
    assert_eq!(export["format"], "dwell.export/1");
    assert_eq!(export["kind"], "cook");
    let cook = &export["cooks"][0];
    assert_eq!(cook["title"], "Lamb left to wait");
    assert_eq!(cook["serves"]["people"], 6);
    let lamb = &cook["items"][0];
    assert_eq!((&lamb["name"], &lamb["kind"]), (&"lamb".into(), &"lamb leg".into()));
    let close = |value: &serde_json::Value, expected: f64| {
        let value = value.as_f64().unwrap_or_else(|| panic!("{value} is no number"));
        assert!((value - expected).abs() < 1e-9, "{value} is not {expected}");
    };
    close(&lamb["origin"]["food"]["shape"]["thickness_m"], 0.09);
    close(&lamb["origin"]["food"]["amount"]["mass_kg"], 2.4);
    close(&lamb["origin"]["food"]["starts_at_c"], 5.0);
    let roast = &cook["phases"][0];
    close(&roast["setting"]["temperature_c"], 140.0);
    close(&roast["lasts"]["nature"]["low_s"], 6300.0);
    close(&roast["until"][0]["core_c"], 63.0);
    assert_eq!(roast["placed"][0]["food"], "lamb");
    close(&roast["masses"][0]["start_kg"], 2.4);
    let judged = cook["judged"].as_array().unwrap();
    assert!(judged.iter().any(|row| row["verdict"] == "broken" && row["phase"] == "wait"), "{judged:?}");
    assert_eq!(cook["phases"][2]["service"]["at"]["at"]["time"], "19:00");
}

#[test]
fn scaling_changes_amounts_and_not_thickness() {
    let folder = Folder::with("apples.dwell", GOOD);
    let mass = |words: &[&str]| {
        let export = json(&folder.run(words).out);
        export["cooks"][0]["items"][0]["origin"]["food"]["amount"]["mass_kg"].as_f64().unwrap()
    };
    assert!((mass(&["export", "apples.dwell"]) - 0.6).abs() < 1e-9);
    assert!((mass(&["export", "--serves", "12", "apples.dwell"]) - 1.8).abs() < 1e-9);
}

#[test]
fn nothing_is_exported_from_a_cook_that_is_not_understood() {
    let folder = Folder::with("odd.dwell", GOOD.replace("serves 4", "serves many"));
    let ran = folder.run(&["export", "-o", "odd.json", "odd.dwell"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(1), ""));
    assert_eq!(folder.names(), ["odd.dwell"]);
    assert!(ran.err.contains("nothing is written"), "{}", ran.err);
}

/// One type, and one description: what `timeline --format json` says stands in the export word for word.
#[test]
fn the_export_holds_the_timeline_that_the_timeline_command_gives() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    let alone = json(&folder.run(&["timeline", "--format", "json", "lamb.dwell"]).out);
    let export = json(&folder.run(&["export", "lamb.dwell"]).out);
    assert_eq!(alone["format"], "dwell.timeline/1");
    assert!(alone["phases"].as_array().is_some_and(|phases| phases.len() == 3), "{alone}");
    assert_eq!(export["cooks"][0]["timeline"], alone);
}

#[test]
fn the_schema_says_what_is_promised_of_time_and_what_is_not() {
    let folder = Folder::with("apples.dwell", GOOD);
    let schema = json(&folder.run(&["schema"]).out);
    let timeline = &schema["$defs"]["Timeline"];
    assert!(timeline["properties"]["on_time"].is_object(), "{timeline}");
    let words = |definition: &str| {
        let all = schema["$defs"][definition]["oneOf"].as_array().cloned().unwrap_or_default();
        all.iter().map(|one| one["const"].as_str().unwrap_or_default().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(words("OnTime"), ["always", "if-lucky", "never", "not-proved"]);
    assert_eq!(words("Windows"), ["exact", "bounds", "one-way"]);
    let not_proved = schema["$defs"]["OnTime"]["oneOf"][3]["description"].as_str().unwrap_or_default();
    assert!(not_proved.contains("may be on time or late"), "{not_proved}");
}
