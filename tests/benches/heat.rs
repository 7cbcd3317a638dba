//! How fast heat is: one body through a day's cook, the bound set by its tridiagonal solves alone, and all foods of the
//! overnight shoulder with their bounds.
//!
//! Run with `cargo bench --bench heat`. The targets are 1 ms for the body, 20 ms for a cook with its bounds, and 0.5 s for
//! a thousand draws of what is not known.
//! `tests/benches/scipy_ratio.py` compares it with a general solver.

#[allow(dead_code)]
#[path = "../common/dice.rs"]
mod dice;

use dice::Dice;
use dwell::compile::{Options, compile};
use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::composition::Composition;
use dwell::heat::conduction::freezing::Food;
use dwell::heat::conduction::material::Material;
use dwell::heat::conduction::mesh::Mesh;
use dwell::heat::conduction::phase::{End, Goal, PhaseHeat, Place, Until};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::Form;
use dwell::heat::conduction::solve::{Accuracy, solve};
use dwell::heat::conduction::surface::{Film, Humidity};
use dwell::heat::conduction::tridiagonal::Tridiagonal;
use dwell::heat::predict;
use dwell::text::{FileProblem, Files};
use std::hint::black_box;
use std::time::Instant;

/// Fastest of many, µs.
fn fastest_us(mut work: impl FnMut()) -> f64 {
    (0..2000)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64() * 1e6
        })
        .fold(f64::INFINITY, f64::min)
}

fn phases() -> Vec<PhaseHeat> {
    let lasting = |hours: f64| End { duration_s: Some(hours * 3600.0), until: None };
    let smoke = PhaseHeat {
        emissivity: 0.9,
        wetness: Ramp::constant(0.3),
        humidity: Humidity::Ratio(0.06),
        ..PhaseHeat::convective(Ramp::constant(107.0), 12.0, lasting(6.0))
    };
    let until = Until { place: Place::Core, goal: Goal::AtLeast, target_c: 93.0 };
    let oven = End { duration_s: None, until: Some(until) };
    let oven = PhaseHeat::convective(Ramp::constant(120.0), 15.0, oven);
    let hold = PhaseHeat::convective(Ramp::constant(66.0), 8.0, lasting(15.7));
    vec![smoke, oven, hold]
}

/// The club's kit, which the example names.
struct Kitchen;

impl Files for Kitchen {
    fn read(&self, _from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        let kit = include_bytes!("../../examples/clubhouse.dwell");
        if path == "clubhouse.dwell" { Ok((path.into(), kit.to_vec())) } else { Err(FileProblem::Missing) }
    }
}

fn whole_cook() {
    let text = include_bytes!("../../examples/overnight-shoulder.dwell").to_vec();
    let compiled = compile(&Kitchen, "shoulder.dwell".into(), text, &Options::default());
    let worked = compiled.cooks()[0];
    let us = fastest_us(|| {
        black_box(predict(black_box(worked.cook), worked.ledger));
    });
    println!("overnight shoulder, all its bounds: {us:.0} µs");
}

/// Thickness, settings, films, wetness and damp drawn anew each time, as finely as bounds are run; ms for all of them.
fn thousand_draws(material: &Material) -> f64 {
    let mut dice = Dice(0x5EED_0BEE);
    let mut share = |low: f64, high: f64| low + (high - low) * dice.roll(0, 1000) as f64 / 1000.0;
    let start = Instant::now();
    for _ in 0..1000 {
        let form = Form::new(0.04 * share(0.9, 1.1), 0.45).expect("form");
        let mut phases = phases();
        for phase in &mut phases {
            phase.medium_c = Ramp::constant(phase.medium_c.last() + share(-2.0, 2.0));
            phase.film = Film::Known(share(6.0, 16.0));
        }
        phases[0].wetness = Ramp::constant(share(0.0, 0.3));
        phases[0].humidity = Humidity::Ratio(share(0.01, 0.1));
        let body = Body::uniform(form, material.clone(), share(1.0, 7.0)).expect("body");
        black_box(solve(&body, &phases, Accuracy::COARSE)).expect("solved");
    }
    start.elapsed().as_secs_f64() * 1e3
}

fn main() {
    whole_cook();
    let form = Form::new(0.04, 0.45).expect("form");
    let constant = Material::constant(0.45, 1040.0, 3300.0).expect("material");
    let parts =
        Composition { water: 61.08, protein: 18.42, fat: 19.06, carbohydrate: 0.0, fibre: 0.0, ash: 0.88 };
    let food = Material::food(Food::new(parts, -1.7).expect("food"));
    for (name, material) in [("constant properties", constant), ("by composition", food)] {
        let body = Body::uniform(form, material, 4.0).expect("body");
        let phases = phases();
        let history = solve(&body, &phases, Accuracy::FULL).expect("solved");
        let hours = history.ends.last().expect("an end").at_s / 3600.0;
        let us = fastest_us(|| {
            black_box(solve(black_box(&body), black_box(&phases), Accuracy::FULL)).expect("solved");
        });
        let draws_ms = thousand_draws(&body.material);
        // Every step solves twice for the stages and twice for the error estimate.
        let n = Mesh::new(&form, Accuracy::FULL.cells).nodes();
        let (own, links) = (vec![1.0; n], vec![0.7; n - 1]);
        let (mut system, mut b) = (Tridiagonal::new(n), vec![1.0; n]);
        let steps = history.steps + history.rejected;
        let bound = fastest_us(|| {
            for _ in 0..steps {
                system.factor(black_box(&own), black_box(&links));
                for _ in 0..4 {
                    let (slope, known) = system.forward(black_box(&mut b));
                    system.backward(&mut b, known / (slope + 1.0));
                }
            }
        });
        println!(
            "{name}: {hours:.1} h, {steps} steps, {us:.0} µs; its tridiagonal solves alone {bound:.0} µs; 1,000 draws \
             {draws_ms:.0} ms"
        );
    }
}
