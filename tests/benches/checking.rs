//! How long `dwell check` takes over a thousand different cooks, and each example, with full prediction.
//!
//! Run with `cargo bench --bench checking`. The targets are 20 s for the thousand on two cores, and 10 ms of processor time
//! for one cook. Other work on the machine makes the time longer and hardly changes the processor time.

#[allow(dead_code)]
#[path = "../common/dice.rs"]
mod dice;
#[path = "../common/draws.rs"]
mod draws;
#[path = "../common/spent.rs"]
mod spent;

use std::path::Path;
use std::process::{Command, Stdio};

use spent::timed;

const COOKS: usize = 1000;
const RUNS: u32 = 40;

fn check(path: &Path, threads: &str) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_dwell"));
    command.arg("check").arg(path).env("RAYON_NUM_THREADS", threads);
    let done = command.stdout(Stdio::null()).stderr(Stdio::null()).status().expect("the program runs");
    assert!(matches!(done.code(), Some(0 | 1)), "{path:?}: {done}");
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
