//! Properties by composition against an independent implementation, and against measured specific heats.

use crate::support::{number, numbers, rows};
use dwell::heat::conduction::composition::{
    ASH, CARBOHYDRATE, Component, Composition, FAT, FIBRE, ICE, PROTEIN, WATER,
};
use dwell::heat::conduction::freezing::{Food, USUAL_FREEZING_C};
use dwell::heat::conduction::material::Material;

fn component(name: &str) -> &'static Component {
    match name {
        "water" => &WATER,
        "protein" => &PROTEIN,
        "fat" => &FAT,
        "carbohydrate" => &CARBOHYDRATE,
        "fibre" => &FIBRE,
        "ash" => &ASH,
        "ice" => &ICE,
        other => panic!("{other}?"),
    }
}

#[test]
fn components_agree_with_another_implementation() {
    let rows = rows("component_check");
    assert!(rows.len() >= 24);
    for (_, row) in rows {
        let component = component(row["component"].as_str().expect("name"));
        let t_c = number(&row, "t_c");
        let pairs = [
            (component.conductivity_w_mk(t_c), number(&row, "k")),
            (component.density_kg_m3(t_c), number(&row, "rho")),
            (component.specific_heat_j_kgk(t_c), number(&row, "cp")),
        ];
        for (ours, theirs) in pairs {
            assert!((ours / theirs - 1.0).abs() < 1e-6, "{row}: {ours}");
        }
    }
}

#[test]
fn mixtures_agree_to_the_digits_given() {
    let rows = rows("composition");
    assert!(rows.len() >= 20);
    for (_, row) in rows {
        let get = |key| number(&row, key);
        let parts = Composition {
            water: get("water"),
            protein: get("protein"),
            fat: get("fat"),
            carbohydrate: get("carbohydrate") - get("fibre"),
            fibre: get("fibre"),
            ash: get("ash"),
        };
        let food = Food::new(parts, USUAL_FREEZING_C).expect("food");
        for at in row["t_k_rho_cp_alpha"].as_array().expect("rows") {
            let at = numbers(at);
            let (k, rho, cp) =
                (food.conductivity_w_mk(at[0]), food.density_kg_m3(at[0]), food.specific_heat_j_kgk(at[0]));
            assert!((k - at[1]).abs() < 1e-4, "{}: k {k} at {at:?}", row["food"]);
            assert!((rho - at[2]).abs() < 0.1, "{}: rho {rho} at {at:?}", row["food"]);
            assert!((cp - at[3]).abs() < 1.0, "{}: cp {cp} at {at:?}", row["food"]);
            assert!((k / (rho * cp) / at[4] - 1.0).abs() < 1e-3, "{}: alpha at {at:?}", row["food"]);
            // The table the solver reads says the same.
            let state = Material::food(food).state(at[0]);
            assert!((state.k / k - 1.0).abs() < 1e-4 && (state.c / (rho * cp) - 1.0).abs() < 1e-4);
        }
    }
}

#[test]
fn specific_heats_lie_about_the_measured_ones_as_stated() {
    let rows = rows("measured_specific_heat");
    let mut off = Vec::new();
    for (_, row) in &rows {
        let water = number(row, "water");
        let fat = row.get("fat_assumed_or_given").map_or(0.0, |_| number(row, "fat_assumed_or_given"));
        let parts =
            Composition { water, protein: 100.0 - water - fat, fat, carbohydrate: 0.0, fibre: 0.0, ash: 0.0 };
        let food = Food::new(parts, USUAL_FREEZING_C).expect("food");
        let middle_c = 0.5 * (number(row, "t_lo_c") + number(row, "t_hi_c"));
        off.push(food.specific_heat_j_kgk(middle_c) / (1000.0 * number(row, "cp")) - 1.0);
    }
    let n = off.len() as f64;
    let mean_absolute = off.iter().map(|x| x.abs()).sum::<f64>() / n;
    let worst = off.iter().fold(0.0f64, |w, x| w.max(x.abs()));
    println!("mean absolute {mean_absolute:.4}, worst {worst:.4}");
    assert!(off.len() >= 11 && mean_absolute < 0.05 && worst < 0.105, "{off:?}");
}
