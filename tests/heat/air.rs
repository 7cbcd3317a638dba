//! Moist air against published and independent values.

use crate::support::{number, numbers, rows};
use dwell::heat::conduction::air::*;
use dwell::heat::conduction::error::HeatError;
use dwell::heat::conduction::surface::{Film, Humidity, Surface};

#[test]
fn wet_bulb_is_within_its_room() {
    let rows = rows("wet_bulb_check");
    assert!(rows.len() >= 44);
    for (_, row) in rows {
        let (t_c, w) = (number(&row, "t_db_c"), number(&row, "humidity_ratio"));
        let wet_c = wet_bulb_c(t_c, w, SEA_LEVEL_PA).expect("wet bulb");
        assert!((wet_c - number(&row, "wet_bulb_c")).abs() < 0.002, "{row}: {wet_c}");
        assert!((wet_c - number(&row, "t_wb_coolprop")).abs() < 0.15, "{row}: {wet_c}");
        if let Some(relative) = row.get("rh").and_then(toml::Value::as_float) {
            let ratio = ratio_from_relative(relative, t_c, SEA_LEVEL_PA).expect("ratio");
            assert!((ratio / w - 1.0).abs() < 2e-3, "{row}: {ratio}");
        }
    }
}

#[test]
fn saturation_pressure_meets_both_formulations() {
    for (_, row) in rows("saturation_pressure_check") {
        let t_c = number(&row, "t_c");
        let pa = saturation_over_water_pa(t_c).expect("pressure");
        assert!((pa - number(&row, "pa")).abs() < 0.01, "{row}: {pa}");
        assert!((pa / number(&row, "pa_iapws") - 1.0).abs() < 3e-4, "{row}: {pa}");
        let (_, slope) = saturation(t_c);
        let secant = (saturation(t_c + 0.01).0 - saturation(t_c - 0.01).0) / 0.02;
        assert!((slope / secant - 1.0).abs() < 1e-6, "{row}: {slope} {secant}");
    }
    // Ice and water meet at the triple point, 611.66 Pa (IAPWS).
    let (ice, water) = (saturation(0.0099).0, saturation(0.01).0);
    assert!((ice / water - 1.0).abs() < 1e-4 && (water - 611.66).abs() < 0.6, "{ice} {water}");
}

#[test]
fn water_boils_where_it_should() {
    assert!((boiling_point_c(SEA_LEVEL_PA).expect("sea") - 99.97).abs() < 0.03);
    // Standard atmosphere: 89 875 Pa at 1000 m, 70 109 Pa at 3000 m (ISO 2533, from memory).
    for (elevation_m, pa, boils_c) in [(1000.0, 89_875.0, 96.7), (3000.0, 70_109.0, 89.98)] {
        let ours = pressure_at_elevation_pa(elevation_m).expect("pressure");
        assert!((ours / pa - 1.0).abs() < 1e-3, "{ours}");
        assert!((boiling_point_c(ours).expect("boiling") - boils_c).abs() < 0.1);
    }
}

#[test]
fn there_is_no_ice_at_80_c_and_no_air_at_boiling_point() {
    assert!(matches!(saturation_over_ice_pa(80.0), Err(HeatError::OutOfRange { .. })));
    assert!(matches!(
        ratio_from_relative(1.0, 100.5, SEA_LEVEL_PA),
        Err(HeatError::AirAtBoilingPoint { .. })
    ));
    assert!(ratio_from_relative(0.5, 105.0, SEA_LEVEL_PA).is_ok());
    assert!(wet_bulb_c(f64::NAN, 0.01, SEA_LEVEL_PA).is_err());
    assert!(pressure_at_elevation_pa(50_000.0).is_err() && boiling_point_c(0.0).is_err());
}

#[test]
fn a_wet_surface_settles_where_it_should() {
    for (_, row) in rows("wet_surface_equilibrium") {
        let row = numbers(&row);
        let (t_c, w) = (row[0], row[1]);
        let cases = [(8.0, 0.9, 1.0), (20.0, 0.9, 1.0), (20.0, 0.0, 1.0), (12.0, 0.9, 0.3), (12.0, 0.9, 0.1)];
        for ((film, emissivity, wetness), expected) in cases.into_iter().zip(&row[2..]) {
            let surface = Surface::convective(t_c, Film::Known(film))
                .radiating(emissivity, t_c)
                .wet(wetness, Humidity::Ratio(w), SEA_LEVEL_PA)
                .expect("surface");
            let settles_c = surface.equilibrium_c().expect("not insulated");
            assert!((settles_c - expected).abs() < 0.01, "{row:?}: h {film}, wet {wetness}: {settles_c}");
            if emissivity == 0.0 {
                // Without radiation the fully wet surface is at the thermodynamic wet bulb.
                assert!((settles_c - wet_bulb_c(t_c, w, SEA_LEVEL_PA).expect("wet bulb")).abs() < 0.005);
            }
        }
    }
}
