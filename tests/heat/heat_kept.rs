//! Heat is neither made nor lost: while conducting, freezing, changing shape and merging.

use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::composition::Composition;
use dwell::heat::conduction::error::HeatError;
use dwell::heat::conduction::field::Field;
use dwell::heat::conduction::freezing::{Food, USUAL_FREEZING_C};
use dwell::heat::conduction::history::{History, Sample};
use dwell::heat::conduction::material::Material;
use dwell::heat::conduction::merge::{Part, mean_enthalpy_j_kg, merge};
use dwell::heat::conduction::mesh::Mesh;
use dwell::heat::conduction::phase::{End, PhaseHeat};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::Form;
use dwell::heat::conduction::solve::{Accuracy, solve};
use dwell::heat::conduction::surface::Humidity;

fn food(water: f64, protein: f64, fat: f64, carbohydrate: f64) -> Material {
    let parts = Composition { water, protein, fat, carbohydrate, fibre: 1.0, ash: 1.0 };
    Material::food(Food::new(parts, USUAL_FREEZING_C).expect("food"))
}

fn lasting(duration_s: f64) -> End {
    End { duration_s: Some(duration_s), until: None }
}

fn form(radius: f64, beta: f64) -> Form {
    Form::new(radius, beta).expect("form")
}

/// Heat that came in per volume, J/m³, in one phase.
fn taken(history: &History, phase: usize) -> f64 {
    history.ends[phase].heat_j_m2 * history.ends[phase].surface_per_m
}

#[test]
fn what_comes_in_is_what_is_there_frozen_or_not() {
    let constant = Material::constant(0.45, 1040.0, 3300.0).expect("material");
    for (material, start_c) in
        [(constant, 80.0), (food(73.0, 20.0, 5.0, 0.0), 4.0), (food(73.0, 20.0, 5.0, 0.0), -25.0)]
    {
        for beta in [0.0, 0.7, 2.0] {
            let body = Body::uniform(form(0.03, beta), material.clone(), start_c).expect("body");
            let freeze = PhaseHeat::convective(Ramp::constant(-35.0), 40.0, lasting(9000.0));
            let thaw = PhaseHeat {
                emissivity: 0.9,
                wetness: Ramp::constant(0.4),
                humidity: Humidity::Ratio(0.01),
                ..PhaseHeat::convective(Ramp::constant(90.0), 25.0, lasting(7000.0))
            };
            let history = solve(&body, &[freeze, thaw], Accuracy::FULL).expect("solved");
            let before = body.field.mean_enthalpy_j_m3();
            let gained = history.field.mean_enthalpy_j_m3() - before;
            let came_in = taken(&history, 0) + taken(&history, 1);
            assert!((gained - came_in).abs() < 1e-9 * before.abs().max(3e8), "{gained} {came_in}");
            assert!(taken(&history, 0) < -1e7 && taken(&history, 1) > 5e7);
        }
    }
}

/// The bookkeeping of the steps against the surface law at the temperatures in the history.
#[test]
fn the_heat_counted_is_the_heat_the_surface_law_gives() {
    let body = Body::uniform(form(0.03, 0.7), food(70.0, 20.0, 8.0, 0.0), 5.0).expect("body");
    let phase = PhaseHeat {
        emissivity: 0.9,
        wetness: Ramp::constant(0.2),
        humidity: Humidity::Ratio(0.03),
        ..PhaseHeat::convective(Ramp::constant(110.0), 15.0, lasting(7200.0))
    };
    let history = solve(&body, std::slice::from_ref(&phase), Accuracy::FULL).expect("solved");
    let surface = phase.surface_at(0.0, 0.0).expect("surface");
    let pieces = 72_000;
    let dt = 7200.0 / pieces as f64;
    let flux = |i: usize| {
        surface.flux(history.at(0, (i as f64 + 0.5) * dt, Sample::surface).expect("inside")).0 * dt
    };
    let total: f64 = (0..pieces).map(flux).sum();
    let counted = history.ends[0].heat_j_m2;
    assert!((total / counted - 1.0).abs() < 1e-3, "{total} {counted}");
}

