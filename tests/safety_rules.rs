//! The rule sets hold the figures that were published, and read them as their publishers print them.

use dwell::cook::Purpose;
use dwell::quantity::Temperature;
use dwell::safety::listing;
use dwell::tables::{Demand, Limit, RuleSet, RuleSets, Status};

fn set(name: &str) -> &'static RuleSet {
    RuleSets::built_in().find(name).expect("a built-in set")
}

fn row(set_name: &str, id: &str) -> String {
    let rows = listing(set(set_name));
    rows.iter().find(|row| row.id == id).unwrap_or_else(|| panic!("no row {id}")).figures.clone()
}

/// FDA Food Code 2022, 3-401.11(B)(1) chart, read on Alaska 18 AAC 31.232 Table D and on the Florida
/// adoption: degrees Fahrenheit, degrees Celsius as printed, seconds.
const ROASTS: [(f64, f64, f64); 17] = [
    (130.0, 54.4, 112.0 * 60.0),
    (131.0, 55.0, 89.0 * 60.0),
    (133.0, 56.1, 56.0 * 60.0),
    (135.0, 57.2, 36.0 * 60.0),
    (136.0, 57.8, 28.0 * 60.0),
    (138.0, 58.9, 18.0 * 60.0),
    (140.0, 60.0, 12.0 * 60.0),
    (142.0, 61.1, 8.0 * 60.0),
    (144.0, 62.2, 5.0 * 60.0),
    (145.0, 62.8, 4.0 * 60.0),
    (147.0, 63.9, 134.0),
    (149.0, 65.0, 85.0),
    (151.0, 66.1, 54.0),
    (153.0, 67.2, 34.0),
    (155.0, 68.3, 22.0),
    (157.0, 69.4, 14.0),
    (158.0, 70.0, 0.0),
];

#[test]
fn the_chart_for_roasts_is_the_published_one() {
    let rule = set("us-food-code").rule("us-fc.roast").expect("the chart");
    let Demand::Cook { points, .. } = &rule.demand else { panic!("{:?}", rule.demand) };
    let held: Vec<_> = points.iter().map(|p| (p.f.unwrap(), p.c.unwrap(), p.hold_s)).collect();
    assert_eq!(held, ROASTS);
}

#[test]
fn single_figures_are_the_published_ones() {
    // FDA Food Code 2022: 3-401.11(A), (C), 3-401.13, 3-403.11, 3-501.13, .14, .16, .19, 1-201.10(B)
    // table B, read on state texts that adopt the Code (Delaware, Washington, Georgia, Florida).
    let us = [
        ("us-fc.cook.145", "63 °C (145 °F) for 15 s"),
        ("us-fc.cook.155", "68 °C (155 °F) for 17 s"),
        ("us-fc.cook.chart.145", "63 °C (145 °F) for 3 min"),
        ("us-fc.cook.chart.150", "66 °C (150 °F) for 1 min"),
        ("us-fc.cook.chart.158", "70 °C (158 °F)"),
        ("us-fc.cook.165", "74 °C (165 °F)"),
        ("us-fc.cook.steak", "surface 63 °C (145 °F)"),
        ("us-fc.cook.plant", "57 °C (135 °F)"),
        ("us-fc.hold.hot", "57 °C (135 °F) or above"),
        ("us-fc.hold.hot.roast", "54 °C (130 °F) or above"),
        ("us-fc.hold.cold", "5 °C (41 °F) or below"),
        ("us-fc.hold.eggs", "7 °C (45 °F) or below"),
        ("us-fc.tphc.4h", "4 h between 5 °C (41 °F) and 57 °C (135 °F), from leaving it to the end"),
        ("us-fc.cool.stage1", "57 °C (135 °F) to 21 °C (70 °F) within 2 h"),
        ("us-fc.cool.total", "57 °C (135 °F) to 5 °C (41 °F) within 6 h"),
        ("us-fc.reheat.general", "74 °C (165 °F) for 15 s, within 2 h"),
        ("us-fc.reheat.commercial", "57 °C (135 °F), within 2 h"),
        ("us-fc.reheat.roast", "as us-fc.roast"),
        ("us-fc.date.7d", "7 days"),
        ("us-fc.thaw.fridge", "5 °C (41 °F) or below"),
        ("us-fc.thaw.water", "21 °C (70 °F) or below"),
        ("us-fc.tcs.b.4", "pH below 4.2"),
    ];
    for (id, figures) in us {
        assert_eq!(row("us-food-code", id), figures, "{id}");
    }
    // Food Hygiene Regulations 2006 (Wales, Northern Ireland), schedule 4: 63 °C, 8 °C, less than 2 h,
    // less than 4 h. Food Standards Agency: 70 °C for 2 min and what it prints as equal to it, cooling
    // in one to two hours.
    let uk = [
        ("uk.cook.60", "60 °C for 45 min"),
        ("uk.cook.65", "65 °C for 10 min"),
        ("uk.cook.70", "70 °C for 2 min"),
        ("uk.cook.75", "75 °C for 30 s"),
        ("uk.cook.80", "80 °C for 6 s"),
        ("uk.hold.hot", "63 °C or above"),
        ("uk.hold.cold", "8 °C or below"),
        ("uk.hold.hot.tolerance", "less than 2 h below 63 °C, once only"),
        ("uk.hold.cold.tolerance", "less than 4 h above 8 °C, once only"),
        ("uk.cool.1to2h", "within 2 h"),
    ];
    for (id, figures) in uk {
        assert_eq!(row("uk", id), figures, "{id}");
    }
}

