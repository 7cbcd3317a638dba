//! The order of accuracy, measured on a smooth cook: a wet surface, walls that radiate, a slow ramp.

use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::composition::Composition;
use dwell::heat::conduction::freezing::Food;
use dwell::heat::conduction::history::Sample;
use dwell::heat::conduction::material::Material;
use dwell::heat::conduction::phase::{End, PhaseHeat};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::Form;
use dwell::heat::conduction::solve::{Accuracy, solve};
use dwell::heat::conduction::surface::Humidity;

const LASTS_S: f64 = 7200.0;

fn constant() -> Material {
    Material::constant(0.45, 1040.0, 3300.0).expect("material")
}

fn by_composition() -> Material {
    let parts = Composition { water: 70.0, protein: 20.0, fat: 9.0, carbohydrate: 0.0, fibre: 0.0, ash: 1.0 };
    Material::food(Food::new(parts, -1.7).expect("food"))
}

/// Core, surface and mean at two moments, °C.
fn run(material: Material, beta: f64, accuracy: Accuracy) -> Vec<f64> {
    let body = Body::uniform(Form::new(0.03, beta).expect("form"), material, 20.0).expect("body");
    let ramp = Ramp::new("medium", vec![(0.0, 20.0), (LASTS_S, 110.0)]).expect("ramp");
    let phase = PhaseHeat {
        emissivity: 0.9,
        wetness: Ramp::constant(0.2),
        // Drier than the surface from the beginning, so that evaporation has no corner.
        humidity: Humidity::Ratio(0.002),
        ..PhaseHeat::convective(ramp, 15.0, End { duration_s: Some(LASTS_S), until: None })
    };
    let history = solve(&body, &[phase], accuracy).expect("solved");
    let last = history.samples.last().expect("samples");
    let half = |follow| history.at(0, 0.5 * LASTS_S, follow).expect("inside");
    vec![last.core_c, last.surface_c, last.mean_c, half(Sample::core), half(Sample::mean)]
}

/// log2 of how much the differences shrink from one halving to the next.
fn order(coarse: &[f64], middle: &[f64], fine: &[f64]) -> f64 {
    let distance = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| (x - y).powi(2)).sum::<f64>().sqrt();
    (distance(coarse, middle) / distance(middle, fine)).log2()
}

#[test]
fn second_order_in_space() {
    for beta in [0.0, 0.7, 1.0, 2.0] {
        let at = |cells| run(constant(), beta, Accuracy { cells, step_error_k: 1e-6, longest_step_s: 40.0 });
        let measured = order(&at(18), &at(36), &at(72));
        println!("beta {beta}: order in space {measured:.3}");
        assert!((1.85..2.2).contains(&measured), "beta {beta}: {measured}");
    }
}

#[test]
fn at_least_second_order_in_time() {
    for (name, material) in [("constant", constant()), ("by composition", by_composition())] {
        for beta in [0.0, 0.7, 1.0, 2.0] {
            let at = |step_s| {
                let fixed = Accuracy { cells: 24, step_error_k: f64::INFINITY, longest_step_s: step_s };
                run(material.clone(), beta, fixed)
            };
            for step_s in [300.0, 150.0] {
                let measured = order(&at(step_s), &at(0.5 * step_s), &at(0.25 * step_s));
                println!("{name}, beta {beta}, {step_s} s: order in time {measured:.3}");
                assert!(measured > 1.85, "{name}, beta {beta}: {measured}");
            }
        }
    }
}
