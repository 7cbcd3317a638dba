//! A second solver, written as simply as can be, on random cooks: explicit steps on even cells whose
//! temperature is that of their middle, the surface without mass and found by bisection.

use dwell::heat::conduction::air::SEA_LEVEL_PA;
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
use proptest::prelude::*;

#[derive(Debug, Clone)]
struct Stretch {
    from_c: f64,
    to_c: f64,
    film: f64,
    emissivity: f64,
    wall_c: f64,
    wetness: f64,
    ratio: f64,
    lasts_s: f64,
}

/// Saturation pressure over water: ASHRAE Fundamentals 2017, eq. 6.
fn p_sat(c: f64) -> f64 {
    let t = c + 273.15;
    (-5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t * t - 1.4452093e-8 * t * t * t
        + 6.5459673 * t.ln())
    .exp()
}

fn inflow(s: &Stretch, medium_c: f64, c: f64) -> f64 {
    let radiation = s.emissivity * 5.670374419e-8 * ((s.wall_c + 273.15).powi(4) - (c + 273.15).powi(4));
    let p = p_sat(c).min(0.98 * SEA_LEVEL_PA);
    let excess = (0.621945 * p / (SEA_LEVEL_PA - p) - s.ratio).max(0.0);
    let drying = s.wetness * s.film / (1006.0 + 1860.0 * s.ratio) * excess * (2501000.0 - 2326.0 * c);
    s.film * (medium_c - c) + radiation - drying
}

/// Tells enthalpy, heat capacity and conductivity apart from any table of the library's.
trait Stuff {
    fn enthalpy(&self, c: f64) -> f64;
    fn temperature(&self, h: f64) -> f64;
    fn conductivity(&self, c: f64) -> f64;
}

struct Plain {
    k: f64,
    rho_cp: f64,
}

impl Stuff for Plain {
    fn enthalpy(&self, c: f64) -> f64 {
        self.rho_cp * c
    }
    fn temperature(&self, h: f64) -> f64 {
        h / self.rho_cp
    }
    fn conductivity(&self, _: f64) -> f64 {
        self.k
    }
}

/// Summed in steps of 0.005 K from -50 °C.
struct Summed {
    h: Vec<f64>,
    k: Vec<f64>,
}

const LOW_C: f64 = -50.0;
const FINE_K: f64 = 0.005;

impl Summed {
    fn new(food: &Food) -> Self {
        let (mut h, mut k) = (vec![0.0], Vec::new());
        for i in 0..40_000 {
            let c = LOW_C + (i as f64 + 0.5) * FINE_K;
            h.push(h[i] + FINE_K * food.density_kg_m3(c) * food.specific_heat_j_kgk(c));
            k.push(food.conductivity_w_mk(c));
        }
        Self { h, k }
    }
}

impl Stuff for Summed {
    fn enthalpy(&self, c: f64) -> f64 {
        let x = (c - LOW_C) / FINE_K;
        let i = x as usize;
        self.h[i] + (x - i as f64) * (self.h[i + 1] - self.h[i])
    }
    fn temperature(&self, h: f64) -> f64 {
        let i = self.h.partition_point(|x| *x <= h) - 1;
        LOW_C + FINE_K * (i as f64 + (h - self.h[i]) / (self.h[i + 1] - self.h[i]))
    }
    fn conductivity(&self, c: f64) -> f64 {
        self.k[((c - LOW_C) / FINE_K) as usize]
    }
}

/// Core, mean and surface at the end of each stretch.
fn explicit(
    stuff: &dyn Stuff,
    cells: usize,
    (radius, beta): (f64, f64),
    start_c: f64,
    cook: &[Stretch],
    fastest_m2_s: f64,
) -> Vec<[f64; 3]> {
    let dx = radius / cells as f64;
    // A fifth of dx²/α for the fastest α there is, well inside what stays stable.
    let dt = 0.2 * dx * dx / fastest_m2_s;
    let inside = |i: usize| (i as f64 * dx).powf(beta + 1.0) / (beta + 1.0);
    let volume: Vec<f64> = (0..cells).map(|i| inside(i + 1) - inside(i)).collect();
    let area: Vec<f64> = (0..=cells).map(|i| (i as f64 * dx).powf(beta)).collect();
    let mut t = vec![start_c; cells];
    let mut h = vec![stuff.enthalpy(start_c); cells];
    let mut out = Vec::new();
    for s in cook {
        let steps = (s.lasts_s / dt).ceil();
        let dt = s.lasts_s / steps;
        let mut surface_c = 0.0;
        for step in 0..=steps as usize {
            let medium_c = s.from_c + (s.to_c - s.from_c) * step as f64 / steps;
            let k: Vec<f64> = t.iter().map(|c| stuff.conductivity(*c)).collect();
            let (mut low, mut high) = (-80.0, 300.0);
            for _ in 0..34 {
                surface_c = 0.5 * (low + high);
                let from_inside = k[cells - 1] * (surface_c - t[cells - 1]) / (0.5 * dx);
                if inflow(s, medium_c, surface_c) > from_inside { low = surface_c } else { high = surface_c }
            }
            if step == steps as usize {
                break;
            }
            let mut flow = vec![0.0; cells + 1];
            for i in 1..cells {
                flow[i] = area[i] * 0.5 * (k[i - 1] + k[i]) * (t[i] - t[i - 1]) / dx;
            }
            flow[cells] = area[cells] * k[cells - 1] * (surface_c - t[cells - 1]) / (0.5 * dx);
            for i in 0..cells {
                h[i] += dt * (flow[i + 1] - flow[i]) / volume[i];
                t[i] = stuff.temperature(h[i]);
            }
        }
        // The middle of the innermost cell is half a cell from the core: even parabola through two cells.
        let core_c = t[0] - (t[1] - t[0]) / 8.0;
        let mean_c = t.iter().zip(&volume).map(|(t, v)| t * v).sum::<f64>() / volume.iter().sum::<f64>();
        out.push([core_c, mean_c, surface_c]);
    }
    out
}