#[test]
fn a_limit_is_met_by_either_published_figure_and_missed_by_the_smallest_step() {
    // 135 °F is printed as 57 °C, and is 57.2: a cook in Celsius is not refused the Code's own figure.
    let hot = Limit { c: Some(57.0), f: Some(135.0) };
    assert!(hot.at_least(Temperature::from_celsius(57.0), false));
    assert!(hot.at_least(Temperature::from_fahrenheit(135.0), false));
    assert!(!hot.at_least(Temperature::from_celsius(56.99), false));
    assert!(!hot.at_least(Temperature::from_celsius(57.0), true));
    // 145 °F is 62.8 °C, and is printed as 63: here the Fahrenheit figure is the lower.
    let cook = Limit { c: Some(63.0), f: Some(145.0) };
    assert!(cook.at_least(Temperature::from_fahrenheit(145.0), false));
    assert!(!cook.at_least(Temperature::from_fahrenheit(144.9), false));
    let cold = Limit { c: Some(5.0), f: Some(41.0) };
    assert!(cold.at_most(Temperature::from_celsius(5.0), false));
    assert!(cold.at_most(Temperature::from_fahrenheit(41.0), false));
    assert!(!cold.at_most(Temperature::from_celsius(5.01), false));
    assert!(!cold.at_most(Temperature::from_fahrenheit(41.0), true));
}

#[test]
fn every_file_of_the_folder_is_built_in() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/tables/data/rules");
    let mut files: Vec<String> = std::fs::read_dir(folder)
        .expect("the folder")
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().replace(".toml", ""))
        .collect();
    files.sort();
    let mut names: Vec<String> = RuleSets::built_in().names().map(String::from).collect();
    names.sort();
    assert_eq!(files, names, "a file has the name of its set, and stands in FILES");
    assert_eq!(RuleSets::built_in().assumed().id, "us-food-code");
    assert!(RuleSets::built_in().find("US-Food-Code").is_some());
    assert!(RuleSets::built_in().find("us").is_none());
}

/// A set is found by the name of its file before anything in it is read.
#[test]
fn every_file_is_named_after_its_set() {
    let sets = RuleSets::built_in();
    assert!(sets.names().eq(sets.sets().map(|set| set.id.as_str())));
}

