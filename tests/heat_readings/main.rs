//! What probe readings add to the forecast: made-up cooks go their own way inside what the file leaves open, a probe with
//! faults reads them half way, and the sharpened end has to hold what then really happens.
//!
//! The cooks are worked out by the test's own solver. `DWELL_DRAWS=150` goes through more of them than every run does,
//! `DWELL_SEED=4242` through others.

#[path = "../common/mod.rs"]
mod common;
#[path = "../heat_bounds/witness.rs"]
#[allow(dead_code, reason = "each test binary uses its own part")]
mod witness;

use common::dice::Dice;
use dwell::compile::{Compiled, Options, Readings, compile};
use dwell::cook::Happened;
use dwell::heat::conduction::shape::Likeness;
use dwell::heat::{Curves, Heeded, PhaseTimes, Reading, Sample};
use dwell::quantity::{Duration, Scale, Temperature};
use dwell::tables::Tables;
use witness::{
    Around, Body, CONDUCTIVITY_W_MK, DENSITY_KG_M3, SPECIFIC_HEAT_J_KGK, humidity_ratio, saturation_pa,
};

const USUAL_DRAWS: usize = 20;

/// A cook of one phase that ends at a temperature of the core.
struct Scene {
    name: &'static str,
    text: &'static str,
    kit: &'static str,
    medium_c: f64,
    swing_k: f64,
    half_thickness_m: f64,
    shape: Likeness,
    target_c: f64,
    wetness: (f64, f64),
}

const SCENES: [Scene; 2] = [
    Scene {
        name: "joint in low heat",
        text: "kit cabinet is smoking cabinet\nkit probe is probe thermometer\n\nfood joint is test slab\n  1 piece of 3 kg\n  \
               thickness 9 cm\n  shape cylinder\n\nphase smoke is cook\n  joint in cabinet\n  air 110 °C ± 5 °C\n  until core 75 °C\n",
        kit: "smoking cabinet",
        medium_c: 110.0,
        swing_k: 5.0,
        half_thickness_m: 0.045,
        shape: Likeness::CylinderLike,
        target_c: 75.0,
        wetness: (0.0, 0.3),
    },
    Scene {
        name: "joint in a water bath",
        text: "kit bath is water bath\nkit probe is probe thermometer\n\nfood joint is test slab\n  1 piece of 2 kg\n  \
               thickness 6 cm\n  shape slab\n\nphase soak is cook\n  joint in bath\n  vacuum bagged\n  water 60 °C ± 0.5 °C\n  \
               until core 57 °C\n",
        kit: "water bath",
        medium_c: 60.0,
        swing_k: 0.5,
        half_thickness_m: 0.03,
        shape: Likeness::SlabLike,
        target_c: 57.0,
        wetness: (0.0, 0.0),
    },
];

fn compiled(scene: &Scene, text: &str, readings: Vec<Reading>) -> Compiled {
    let own = format!(
        "[foods.\"test slab\"]\nspecies = \"beef\"\nstate = \"intact\"\nconductivity_w_mk = {CONDUCTIVITY_W_MK}\n\
         density_kg_m3 = {DENSITY_KG_M3:.1}\nspecific_heat_j_kgk = {SPECIFIC_HEAT_J_KGK:.1}\n"
    );
    let text = format!(
        "cook \"{}\"\n  rules us-food-code\n\ncrew\n  2 people\n\n{text}\nserve joint\n  at 19:00\n",
        scene.name
    );
    let files = [("scene.dwell", text.as_str()), ("dwell.toml", own.as_str())];
    let elapsed = |reading: Reading| {
        let since = Duration::from_seconds(reading.t_s);
        (Happened::Since(since), Temperature::from_celsius(reading.core_c))
    };
    let readings = readings.into_iter().map(elapsed).collect();
    let options =
        Options { readings: Readings { all: readings, ..Readings::default() }, ..Options::default() };
    let compiled = compile(&common::Memory(&files), "scene.dwell".into(), text.as_bytes().to_vec(), &options);
    assert!(compiled.understood(), "{text}\n{:#?}", compiled.findings);
    compiled
}

fn curves(compiled: &Compiled) -> &Curves {
    compiled.cooks()[0].curves
}

/// The phase that ends at a temperature.
fn end(compiled: &Compiled) -> &PhaseTimes {
    &curves(compiled).phases[0]
}

/// Even numbers, and numbers about nought with a spread of one.
fn even(dice: &mut Dice, low: f64, high: f64) -> f64 {
    low + (high - low) * dice.roll(0, 1_000_000) as f64 / 1e6
}

