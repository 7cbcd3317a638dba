//! Saturation pressure and wet bulb, which decide where a wet surface stalls.

use std::sync::LazyLock;

use dwell::heat::conduction::air::{saturation_over_water_pa, wet_bulb_c};
use serde::Deserialize;

use crate::roasting::OVENS;
use crate::score::Score;

#[derive(Deserialize)]
struct Air {
    wet_bulb: WetBulbs,
    saturation: Saturations,
}

#[derive(Deserialize)]
struct WetBulbs {
    pressure_pa: f64,
    rows: Vec<WetBulb>,
}

#[derive(Deserialize)]
struct WetBulb {
    air_c: f64,
    humidity_ratio: f64,
    wet_bulb_c: f64,
    real_gas_c: f64,
}

#[derive(Deserialize)]
struct Saturations {
    rows: Vec<Saturation>,
}

#[derive(Deserialize)]
struct Saturation {
    at_c: f64,
    pa: f64,
    steam_table_pa: f64,
}

static AIR: LazyLock<Air> = LazyLock::new(|| toml::from_str(OVENS).expect("the table of ovens"));

#[test]
fn wet_bulbs_meet_the_equations_and_a_real_gas() {
    let (mut own, mut real) = (Score::default(), Score::default());
    for row in &AIR.wet_bulb.rows {
        let found = wet_bulb_c(row.air_c, row.humidity_ratio, AIR.wet_bulb.pressure_pa).expect("a wet bulb");
        let label = format!("{} °C, {} kg/kg", row.air_c, row.humidity_ratio);
        own.add(label.clone(), found - row.wet_bulb_c);
        real.add(label, found - row.real_gas_c);
    }
    own.print("wet bulb against the same equations, K");
    real.print("wet bulb against a real gas, K");
    // Printed to a thousandth.
    assert!(own.worst().abs() < 0.002, "{own}");
    assert!(real.worst().abs() < 0.15, "{real}");
}

#[test]
fn saturation_pressures_meet_the_steam_tables() {
    let (mut own, mut steam) = (Score::default(), Score::default());
    for row in &AIR.saturation.rows {
        let found = saturation_over_water_pa(row.at_c).expect("a pressure");
        own.add(format!("{} °C", row.at_c), 100.0 * (found / row.pa - 1.0));
        steam.add(format!("{} °C", row.at_c), 100.0 * (found / row.steam_table_pa - 1.0));
    }
    steam.print("saturation pressure, %");
    assert!(own.worst().abs() < 0.001, "{own}");
    assert!(steam.worst().abs() < 0.03, "{steam}");
}
