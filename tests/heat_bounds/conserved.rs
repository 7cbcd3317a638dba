//! Parting, putting together and taking another shape keep the heat.

use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::composition::Composition;
use dwell::heat::conduction::field::Field;
use dwell::heat::conduction::freezing::Food;
use dwell::heat::conduction::material::Material;
use dwell::heat::conduction::merge::{Part, mean_enthalpy_j_kg, merge};
use dwell::heat::conduction::mesh::Mesh;
use dwell::heat::conduction::phase::{End, PhaseHeat};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::Form;
use dwell::heat::conduction::solve::{Accuracy, solve};

fn meat(water: f64, fat: f64) -> Material {
    let parts =
        Composition { water, protein: 99.0 - water - fat, fat, carbohydrate: 0.0, fibre: 0.0, ash: 1.0 };
    let parts = Composition::from_parts(parts).expect("parts of a hundred");
    Material::food(Food::new(parts, -1.0).expect("a food"))
}

fn constant() -> Material {
    Material::constant(0.48, 1050.0, 3400.0).expect("figures of a food")
}

/// A field that is anything but even: half an hour in an oven.
fn uneven(material: &Material, form: Form, start_c: f64) -> Field {
    let body = Body::uniform(form, material.clone(), start_c).expect("a body");
    let end = End { duration_s: Some(1800.0), until: None };
    let phase = PhaseHeat::convective(Ramp::constant(140.0), 30.0, end);
    solve(&body, &[phase], Accuracy::FULL).expect("a cook").field
}

fn close(one: f64, other: f64) {
    assert!((one - other).abs() <= 1e-9 * one.abs().max(other.abs()), "{one} and {other}");
}

#[test]
fn another_shape_holds_the_same_heat() {
    for material in [constant(), meat(70.0, 9.0)] {
        for (half_m, beta, other_m, other_beta) in
            [(0.04, 0.0, 0.03, 2.0), (0.05, 1.3, 0.01, 0.0), (0.02, 0.7, 0.06, 1.25)]
        {
            let field = uneven(&material, Form::new(half_m, beta).expect("a form"), 4.0);
            let mesh = Mesh::new(&Form::new(other_m, other_beta).expect("a form"), 37);
            let mut heat = vec![0.0; mesh.nodes()];
            field.onto(&mesh, &mut heat);
            close(Field::from_nodes(&mesh, &heat).mean_enthalpy_j_m3(), field.mean_enthalpy_j_m3());
            close(field.mixed().mean_enthalpy_j_m3(), field.mean_enthalpy_j_m3());
        }
    }
}

/// Of what is put together, mass times enthalpy adds up, ice and all.
#[test]
fn what_becomes_one_keeps_the_heat() {
    let (lean, fat) = (meat(74.0, 3.0), meat(55.0, 28.0));
    let form = Form::new(0.03, 0.7).expect("a form");
    let fields = [uneven(&lean, form, 4.0), uneven(&fat, form, 40.0), Field::uniform(&lean, -12.0)];
    let parts = [
        Part { mass_kg: 2.5, material: &lean, field: &fields[0] },
        Part { mass_kg: 0.7, material: &fat, field: &fields[1] },
        Part { mass_kg: 0.4, material: &lean, field: &fields[2] },
    ];
    for parts in [&parts[..], &parts[..2], &parts[1..], &parts[2..]] {
        let before: f64 = parts.iter().map(|part| part.mass_kg * mean_enthalpy_j_kg(part)).sum();
        let merged = merge(parts).expect("a mixture");
        close(merged.mass_kg, parts.iter().map(|part| part.mass_kg).sum());
        close(merged.mass_kg * merged.material.enthalpy_j_kg(merged.temperature_c), before);
    }
}

/// Parted and put together again, it is as warm as it was.
#[test]
fn parting_takes_no_heat() {
    for material in [constant(), meat(70.0, 9.0)] {
        let field = uneven(&material, Form::new(0.03, 0.0).expect("a form"), 4.0);
        let part = |mass_kg: f64| Part { mass_kg, material: &material, field: &field };
        let whole = merge(&[part(3.0)]).expect("a mixture");
        let parted = merge(&[part(1.1), part(0.4), part(1.5)]).expect("a mixture");
        close(whole.mass_kg, parted.mass_kg);
        close(whole.temperature_c, parted.temperature_c);
        close(
            3.0 * mean_enthalpy_j_kg(&part(3.0)),
            parted.mass_kg * parted.material.enthalpy_j_kg(parted.temperature_c),
        );
    }
}