fn bell(dice: &mut Dice) -> f64 {
    let (radius, turn) = (even(dice, 1e-6, 1.0), even(dice, 0.0, std::f64::consts::TAU));
    (-2.0 * radius.ln()).sqrt() * turn.cos()
}

/// A food on its way: moments and core temperatures up to the end, and when that is.
struct Truth {
    core: Vec<(f64, f64)>,
    end_s: f64,
}

impl Truth {
    /// One way that it may go.
    fn drawn(scene: &Scene, dice: &mut Dice) -> Self {
        Self::new(scene, |low, high| even(dice, low, high), None, 0.0)
    }

    /// All in the middle of what it may be, but for how thick it is or how warm its surroundings are.
    fn middling(scene: &Scene, thicker: f64, warmer_k: f64) -> Self {
        Self::new(scene, |low, high| 0.5 * (low + high), Some(thicker), warmer_k)
    }

    /// `thicker` than the middle of the tolerance by a share of the piece, which is 0.1 at most in what the file allows.
    fn new(
        scene: &Scene,
        mut pick: impl FnMut(f64, f64) -> f64,
        thicker: Option<f64>,
        warmer_k: f64,
    ) -> Self {
        let class = Tables::built_in().kit.find(scene.kit).expect("a class");
        let film = &class.films[0];
        let medium_c = warmer_k + scene.medium_c + pick(-scene.swing_k, scene.swing_k);
        let moisture = class.moisture_range_percent.unwrap_or([20.0, 90.0]).map(|percent| percent / 100.0);
        let vapour_pa = pick(moisture[0], moisture[1]) * saturation_pa(medium_c);
        let around = Around {
            from_c: medium_c,
            medium_c,
            rate_k_s: f64::INFINITY,
            film_w_m2k: pick(film.low_w_m2k, film.high_w_m2k),
            emissivity: if film.radiates { 0.9 } else { 0.0 },
            wetness: pick(scene.wetness.0, scene.wetness.1),
            humidity: humidity_ratio(vapour_pa.min(0.9 * 101_325.0)),
        };
        let thicker = thicker.unwrap_or_else(|| pick(-0.1, 0.1));
        let mut body =
            Body::new((1.0 + thicker) * scene.half_thickness_m, scene.shape.beta(), pick(1.0, 7.0));
        let mut core = Vec::new();
        // A joint stays as wet as it began for up to ten hours, then dries by two thirds in two.
        let stays_wet_s = pick(0.0, 36_000.0);
        let wet = around.wetness;
        let mut reached = false;
        while !reached && body.t_s < 60.0 * 3600.0 {
            let around =
                Around { wetness: wet * (-(body.t_s - stays_wet_s).max(0.0) / 7200.0).exp(), ..around };
            let there = |core_c: f64| core_c >= scene.target_c;
            reached = body.stay(&around, 600.0, there, |t_s, core_c| core.push((t_s, core_c)));
        }
        Self { end_s: if reached { body.t_s } else { f64::INFINITY }, core }
    }

    fn core_c(&self, t_s: f64) -> f64 {
        let next = self.core.partition_point(|(at_s, _)| *at_s < t_s).min(self.core.len() - 1);
        self.core[next].1
    }

    /// Ten readings up to a share of the cook, by a probe that is off by up to 1 K all the time and by half a kelvin more
    /// or less from one reading to the next.
    fn read(&self, dice: &mut Dice, share: f64) -> Vec<Reading> {
        let offset = even(dice, -1.0, 1.0);
        let until_s = share * self.end_s;
        (1..=10)
            .map(|nth| {
                let t_s = (until_s * f64::from(nth) / 10.0 / 60.0).round() * 60.0;
                Reading { t_s, core_c: self.core_c(t_s) + offset + 0.5 * bell(dice) }
            })
            .collect()
    }
}

/// What came of one scene.
struct Gain {
    median_ratio: f64,
    inside: usize,
    draws: usize,
}

fn gain(scene: &Scene, share: f64) -> Gain {
    let draws = std::env::var("DWELL_DRAWS").ok().and_then(|typed| typed.parse().ok()).unwrap_or(USUAL_DRAWS);
    let plain = compiled(scene, scene.text, Vec::new());
    let plain_end = end(&plain).clone();
    let seed = std::env::var("DWELL_SEED").ok().and_then(|typed| typed.parse().ok());
    let mut dice = Dice(seed.unwrap_or(0x5eed));
    let (mut ratios, mut inside) = (Vec::new(), 0);
    while ratios.len() < draws {
        let truth = Truth::drawn(scene, &mut dice);
        if !truth.end_s.is_finite() || truth.end_s > plain_end.end_latest_s {
            continue; // It never gets there, and nobody waits so long.
        }
        let sharpened = compiled(scene, scene.text, truth.read(&mut dice, share));
        never_wider(curves(&sharpened), curves(&plain));
        let times = end(&sharpened);
        let width = |times: &PhaseTimes| times.end_latest_s - times.end_earliest_s;
        let holds = times.end_earliest_s <= truth.end_s && truth.end_s <= times.end_latest_s;
        ratios.push(width(times) / width(&plain_end));
        inside += usize::from(holds);
    }
    ratios.sort_by(f64::total_cmp);
    Gain { median_ratio: ratios[draws / 2], inside, draws }
}

