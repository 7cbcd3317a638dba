//! The committed parser is what the grammar gives. `DWELL_ACCEPT=1` writes it anew; both need Node.js.

use std::fs;
use std::process::Command;

use tree_sitter_generate::{OptLevel, generate_parser_in_directory};

use crate::parser::folder;

/// What is generated, beside the headers of the parser library.
const WRITTEN: [&str; 3] = ["grammar.json", "node-types.json", "parser.c"];

/// Of the interface between parser and library; the newest that the editors of 2025 know.
const ABI: usize = 15;

#[test]
fn the_committed_parser_is_what_the_grammar_gives() {
    if Command::new("node").arg("--version").output().is_err() {
        assert!(std::env::var_os("CI").is_none(), "Node.js is missing");
        return;
    }
    let place = tempfile::tempdir().unwrap();
    for name in ["grammar.js", "words.js", "tree-sitter.json"] {
        fs::copy(folder().join(name), place.path().join(name)).unwrap();
    }
    generate_parser_in_directory(
        place.path(),
        None::<&str>,
        None::<&str>,
        ABI,
        None,
        None,
        true,
        OptLevel::default(),
        &mut Vec::new(),
    )
    .expect("a parser");
    for name in WRITTEN {
        let fresh = fs::read_to_string(place.path().join("src").join(name)).unwrap();
        let committed = folder().join("src").join(name);
        if std::env::var_os("DWELL_ACCEPT").is_some() {
            fs::write(committed, fresh).unwrap();
        } else {
            let committed = fs::read_to_string(committed).unwrap();
            assert!(committed == fresh, "{name} is stale: run this test with DWELL_ACCEPT=1");
        }
    }
}
