//! The tree keeps every byte, and the examples read without a finding.

use dwell::syntax;
use dwell::text::FileId;

fn example_files() -> Vec<(String, String)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|end| end == "dwell"))
        .map(|path| (path.display().to_string(), std::fs::read_to_string(&path).unwrap()))
        .collect();
    files.sort();
    assert!(files.len() >= 7, "the examples are the corpus");
    files
}

#[test]
fn examples_read_without_a_finding() {
    for (path, text) in example_files() {
        let (_, findings) = syntax::parse(FileId(0), &text);
        assert!(findings.is_empty(), "{path}: {findings:#?}");
    }
}

#[test]
fn the_tree_gives_the_file_back() {
    for (path, text) in example_files() {
        for text in [text.clone(), text.replace('\n', "\r\n"), text.replace('\n', "\r")] {
            let (tree, _) = syntax::parse(FileId(0), &text);
            let back: String = tree.lines.iter().map(|line| &text[tree.whole(line)]).collect();
            assert_eq!(back, text, "{path}");
        }
    }
}

#[test]
fn the_examples_are_in_canonical_layout_but_for_blank_lines() {
    for (path, text) in example_files() {
        let (tree, _) = syntax::parse(FileId(0), &text);
        let formatted = syntax::format(&tree, &text);
        let (tree_again, _) = syntax::parse(FileId(0), &formatted);
        assert_eq!(syntax::format(&tree_again, &formatted), formatted, "{path}: twice equals once");
        assert_eq!(formatted, text, "{path}");
    }
}