#[test]
fn an_insulated_food_keeps_its_heat_and_evens_out() {
    let body = Body::uniform(form(0.02, 1.0), food(70.0, 20.0, 8.0, 0.0), 5.0).expect("body");
    let warm = PhaseHeat::convective(Ramp::constant(90.0), 100.0, lasting(300.0));
    let shut = PhaseHeat::convective(Ramp::constant(20.0), 0.0, lasting(40_000.0));
    let history = solve(&body, &[warm, shut], Accuracy::FULL).expect("solved");
    assert_eq!(taken(&history, 1).abs().max(1e-3), 1e-3);
    let last = history.samples.last().expect("last");
    assert!((last.core_c - last.surface_c).abs() < 1e-3, "{last:?}");
    let even_c = body.material.temperature_c(history.field.mean_enthalpy_j_m3());
    assert!((last.core_c - even_c).abs() < 0.02, "{} {even_c}", last.core_c);
}

#[test]
fn a_new_shape_keeps_the_heat_and_the_order_of_the_layers() {
    for material in [Material::constant(0.45, 1040.0, 3300.0).expect("material"), food(73.0, 20.0, 5.0, 0.0)]
    {
        let body = Body::uniform(form(0.05, 1.25), material, -20.0).expect("body");
        let warm = PhaseHeat::convective(Ramp::constant(120.0), 60.0, lasting(3600.0));
        let before = solve(&body, std::slice::from_ref(&warm), Accuracy::FULL).expect("solved");
        for (new, stirred) in [(form(0.01, 0.0), false), (form(0.02, 2.0), false), (form(0.05, 0.0), true)] {
            let new = if stirred { new.stirred() } else { new };
            // One second in which no heat goes in: what is left is what the new shape was given.
            let apart = PhaseHeat::convective(Ramp::constant(20.0), 0.0, lasting(1.0));
            let taken_up = Body { form: new, field: before.field.clone(), ..body.clone() };
            for accuracy in [Accuracy::FULL, Accuracy::COARSE] {
                let kept = solve(&taken_up, std::slice::from_ref(&apart), accuracy).expect("solved").field;
                let (old, now) = (before.field.mean_enthalpy_j_m3(), kept.mean_enthalpy_j_m3());
                assert!((now / old - 1.0).abs() < 1e-9, "{old} {now}");
            }
            let mesh = Mesh::new(&new, 64);
            let mut enthalpy = vec![0.0; mesh.nodes()];
            before.field.onto(&mesh, &mut enthalpy);
            let (old, now) = (before.field.mean_enthalpy_j_m3(), mesh.mean(&enthalpy));
            assert!((now / old - 1.0).abs() < 1e-9, "{old} {now}");
            let of = |h: f64| body.material.temperature_c(h);
            let rising = enthalpy.windows(2).all(|w| of(w[1]) >= of(w[0]) - 1e-6);
            assert!(rising, "layers out of order");
            let (low, high) = (before.field.layers()[0], before.field.layers().last().expect("layers"));
            let within = |h: &f64| (low.enthalpy_j_m3 - 1.0..=high.enthalpy_j_m3 + 1.0).contains(h);
            assert!(enthalpy.iter().all(within), "hotter or colder than any layer was");
        }
    }
}

#[test]
fn the_same_shape_again_changes_nothing() {
    let material = Material::constant(0.45, 1040.0, 3300.0).expect("material");
    let body = Body::uniform(form(0.04, 0.7), material, 5.0).expect("body");
    let phase = PhaseHeat::convective(Ramp::constant(100.0), 20.0, lasting(3600.0));
    let plain = solve(&body, &[phase.clone(), phase.clone()], Accuracy::FULL).expect("solved");
    let first = solve(&body, std::slice::from_ref(&phase), Accuracy::FULL).expect("solved");
    let again = Body { field: first.field, ..body };
    let remeshed = solve(&again, &[phase], Accuracy::FULL).expect("solved");
    let (a, b) = (plain.samples.last().expect("a"), remeshed.samples.last().expect("b"));
    assert!((a.core_c - b.core_c).abs() < 1e-6 && (a.surface_c - b.surface_c).abs() < 1e-6);
}

