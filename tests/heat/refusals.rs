//! Bad input is refused with a typed error; no input panics or runs on.

use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::composition::Composition;
use dwell::heat::conduction::error::HeatError;
use dwell::heat::conduction::freezing::Food;
use dwell::heat::conduction::material::Material;
use dwell::heat::conduction::phase::{End, Goal, PhaseHeat, Place, Until};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::Form;
use dwell::heat::conduction::solve::{Accuracy, solve};
use dwell::heat::conduction::surface::{Film, Humidity};
use proptest::prelude::*;

fn lean() -> Material {
    let parts = Composition { water: 75.0, protein: 20.0, fat: 4.0, carbohydrate: 0.0, fibre: 0.0, ash: 1.0 };
    Material::food(Food::new(parts, -1.7).expect("food"))
}

fn lasting(duration_s: f64) -> End {
    End { duration_s: Some(duration_s), until: None }
}

fn body() -> Body {
    let material = Material::constant(0.45, 1040.0, 3300.0).expect("material");
    Body::uniform(Form::new(0.03, 0.7).expect("form"), material, 5.0).expect("body")
}

fn plain() -> PhaseHeat {
    PhaseHeat::convective(Ramp::constant(90.0), 20.0, lasting(600.0))
}

fn refused(phase: PhaseHeat) -> HeatError {
    solve(&body(), &[phase], Accuracy::FULL).expect_err("refused")
}

fn out_of_range<T: std::fmt::Debug>(result: Result<T, HeatError>) {
    assert!(matches!(result, Err(HeatError::OutOfRange { .. })), "{result:?}");
}

#[test]
fn impossible_bodies_are_refused() {
    for half_m in [0.0, -0.01, 1.5, f64::NAN, f64::INFINITY] {
        out_of_range(Form::new(half_m, 0.0));
    }
    for beta in [-0.1, 2.1, f64::NAN] {
        out_of_range(Form::new(0.03, beta));
    }
    out_of_range(Material::constant(0.0, 1000.0, 3000.0));
    out_of_range(Material::constant(0.5, f64::NAN, 3000.0));
    out_of_range(Material::constant(0.5, 1000.0, -1.0));
    out_of_range(Body::uniform(body().form, body().material, f64::NAN));
    out_of_range(Form::brick([0.1, f64::NAN, 0.1]));
    out_of_range(Form::from_thickness(3.0, 0.001));
    // The fields of a form are open; what was put there is looked at again.
    let bent = Body { form: Form { half_thickness_m: -1.0, beta: 0.0, stirred: false }, ..body() };
    out_of_range(solve(&bent, &[plain()], Accuracy::FULL));
    let nothing = Composition { water: 0.0, protein: 0.0, fat: 0.0, carbohydrate: 0.0, fibre: 0.0, ash: 0.0 };
    assert_eq!(Food::new(nothing, -1.7), Err(HeatError::NoMass));
    out_of_range(Food::new(Composition { water: -1.0, ..nothing }, -1.7));
    out_of_range(Food::new(Composition { water: 1.0, ..nothing }, 3.0));
}

#[test]
fn what_is_frozen_cannot_be_at_80_c() {
    let material = lean();
    let frozen = Body::frozen(body().form, material.clone(), 80.0);
    assert!(matches!(frozen, Err(HeatError::NotFrozen { .. })));
    assert!(Body::frozen(body().form, material, -18.0).is_ok());
}

