//! How fast a typed cook becomes a timeline, findings and all.
//!
//! Run with `cargo bench --bench planning`. The target is 2 ms for the overnight shoulder.

use dwell::cook::{Cook, Document};
use dwell::resolve::{Context, resolve_text};
use dwell::tables::Tables;
use dwell::text::{FileProblem, Files};
use dwell::timing::{OnTime, Options, plan};

/// The club's kit, which the examples name.
struct Kitchen;

impl Files for Kitchen {
    fn read(&self, _from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        let kit = include_bytes!("../../examples/clubhouse.dwell");
        if path == "clubhouse.dwell" { Ok((path.into(), kit.to_vec())) } else { Err(FileProblem::Missing) }
    }
}

fn main() {
    divan::main();
}

fn typed(text: &str) -> Cook {
    let rule_sets = ["us-food-code".to_string(), "uk".to_string()];
    let context = Context { files: &Kitchen, tables: Tables::built_in(), rule_sets: &rule_sets };
    match resolve_text(&context, "cook.dwell", text) {
        (_, Some(Document::Cook(cook)), findings) if findings.is_empty() => *cook,
        (_, _, findings) => panic!("{findings:#?}"),
    }
}

const SHOULDER: &str = include_str!("../../examples/overnight-shoulder.dwell");

#[divan::bench]
fn overnight_shoulder(bencher: divan::Bencher<'_, '_>) {
    let cook = typed(SHOULDER);
    bencher.bench_local(|| {
        let (timeline, findings) = plan(divan::black_box(&cook), &Options::default());
        assert!(timeline.on_time == OnTime::Always && findings.is_empty());
        timeline
    });
}

/// The same with an hour less of smoke: it is never on time, and cures are looked for.
#[divan::bench]
fn overnight_shoulder_too_short(bencher: divan::Bencher<'_, '_>) {
    let cook = typed(&SHOULDER.replace("for 6 h", "for 5 h"));
    bencher.bench_local(|| {
        let (timeline, findings) = plan(divan::black_box(&cook), &Options::default());
        assert!(timeline.on_time == OnTime::Never && findings.len() == 1);
        timeline
    });
}

/// Two food lines.
#[divan::bench]
fn turkey_crown(bencher: divan::Bencher<'_, '_>) {
    let cook = typed(include_str!("../../examples/turkey-crown.dwell"));
    bencher.bench_local(|| plan(divan::black_box(&cook), &Options::default()));
}
