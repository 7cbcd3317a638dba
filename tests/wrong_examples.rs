//! Each cook in `examples/wrong` has one fault, and that fault is what is said of it.

mod common;

use std::collections::BTreeMap;

/// File, code, and the text that the finding points at.
const FAULTS: &[(&str, &str, &str)] = &[
    ("comma-in-a-figure", "decimal-comma", "2,4"),
    ("core-without-a-probe", "probe-missing", "74 °C"),
    ("ingredient-in-the-oven", "ingredient-placed", "potatoes"),
    ("name-misspelt", "name-unknown", "rbu"),
    ("nobody-awake-to-turn-it-down", "never-on-time", "for 10 h"),
    ("oven-not-hot-enough", "setting-out-of-range", "air 140 °C"),
    ("raw-egg-on-cooked-ham", "raw-into-cooked", "all egg"),
    ("salt-overdrawn", "stock-overdrawn", "30 g of salt"),
    ("setting-without-a-scale", "unit-missing", "140"),
    ("stew-cooled-in-its-pot", "cool-too-slow", "takes 45 h to 80 h"),
    ("temperature-of-nothing", "temperature-of-what", "74 °C"),
    ("tender-without-a-time", "end-missing", "until core 74 °C and \"tender\""),
    ("too-late-for-lunch", "never-on-time", "takes 2 h 30 min to 4 h"),
    ("trays-without-a-depth", "count-without-shape", "6 trays of 3 kg"),
];

fn files() -> BTreeMap<String, String> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/wrong");
    std::fs::read_dir(folder)
        .expect("the wrong examples are in the project")
        .map(|entry| entry.expect("a readable folder").path())
        .map(|path| {
            let name = path.file_stem().expect("a file").to_string_lossy().to_string();
            (name, std::fs::read_to_string(&path).expect("a readable example"))
        })
        .collect()
}

#[test]
fn each_wrong_example_has_one_fault_and_no_other_finding() {
    let files = files();
    assert!(files.keys().map(String::as_str).eq(FAULTS.iter().map(|fault| fault.0)), "{:?}", files.keys());
    for &(name, code, at) in FAULTS {
        let found = common::texts::compiled(&files[name]);
        assert_eq!(found, [(code.to_string(), at.to_string())], "{name}");
    }
}

#[test]
fn each_wrong_example_says_first_what_is_wrong_and_is_laid_out() {
    for (name, text) in files() {
        let first = text.lines().next().expect("a line");
        assert!(first.starts_with("// ") && first.ends_with('.'), "{name}: {first}");
        let (tree, _) = dwell::syntax::parse(dwell::text::FileId(0), &text);
        assert_eq!(dwell::syntax::format(&tree, &text), text, "{name}");
    }
}
