//! How fast the microbes of one food are worked out: a day of 2,000 points, all five organisms.
//!
//! Run with `cargo bench --bench microbes`. The target is well under 1 ms.

use std::hint::black_box;
use std::time::Instant;

use dwell::safety::history::History;
use dwell::safety::microbes::{Sort, exposure, organisms};
use dwell::tables::{FoodState, Species};

const POINTS: usize = 2000;

/// Up to 70 °C, held, and down again, never quite steady.
fn day() -> History {
    let point = |nth: usize| {
        let hours = 24.0 * nth as f64 / (POINTS - 1) as f64;
        let core_c = match hours {
            ..8.0 => 5.0 + 8.0 * hours,
            ..16.0 => 69.0,
            _ => 69.0 * (-(hours - 16.0) / 4.0).exp(),
        };
        (hours * 3600.0, core_c + (nth as f64).sin() * 0.3)
    };
    History::from_celsius((0..POINTS).map(point)).expect("a history")
}

fn main() {
    let (history, sorts) = (day(), [Sort { species: Species::Poultry, state: FoodState::Ground }]);
    assert_eq!(organisms(&sorts).count(), 5);
    let fastest_us = (0..2000)
        .map(|_| {
            let start = Instant::now();
            organisms(&sorts).for_each(|organism| {
                black_box(exposure(organism, black_box(&sorts), black_box(&history)));
            });
            start.elapsed().as_secs_f64() * 1e6
        })
        .fold(f64::INFINITY, f64::min);
    println!("24 h, {POINTS} points, five organisms: {fastest_us:.0} µs");
}
