//! Multi-phase cooks of a second, independent solver.

use crate::support::{Cook, cooks, numbers, plain};
use dwell::heat::conduction::history::{History, Sample};
use dwell::heat::conduction::solve::{Accuracy, solve};
use dwell::heat::conduction::surface::Surface;

const CORE_K: f64 = 0.05;
const SURFACE_K: f64 = 0.2;

/// 0.2 % of the time, at least 30 s.
fn time_room_s(t_s: f64) -> f64 {
    (0.002 * t_s).max(30.0)
}

#[derive(Default, Debug)]
struct Worst {
    core_k: f64,
    mean_k: f64,
    surface_k: f64,
    end_s: f64,
    end_share: f64,
}

/// At the instant of a jump the reference gives the temperature of a surface without mass, in balance with
/// the middle of its outermost cell of R/400. The same balance from the food's own temperature there.
fn massless_surface_c(cook: &Cook, surface: &Surface, inside_c: f64) -> f64 {
    let k = cook.body().material.state(inside_c).k;
    let conductance = k / (cook.half_thickness_m / 800.0);
    surface.balance(conductance, conductance * inside_c, 1.0, inside_c)
}

fn compare(cook: &Cook, history: &History, worst: &mut Worst) {
    let ends = numbers(&cook.expected["phase_end_s"]);
    assert_eq!(ends.len(), history.ends.len());
    let starts: Vec<f64> = std::iter::once(0.0).chain(history.ends.iter().map(|e| e.at_s)).collect();
    for (expected, end) in ends.iter().zip(&history.ends) {
        let off = (end.at_s - expected).abs();
        worst.end_s = worst.end_s.max(off);
        worst.end_share = worst.end_share.max(off / time_room_s(*expected));
    }
    let phases = cook.phases();
    let samples = cook.expected["samples"].as_array().expect("samples");
    for row in samples {
        let row = numbers(row);
        let [t_s, phase, medium_c, core_c, mean_c, surface_c] = row[..] else { panic!("six columns") };
        let index = phase as usize;
        // Within the phase: the same time since its start, so that a small difference in its start is not
        // counted again, but for the last moment, which is the end of either.
        let expected_start = if index == 0 { 0.0 } else { ends[index - 1] };
        let since = (t_s - expected_start).min(history.ends[index].at_s - starts[index]);
        let since = if t_s == ends[index] { history.ends[index].at_s - starts[index] } else { since };
        let at = |follow| history.at(index, starts[index] + since, follow).expect("inside the phase");
        let ours_c = at(Sample::surface);
        let settings = phases[index].surface_at(since, since).expect("settings");
        let ours_c = if since == 0.0 { massless_surface_c(cook, &settings, ours_c) } else { ours_c };
        worst.core_k = worst.core_k.max((at(Sample::core) - core_c).abs());
        worst.mean_k = worst.mean_k.max((at(Sample::mean) - mean_c).abs());
        if (ours_c - surface_c).abs() > worst.surface_k {
            worst.surface_k = (ours_c - surface_c).abs();
        }
        assert!((phases[index].medium_c.at(since, since) - medium_c).abs() < 0.01, "medium at {t_s}");
    }
}

/// `core_min_between_4p4_and_60_c` as (4.4, 60).
fn band(key: &str) -> Option<(f64, f64)> {
    let (low, high) = key.strip_prefix("core_min_between_")?.strip_suffix("_c")?.split_once("_and_")?;
    let number = |text: &str| text.replace('p', ".").parse().expect("number");
    Some((number(low), number(high)))
}

#[test]
fn cooks_follow_the_reference() {
    let cooks = cooks();
    assert!(cooks.len() >= 6, "the reference cooks are gone");
    for (name, cook) in &cooks {
        let history = solve(&cook.body(), &cook.phases(), Accuracy::FULL).expect("solved");
        let mut worst = Worst::default();
        compare(cook, &history, &mut worst);
        println!("{name}: {worst:.4?}, {} steps, {} rejected", history.steps, history.rejected);
        assert!(worst.core_k < CORE_K && worst.mean_k < CORE_K, "{name}: {worst:?}");
        assert!(worst.surface_k < SURFACE_K, "{name}: {worst:?}");
        assert!(worst.end_share < 1.0, "{name}: {worst:?}");
        // The reference looks once a minute, so its highest core is ours at that moment and no more than
        // what one minute can add.
        let expected = |key: &str| plain(&cook.expected[key]).expect("a number");
        let (highest_c, at_s) = (expected("core_max_c"), expected("core_max_at_s"));
        let phase = history.ends.iter().position(|e| at_s <= e.at_s).expect("inside the cook");
        let ours_c = history.at(phase, at_s, Sample::core).expect("inside the phase");
        assert!((ours_c - highest_c).abs() < CORE_K, "{name}: {ours_c} at {at_s}");
        let highest = history.core_highest;
        assert!(highest.value_c > ours_c - 1e-9 && highest.value_c < highest_c + 0.1, "{name}: {highest:?}");
        for (key, minutes) in &cook.expected {
            if let Some((low_c, high_c)) = band(key) {
                let expected_s = 60.0 * plain(minutes).expect("minutes");
                let ours_s = history.core_seconds_between(low_c, high_c);
                let off = (ours_s - expected_s).abs();
                assert!(off < time_room_s(expected_s), "{name}: {key} {ours_s} s, expected {expected_s} s");
            }
        }
    }
}