#[test]
fn impossible_phases_are_refused() {
    let none: [PhaseHeat; 0] = [];
    assert!(matches!(solve(&body(), &none, Accuracy::FULL), Err(HeatError::PhaseCount { given: 0, .. })));
    let many = vec![plain(); 1000];
    assert!(matches!(solve(&body(), &many, Accuracy::FULL), Err(HeatError::PhaseCount { given: 1000, .. })));
    assert_eq!(refused(PhaseHeat { end: End::default(), ..plain() }), HeatError::NoEnd { phase: 0 });
    for phase in [
        PhaseHeat { film: Film::Known(-1.0), ..plain() },
        PhaseHeat { film: Film::Known(f64::NAN), ..plain() },
        PhaseHeat { emissivity: 1.5, ..plain() },
        PhaseHeat { wall_c: Some(f64::INFINITY), ..plain() },
        PhaseHeat { wetness: Ramp::constant(2.0), ..plain() },
        PhaseHeat { medium_c: Ramp::constant(-300.0), ..plain() },
        PhaseHeat { medium_c: Ramp::constant(f64::NAN), ..plain() },
        PhaseHeat { humidity: Humidity::Relative(1.2), ..plain() },
        PhaseHeat { pressure_pa: 0.0, ..plain() },
        PhaseHeat { end: lasting(-1.0), ..plain() },
        PhaseHeat { end: lasting(1e12), ..plain() },
    ] {
        let error = refused(phase.clone());
        assert!(matches!(error, HeatError::OutOfRange { .. }), "{phase:?}: {error:?}");
    }
    let steam = PhaseHeat {
        medium_c: Ramp::constant(101.0),
        wetness: Ramp::constant(0.5),
        humidity: Humidity::Relative(1.0),
        ..plain()
    };
    assert!(matches!(refused(steam), HeatError::AirAtBoilingPoint { .. }));
    let thick = Form { half_thickness_m: 1.5, beta: 0.0, stirred: false };
    out_of_range(solve(&Body { form: thick, ..body() }, &[plain()], Accuracy::FULL));
    assert!(Ramp::new("x", vec![]).is_err());
    assert!(Ramp::new("x", vec![(10.0, 1.0), (5.0, 1.0)]).is_err());
    assert!(Ramp::new("x", vec![(0.0, f64::NAN)]).is_err());
    let coarse = Accuracy { cells: 0, ..Accuracy::FULL };
    out_of_range(solve(&body(), &[plain()], coarse));
}

fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(0.0),
        Just(-1.0),
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(1e300),
        -100.0..500.0,
        0.0..1.0,
        any::<f64>(),
    ]
}

fn wild_phase() -> impl Strategy<Value = PhaseHeat> {
    let points = prop::collection::vec((wild(), wild()), 1..4);
    let numbers = (wild(), wild(), wild(), wild(), wild(), wild());
    let end = (prop::option::of(wild()), prop::option::of((any::<bool>(), any::<bool>(), wild())));
    (points, numbers, end, any::<bool>()).prop_map(|(points, n, (duration_s, until), relative)| {
        let medium_c = Ramp::new("medium", points).unwrap_or(Ramp::constant(n.0));
        let until = until.map(|(core, hot, target_c)| Until {
            place: if core { Place::Core } else { Place::Surface },
            goal: if hot { Goal::AtLeast } else { Goal::AtMost },
            target_c,
        });
        PhaseHeat {
            emissivity: n.2.abs().fract(),
            wall_c: Some(n.3),
            wetness: Ramp::constant(n.4.abs().fract()),
            humidity: if relative { Humidity::Relative(n.5) } else { Humidity::Ratio(n.5) },
            ..PhaseHeat::convective(medium_c, n.1, End { duration_s, until })
        }
    })
}

