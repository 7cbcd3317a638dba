//! What is shown at once is true: a full check says it too.

mod common;

use std::collections::BTreeSet;

use common::Memory;
use dwell::compile::{Compiled, Options, compile};
use dwell::findings::{ALL, Stage};

type Found = BTreeSet<(&'static str, u32, u32)>;

fn found(compiled: &Compiled) -> Found {
    compiled.findings.iter().map(|one| (one.code.name(), one.span.start, one.span.end)).collect()
}

/// What is found at once, and what only a full check finds.
fn at_once_and_later(files: &[(&str, &str)]) -> (Found, Found) {
    let (name, text) = files[0];
    let check = |declared_only| {
        let options = Options { declared_only, ..Options::default() };
        compile(&Memory(files), name.into(), text.into(), &options)
    };
    let (declared, full) = (check(true), check(false));
    for worked in declared.cooks() {
        assert!(worked.timeline.is_none() && worked.curves.foods.is_empty(), "{name}");
    }
    let (declared, full) = (found(&declared), found(&full));
    assert!(declared.is_subset(&full), "{name}: {:?}", declared.difference(&full));
    let later = full.difference(&declared).copied().collect();
    (declared, later)
}

fn folder(name: &str) -> Vec<(String, String)> {
    let folder = format!("{}/{name}", env!("CARGO_MANIFEST_DIR"));
    let files = std::fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path());
    let cooks = files.filter(|path| path.extension().is_some_and(|end| end == "dwell"));
    cooks
        .map(|path| {
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            (name, std::fs::read_to_string(path).expect("a text"))
        })
        .collect()
}

#[test]
fn a_full_check_finds_all_that_is_found_at_once() {
    let (mut at_once, mut later) = (Found::new(), Found::new());
    for name in ["examples", "examples/wrong", "examples/unsafe"] {
        let files = folder(name);
        let mut files: Vec<_> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        for nth in 0..files.len() {
            files.swap(0, nth);
            let (one, other) = at_once_and_later(&files);
            at_once.extend(one);
            later.extend(other);
        }
    }
    for code in ALL {
        let explained = code.explained();
        for examples in [explained.bad, explained.good] {
            let files: Vec<_> =
                examples.iter().map(|one| (one.name.unwrap_or("main.dwell"), one.text)).collect();
            if files.is_empty() {
                continue;
            }
            let (one, other) = at_once_and_later(&files);
            let reads = matches!(code.stage(), Stage::Syntax | Stage::Units | Stage::Names);
            assert!(!reads || other.is_empty(), "{}: {other:?} only later", code.name());
            at_once.extend(one);
            later.extend(other);
        }
    }
    assert!(at_once.len() > 60 && later.len() > 10, "{} at once, {} later", at_once.len(), later.len());
}