#[test]
fn ids_are_unique_and_cross_references_resolve() {
    for set in RuleSets::built_in().sets() {
        let rows = listing(set);
        let mut ids: Vec<&str> = rows.iter().map(|row| row.id.as_str()).collect();
        ids.sort_unstable();
        let all = ids.len();
        ids.dedup();
        assert_eq!(ids.len(), all, "{} has an id twice", set.id);
        for rule in &set.rules {
            assert!(!rule.asks.is_empty() && !rule.clause.is_empty(), "{}", rule.id);
            match &rule.demand {
                Demand::HotHold { after: Some(id), .. } => assert!(set.rule(id).is_some(), "{id}"),
                Demand::Reheat { points, points_of, after, .. } => {
                    assert!(points.is_empty() != points_of.is_none(), "{}: points, or points_of", rule.id);
                    for id in points_of.iter().chain(after) {
                        let other = set.rule(id).unwrap_or_else(|| panic!("{}: no rule {id}", rule.id));
                        assert!(matches!(other.demand, Demand::Cook { .. }), "{id}");
                    }
                }
                Demand::Cook { points, then } => {
                    assert!(!points.is_empty(), "{}", rule.id);
                    assert!(points.iter().all(|p| p.c.is_some() || p.f.is_some()), "{}", rule.id);
                    assert!(then.iter().all(|word| purpose(word)), "{}", rule.id);
                }
                Demand::Listed { purposes, needs, .. } => {
                    assert!(!needs.is_empty() && purposes.iter().all(|word| purpose(word)), "{}", rule.id);
                }
                _ => {}
            }
        }
    }
}

fn purpose(word: &str) -> bool {
    word == "serve" || Purpose::WRITTEN.iter().any(|purpose| purpose.words().replace(' ', "-") == word)
}

/// A misspelt key would silently change a rule, and serde does not refuse one beside a flattened enum.
#[test]
fn no_key_of_a_rule_is_misspelt() {
    let known = [
        "id",
        "kind",
        "asks",
        "clause",
        "source",
        "status",
        "foods",
        "condition",
        "strict",
        "advice",
        "not_for_vulnerable",
        "vulnerable_only",
        "points",
        "then",
        "surface",
        "min",
        "after",
        "max",
        "max_s",
        "clock",
        "further",
        "side",
        "from",
        "to",
        "points_of",
        "bought_cooked",
        "window_s",
        "max_days",
        "media",
        "ph_below",
        "ph_max",
        "purposes",
        "needs",
        "exempt",
        "bagged",
        "max_ppm",
        "way",
        "out",
        "window_from",
        "served",
        "aims",
        "on_curve",
        "option",
        "besides",
        "intact_by_surface",
    ];
    for set in RuleSets::built_in().sets() {
        let path = format!("{}/src/tables/data/rules/{}.toml", env!("CARGO_MANIFEST_DIR"), set.id);
        let file: toml::Table = toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        for rule in file["rule"].as_array().unwrap() {
            for key in rule.as_table().unwrap().keys() {
                assert!(known.contains(&key.as_str()), "{}: {key} in {}", set.id, rule["id"]);
            }
        }
    }
}

#[test]
fn nothing_rests_on_memory_unsaid() {
    // Said in the file, in the listing and in its finding, which is only a warning; and never called met. Too much
    // nitrite is an error even so: it poisons.
    let allowed = |demand: &Demand| {
        matches!(
            demand,
            Demand::FreezeFish { .. }
                | Demand::FermentEnd { .. }
                | Demand::KeepUnderOil { .. }
                | Demand::Nitrite { .. }
        )
    };
    for set in RuleSets::built_in().sets() {
        for rule in set.rules.iter().filter(|rule| rule.status == Status::Memory) {
            let only_listed = matches!(rule.demand, Demand::Listed { .. }) && rule.on_curve.is_none();
            assert!(allowed(&rule.demand) || only_listed, "{}: judged, and from memory", rule.id);
        }
    }
}
