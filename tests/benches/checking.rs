//! How long `dwell check` takes over a thousand different cooks, and each example, with full prediction.
//!
//! Run with `cargo bench --bench checking`. The targets are 20 s for the thousand on two cores, and 10 ms of processor time
//! for one cook. Other work on the machine makes the time longer and hardly changes the processor time.

#[allow(dead_code)]
#[path = "../common/dice.rs"]
mod dice;
#[path = "../common/draws.rs"]
mod draws;

use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

const COOKS: usize = 1000;
const RUNS: u32 = 40;

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

fn check(path: &Path, threads: &str) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_dwell"));
    command.arg("check").arg(path).env("RAYON_NUM_THREADS", threads);
    let done = command.stdout(Stdio::null()).stderr(Stdio::null()).status().expect("the program runs");
    assert!(matches!(done.code(), Some(0 | 1)), "{path:?}: {done}");
}

/// Seconds, processor seconds in the program, and in the system for it.
fn timed(work: impl FnOnce()) -> (f64, f64, f64) {
    let ((user, system), start) = (processor_s(), Instant::now());
    work();
    let (user_after, system_after) = processor_s();
    (start.elapsed().as_secs_f64(), user_after - user, system_after - system)
}

fn main() {
    let folder = tempfile::tempdir().expect("a folder");
    let (kitchen, kit) = draws::SHARED_KIT;
    std::fs::write(folder.path().join(kitchen), kit).expect("the kit");
    for (name, text) in draws::cooks(COOKS, 0xD3E1) {
        std::fs::write(folder.path().join(name), text).expect("a cook");
    }
    for threads in ["1", "2"] {
        let (wall, user, system) = timed(|| check(folder.path(), threads));
        let load = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
        println!(
            "{COOKS} cooks, {threads} threads: {wall:.1} s, processor {user:.1} s and {system:.1} s in the system; load {}",
            load.split(' ').next().unwrap_or("unknown")
        );
    }
    let examples = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/examples"));
    for name in ["roast-celeriac", "overnight-shoulder", "turkey-crown", "short-rib", "chilli", "club-supper"]
    {
        let path = examples.join(name).with_extension("dwell");
        let (_, user, system) = timed(|| (0..RUNS).for_each(|_| check(&path, "1")));
        println!(
            "{name}: {:.1} ms of processor time, mean of {RUNS}",
            1e3 * (user + system) / f64::from(RUNS)
        );
    }
}
