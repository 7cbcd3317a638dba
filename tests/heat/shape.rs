//! β from words, sides, thickness and volume.

use crate::support::{number, rows};
use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::error::HeatError;
use dwell::heat::conduction::material::Material;
use dwell::heat::conduction::phase::{End, Goal, PhaseHeat, Place, Until};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::{Form, Likeness, slowest_rate};
use dwell::heat::conduction::solve::{Accuracy, solve};

#[test]
fn the_slowest_term_is_that_of_the_exact_series() {
    for (_, row) in &rows("one_term_exact") {
        let bi = number(row, "bi").min(1e12);
        for (beta, key) in [(0.0, "slab"), (1.0, "cylinder"), (2.0, "sphere")] {
            let zeta = row[key][0].as_float().expect("zeta");
            let ours = slowest_rate(beta, bi).sqrt();
            assert!((ours - zeta).abs() < 1e-8, "Bi {bi} {key}: {ours}, {zeta}");
        }
    }
}

/// Minutes to a target in a bath, from the model in bath.toml.
fn minutes(
    likeness: Likeness,
    thickness_m: f64,
    bath_c: f64,
    film: f64,
    alpha: f64,
    from: f64,
    to: f64,
) -> f64 {
    let material = Material::constant(0.48, 0.48 / (alpha * 3500.0), 3500.0).expect("material");
    let body = Body::uniform(Form::new(0.5 * thickness_m, likeness.beta()).expect("form"), material, from)
        .expect("body");
    let goal = if to > from { Goal::AtLeast } else { Goal::AtMost };
    let until = Until { place: Place::Core, goal, target_c: to };
    let end = End { duration_s: None, until: Some(until) };
    let phase = PhaseHeat::convective(Ramp::constant(bath_c), film, end);
    solve(&body, &[phase], Accuracy::FULL).expect("solved").ends[0].at_s / 60.0
}

#[test]
fn shape_words_give_the_published_bath_times() {
    let mut checked = 0;
    for (table, bath_c, film, alpha, from, to, worst_published) in [
        ("heating_thawed", 60.0, 95.0, 1.4e-7, 5.0, 59.5, 0.14),
        ("cooling_ice_bath", 0.0, 100.0, 1.1e-7, 80.0, 5.0, 0.10),
    ] {
        for (_, row) in &rows(table) {
            let likeness = match row["shape"].as_str().expect("shape") {
                "slab" => Likeness::SlabLike,
                "cylinder-like" => Likeness::CylinderLike,
                "sphere-like" => Likeness::SphereLike,
                other => panic!("{other}?"),
            };
            let thickness_m = number(row, "thickness_mm") / 1000.0;
            let ours = minutes(likeness, thickness_m, bath_c, film, alpha, from, to);
            let other = number(row, "model_min");
            assert!((ours - other).abs() < 0.051 + 0.001 * other, "{row}: {ours}");
            if thickness_m >= 0.01 {
                let off = (ours / number(row, "minutes") - 1.0).abs();
                assert!(off < worst_published, "{row}: {ours} is {off} from the published time");
            }
            checked += 1;
        }
    }
    assert!(checked >= 100);
}

/// Centre theta of the body of that β.
fn centre(form: Form, bi: f64, fo: f64) -> f64 {
    let (k, rho_cp) = (0.48, 1000.0 * 3500.0);
    let radius = form.half_thickness_m;
    let material = Material::constant(k, 1000.0, 3500.0).expect("material");
    let body = Body::uniform(form, material, 100.0).expect("body");
    let end = End { duration_s: Some(fo * radius * radius * rho_cp / k), until: None };
    let phase = PhaseHeat::convective(Ramp::constant(0.0), bi * k / radius, end);
    solve(&body, &[phase], Accuracy::FULL).expect("solved").samples.last().expect("last").core_c / 100.0
}

/// A body of one dimension cannot have the shape of a brick's whole curve: it is early at first (by 0.073 of
/// the step at most), by 0.045 once the core is half way, which is what cooking and cooling wait for.
#[test]
fn bricks_cool_nearly_as_their_exact_products() {
    let (mut early, mut late): (f64, f64) = (0.0, 0.0);
    for (_, row) in &rows("product") {
        let form = match row["body"].as_str().expect("body") {
            "cube" => Form::brick([0.06; 3]),
            "brick 2:3:5" => Form::brick([0.10, 0.04, 0.06]),
            "brick 1:2:3" => Form::brick([0.04, 0.08, 0.12]),
            other => panic!("{other}?"),
        }
        .expect("form");
        let exact = number(row, "centre");
        let off = (centre(form, number(row, "bi"), number(row, "fo")) - exact).abs();
        let worst = if exact > 0.5 { &mut early } else { &mut late };
        *worst = worst.max(off);
    }
    println!("worst above half the step {early:.4}, below {late:.4}");
    assert!(early < 0.08 && late < 0.05, "{early} {late} of the step");
}

#[test]
fn thickness_and_volume_give_a_form_between_slab_and_ball() {
    let litres = |l: f64| l / 1000.0;
    let beta = |volume| Form::from_thickness(0.08, litres(volume)).expect("form").beta;
    let volumes = [0.27, 0.4, 0.512, 0.8, 2.0, 10.0];
    let betas: Vec<f64> = volumes.iter().map(|v| beta(*v)).collect();
    println!("{betas:?}");
    assert!(betas.windows(2).all(|w| w[0] > w[1]), "heavier is flatter: {betas:?}");
    assert!(betas[0] > 1.9 && betas[5] < 0.15, "{betas:?}");
    let few = Form::from_thickness(0.08, litres(0.1));
    assert!(matches!(few, Err(HeatError::TooLightForThickness { .. })), "{few:?}");
}

/// A bagged ham measured while cooling: 7.26 kg, 178 mm thick, air of -2 °C at 0.3 m/s, from 68.5 °C: 3.4
/// to 3.8 hours to 50 °C and 12.5 to 12.7 to 10 °C (James, S. J. and James, C., Meat Refrigeration, 2002,
/// table 16.4). The film of 9 W/(m² K), radiation included, is that of cross flow over a cylinder; nothing
/// is fitted.
#[test]
fn a_measured_ham_cools_nearly_so() {
    let volume_m3 = 7.26 / 1060.0;
    let form = Form::from_thickness(0.178, volume_m3).expect("form");
    let material = Material::constant(0.48, 1060.0, 0.48 / (1.33e-7 * 1060.0)).expect("material");
    let body = Body::uniform(form, material, 68.5).expect("body");
    let hours = |target_c| {
        let until = Until { place: Place::Core, goal: Goal::AtMost, target_c };
        let phase =
            PhaseHeat::convective(Ramp::constant(-2.0), 9.0, End { duration_s: None, until: Some(until) });
        solve(&body, &[phase], Accuracy::FULL).expect("solved").ends[0].at_s / 3600.0
    };
    let (to_50, to_10) = (hours(50.0), hours(10.0));
    println!("beta {:.2}, to 50 °C {to_50:.2} h, to 10 °C {to_10:.2} h", form.beta);
    assert!((to_50 / 3.6 - 1.0).abs() < 0.15, "{to_50}");
    assert!((to_10 / 12.6 - 1.0).abs() < 0.1, "{to_10}");
}
