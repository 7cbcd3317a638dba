//! The queries fit the grammar, and colour every word of it.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use tree_sitter::{Query, QueryCursor, StreamingIterator};

use crate::parser::{LANGUAGE, parse};

fn editors() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("editors")
}

/// Every query of every editor, links to another's among them.
fn queries() -> Vec<PathBuf> {
    let mut found = Vec::new();
    for folder in
        ["tree-sitter-dwell/queries", "helix/queries/dwell", "neovim/queries/dwell", "zed/languages/dwell"]
    {
        for entry in std::fs::read_dir(editors().join(folder)).unwrap_or_else(|_| panic!("{folder} is there"))
        {
            let path = entry.unwrap().path();
            if path.extension().is_some_and(|kind| kind == "scm") {
                found.push(path);
            }
        }
    }
    found
}

fn query(path: &Path) -> Query {
    let text = std::fs::read_to_string(path).unwrap();
    Query::new(&LANGUAGE, &text).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// What a query takes from a text: capture and the text it stands on.
fn captures(path: &Path, text: &str) -> Vec<(String, String)> {
    let (query, tree) = (query(path), parse(text));
    let mut cursor = QueryCursor::new();
    let mut found = Vec::new();
    let mut all = cursor.captures(&query, tree.root_node(), text.as_bytes());
    while let Some((matched, nth)) = all.next() {
        let capture = matched.captures()[*nth];
        let name = query.capture_names()[capture.index as usize].to_owned();
        found.push((name, text[capture.node.byte_range()].to_owned()));
    }
    found
}

#[test]
fn every_query_fits_the_grammar() {
    let queries = queries();
    assert!(queries.len() >= 9, "{queries:?}");
    for path in queries {
        query(&path);
    }
}

#[test]
fn every_word_of_the_grammar_is_coloured_by_every_editor() {
    let words: BTreeSet<&str> = (0..LANGUAGE.node_kind_count() as u16)
        .filter(|&id| LANGUAGE.node_kind_is_visible(id) && !LANGUAGE.node_kind_is_named(id))
        .filter_map(|id| LANGUAGE.node_kind_for_id(id))
        .filter(|&kind| kind != "end")
        .collect();
    assert!(words.contains("unattended") && words.contains("±"), "{words:?}");
    for path in queries().iter().filter(|path| path.ends_with("highlights.scm")) {
        let text = std::fs::read_to_string(path).unwrap();
        let coloured: BTreeSet<&str> = text
            .lines()
            .filter(|line| !line.starts_with(';'))
            .flat_map(|line| line.split('"').skip(1).step_by(2))
            .collect();
        let missing: Vec<_> = words.difference(&coloured).collect();
        assert!(missing.is_empty(), "{}: {missing:?}", path.display());
    }
}

#[test]
fn a_word_is_coloured_by_what_it_is() {
    let text = "phase roast is cook // slow\n  salt in oven\n  salt 2.5 %, note \"at 18:30\"\n  for 5 h\n";
    let expected = [
        ("keyword", "phase"),
        ("function", "roast"),
        ("keyword.operator", "is"),
        ("constant.builtin", "cook"),
        ("comment", "// slow"),
        ("variable", "salt"),
        ("keyword.operator", "in"),
        ("variable", "oven"),
        ("property", "salt"),
        ("number", "2.5"),
        ("type.builtin", "%"),
        ("punctuation.delimiter", ","),
        ("property", "note"),
        ("string", "\"at 18:30\""),
        // The last one counts.
        ("keyword.operator", "for"),
        ("property", "for"),
        ("number", "5"),
        ("type.builtin", "h"),
    ];
    let found = captures(&editors().join("tree-sitter-dwell/queries/highlights.scm"), text);
    let found: Vec<_> = found.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    assert_eq!(found, expected);
}

#[test]
fn a_fold_is_a_block_without_what_stands_before_the_next() {
    let text = "crew\n  2 people\n\n// the meat\nfood lamb is lamb leg\n  2 kg\n";
    let found = captures(&editors().join("tree-sitter-dwell/queries/folds.scm"), text);
    let folds: Vec<_> = found.iter().map(|(_, text)| text.as_str()).collect();
    assert_eq!(folds, ["crew\n  2 people\n", "food lamb is lamb leg\n  2 kg\n"]);
}
