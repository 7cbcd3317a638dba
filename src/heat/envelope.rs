//! The bounds of a whole curve from those of its phases.
//!
//! A phase that ends when the food says so ends earlier or later than usual, and all that follows shifts with it. The
//! bounds of each phase are known from its own start on; at a moment of the whole curve they are the widest of every
//! phase that the food may be in by then, however far it may have got in it.

use super::schedule::Slot;

/// One moment of a phase, in seconds from its own start; °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Instant {
    pub tau_s: f64,
    pub medium_c: f64,
    pub surface_c: f64,
    pub core_c: f64,
    pub low_c: f64,
    pub high_c: f64,
}

/// A food in one phase: instants in the order of time, up to the longest that the phase may last.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    pub slot: Slot,
    pub instants: Vec<Instant>,
}

/// The lowest and the highest that the core may be `t_s` seconds from the start of the cook.
pub fn bounds(stretches: &[Stretch], t_s: f64) -> Option<(f64, f64)> {
    let mut found: Option<(f64, f64)> = None;
    for stretch in stretches {
        let (first, last) = (stretch.instants.first()?, stretch.instants.last()?);
        let from = (t_s - stretch.slot.start_s.high).max(first.tau_s);
        let to = (t_s - stretch.slot.start_s.low).min(last.tau_s);
        if from > to {
            continue;
        }
        let inside = stretch.instants.iter().filter(|instant| (from..=to).contains(&instant.tau_s));
        let inside = inside.map(|instant| (instant.low_c, instant.high_c));
        for (low, high) in inside.chain([at(&stretch.instants, from), at(&stretch.instants, to)]) {
            let (lowest, highest) = found.unwrap_or((low, high));
            found = Some((lowest.min(low), highest.max(high)));
        }
    }
    found
}

/// The bounds between two instants.
fn at(instants: &[Instant], tau_s: f64) -> (f64, f64) {
    let next = instants.partition_point(|instant| instant.tau_s < tau_s);
    let (Some(before), Some(after)) = (instants.get(next.saturating_sub(1)), instants.get(next)) else {
        return instants.last().map_or((f64::NAN, f64::NAN), |last| (last.low_c, last.high_c));
    };
    let span = after.tau_s - before.tau_s;
    let share = if span > 0.0 { (tau_s - before.tau_s) / span } else { 0.0 };
    let between = |from: f64, to: f64| from + share * (to - from);
    (between(before.low_c, after.low_c), between(before.high_c, after.high_c))
}
