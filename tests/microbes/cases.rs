//! Every case of every file in `reference/microbes`: histories with answers by somebody else's arithmetic.
//!
//! A file brings its own figures for the models and is run with them, and with the table of dwell where that has the same
//! organism. What a file may hold is listed here; anything else fails.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use dwell::safety::history::{Figure, Food, History, judge};
use dwell::safety::microbes::{Sort, exposure, grown_ln, growth_log10, reduction_log10};
use dwell::tables::microbes::DeathLine;
use dwell::tables::{Aim, Band, Count, Course, FoodState, Limit, RuleSet, RuleSets, Species};
use serde::Deserialize;

use crate::{growth, history, organism};

/// log10, whatever a file allows itself.
const WITHIN_LOG10: f64 = 0.05;
/// Answers have six digits.
const DIGITS: f64 = 2e-5;
/// "Read any growth above about 6 as at least 6."
const MOST_LOG10: f64 = 6.0;
/// More than grows in any history: the answers have no ceiling.
const NO_CEILING_LOG10: f64 = 300.0;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    meta: Meta,
    #[serde(default)]
    lethality: BTreeMap<String, Death>,
    #[serde(default)]
    growth: BTreeMap<String, Cardinal>,
    case: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Meta {
    schema: u32,
    #[serde(rename = "file")]
    _file: Option<String>,
    #[serde(rename = "compiled")]
    _compiled: Option<String>,
    #[serde(rename = "status")]
    _status: Option<String>,
    credit_min_c: f64,
    tol_log10: f64,
    tol_relative: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Death {
    d_ref_min: f64,
    t_ref_c: f64,
    z_c: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Cardinal {
    mu_opt_per_h: f64,
    t_min_c: f64,
    t_opt_c: f64,
    t_max_c: f64,
    lag: bool,
    q0: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    id: String,
    #[serde(rename = "about")]
    _about: Option<String>,
    t_h: Vec<f64>,
    temp_c: Vec<f64>,
    #[serde(default)]
    times: BTreeMap<String, f64>,
    #[serde(default)]
    lethality: BTreeMap<String, Killed>,
    #[serde(default)]
    growth: BTreeMap<String, Grown>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Killed {
    f_ref_min: Option<f64>,
    reduction_log10: Option<f64>,
    reduction_credited_log10: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Grown {
    m_ln: Option<f64>,
    m_heat_ln: Option<f64>,
    m_hold_ln: Option<f64>,
    m_cool_ln: Option<f64>,
    growth_log10: Option<f64>,
    growth_no_lag_log10: Option<f64>,
    growth_heat_log10: Option<f64>,
    growth_cool_log10: Option<f64>,
}

fn files() -> Vec<(String, File)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/microbes");
    let mut files: Vec<(String, File)> = fs::read_dir(&folder)
        .expect("the folder of cases")
        .map(|entry| entry.expect("an entry").path())
        .map(|path| {
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            assert!(name.ends_with(".toml"), "{name} is no file of cases");
            let text = fs::read_to_string(&path).expect("a text");
            let file: File = toml::from_str(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
            assert_eq!(file.meta.schema, 1, "{name}");
            assert!(!file.case.is_empty(), "{name} has no case");
            (name, file)
        })
        .collect();
    files.sort_by(|(a, _), (b, _)| a.cmp(b));
    files
}

/// Each case of each file with where it stands.
fn each_case(mut check: impl FnMut(&str, &File, &Case)) {
    let files = files();
    assert!(files.iter().any(|(name, _)| name == "dynamic-cases.toml"));
    for (name, file) in &files {
        for case in &file.case {
            check(&format!("{name}: {}", case.id), file, case);
        }
    }
}

/// Holds an answer, where there is one.
fn hold(what: &str, answer: Option<f64>, ours: f64, within: f64) {
    let Some(answer) = answer else { return };
    let within = within + DIGITS * answer.abs();
    assert!((ours - answer).abs() <= within, "{what}: {ours}, but the answer is {answer}");
}

/// The history up to the first moment at its highest, from there to the last, and from there on.
fn parts(case: &Case) -> [History; 3] {
    let highest = case.temp_c.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let first = case.temp_c.iter().position(|celsius| *celsius == highest).expect("a highest");
    let last = case.temp_c.iter().rposition(|celsius| *celsius == highest).expect("a highest");
    let end = case.temp_c.len() - 1;
    [(0, first), (first, last), (last, end)]
        .map(|(from, to)| history(&case.t_h[from..=to], &case.temp_c[from..=to]))
}

#[test]
fn killing_by_the_figures_of_the_file() {
    each_case(|place, file, case| {
        let whole = history(&case.t_h, &case.temp_c);
        for (name, answer) in &case.lethality {
            let what = format!("{place}: {name}");
            let death = file.lethality.get(name).unwrap_or_else(|| panic!("{what}: no figures for it"));
            let line = DeathLine {
                from_c: None,
                d_ref_min: death.d_ref_min,
                t_ref_c: death.t_ref_c,
                z_c: death.z_c,
            };
            let all = reduction_log10(&[line], &whole, f64::NEG_INFINITY);
            let f_min = all * death.d_ref_min;
            hold(&what, answer.f_ref_min, f_min, file.meta.tol_relative * f_min);
            hold(&what, answer.reduction_log10, all, file.meta.tol_log10.min(WITHIN_LOG10));
            let credited = reduction_log10(&[line], &whole, file.meta.credit_min_c);
            hold(&what, answer.reduction_credited_log10, credited, file.meta.tol_log10.min(WITHIN_LOG10));
        }
    });
}

#[test]
fn growth_by_the_figures_of_the_file() {
    each_case(|place, file, case| {
        let whole = history(&case.t_h, &case.temp_c);
        let [heat, hold_, cool] = parts(case);
        for (name, answer) in &case.growth {
            let what = format!("{place}: {name}");
            let with = file.growth.get(name).unwrap_or_else(|| panic!("{what}: no figures for it"));
            assert_eq!(with.lag, with.q0.is_some(), "{what}");
            let figures = growth(with.mu_opt_per_h, with.t_min_c, with.t_opt_c, with.t_max_c, with.q0);
            let relative = |answer: Option<f64>| file.meta.tol_relative * answer.unwrap_or(0.0);
            let [m, m_heat, m_hold, m_cool] =
                [&whole, &heat, &hold_, &cool].map(|history| grown_ln(&figures, history));
            hold(&what, answer.m_ln, m, relative(answer.m_ln));
            hold(&what, answer.m_heat_ln, m_heat, relative(answer.m_heat_ln));
            hold(&what, answer.m_hold_ln, m_hold, relative(answer.m_hold_ln));
            hold(&what, answer.m_cool_ln, m_cool, relative(answer.m_cool_ln));
            let within = file.meta.tol_log10.min(WITHIN_LOG10);
            let log10 = |m: f64, q0: Option<f64>| growth_log10(m, q0, NO_CEILING_LOG10);
            hold(&what, answer.growth_log10, log10(m, with.q0), within);
            hold(&what, answer.growth_no_lag_log10, log10(m, None), within);
            hold(&what, answer.growth_heat_log10, log10(m_heat, with.q0), within);
            hold(&what, answer.growth_cool_log10, log10(m_cool, with.q0), within);
        }
    });
}

/// What dwell's own table says, which cooks see, against the answers that have the same organism.
#[test]
fn killing_and_growth_by_the_table() {
    let sort = |species| [Sort { species, state: FoodState::Intact }];
    each_case(|place, file, case| {
        let whole = history(&case.t_h, &case.temp_c);
        assert_eq!(file.meta.credit_min_c, 54.4, "{place}: the table credits from 54.4 °C");
        for (name, answer) in &case.lethality {
            let (organism, sort) = match name.as_str() {
                "salmonella_meat" => (organism("Salmonella"), sort(Species::Beef)),
                "salmonella_poultry" => (organism("Salmonella"), sort(Species::Poultry)),
                "perfringens_cells" => (organism("Clostridium perfringens"), sort(Species::Beef)),
                // The table has a slower line below 60 °C, which these answers leave out.
                "listeria" => {
                    let ours = exposure(organism("Listeria monocytogenes"), &sort(Species::Beef), &whole);
                    let most = answer.reduction_credited_log10.unwrap_or(f64::INFINITY);
                    assert!(
                        ours.reduction_log10.is_some_and(|ours| ours <= most * (1.0 + DIGITS)),
                        "{place}"
                    );
                    continue;
                }
                // Not in the table.
                "stec" | "stec_measured" => continue,
                other => panic!("{place}: {other} is not known here"),
            };
            let ours = exposure(organism, &sort, &whole).reduction_log10.expect("a figure");
            hold(&format!("{place}: {name}"), answer.reduction_credited_log10, ours, WITHIN_LOG10);
        }
        for (name, answer) in &case.growth {
            let organism = organism(match name.as_str() {
                "perfringens" => "Clostridium perfringens",
                "bcereus" => "Bacillus cereus",
                "saureus" => "Staphylococcus aureus",
                "salmonella" => "Salmonella",
                "listeria" => "Listeria monocytogenes",
                other => panic!("{place}: {other} is not known here"),
            });
            let ours = exposure(organism, &sort(Species::Beef), &whole).growth_log10(organism);
            let what = format!("{place}: {name}");
            match answer.growth_log10 {
                Some(answer) if answer > MOST_LOG10 => assert!(ours >= MOST_LOG10, "{what}: {ours}"),
                answer => hold(&what, answer, ours, WITHIN_LOG10),
            }
        }
    });
}

/// Hours between temperatures, by the judge of rules: the rules that count them, with the temperatures of the answer.
#[test]
fn hours_between_temperatures() {
    let mut run = 0;
    each_case(|place, file, case| {
        let whole = history(&case.t_h, &case.temp_c);
        let [heat, _, cool] = parts(case);
        for (kind, answer) in &case.times {
            let ours = match kind.as_str() {
                "come_up_10_to_54_4_h" => between(&heat, 10.0, 54.4),
                "cool_54_4_to_26_7_h" => falls(&cool, 54.4, 26.7, false),
                "cool_57_2_to_21_1_h" => falls(&cool, 57.2, 21.1, false),
                "cool_57_2_to_5_h" => falls(&cool, 57.2, 5.0, false),
                "cool_26_7_to_4_4_h" => falls(&cool, 26.7, 4.4, true),
                "hours_5_to_60" => between(&whole, 5.0, 60.0),
                other => panic!("{place}: {other} is not known here"),
            };
            // A history that ends at the very temperature is through by rounding alone.
            hold(&format!("{place}: {kind}"), Some(*answer), ours, file.meta.tol_relative * answer);
            run += 1;
        }
    });
    assert!(run > 20, "{run} times were run");
}

fn limit(celsius: f64) -> Limit {
    Limit { c: Some(celsius), f: None }
}

/// The hours that a rule of this course counts. Its own limit is so wide that it is never what ends the count.
fn hours(history: &History, aim: Aim, course: Course) -> f64 {
    let food = Food::new(Species::Beef, FoodState::Intact);
    let set = RuleSets::built_in().find("us-fsis").expect("the set");
    let mut rule = set.rule("us-fsis.cool.2.a").expect("a rule that is judged on a curve").clone();
    (rule.aims, rule.on_curve) = (Some(vec![aim]), Some(course));
    let set = RuleSet { rules: vec![rule], ..set.clone() };
    let outcomes = judge(history, &food, aim, &set);
    let [outcome] = outcomes.as_slice() else { panic!("{} rules", outcomes.len()) };
    match outcome.measured.expect("a figure").reached {
        Figure::Time(time) => time.seconds() / 3600.0,
        Figure::Temperature(_) => panic!("a time was asked for"),
    }
}

const NO_LIMIT_S: f64 = 1e9;

fn falls(history: &History, from_c: f64, to_c: f64, further: bool) -> f64 {
    let course = Course::Fall { from: Some(limit(from_c)), to: limit(to_c), max_s: NO_LIMIT_S, further };
    hours(history, Aim::Cool, course)
}

fn between(history: &History, above_c: f64, below_c: f64) -> f64 {
    let band = Band {
        above: Some(limit(above_c)),
        below: Some(limit(below_c)),
        count: Count::Total,
        ceiling: None,
        back_within_s: None,
        until_cooked: false,
    };
    hours(history, Aim::TimeControl, Course::Between { band, max_s: NO_LIMIT_S })
}
