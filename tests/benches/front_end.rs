//! How fast text becomes a typed cook: 100,000 lines of the examples' own kind.
//!
//! Run with `cargo bench --bench front_end`. The target is 500,000 lines a second on one core.

#[path = "../common/long.rs"]
mod long;

use divan::counter::ItemsCount;
use dwell::resolve::{Context, resolve_text};
use dwell::tables::Tables;
use dwell::text::{FileProblem, Files};
use long::long_cook;

struct NoFiles;

impl Files for NoFiles {
    fn read(&self, _from: &str, _path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        Err(FileProblem::Missing)
    }
}

fn main() {
    divan::main();
}

/// The stand-alone examples, over and over, until there are at least 100,000 lines.
fn corpus() -> (Vec<&'static str>, usize) {
    let examples = [
        include_str!("../../examples/chilli.dwell"),
        include_str!("../../examples/short-rib.dwell"),
        include_str!("../../examples/turkey-crown.dwell"),
    ];
    let mut files = Vec::new();
    let mut lines = 0;
    while lines < 100_000 {
        for example in examples {
            files.push(example);
            lines += example.lines().count();
        }
    }
    (files, lines)
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn text_to_typed_cook(bencher: divan::Bencher<'_, '_>) {
    let (files, lines) = corpus();
    let rule_sets = ["us-food-code".to_string(), "uk".to_string()];
    let context = Context { files: &NoFiles, tables: Tables::built_in(), rule_sets: &rule_sets };
    bencher.counter(ItemsCount::new(lines)).bench_local(|| {
        for text in &files {
            let (_, document, findings) = resolve_text(&context, "corpus.dwell", divan::black_box(text));
            assert!(document.is_some() && findings.is_empty());
        }
    });
}

/// One cook of 100,000 lines: nothing may grow faster than the file.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn one_long_cook(bencher: divan::Bencher<'_, '_>) {
    let text = long_cook(100_000);
    let lines = text.lines().count();
    let rule_sets = ["us-food-code".to_string()];
    let context = Context { files: &NoFiles, tables: Tables::built_in(), rule_sets: &rule_sets };
    bencher.counter(ItemsCount::new(lines)).bench_local(|| {
        let (_, document, findings) = resolve_text(&context, "long.dwell", divan::black_box(&text));
        assert!(document.is_some() && findings.is_empty());
    });
}
