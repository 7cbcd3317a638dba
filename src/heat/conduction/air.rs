//! Moist air: saturation pressure, humidity ratio, wet bulb, pressure by elevation, boiling point.
//!
//! Source: ASHRAE Handbook – Fundamentals 2017 (SI), chapter 1; equation numbers beside each.

use super::error::{HeatError, within};

/// Standard pressure at sea level, Pa.
pub const SEA_LEVEL_PA: f64 = 101_325.0;
/// 0 °C in kelvin.
pub const ZERO_C_K: f64 = 273.15;
/// Ratio of the molar masses of water and dry air (eq. 20).
const MOLAR_RATIO: f64 = 0.621_945;
/// Between ice and water, °C.
const TRIPLE_POINT_C: f64 = 0.01;
/// ln p over water, eq. 6, C8 to C13, 0.01 to 200 °C.
const WATER: [f64; 6] =
    [-5.800_220_6e3, 1.391_499_3, -4.864_023_9e-2, 4.176_476_8e-5, -1.445_209_3e-8, 6.545_967_3];
/// ln p over ice, eq. 5, C1 to C7, -100 to 0.01 °C.
const ICE: [f64; 7] =
    [-5.674_535_9e3, 6.392_524_7, -9.677_843e-3, 6.221_570_1e-7, 2.074_782_5e-9, -9.484_024e-13, 4.163_501_9];

/// Saturation pressure and its slope, Pa and Pa/K: over ice below 0.01 °C, over water above.
/// Outside the equations' -100 to 200 °C the nearer end is taken.
pub fn saturation(t_c: f64) -> (f64, f64) {
    let k = t_c.clamp(-100.0, 200.0) + ZERO_C_K;
    if t_c < TRIPLE_POINT_C { over_ice(k) } else { over_water(k) }
}

/// Saturation pressure over liquid water, Pa, 0.01 to 200 °C.
pub fn saturation_over_water_pa(t_c: f64) -> Result<f64, HeatError> {
    let t_c = within("temperature of water, °C", t_c, 0.0, 200.0)?;
    Ok(over_water(t_c + ZERO_C_K).0)
}

/// Saturation pressure over ice, Pa, -100 to 0.01 °C; there is no ice above.
pub fn saturation_over_ice_pa(t_c: f64) -> Result<f64, HeatError> {
    let t_c = within("temperature of ice, °C", t_c, -100.0, TRIPLE_POINT_C)?;
    Ok(over_ice(t_c + ZERO_C_K).0)
}

fn over_water(k: f64) -> (f64, f64) {
    let [c8, c9, c10, c11, c12, c13] = WATER;
    let p = (c8 / k + c9 + k * (c10 + k * (c11 + k * c12)) + c13 * k.ln()).exp();
    let slope = -c8 / (k * k) + c10 + k * (2.0 * c11 + k * 3.0 * c12) + c13 / k;
    (p, p * slope)
}

fn over_ice(k: f64) -> (f64, f64) {
    let [c1, c2, c3, c4, c5, c6, c7] = ICE;
    let p = (c1 / k + c2 + k * (c3 + k * (c4 + k * (c5 + k * c6))) + c7 * k.ln()).exp();
    let slope = -c1 / (k * k) + c3 + k * (2.0 * c4 + k * (3.0 * c5 + k * 4.0 * c6)) + c7 / k;
    (p, p * slope)
}

/// Humidity ratio, kg vapour per kg dry air, of air at `pressure_pa` that holds `vapour_pa` (eq. 20).
pub fn humidity_ratio(vapour_pa: f64, pressure_pa: f64) -> f64 {
    MOLAR_RATIO * vapour_pa / (pressure_pa - vapour_pa)
}

/// Relative humidity (0 to 1) at `t_c` as a humidity ratio; refused where the air would be steam.
pub fn ratio_from_relative(relative: f64, t_c: f64, pressure_pa: f64) -> Result<f64, HeatError> {
    let vapour_pa = within("relative humidity", relative, 0.0, 1.0)? * saturation(t_c).0;
    if vapour_pa >= pressure_pa {
        return Err(HeatError::AirAtBoilingPoint { medium_c: t_c, vapour_pa, pressure_pa });
    }
    Ok(humidity_ratio(vapour_pa, pressure_pa))
}

/// Thermodynamic wet bulb, °C, of air at `t_c` with humidity ratio `w` (eq. 33; eq. 35 below freezing,
/// the latter from memory). The search stays below the boiling point, where the relation changes sign.
pub fn wet_bulb_c(t_c: f64, w: f64, pressure_pa: f64) -> Result<f64, HeatError> {
    let t_c = within("air temperature, °C", t_c, -60.0, 400.0)?;
    let w = within("humidity ratio", w, 0.0, 10.0)?;
    let boiling_c = boiling_point_c(pressure_pa)?;
    let ratio_at = |wet_c: f64| {
        let w_s = humidity_ratio(saturation(wet_c).0, pressure_pa);
        if wet_c >= 0.0 {
            ((2501.0 - 2.326 * wet_c) * w_s - 1.006 * (t_c - wet_c)) / (2501.0 + 1.86 * t_c - 4.186 * wet_c)
        } else {
            ((2830.0 - 0.24 * wet_c) * w_s - 1.006 * (t_c - wet_c)) / (2830.0 + 1.86 * t_c - 2.1 * wet_c)
        }
    };
    let (mut low, mut high) = (-90.0, t_c.min(boiling_c - 0.05));
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if ratio_at(middle) < w { low = middle } else { high = middle }
    }
    Ok(0.5 * (low + high))
}

/// Air pressure, Pa, at `elevation_m` above the sea (eq. 3, -500 to 11 000 m; constants from memory).
pub fn pressure_at_elevation_pa(elevation_m: f64) -> Result<f64, HeatError> {
    let z = within("elevation, m", elevation_m, -500.0, 9_000.0)?;
    Ok(SEA_LEVEL_PA * (1.0 - 2.255_77e-5 * z).powf(5.2559))
}

/// Where water boils, °C: its saturation pressure equals `pressure_pa`.
pub fn boiling_point_c(pressure_pa: f64) -> Result<f64, HeatError> {
    within("air pressure, Pa", pressure_pa, 20_000.0, 400_000.0).map(saturated_at_c)
}

/// Where water's saturation pressure is `pressure_pa`, °C; for pressures about those of air.
pub fn saturated_at_c(pressure_pa: f64) -> f64 {
    let mut t_c = 100.0;
    // ln p is almost linear in 1/T: a few Newton steps on ln p settle to rounding.
    for _ in 0..12 {
        let (p, slope) = over_water(t_c + ZERO_C_K);
        let step = (p / pressure_pa).ln() * p / slope;
        t_c -= step;
        if step.abs() < 1e-9 {
            break;
        }
    }
    t_c
}