#[test]
fn a_stirred_batch_follows_the_lumped_solution() {
    let (depth, h, rho_cp) = (0.1, 20.0, 1000.0 * 4000.0);
    let material = Material::constant(0.6, 1000.0, 4000.0).expect("material");
    let body = Body::uniform(form(depth, 0.0).stirred(), material, 90.0).expect("body");
    let phase = PhaseHeat::convective(Ramp::constant(5.0), h, lasting(20_000.0));
    let history = solve(&body, &[phase], Accuracy::FULL).expect("solved");
    for t_s in [100.0, 5_000.0, 20_000.0] {
        let exact = 5.0 + 85.0 * (-h * t_s / (rho_cp * depth)).exp();
        let ours = history.at(0, t_s, Sample::core).expect("inside");
        assert!((ours - exact).abs() < 0.02, "{t_s} s: {ours} {exact}");
        assert_eq!(Some(ours), history.at(0, t_s, Sample::surface));
    }
}

#[test]
fn stirring_evens_out_and_standing_goes_on_from_there() {
    let material = food(75.0, 8.0, 5.0, 10.0);
    let body = Body::uniform(form(0.05, 0.0), material, 90.0).expect("body");
    let stand = PhaseHeat::convective(Ramp::constant(5.0), 20.0, lasting(3000.0));
    let after = |form: Form, field: Field| {
        let body = Body { form, field, ..body.clone() };
        solve(&body, std::slice::from_ref(&stand), Accuracy::FULL).expect("solved")
    };
    let stood = after(body.form, body.field.clone());
    let stirred = after(form(0.05, 0.0).stirred(), stood.field.clone());
    let poured = after(form(0.02, 0.0), stirred.field.mixed());
    assert!(stirred.samples.iter().all(|s| s.core_c == s.surface_c));
    let gained = poured.field.mean_enthalpy_j_m3() - body.field.mean_enthalpy_j_m3();
    let came_in: f64 = [stood, stirred, poured].iter().map(|history| taken(history, 0)).sum();
    assert!((gained - came_in).abs() < 1e-9 * body.field.mean_enthalpy_j_m3(), "{gained} {came_in}");
}

#[test]
fn merged_foods_keep_their_heat() {
    let (meat, roots, stock) =
        (food(65.0, 20.0, 13.0, 0.0), food(80.0, 2.0, 0.0, 16.0), food(97.0, 1.0, 1.0, 0.0));
    // The meat comes hot outside and cold inside, the roots frozen, the stock boiling.
    let body = Body::uniform(form(0.04, 0.7), meat.clone(), 4.0).expect("body");
    let phase = PhaseHeat::convective(Ramp::constant(110.0), 30.0, lasting(2400.0));
    let browned = solve(&body, &[phase], Accuracy::FULL).expect("solved").field;
    let (cold, hot) = (Field::uniform(&roots, -18.0), Field::uniform(&stock, 95.0));
    let parts = [
        Part { mass_kg: 2.0, material: &meat, field: &browned },
        Part { mass_kg: 0.7, material: &roots, field: &cold },
        Part { mass_kg: 3.0, material: &stock, field: &hot },
    ];
    let merged = merge(&parts).expect("merged");
    let before: f64 = parts.iter().map(|p| p.mass_kg * mean_enthalpy_j_kg(p)).sum();
    let after = merged.mass_kg * merged.material.enthalpy_j_kg(merged.temperature_c);
    assert!((after / before - 1.0).abs() < 1e-9, "{before} {after}");
    assert!((merged.mass_kg - 5.7).abs() < 1e-12);
    let Material::Food { food: whole, .. } = &merged.material else { panic!("a food") };
    // Each food's parts sum to 100 by weight, the stock's to 101.
    let expected = (2.0 * 0.65 + 0.7 * 0.80 + 3.0 * 97.0 / 101.0) / 5.7;
    assert!((whole.composition().water - expected).abs() < 1e-9, "{:?}", whole.composition());
    // Enough ice and a mix stays at its freezing point or below; by hand for water alone:
    // 1 kg at 20 °C and 1 kg at -18 °C cannot melt all of the ice.
    let (warm, frozen) = (Field::uniform(&stock, 20.0), Field::uniform(&stock, -18.0));
    let half = |field| Part { mass_kg: 1.0, material: &stock, field };
    let slush = merge(&[half(&warm), half(&frozen)]).expect("merged");
    let Material::Food { food: slush_food, .. } = &slush.material else { panic!("a food") };
    assert!(slush.temperature_c < slush_food.freezing_c() + 1e-9, "{}", slush.temperature_c);
    assert!(slush_food.ice_fraction(slush.temperature_c) > 0.1);
}

