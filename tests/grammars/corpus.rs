//! The trees that stand in `editors/tree-sitter-dwell/test/corpus`, in the format of `tree-sitter test`.

use crate::parser::{folder, parse};

struct Case {
    title: String,
    text: String,
    tree: String,
}

fn is_rule(line: &str, sign: char) -> bool {
    line.len() >= 3 && line.chars().all(|c| c == sign)
}

/// Title between two double rules, text, single rule, tree.
fn cases(file: &str) -> Vec<Case> {
    let mut cases: Vec<Case> = Vec::new();
    let mut lines = file.lines();
    let mut in_tree = false;
    while let Some(line) = lines.next() {
        if is_rule(line, '=') {
            let title = lines.next().expect("a title").to_owned();
            assert!(lines.next().is_some_and(|line| is_rule(line, '=')), "a rule below {title}");
            cases.push(Case { title, text: String::new(), tree: String::new() });
            in_tree = false;
        } else if is_rule(line, '-') {
            in_tree = true;
        } else if let Some(case) = cases.last_mut() {
            let part = if in_tree { &mut case.tree } else { &mut case.text };
            part.push_str(line);
            part.push('\n');
        }
    }
    cases
}

/// A tree on one line, without the names of fields.
fn plain(tree: &str) -> String {
    tree.split_whitespace().filter(|word| !word.ends_with(':')).collect::<Vec<_>>().join(" ")
}

fn all() -> Vec<Case> {
    let folder = std::fs::read_dir(folder().join("test/corpus")).unwrap();
    let mut files: Vec<_> = folder.map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files.iter().flat_map(|path| cases(&std::fs::read_to_string(path).unwrap())).collect()
}

/// Every clause there is, and what people type for one: texts that change only with the grammar.
pub fn text() -> String {
    let texts = all().into_iter().map(|case| case.text);
    texts.chain([include_str!("../../editors/vscode/test/slips.dwell").to_owned()]).collect()
}

#[test]
fn every_text_has_the_tree_below_it() {
    let cases = all();
    let mut wrong = String::new();
    for case in &cases {
        let found = plain(&parse(&case.text).root_node().to_sexp());
        if found != plain(&case.tree) {
            wrong += &format!("\n{}:\n{found}\n{}", case.title, plain(&case.tree));
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
    assert!(cases.len() >= 20, "{} cases", cases.len());
}
