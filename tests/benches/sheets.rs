//! How long `dwell sheet` takes: of the examples as a page and as a PDF, and of a menu of ten dishes.
//!
//! Run with `cargo bench --features pdf --bench sheets`; without the feature there are no PDFs. The targets: a page 20 ms of
//! processor time beyond `dwell check`, a PDF 1 s, the sheets of the menu, one for the meal and one for each dish, 3 s.

#[path = "../common/spent.rs"]
mod spent;

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use spent::timed;

const RUNS: u32 = 20;

const CLUBHOUSE: &str = include_str!("../../examples/clubhouse.dwell");
const DISHES: [(&str, &str); 3] = [
    ("shoulder", include_str!("../../examples/overnight-shoulder.dwell")),
    ("beans", include_str!("../../examples/baked-beans.dwell")),
    ("celeriac", include_str!("../../examples/roast-celeriac.dwell")),
];
/// Kit that every three dishes have for themselves.
const OWN_KIT: [&str; 2] = ["cabinet", "oven"];

/// The supper of the rowing club with ten dishes: those of the club supper over and over, each three with their own
/// cabinet and oven.
fn ten_dishes(folder: &Path) -> PathBuf {
    let write = |name: &str, text: String| std::fs::write(folder.join(name), text).expect("a file");
    let mut menu = String::from(
        "menu \"Supper after the long-distance regatta\"\n  serve at 2026-12-12 18:30 in Europe/Dublin\ncrew\n  \
         6 people\n  asleep 23:00 to 06:30\n",
    );
    for n in 0..10 {
        let ((name, text), kitchen) = (DISHES[n % DISHES.len()], n / DISHES.len() + 1);
        let mut text = text.replacen("cook \"", &format!("cook \"{kitchen}. "), 1);
        let mut kit = CLUBHOUSE.to_owned();
        for own in OWN_KIT {
            text = text.replace(&format!(" in {own}\n"), &format!(" in {own}-{kitchen}\n"));
            kit = kit.replace(&format!("kit {own} is"), &format!("kit {own}-{kitchen} is"));
        }
        write(&format!("kitchen-{kitchen}.dwell"), kit);
        write(
            &format!("{name}-{n}.dwell"),
            text.replace("clubhouse.dwell", &format!("kitchen-{kitchen}.dwell")),
        );
        menu += &format!("dish \"{name}-{n}.dwell\" for 40\n");
    }
    write("menu.dwell", menu);
    folder.join("menu.dwell")
}

fn run(command: &str, file: &Path, options: &[&str]) {
    let mut program = Command::new(env!("CARGO_BIN_EXE_dwell"));
    program.arg(command).arg(file).args(options).env("RAYON_NUM_THREADS", "1");
    let done = program.stdout(Stdio::null()).stderr(Stdio::null()).status().expect("the program runs");
    assert!(matches!(done.code(), Some(0 | 1)), "{command} {file:?}: {done}");
}

/// Milliseconds on the clock and of processor time, each a mean.
fn mean_ms(runs: u32, work: impl Fn()) -> (f64, f64) {
    let (clock, user, system) = timed(|| (0..runs).for_each(|_| work()));
    (1e3 * clock / f64::from(runs), 1e3 * (user + system) / f64::from(runs))
}

fn main() {
    let folder = tempfile::tempdir().expect("a folder");
    let pdf = folder.path().join("sheet.pdf");
    let pdf = ["-o", pdf.to_str().expect("a plain name")];
    let examples = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/examples"));
    let names = [
        "overnight-shoulder",
        "club-supper",
        "baked-beans",
        "roast-celeriac",
        "turkey-crown",
        "short-rib",
        "chilli",
    ];
    for name in names {
        let file = examples.join(name).with_extension("dwell");
        let (_, check) = mean_ms(RUNS, || run("check", &file, &[]));
        let (_, page) = mean_ms(RUNS, || run("sheet", &file, &[]));
        println!("{name}: a page {:.1} ms of processor time beyond the {check:.1} ms of check", page - check);
        if cfg!(feature = "pdf") {
            let (clock, spent) = mean_ms(RUNS / 4, || run("sheet", &file, &pdf));
            println!("{name}: a PDF {clock:.0} ms, {spent:.0} ms of it processor time");
        }
    }
    let menu = ten_dishes(folder.path());
    let (clock, spent) = mean_ms(1, || run("check", &menu, &[]));
    println!("ten dishes: check {clock:.0} ms, {spent:.0} ms of it processor time");
    let (clock, spent) = mean_ms(1, || run("sheet", &menu, &[]));
    println!("ten dishes: all sheets as a page {clock:.0} ms, {spent:.0} ms of it processor time");
    if cfg!(feature = "pdf") {
        let (clock, spent) = mean_ms(1, || run("sheet", &menu, &pdf));
        println!("ten dishes: all sheets as a PDF {clock:.0} ms, {spent:.0} ms of it processor time");
    }
}