/// At every moment that both have.
fn never_wider(after: &Curves, before: &Curves) {
    let least = |samples: &[Sample], t_s: f64| {
        let next = samples.partition_point(|sample| sample.t_s < t_s);
        let (one, other) = (samples.get(next.checked_sub(1)?)?, samples.get(next)?);
        Some((one.core_low_c.min(other.core_low_c), one.core_high_c.max(other.core_high_c)))
    };
    for sample in &after.foods[0].samples {
        assert!(sample.core_low_c <= sample.core_c && sample.core_c <= sample.core_high_c, "{sample:?}");
        if let Some((low, high)) = least(&before.foods[0].samples, sample.t_s) {
            // The line that is drawn may itself be off by what two ways of running it differ by.
            assert!(
                low - 0.3 <= sample.core_low_c && sample.core_high_c <= high + 0.3,
                "{sample:?} {low} {high}"
            );
        }
    }
    for (after, before) in after.phases.iter().zip(&before.phases) {
        assert!(before.end_earliest_s <= after.end_earliest_s && after.end_latest_s <= before.end_latest_s);
        assert!(after.end_earliest_s <= after.end_s && after.end_s <= after.end_latest_s);
        assert!(before.least_s <= after.least_s && after.most_s <= before.most_s);
    }
}

/// The gain that `grammar/forecast.md` speaks of. Nineteen of twenty is what it promises.
fn held(scene: &Scene, most_of_the_width: f64) {
    let gain = gain(scene, 0.5);
    let Gain { median_ratio, inside, draws } = gain;
    println!("{}: {median_ratio:.2} of the width, {inside} of {draws} inside", scene.name);
    assert!(inside * 20 >= draws * 19, "{}: only {inside} of {draws} ends are held", scene.name);
    assert!(median_ratio < most_of_the_width, "{}: {median_ratio:.2} of the width is left", scene.name);
}

#[test]
fn half_way_readings_narrow_the_end_in_low_heat_and_hold_it() {
    held(&SCENES[0], 0.7);
}

#[test]
fn half_way_readings_narrow_the_end_in_a_bath_and_hold_it() {
    held(&SCENES[1], 0.4);
}

/// What the readings of another cook than the file's speak for.
fn said(scene: &Scene, readings: Vec<Reading>) -> String {
    let compiled = compiled(scene, scene.text, readings);
    let plain = self::compiled(scene, scene.text, Vec::new());
    let found = compiled.findings.iter().find(|finding| finding.code.name() == "reading-contradicts");
    let found = found.unwrap_or_else(|| panic!("{:#?}", compiled.findings));
    assert_eq!(end(&compiled), end(&plain), "a forecast is not bent to readings that do not fit");
    format!("{} {}", found.message.render(Scale::Celsius), found.remedy.render(Scale::Celsius))
}

/// A figure that stands before a unit.
fn figure(said: &str, after: &str, unit: &str) -> f64 {
    let (_, rest) = said.split_once(after).unwrap_or_else(|| panic!("{after}: {said}"));
    let (figure, _) = rest.split_once(unit).unwrap_or_else(|| panic!("{unit}: {said}"));
    figure.trim().parse().unwrap_or_else(|_| panic!("{figure:?}: {said}"))
}

#[test]
fn a_thinner_or_thicker_piece_is_named_with_both_figures() {
    for (thicker, cm) in [(-0.33, 4.0), (0.33, 8.0)] {
        let truth = Truth::middling(&SCENES[1], thicker, 0.0);
        let said = said(&SCENES[1], truth.read(&mut Dice(7), 0.6));
        let fits = figure(&said, "A piece of ", "cm would fit");
        assert!((fits - cm).abs() <= 0.5 && said.contains("the file says 6 cm"), "{said}");
    }
}

#[test]
fn another_setting_is_named_with_both_figures() {
    let truth = Truth::middling(&SCENES[1], 0.0, 30.0);
    let said = said(&SCENES[1], truth.read(&mut Dice(7), 0.9));
    let fits = figure(&said, "`bath` at ", "°C would fit");
    assert!((fits - 90.0).abs() <= 4.0 && said.contains("it is set to 60 °C"), "{said}");
}

