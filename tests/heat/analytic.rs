//! The exact series for a body put into a medium of another temperature.

use crate::support::{files, number, plain, rows};
use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::history::History;
use dwell::heat::conduction::material::Material;
use dwell::heat::conduction::phase::{End, Goal, PhaseHeat, Place, Until};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::Form;
use dwell::heat::conduction::solve::{Accuracy, solve};

/// Share of the temperature step.
const ROOM: f64 = 1e-4;
const RADIUS_M: f64 = 0.04;
const K: f64 = 0.48;
const RHO_CP: f64 = 1050.0 * 3500.0;
const STEP_C: f64 = 60.0;

fn run(beta: f64, bi: f64, fo: f64) -> History {
    let material = Material::constant(K, 1050.0, 3500.0).expect("material");
    let body = Body::uniform(Form::new(RADIUS_M, beta).expect("form"), material, STEP_C).expect("body");
    let film = if bi.is_infinite() { 1e7 } else { bi * K / RADIUS_M };
    let duration_s = fo * RADIUS_M * RADIUS_M * RHO_CP / K;
    let end = End { duration_s: Some(duration_s), until: None };
    solve(&body, &[PhaseHeat::convective(Ramp::constant(0.0), film, end)], Accuracy::FULL).expect("solved")
}

#[test]
fn the_exact_series_is_met() {
    let rows = rows("theta");
    assert!(rows.len() >= 198, "only {} rows: the reference is gone", rows.len());
    let mut worst: f64 = 0.0;
    for (name, row) in rows {
        let (beta, bi, fo) = (number(&row, "beta"), number(&row, "bi"), number(&row, "fo"));
        let history = run(beta, bi, fo);
        let last = history.samples.last().expect("a sample");
        for (ours, key) in [(last.core_c, "centre"), (last.surface_c, "surface"), (last.mean_c, "mean")] {
            let off = (ours / STEP_C - number(&row, key)).abs();
            if off > worst {
                println!("{name}: beta {beta} Bi {bi} Fo {fo} {key}: off by {off:.2e}");
            }
            worst = worst.max(off);
        }
    }
    assert!(worst < ROOM, "{worst:e} of the step");
}

/// Temperatures only enter as shares of the step, so every example runs from 100 to 0 °C.
fn example_run(example: &toml::Value, end: impl Fn(f64) -> End) -> (History, f64) {
    let radius = example.get("half_thickness_m").or(example.get("radius_m")).and_then(plain).expect("radius");
    let beta = match example["shape"].as_str().expect("shape") {
        "slab" => 0.0,
        "cylinder" => 1.0,
        "sphere" => 2.0,
        other => panic!("{other}?"),
    };
    let (alpha, k) = (number(example, "alpha_m2_s"), number(example, "k_w_mk"));
    let material = Material::constant(k, k / alpha / 3000.0, 3000.0).expect("material");
    let body = Body::uniform(Form::new(radius, beta).expect("form"), material, 100.0).expect("body");
    let phase =
        PhaseHeat::convective(Ramp::constant(0.0), number(example, "h_w_m2k"), end(radius * radius / alpha));
    (solve(&body, &[phase], Accuracy::FULL).expect("solved"), radius * radius / alpha)
}

#[test]
fn worked_examples_are_met() {
    let mut found = 0;
    for (name, file) in files() {
        let Some(examples) = file.get("example") else { continue };
        for example in examples.as_array().expect("a list") {
            let (t0_c, medium_c) = (number(example, "t0_c"), number(example, "medium_c"));
            let fo = number(&example["exact"], "fo");
            let question = example["question"].as_str().expect("question");
            let target =
                |text: &str| text.split(' ').next().and_then(|c| c.parse::<f64>().ok()).expect("a target");
            let waited = [("surface to reach ", Place::Surface), ("centre to reach ", Place::Core)]
                .into_iter()
                .find_map(|(words, place)| Some((place, target(question.split_once(words)?.1))));
            if let Some((place, target_c)) = waited {
                let target_c = 100.0 * (target_c - medium_c) / (t0_c - medium_c);
                let until = Until { place, goal: Goal::AtMost, target_c };
                let (history, unit_s) =
                    example_run(example, |_| End { duration_s: None, until: Some(until) });
                let off = history.ends[0].at_s / (fo * unit_s) - 1.0;
                assert!(off.abs() < 5e-4, "{name}: {question}: off by {off}");
            } else if let Some(face_c) = example["exact"].get("face_c").and_then(plain) {
                let lasting = |unit_s: f64| End { duration_s: Some(fo * unit_s), until: None };
                let (history, _) = example_run(example, lasting);
                let last = history.samples.last().expect("a sample");
                let theta = (face_c - medium_c) / (t0_c - medium_c);
                assert!((last.core_c / 100.0 - theta).abs() < ROOM, "{name}: {question}: {last:?}");
                let flux = number(example, "h_w_m2k") * last.surface_c / 100.0 * (t0_c - medium_c);
                let expected = number(&example["exact"], "flux_w_m2");
                assert!((flux / expected - 1.0).abs() < 5e-4, "{name}: {question}: {flux}");
            } else {
                panic!("{name}: a question this test cannot read: {question}");
            }
            found += 1;
        }
    }
    assert!(found >= 3, "the worked examples are gone");
}
