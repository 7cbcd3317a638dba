//! The bounds of a whole curve from those of its phases.
//!
//! A phase that ends when the food says so ends earlier or later than usual, and all that follows shifts with it. The
//! bounds of each phase are known from its own start on; at a moment of the whole curve they are the widest of every
//! phase that the food may be in by then, however far it may have got in it. That holds for every way through the phases
//! but is wide after several of them: a cook that was slow in one and quick in the next is reckoned with everywhere.

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
        // Between two instants the curve may turn sooner than a straight line does: both of them count.
        let begin = stretch.instants.partition_point(|instant| instant.tau_s <= from).max(1) - 1;
        let end = stretch.instants.partition_point(|instant| instant.tau_s < to);
        for Instant { low_c: low, high_c: high, .. } in stretch.instants.iter().take(end + 1).skip(begin) {
            let (lowest, highest) = found.unwrap_or((*low, *high));
            found = Some((lowest.min(*low), highest.max(*high)));
        }
    }
    found
}