/// Two thirds of the way from the middle to the surface, by the curve of the forecast itself.
#[test]
fn a_probe_near_the_surface_is_told_from_one_in_the_middle() {
    let plain = compiled(&SCENES[1], SCENES[1].text, Vec::new());
    let samples = &curves(&plain).foods[0].samples;
    let readings = samples.iter().filter(|sample| sample.t_s > 600.0 && sample.t_s < 5400.0).step_by(4);
    let readings = readings
        .map(|sample| Reading {
            t_s: sample.t_s,
            core_c: sample.core_c + 0.66 * (sample.surface_c - sample.core_c),
        })
        .collect();
    let said = said(&SCENES[1], readings);
    assert!(said.contains("nearer the surface than the middle"), "{said}");
}

/// A log with a row each half minute, with the probe pulled out for two minutes.
#[test]
fn many_readings_take_no_longer_and_a_lapse_says_nothing() {
    let scene = &SCENES[1];
    let mut dice = Dice(11);
    let truth = Truth::drawn(scene, &mut dice);
    let many = (1..=200).map(|nth| {
        let t_s = f64::from(nth) * 30.0;
        let core_c = if (100..105).contains(&nth) { 21.0 } else { truth.core_c(t_s) + 0.5 * bell(&mut dice) };
        Reading { t_s, core_c }
    });
    let sharpened = compiled(scene, scene.text, many.collect());
    assert!(!sharpened.findings.iter().any(|finding| finding.code.name() == "reading-contradicts"));
    let times = end(&sharpened);
    assert!(times.end_earliest_s <= truth.end_s && truth.end_s <= times.end_latest_s, "{times:?}");
    assert!(curves(&sharpened).foods[0].readings.len() <= 16);
}

/// A bath and then an oven, in which the joint ends at a temperature of the core.
const BATH_THEN_OVEN: &str = "kit bath is water bath\nkit oven is oven\nkit probe is probe thermometer\n\nfood joint is test slab\n  1 piece of 2 kg\n  \
     thickness 6 cm\n  shape slab\n\nphase soak is cook\n  joint in bath\n  vacuum bagged\n  water 55 °C ± 0.5 °C\n  \
     for 3 h\n\nphase crust is cook\n  joint in oven\n  air 150 °C ± 10 °C\n  until core 70 °C\n";

#[test]
fn a_reading_before_the_core_has_changed_moves_nothing() {
    let plain = compiled(&SCENES[1], BATH_THEN_OVEN, Vec::new());
    let reading = Reading { t_s: 60.0, core_c: curves(&plain).foods[0].samples[0].core_c };
    let after = compiled(&SCENES[1], BATH_THEN_OVEN, vec![reading]);
    assert_eq!(curves(&after).phases, curves(&plain).phases);
    assert_eq!(curves(&after).foods[0].samples, curves(&plain).foods[0].samples);
    assert_eq!(curves(&after).foods[0].heeded, Heeded::TooSoon);
}

#[test]
fn readings_in_the_bath_leave_the_oven_as_uncertain_as_before() {
    let plain = compiled(&SCENES[1], BATH_THEN_OVEN, Vec::new());
    let samples = &curves(&plain).foods[0].samples;
    let readings = samples.iter().filter(|sample| (1800.0..7200.0).contains(&sample.t_s)).step_by(6);
    let readings = readings.map(|sample| Reading { t_s: sample.t_s, core_c: sample.core_c }).collect();
    let after = compiled(&SCENES[1], BATH_THEN_OVEN, readings);
    assert_eq!(curves(&after).foods[0].heeded, Heeded::Followed);
    let crust = |compiled: &Compiled| {
        let times = &curves(compiled).phases[1];
        (times.least_s, times.most_s, times.end_earliest_s, times.end_latest_s)
    };
    assert_eq!(crust(&after), crust(&plain));
    let width_at = |compiled: &Compiled, t_s: f64| {
        let mut samples = curves(compiled).foods[0].samples.iter();
        let sample = samples.find(|sample| sample.t_s >= t_s).expect("a sample then");
        sample.core_high_c - sample.core_low_c
    };
    assert!(width_at(&after, 2700.0) < 0.7 * width_at(&plain, 2700.0));
}

#[test]
fn a_reading_after_the_last_possible_end_is_refused() {
    let plain = compiled(&SCENES[1], SCENES[1].text, Vec::new());
    let reading = Reading { t_s: 100.0 * 86_400.0, core_c: 60.0 };
    let after = compiled(&SCENES[1], SCENES[1].text, vec![reading]);
    assert!(after.findings.iter().any(|finding| finding.code.name() == "reading-unplaced"));
    assert_eq!(curves(&after), curves(&plain));
}
