//! Of every line there is, compiler and grammar say the same: what block it opens and which clauses it holds, in order;
//! that it holds nothing; or that it cannot be read.

use dwell::findings::{ALL, Code, Finding};
use dwell::syntax::{self, LineKind, Tree};
use dwell::text::FileId;
use tree_sitter::Node;

use crate::common::dice::Dice;
use crate::parser;

/// What a line is, as the names of the grammar's nodes.
type Kinds = Vec<String>;

/// `StartsAt(Measure …)` as `starts_at`.
fn snake(debug: &str) -> String {
    let name = debug.split(|c: char| !c.is_alphanumeric()).next().unwrap_or("");
    let mut snake = String::new();
    for c in name.chars() {
        if c.is_uppercase() && !snake.is_empty() {
            snake.push('_');
        }
        snake.extend(c.to_lowercase());
    }
    snake
}

/// `None` where the grammar can read a line, and the compiler then finds that a comma is missing in it.
fn by_compiler(tree: &Tree, findings: &[Finding]) -> Vec<Option<Kinds>> {
    let kinds = |line: &syntax::Line| match &line.kind {
        LineKind::Blank => Some(Vec::new()),
        LineKind::Bad { .. } => {
            let missing = |finding: &Finding| {
                finding.code == Code::CommaMissing && line.span.range().contains(&finding.span.range().start)
            };
            (!findings.iter().any(missing)).then(|| vec!["unreadable".to_owned()])
        }
        LineKind::Read { .. } => {
            let head = tree.head_of(line).map(|head| format!("{}_head", snake(&format!("{:?}", head.kind))));
            let clauses = tree.clauses_of(line).iter().map(|clause| snake(&format!("{:?}", clause.kind)));
            Some(head.into_iter().chain(clauses).collect())
        }
    };
    tree.lines.iter().map(kinds).collect()
}

fn by_grammar(text: &str, tree: &Tree) -> Vec<Kinds> {
    let parsed = parser::parse(text);
    let root = parsed.root_node();
    assert!(!root.has_error(), "the grammar is for any text: {}", root.to_sexp());
    let mut kinds = vec![Vec::new(); tree.lines.len()];
    let mut note = |node: Node<'_>| {
        let at = node.start_byte() as u32;
        let line = tree.lines.partition_point(|line| line.next <= at);
        kinds[line].push(node.kind().to_owned());
    };
    for node in root.children(&mut root.walk()) {
        match node.kind() {
            "block" => node
                .children(&mut node.walk())
                .filter(|node| node.is_named() && !node.is_extra())
                .for_each(&mut note),
            "comment" | "," => {}
            _ => note(node),
        }
    }
    kinds
}

/// Where the two differ: the line, and what each takes it for.
fn differences(text: &str) -> Vec<String> {
    let (tree, findings) = syntax::parse(FileId(0), text);
    let compiler = by_compiler(&tree, &findings);
    let grammar = by_grammar(text, &tree);
    let differ = tree.lines.iter().zip(compiler).zip(grammar).filter_map(|((line, compiler), grammar)| {
        let compiler = compiler?;
        (compiler != grammar).then(|| {
            let line = &text[line.span.range()];
            format!("{line:?}\n    compiler: {compiler:?}\n    grammar: {grammar:?}")
        })
    });
    differ.collect()
}

/// Examples, good, wrong and unsafe; those of every finding; those of the language reference; first-day mistakes.
fn texts() -> Vec<String> {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut texts = Vec::new();
    for folder in ["examples", "examples/wrong", "examples/unsafe", "grammar", "src/cli"] {
        for entry in std::fs::read_dir(root.join(folder)).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_some_and(|kind| kind == "dwell" || kind == "md") {
                texts.push(std::fs::read_to_string(path).unwrap());
            }
        }
    }
    for code in ALL {
        let text = code.explained();
        texts.extend(text.bad.iter().chain(&text.good).map(|example| example.text.to_owned()));
    }
    texts.push(std::fs::read_to_string(root.join("tests/mistakes.toml")).unwrap().replace("typed = ", ""));
    texts
}

#[test]
fn of_every_line_of_the_examples_both_say_the_same() {
    let texts = texts();
    assert!(texts.iter().map(|text| text.lines().count()).sum::<usize>() > 5000, "most of them are there");
    let differ: Vec<String> = texts.iter().flat_map(|text| differences(text)).collect();
    assert!(differ.is_empty(), "{} lines:\n{}", differ.len(), differ.join("\n"));
}

/// The compiler ends a unit at a figure and a time not before a blank; in the grammar a word is a word (`min30`, `06:30to`).
fn is_glued(line: &str) -> bool {
    line.as_bytes().windows(2).any(|pair| {
        pair[0].is_ascii_alphabetic() && pair[1].is_ascii_digit()
            || pair[0].is_ascii_digit() && pair[1].is_ascii_alphabetic()
    })
}

/// The text with one word of every line taken away, doubled or put elsewhere.
fn bent(text: &str, dice: &mut Dice) -> String {
    let mut bent = String::new();
    for line in text.lines() {
        let mut words: Vec<&str> = line.split_inclusive(' ').collect();
        if !words.is_empty() {
            let mut any = || dice.roll(0, words.len() as i64 - 1) as usize;
            let (at, to) = (any(), any());
            match dice.roll(0, 2) {
                0 => drop(words.remove(at)),
                1 => words.insert(to, words[at]),
                _ => words.swap(at, to),
            }
        }
        let line: String = words.concat();
        if !is_glued(&line) {
            bent.push_str(&line);
        }
        bent.push('\n');
    }
    bent
}

#[test]
fn of_lines_with_a_slip_both_say_the_same() {
    let mut dice = Dice(7);
    let bend = |text: &String| bent(text, &mut dice);
    let bent: Vec<String> = texts().iter().cycle().take(3 * texts().len()).map(bend).collect();
    let differ: Vec<String> = bent.iter().flat_map(|text| differences(text)).collect();
    assert!(differ.is_empty(), "{} lines:\n{}", differ.len(), differ.join("\n"));
}
