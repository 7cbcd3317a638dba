//! The list of forms, held against the compiler.

use dwell::findings::{Finding, Stage};
use dwell::syntax::forms::{self, Form, Part};
use dwell::syntax::{LineKind, parse};
use dwell::text::FileId;

use crate::common::resolve_files;

/// Each block, and how a file with one of it begins. Some clauses want another one above them.
const STARTS: &[(&str, &[&str])] = &[
    ("cook", &["cook \"x\"\n"]),
    ("menu", &["menu \"x\"\n"]),
    ("kit", &["kit thing is oven\n"]),
    ("food", &["food thing is pork shoulder\n"]),
    ("ingredient", &["ingredient thing is 5 g salt\n"]),
    ("phase", &["phase thing is cook\n"]),
    ("serve", &["serve thing\n", "serve thing\nat 18:30\n"]),
    ("crew", &["crew\n"]),
    ("dish", &["menu \"x\"\ndish \"thing.dwell\"\n"]),
];

fn clauses() -> impl Iterator<Item = &'static Form> {
    forms::clauses().iter().copied().chain(forms::WORDLESS)
}

/// Is the last line refused where it stands, or as a figure that does not fit there?
fn refused(text: &str) -> bool {
    let last = text.trim_end().rfind('\n').map_or(0, |at| at + 1);
    let (_, _, findings) = resolve_files(&[("test.dwell", text)]);
    let refusal = |finding: &Finding| {
        matches!(finding.code.stage(), Stage::Syntax | Stage::Units) && finding.span.start as usize >= last
    };
    findings.iter().any(refusal)
}

#[test]
fn every_clause_belongs_where_the_list_says_and_nowhere_else() {
    let mut wrong = Vec::new();
    for form in clauses() {
        for (block, starts) in STARTS {
            let stands = starts.iter().any(|start| !refused(&format!("{start}  {}\n", form.example())));
            // A serving is read as a phase, and refuses nothing that a phase may say; not all of it is of use there.
            let idle = *block == "serve" && form.blocks.contains(&"phase");
            if stands != form.blocks.contains(block) && !idle {
                wrong.push(format!("`{}` in `{block}`: {stands}", form.example()));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn every_form_reads_and_starts_with_its_word() {
    for form in clauses().chain(forms::BLOCKS) {
        let example = form.example();
        let (tree, findings) = parse(FileId(0), &example);
        assert!(findings.is_empty(), "{example}: {findings:?}");
        let LineKind::Read { head, clauses } = &tree.lines[0].kind else { panic!("{example}") };
        assert_eq!((head.is_some(), clauses.len()), (form.is_head, usize::from(!form.is_head)), "{example}");
        let first = example.split([' ', '"']).next().expect("a word").to_lowercase();
        // `weight` alone says nothing, so it is shown with what goes before it.
        assert!(form.word.is_empty() || form.word == first || form.word == "weight", "{example}");
    }
}

#[test]
fn every_bracket_says_what_goes_into_it() {
    for form in clauses().chain(forms::BLOCKS) {
        let parts = form.parts();
        let written: Vec<&str> = parts
            .iter()
            .map(|part| match part {
                Part::Word(word) => *word,
                Part::Slot { example, .. } => example,
            })
            .collect();
        assert_eq!(written.join(" "), form.example());
        assert!(form.means.ends_with('.'), "{}: {}", form.example(), form.means);
    }
}

#[test]
fn words_stand_once_and_in_order() {
    let words: Vec<&str> = forms::words().collect();
    assert!(words.is_sorted_by(|one, next| one < next), "{words:?}");
    assert!(words.iter().all(|word| !forms::of(word).is_empty()));
    assert!(forms::of("beech").is_empty());
}
