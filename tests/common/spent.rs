//! What programs that are run from here cost. Other work on the machine makes the time longer and hardly changes the
//! processor time.

use std::time::Instant;

/// Seconds of processor time that programs started from here have had, in them and for them in the system.
fn processor_s() -> (f64, f64) {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let figures: Vec<f64> = stat
        .rsplit(')')
        .next()
        .unwrap_or("")
        .split_whitespace()
        .map(|word| word.parse().unwrap_or(0.0))
        .collect();
    // Fields 16 and 17 of proc(5), in hundredths; the first of these is field 3.
    let hundredths = |field: usize| figures.get(field - 3).copied().unwrap_or(f64::NAN) / 100.0;
    (hundredths(16), hundredths(17))
}

/// Seconds, processor seconds in the program, and in the system for it.
pub fn timed(work: impl FnOnce()) -> (f64, f64, f64) {
    let ((user, system), start) = (processor_s(), Instant::now());
    work();
    let (user_after, system_after) = processor_s();
    (start.elapsed().as_secs_f64(), user_after - user, system_after - system)
}
