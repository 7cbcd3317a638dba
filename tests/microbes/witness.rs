//! A second way to the same figures: the differential equations in small explicit steps, over many random histories.
//!
//! The figures of the models are read from the file of cases, not from dwell's table; the steps know nothing of straight
//! pieces, of where anything starts, or of a solution. `microbes.py` beside this does it a third way.

use std::io::Write;
use std::process::{Command, Stdio};

use dwell::safety::history::History;
use dwell::safety::microbes::{Sort, exposure};
use dwell::tables::{FoodState, Species};
use serde_json::json;

use crate::common::dice::Dice;
use crate::organism;

const HISTORIES: usize = 1000;
const WITHIN_LOG10: f64 = 0.05;
/// No step is longer, and none warmer or colder than the one before by more.
const STEP_S: f64 = 10.0;
const STEP_K: f64 = 0.2;
/// Listeria below 60 °C, minutes for one log10 at 60 °C and kelvin for tenfold: an upper envelope of published D values.
const LISTERIA_LOW: (f64, f64) = (7.18, 4.8);

/// Name in the table, lethality and growth in the file of cases.
const KEYS: [(&str, Option<&str>, &str); 5] = [
    ("Salmonella", Some("salmonella_meat"), "salmonella"),
    ("Listeria monocytogenes", Some("listeria"), "listeria"),
    ("Clostridium perfringens", Some("perfringens_cells"), "perfringens"),
    ("Bacillus cereus", None, "bcereus"),
    ("Staphylococcus aureus", None, "saureus"),
];

const BEEF: [Sort; 1] = [Sort { species: Species::Beef, state: FoodState::Ground }];

/// Minutes and °C: heating, holding, cooling and jumps, over 1 to 30 hours.
fn histories() -> Vec<Vec<(f64, f64)>> {
    let mut dice = Dice(0x5eed_0fd3);
    (0..HISTORIES)
        .map(|_| {
            let mut at = (0.0, dice.roll(-20, 250) as f64 / 10.0);
            let mut points = vec![at];
            for _ in 0..dice.roll(2, 12) {
                if !dice.one_in(8) {
                    at.0 += dice.roll(2, 150) as f64;
                }
                if !dice.one_in(3) {
                    at.1 = dice.roll(-20, 750) as f64 / 10.0;
                }
                points.push(at);
            }
            points
        })
        .collect()
}

struct Figures(toml::Table);

impl Figures {
    fn read() -> Self {
        Self(toml::from_str(include_str!("../reference/microbes/dynamic-cases.toml")).expect("cases"))
    }

    fn of(&self, part: &str, name: &str, key: &str) -> Option<f64> {
        self.0[part][name].get(key).and_then(toml::Value::as_float)
    }
}

/// What is killed and grown, step by step.
fn stepped(figures: &Figures, lethality: Option<&str>, growth: &str, points: &[(f64, f64)]) -> (f64, f64) {
    let death = |key| lethality.map(|name| figures.of("lethality", name, key).expect("a figure"));
    let death = death("d_ref_min").zip(death("t_ref_c")).zip(death("z_c"));
    let of = |key| figures.of("growth", growth, key);
    let [mu_opt, min, opt, max] =
        ["mu_opt_per_h", "t_min_c", "t_opt_c", "t_max_c"].map(|key| of(key).expect("a figure"));
    // How ready, and how many, in natural logarithms; a population that never waits is ready beyond measure.
    let (mut ready, mut many) = (of("q0").map_or(f64::INFINITY, f64::ln), 0.0_f64);
    let room = 9.0 * std::f64::consts::LN_10;
    let mut killed = 0.0;
    for pair in points.windows(2) {
        let lasts_s = (pair[1].0 - pair[0].0) * 60.0;
        let steps = (lasts_s / STEP_S).max((pair[1].1 - pair[0].1).abs() / STEP_K).ceil();
        let steps = if lasts_s > 0.0 { steps } else { 0.0 };
        for nth in 0..steps as usize {
            let celsius = pair[0].1 + (pair[1].1 - pair[0].1) * (nth as f64 + 0.5) / steps;
            let step_h = lasts_s / steps / 3600.0;
            if let Some(((d_min, t_ref), z)) = death
                && celsius >= 54.4
            {
                let (d_min, t_ref, z) = match lethality {
                    Some("listeria") if celsius < 60.0 => (LISTERIA_LOW.0, 60.0, LISTERIA_LOW.1),
                    _ => (d_min, t_ref, z),
                };
                killed += 60.0 * step_h / (d_min * 10_f64.powf((t_ref - celsius) / z));
            }
            if min < celsius && celsius < max {
                // The cardinal model in other letters: shares of the way from the lowest.
                let (x, top) = ((celsius - min) / (opt - min), (max - min) / (opt - min));
                let mu = mu_opt * x * x * (top - x) / ((top - 1.0) * (2.0 * x - 1.0) - (x - 1.0));
                ready += mu * step_h;
                many += mu * step_h / (1.0 + (-ready).exp()) * (1.0 - (many - room).exp());
            }
        }
    }
    (killed, many / std::f64::consts::LN_10)
}