#[test]
fn constant_properties_mix_by_mass() {
    let (a, b) = (
        Material::constant(0.5, 1000.0, 4000.0).expect("a"),
        Material::constant(0.4, 900.0, 2000.0).expect("b"),
    );
    let (hot, cold) = (Field::uniform(&a, 80.0), Field::uniform(&b, 5.0));
    let parts =
        [Part { mass_kg: 1.0, material: &a, field: &hot }, Part { mass_kg: 3.0, material: &b, field: &cold }];
    let merged = merge(&parts).expect("merged");
    // (4000·80 + 6000·5) / 10000
    assert!((merged.temperature_c - 35.0).abs() < 1e-9, "{}", merged.temperature_c);
    assert_eq!(merge(&[]).expect_err("nothing"), HeatError::NoMass);
    let nothing = Part { mass_kg: 0.0, material: &a, field: &hot };
    assert!(merge(&[nothing]).is_err());
}

#[test]
fn the_table_agrees_with_the_functions_it_was_made_from() {
    let material = food(73.0, 20.0, 5.0, 0.0);
    let Material::Food { food: plain, .. } = &material else { panic!("a food") };
    // Enthalpy by the table against a fine sum of density times heat capacity, over freezing and thawing.
    let (low_c, high_c, pieces) = (-40.0, 90.0, 400_000);
    let dt = (high_c - low_c) / pieces as f64;
    let sum: f64 = (0..pieces)
        .map(|i| low_c + (i as f64 + 0.5) * dt)
        .map(|c| plain.density_kg_m3(c) * plain.specific_heat_j_kgk(c) * dt)
        .sum();
    let table = material.state(high_c).h - material.state(low_c).h;
    assert!((table / sum - 1.0).abs() < 1e-4, "{table} {sum}");
    // The heat capacity is the slope of the enthalpy, per kilogram and in the table; the table turns back.
    for c in [-39.0, -20.0, -5.0, -2.0, -1.8, -1.6, -0.5, 3.0, 60.0, 120.0] {
        let slope = (plain.enthalpy_j_kg(c + 1e-4) - plain.enthalpy_j_kg(c - 1e-4)) / 2e-4;
        assert!((slope / plain.specific_heat_j_kgk(c) - 1.0).abs() < 1e-5, "{c}: {slope}");
        let slope = (material.state(c + 1e-4).h - material.state(c - 1e-4).h) / 2e-4;
        assert!((slope / material.state(c).c - 1.0).abs() < 1e-4, "{c}: {slope}");
        assert!((material.temperature_c(material.state(c).h) - c).abs() < 1e-7, "{c}");
    }
    // Continuous where the first ice forms.
    let edge = USUAL_FREEZING_C;
    assert!((plain.enthalpy_j_kg(edge - 1e-9) - plain.enthalpy_j_kg(edge + 1e-9)).abs() < 1e-3);
    assert_eq!(plain.ice_fraction(edge), 0.0);
}