/// Within range but as harsh as the range allows.
fn harsh_phase() -> impl Strategy<Value = PhaseHeat> {
    let medium = prop::collection::vec((0.0..1e5f64, -80.0..400.0f64), 1..6);
    let film = prop_oneof![Just(0.0), 0.001..1.0, 1.0..1000.0, 1e3..1e7];
    let end = (0.0..1e6f64, prop::option::of((any::<bool>(), any::<bool>(), -80.0..400.0f64)), any::<bool>());
    (medium, film, 0.0..1.0f64, -80.0..600.0f64, 0.0..1.0f64, 0.0..2.0f64, end).prop_map(
        |(mut points, film, emissivity, wall_c, wetness, ratio, (duration_s, until, both))| {
            points.sort_by(|a, b| a.0.total_cmp(&b.0));
            let until = until.map(|(core, hot, target_c)| Until {
                place: if core { Place::Core } else { Place::Surface },
                goal: if hot { Goal::AtLeast } else { Goal::AtMost },
                target_c,
            });
            let duration_s = (both || until.is_none()).then_some(duration_s);
            PhaseHeat {
                emissivity,
                wall_c: Some(wall_c),
                wetness: Ramp::constant(wetness),
                humidity: Humidity::Ratio(ratio),
                ..PhaseHeat::convective(
                    Ramp::new("m", points).expect("ramp"),
                    film,
                    End { duration_s, until },
                )
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, rng_seed: proptest::test_runner::RngSeed::Fixed(1), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_input_panics(
        phases in prop::collection::vec(wild_phase(), 0..3),
        half_m in wild(),
        beta in wild(),
    ) {
        let form = Form { half_thickness_m: half_m, beta, stirred: false };
        let _ = solve(&Body { form, ..body() }, &phases, Accuracy::FULL);
        let _ = solve(&body(), &phases, Accuracy::FULL);
        let _ = Form::from_thickness(half_m, beta);
    }

    #[test]
    fn harsh_cooks_end_and_stay_in_range(
        phases in prop::collection::vec(harsh_phase(), 1..3),
        half_m in 0.0005..0.5f64,
        beta in 0.0..2.0f64,
        start_c in -40.0..100.0f64,
        stirred in any::<bool>(),
        constant in any::<bool>(),
    ) {
        let material = if constant { body().material } else { lean() };
        let form = Form { half_thickness_m: half_m, beta, stirred };
        let body = Body::uniform(form, material, start_c).expect("body");
        let history = match solve(&body, &phases, Accuracy::FULL) {
            Ok(history) => history,
            // No kit has such a film; there, giving up after a bounded number of steps will do.
            Err(HeatError::TooManySteps { .. }) if phases.iter().any(|p| p.film.bounds().1 > 1e5) => return Ok(()),
            Err(error) => return Err(TestCaseError::fail(error.to_string())),
        };
        prop_assert!(history.steps + history.rejected < 5000, "{} {}", history.steps, history.rejected);
        for s in &history.samples {
            prop_assert!(s.core_c.is_finite() && s.core_c > -150.0 && s.core_c < 650.0, "{:?}", s);
        }
    }
}

/// A dry rest and then a film that no kit has, on a thin, wet, stirred body: once it came out at -262 °C.
#[test]
fn a_film_beyond_all_kit_gives_no_nonsense() {
    let held = |s| End { duration_s: Some(s), until: None };
    let rest = PhaseHeat {
        emissivity: 0.396_661_592_941_920_66,
        wall_c: Some(375.176_316_600_681_45),
        wetness: Ramp::constant(0.0),
        humidity: Humidity::Ratio(0.0),
        ..PhaseHeat::convective(Ramp::constant(0.0), 0.0, held(172_664.412_473_590_6))
    };
    let cold = Until { place: Place::Surface, goal: Goal::AtMost, target_c: 342.262_571_229_607_26 };
    let end = End { duration_s: Some(489_286.021_156_292), until: Some(cold) };
    let blast = PhaseHeat {
        emissivity: 0.0,
        wall_c: Some(0.0),
        wetness: Ramp::constant(0.336_297_832_973_306),
        humidity: Humidity::Ratio(1.676_845_256_696_620_8),
        ..PhaseHeat::convective(Ramp::constant(386.428_568_326_955_3), 5_385_132.917_047_663, end)
    };
    let form = Form { half_thickness_m: 0.0005, beta: 0.0, stirred: true };
    let body = Body::uniform(form, lean(), 0.0).expect("body");
    let history = solve(&body, &[rest, blast], Accuracy::FULL).expect("an answer");
    assert!(history.samples.iter().all(|s| s.core_c > -1.0 && s.core_c < 380.0));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, rng_seed: proptest::test_runner::RngSeed::Fixed(1), failure_persistence: None, ..ProptestConfig::default() })]

    /// What a hotter surface takes in is never more, or a step could settle in two places.
    #[test]
    fn a_hotter_surface_never_takes_in_more(phase in harsh_phase(), from_c in -150.0..2000.0f64, by_k in 0.001..500.0f64) {
        let surface = phase.surface(phase.medium_c.highest(), phase.wetness.highest()).expect("surface");
        let (cooler, hotter) = (surface.flux(from_c).0, surface.flux(from_c + by_k).0);
        prop_assert!(hotter <= cooler + 1e-9 * cooler.abs(), "{cooler} {hotter}");
    }
}