/// dwell's own, for the same history.
fn ours(name: &str, points: &[(f64, f64)]) -> (Option<f64>, f64) {
    let history =
        History::from_celsius(points.iter().map(|(min, celsius)| (min * 60.0, *celsius))).expect("a history");
    let exposure = exposure(organism(name), &BEEF, &history);
    (exposure.reduction_log10, exposure.growth_log10(organism(name)))
}

#[test]
fn small_steps_come_to_the_same() {
    let figures = Figures::read();
    let (mut killing, mut growing) = (0, 0);
    let (mut worst_killed, mut worst_grown) = (0.0_f64, 0.0_f64);
    for points in histories() {
        for (name, lethality, growth) in KEYS {
            let (killed, grown) = stepped(&figures, lethality, growth, &points);
            let (our_killed, our_grown) = ours(name, &points);
            if lethality.is_some() && killed < 12.0 {
                let off = (our_killed.expect("a figure") - killed).abs();
                assert!(off < WITHIN_LOG10, "{name}: {our_killed:?}, steps {killed}: {points:?}");
                worst_killed = worst_killed.max(off);
                killing += usize::from(killed > 0.1);
            } else if let (Some(_), Some(our_killed)) = (lethality, our_killed) {
                assert!(
                    (our_killed / killed - 1.0).abs() < 0.005,
                    "{name}: {our_killed}, steps {killed}: {points:?}"
                );
            }
            let off = (our_grown - grown).abs();
            assert!(off < WITHIN_LOG10, "{name}: {our_grown}, steps {grown}: {points:?}");
            worst_grown = worst_grown.max(off);
            growing += usize::from(grown > 0.1);
        }
    }
    println!("worst of {HISTORIES}: killed {worst_killed:.4}, grown {worst_grown:.4} log10");
    // Not all of them nothing.
    assert!(killing > 100 && growing > 3000, "{killing} {growing}");
}

#[test]
#[ignore = "NOT RUN unless asked for: needs Python 3.11 with numpy and scipy"]
fn numpy_comes_to_the_same() {
    let rows = histories().into_iter().map(|points| {
        let answers: serde_json::Map<String, serde_json::Value> = KEYS
            .iter()
            .map(|(name, _, growth)| {
                let (killed, grown) = ours(name, &points);
                ((*growth).to_owned(), json!({ "reduction_log10": killed, "growth_log10": grown }))
            })
            .collect();
        json!({ "points": points, "answers": answers })
    });
    let document = json!({ "cases": rows.collect::<Vec<_>>() }).to_string();
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/microbes/microbes.py");
    let mut python =
        Command::new("python3").arg(script).stdin(Stdio::piped()).spawn().expect("Python is there");
    python.stdin.take().expect("a pipe").write_all(document.as_bytes()).expect("written");
    assert!(python.wait().expect("an end").success(), "see what it printed above");
}
