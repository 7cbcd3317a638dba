//! Of every line there is, compiler and grammar say the same: what block it opens and which clauses it holds, in order;
//! that it holds nothing; or that it cannot be read.

use dwell::findings::{ALL, Code, Finding};
use dwell::syntax::{self, LineKind, Tree, forms};
use dwell::text::{FileId, is_invisible};
use tree_sitter::Node;

use crate::common::dice::Dice;
use crate::corpus;
use crate::parser;

/// Of a line that opens a block and cannot be read.
const UNREADABLE_HEAD: &str = "unreadable_head";

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
fn by_compiler(text: &str, tree: &Tree, findings: &[Finding]) -> Vec<Option<Kinds>> {
    let kinds = |line: &syntax::Line| match &line.kind {
        LineKind::Blank => Some(Vec::new()),
        LineKind::Bad { block, .. } => {
            let missing = |finding: &Finding| {
                finding.code == Code::CommaMissing && line.span.range().contains(&finding.span.range().start)
            };
            // A line like `bread is white bread` ends a block too, but has no word by which the grammar could tell.
            let opens = block.is_some_and(|span| {
                let word = text[span.range()].trim_end_matches(':').to_lowercase();
                let after = text[span.end as usize..line.span.end as usize].trim_start_matches(is_invisible);
                let known = forms::BLOCKS.iter().any(|form| form.word == word);
                known && (word != "cook" || after.starts_with(['"', '“', '”', '„', '‟']))
            });
            let kind = if opens { UNREADABLE_HEAD } else { "unreadable" };
            (!findings.iter().any(missing)).then(|| vec![kind.to_owned()])
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
    let mut note = |node: Node<'_>, kind: &str| {
        let at = node.start_byte() as u32;
        let line = tree.lines.partition_point(|line| line.next <= at);
        kinds[line].push(kind.to_owned());
    };
    for node in root.children(&mut root.walk()) {
        match node.kind() {
            "block" => {
                let mut cursor = node.walk();
                let parts = node.children(&mut cursor).filter(|node| node.is_named() && !node.is_extra());
                for (nth, part) in parts.enumerate() {
                    let kind =
                        if nth == 0 && part.kind() == "unreadable" { UNREADABLE_HEAD } else { part.kind() };
                    note(part, kind);
                }
            }
            "comment" | "," => {}
            kind => note(node, kind),
        }
    }
    kinds
}

/// Where the two differ: the line, and what each takes it for.
pub fn differences(text: &str) -> Vec<String> {
    let (tree, findings) = syntax::parse(FileId(0), text);
    let compiler = by_compiler(text, &tree, &findings);
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
    let mistakes: toml::Table = include_str!("../mistakes.toml").parse().unwrap();
    for mistake in mistakes["mistake"].as_array().unwrap() {
        let word = |key: &str| mistake[key].as_str().unwrap();
        let context = mistakes["context"][word("context")].as_str().unwrap();
        texts.extend(["typed", "instead"].map(|key| context.replace("{}", word(key))));
    }
    texts
}

#[test]
fn of_every_line_of_the_examples_both_say_the_same() {
    let texts = texts();
    assert!(texts.iter().map(|text| text.lines().count()).sum::<usize>() > 5000, "most of them are there");
    let differ: Vec<String> = texts.iter().flat_map(|text| differences(text)).collect();
    assert!(differ.is_empty(), "{} lines:\n{}", differ.len(), differ.join("\n"));
}

/// The text without the lines in which signs are glued together. The compiler ends a unit at a figure or a hyphen, and
/// wants a blank behind a time and a small word; in the grammar a word is a word (`min30`, `cm-`, `06:30to`, `is(`).
pub fn unglued(text: &str) -> String {
    let apart = " \t\r,\"“”„‟-.:%°";
    let is_glued = |line: &str| {
        let signs: Vec<char> = line.chars().collect();
        signs.windows(2).any(|pair| {
            let (one, next) = (pair[0], pair[1]);
            let sign = next.is_numeric() || !next.is_alphanumeric() && !apart.contains(next);
            let blank = next != ' ' && is_invisible(next);
            one.is_alphabetic() && sign
                || (one.is_numeric() || one == '%') && next.is_alphabetic()
                || one == '°' && blank
        }) || line.split([' ', ',']).any(|word| word.len() > 1 && word.ends_with('-'))
    };
    text.split_inclusive('\n').filter(|line| !is_glued(line.trim_end())).collect()
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
        bent.extend(words);
        bent.push('\n');
    }
    bent
}

#[test]
fn of_lines_with_a_slip_both_say_the_same() {
    let mut dice = Dice(11);
    let text = corpus::text();
    let bent = (0..40).map(|_| bent(&text, &mut dice));
    let differ: Vec<String> = bent.flat_map(|text| differences(&unglued(&text))).collect();
    assert!(differ.is_empty(), "{} lines:\n{}", differ.len(), differ.join("\n"));
}
