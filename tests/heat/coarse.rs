//! What is saved on the corners costs no more than the bounds are widened by.

use dwell::heat::conduction::history::{History, Sample};
use dwell::heat::conduction::solve::{Accuracy, solve};

use crate::support::cooks;

/// The core at a share of the way through a phase.
fn core(history: &History, phase: usize, share: f64) -> f64 {
    let start_s = if phase == 0 { 0.0 } else { history.ends[phase - 1].at_s };
    let t_s = start_s + share * (history.ends[phase].at_s - start_s);
    history.at(phase, t_s, Sample::core).unwrap_or(f64::NAN)
}

#[test]
fn coarse_runs_stay_close_to_full_ones() {
    let mut worst: f64 = 0.0;
    for (_, cook) in cooks() {
        let full = solve(&cook.body(), &cook.phases(), Accuracy::FULL).unwrap();
        let coarse = solve(&cook.body(), &cook.phases(), Accuracy::COARSE).unwrap();
        for phase in 0..full.ends.len() {
            let length_s = full.ends[phase].at_s - coarse.ends[phase].at_s;
            assert!(length_s.abs() < 0.005 * full.ends[phase].at_s, "phase {phase} is {length_s} s off");
            for nth in 0..=100 {
                let share = f64::from(nth) / 100.0;
                worst = worst.max((core(&full, phase, share) - core(&coarse, phase, share)).abs());
            }
        }
    }
    println!("worst {worst:.3} K");
    assert!(worst < 0.2, "{worst} K");
}