fn ours(body: &Body, cook: &[Stretch]) -> Vec<[f64; 3]> {
    let phases: Vec<PhaseHeat> = cook
        .iter()
        .map(|s| PhaseHeat {
            emissivity: s.emissivity,
            wall_c: Some(s.wall_c),
            wetness: Ramp::constant(s.wetness),
            humidity: Humidity::Ratio(s.ratio),
            ..PhaseHeat::convective(
                Ramp::new("medium", vec![(0.0, s.from_c), (s.lasts_s, s.to_c)]).expect("ramp"),
                s.film,
                End { duration_s: Some(s.lasts_s), until: None },
            )
        })
        .collect();
    let history = solve(body, &phases, Accuracy::FULL).expect("solved");
    let at = |i: usize, follow| history.at(i, history.ends[i].at_s, follow).expect("the end");
    (0..cook.len()).map(|i| [at(i, Sample::core), at(i, Sample::mean), at(i, Sample::surface)]).collect()
}

fn agree(ours: &[[f64; 3]], theirs: &[[f64; 3]], room: [f64; 3]) {
    for (i, (a, b)) in ours.iter().zip(theirs).enumerate() {
        for j in 0..3 {
            assert!((a[j] - b[j]).abs() < room[j], "stretch {i}: {a:?} against {b:?}");
        }
    }
}

fn stretch() -> impl Strategy<Value = Stretch> {
    let place = (0.0..110.0, 0.0..110.0, 5.0..80.0, 0.0..0.95, 0.0..110.0);
    (place, prop_oneof![Just(0.0), 0.05..1.0], 0.001..0.08, 600.0..7200.0).prop_map(
        |((from_c, to_c, film, emissivity, wall_c), wetness, ratio, lasts_s)| Stretch {
            from_c,
            to_c,
            film,
            emissivity,
            wall_c,
            wetness,
            ratio,
            lasts_s,
        },
    )
}

fn lean() -> Food {
    let parts = Composition { water: 73.0, protein: 21.0, fat: 5.0, carbohydrate: 0.0, fibre: 0.0, ash: 1.0 };
    Food::new(parts, -1.7).expect("food")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_cooks_agree(
        radius in 0.015..0.04f64,
        beta in 0.0..2.0f64,
        start_c in 1.0..80.0f64,
        k in 0.35..0.6f64,
        cook in prop::collection::vec(stretch(), 1..4),
    ) {
        let plain = Plain { k, rho_cp: 1050.0 * 3500.0 };
        let theirs = explicit(&plain, 60, (radius, beta), start_c, &cook, k / plain.rho_cp);
        let material = Material::constant(k, 1050.0, 3500.0).expect("material");
        let body = Body::uniform(Form::new(radius, beta).expect("form"), material, start_c).expect("body");
        agree(&ours(&body, &cook), &theirs, [0.05, 0.05, 0.2]);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_thaws_and_freezes_agree(
        radius in 0.012..0.02f64,
        beta in 0.0..2.0f64,
        film in 10.0..100.0f64,
        start_c in -28.0..-5.0f64,
        lasts_s in 1200.0..4000.0f64,
    ) {
        let calm = |c: f64| Stretch {
            from_c: c, to_c: c, film, emissivity: 0.0, wall_c: c, wetness: 0.0, ratio: 0.0, lasts_s,
        };
        let cook = [calm(12.0), calm(-30.0), calm(40.0)];
        let stuff = Summed::new(&lean());
        let theirs = explicit(&stuff, 40, (radius, beta), start_c, &cook, 1.6 / 1.9e6);
        let material = Material::food(lean());
        let body = Body::frozen(Form::new(radius, beta).expect("form"), material, start_c).expect("body");
        agree(&ours(&body, &cook), &theirs, [0.15, 0.1, 0.3]);
    }
}
