//! One list of words: those of the compiler's grammar, of its tables, of the tree-sitter grammar and of the TextMate
//! grammar are the same.

use std::collections::BTreeSet;

use dwell::cook::Purpose;
use dwell::quantity::UNITS;
use dwell::syntax::forms::{self, Part};
use dwell::syntax::{LineKind, parse};
use dwell::text::FileId;
use serde_json::Value;

use crate::parser::{self, LANGUAGE};

type Words = BTreeSet<String>;

const PEST: &str = include_str!("../../grammar/dwell.pest");
const TREE_SITTER: &str = include_str!("../../editors/tree-sitter-dwell/src/grammar.json");
const TEXTMATE: &str = include_str!("../../editors/vscode/syntaxes/dwell.tmLanguage.json");

/// Rules of the compiler's grammar about parts of figures and times, the one that cuts words into stems, and the one that
/// looks at first letters.
const NO_KEYWORDS: [&str; 6] = ["small_stem", "unit", "weekday", "clock", "half_day", "clause"];

fn words<'w>(of: impl IntoIterator<Item = &'w str>) -> Words {
    of.into_iter().map(str::to_lowercase).collect()
}

/// The words in `^"…"`, by the name of their rule.
fn pest() -> impl Iterator<Item = (&'static str, &'static str)> {
    let mut rule = "";
    PEST.lines().filter(|line| !line.starts_with("//")).flat_map(move |line| {
        if let Some((name, _)) = line.split_once(" = ") {
            rule = name.trim();
        }
        line.split("^\"").skip(1).filter_map(move |rest| Some((rule, rest.split_once('"')?.0)))
    })
}

fn of_the_compiler() -> Words {
    words(pest().filter(|(rule, _)| !NO_KEYWORDS.contains(rule)).map(|(_, word)| word))
}

fn of_tree_sitter() -> Words {
    let kinds = (0..LANGUAGE.node_kind_count() as u16)
        .filter(|&id| LANGUAGE.node_kind_is_visible(id) && !LANGUAGE.node_kind_is_named(id));
    let is_word = |kind: &&str| kind.starts_with(|c: char| c.is_ascii_alphabetic());
    // `end` is also what the library calls the end of a file.
    words(kinds.filter_map(|id| LANGUAGE.node_kind_for_id(id)).filter(is_word))
}

/// The alternatives of a pattern in which the letters stand as `[aA]`.
fn alternatives(pattern: &str) -> Words {
    let letters: String = pattern
        .replace(" +", " ")
        .split('[')
        .map(|part| match part.split_once(']') {
            Some((both, rest)) => format!("{}{rest}", &both[..1]),
            None => part.to_owned(),
        })
        .collect();
    words(letters.split('|'))
}

/// The pattern of a rule, or the first of several.
fn tree_sitter_rule(name: &str) -> Words {
    let grammar: Value = serde_json::from_str(TREE_SITTER).unwrap();
    let rule = &grammar["rules"][name];
    let pattern = if rule["type"] == "PATTERN" { rule } else { &rule["members"][0] };
    alternatives(pattern["value"].as_str().expect("a pattern"))
}

/// The words between `|` in the patterns of a part of the TextMate grammar, parts in it included.
fn textmate(part: &str) -> Words {
    fn gather(value: &Value, found: &mut Words) {
        match value {
            Value::Object(fields) => fields.iter().for_each(|(key, value)| match value.as_str() {
                Some(pattern) if key == "match" || key == "begin" => found.extend(listed(pattern)),
                _ => gather(value, found),
            }),
            Value::Array(values) => values.iter().for_each(|value| gather(value, found)),
            _ => {}
        }
    }
    let grammar: Value = serde_json::from_str(TEXTMATE).unwrap();
    let mut found = Words::new();
    gather(&grammar["repository"][part], &mut found);
    assert!(!found.is_empty(), "the part {part} lists words");
    found
}

fn listed(pattern: &str) -> Words {
    let lists = pattern.split(|c: char| !(c.is_ascii_lowercase() || matches!(c, '|' | '-' | ' ')));
    words(
        lists
            .filter(|list| list.contains('|'))
            .flat_map(|list| list.split('|'))
            .filter(|word| !word.is_empty()),
    )
}

#[track_caller]
fn assert_all_in(some: &Words, all: &Words) {
    let missing: Vec<_> = some.difference(all).collect();
    assert!(missing.is_empty(), "{missing:?} is not there");
}

/// Does the compiler take it for a name?
fn can_be_a_name(word: &str) -> bool {
    let (tree, _) = parse(FileId(0), &format!("phase {word} is cook"));
    matches!(tree.lines[0].kind, LineKind::Read { .. })
}

#[test]
fn all_know_the_same_words() {
    let compiler = of_the_compiler();
    assert!(compiler.len() > 100 && compiler.contains("hands-on"), "{compiler:?}");
    let end = Words::from(["end".to_owned()]);
    let tree_sitter = of_tree_sitter();
    assert_eq!(&tree_sitter | &end, compiler);
    let textmate = ["titled-head", "named-head", "other-head", "clause-word", "further-word", "small-word"]
        .map(textmate)
        .iter()
        .fold(Words::new(), |all, some| &all | some);
    assert_eq!(textmate, compiler, "TextMate");
}

#[test]
fn blocks_start_with_the_words_of_the_list() {
    let listed = words(forms::BLOCKS.iter().map(|form| form.word));
    let parts = ["titled-head", "named-head", "other-head"].map(textmate);
    assert_eq!(&(&parts[0] | &parts[1]) | &parts[2], listed);
    for word in &listed {
        let tree = parser::parse(&format!("{word} \"\n"));
        assert_eq!(tree.root_node().child(0).map(|node| node.kind()), Some("block"), "{word}");
    }
}

#[test]
fn clauses_start_with_the_words_of_the_list() {
    let first = words(forms::words());
    let textmate = textmate("clause-word");
    assert!(first.contains("until") && first.len() > 60, "{first:?}");
    assert_all_in(&first, &textmate);
    let known = of_tree_sitter();
    // What starts with a figure holds words of the writer's own.
    for form in forms::clauses().iter().copied().chain(forms::BLOCKS) {
        for part in form.parts() {
            let Part::Word(word) = part else { continue };
            let word = word.to_lowercase();
            let is_word = word.starts_with(|c: char| c.is_ascii_alphabetic());
            assert!(!is_word || known.contains(&word) || word == "end", "{word} of {}", form.example());
        }
    }
}

#[test]
fn small_words_are_those_that_are_never_a_name() {
    let small: Words = of_the_compiler().into_iter().filter(|word| !can_be_a_name(word)).collect();
    assert!(small.len() > 20, "{small:?}");
    assert_eq!(textmate("small-word"), small);
    let grammar: Value = serde_json::from_str(TREE_SITTER).unwrap();
    let reserved = grammar["reserved"]["small"].as_array().unwrap();
    let reserved: Words =
        reserved.iter().flat_map(|rule| alternatives(rule["value"].as_str().unwrap())).collect();
    assert_eq!(reserved, small);
}

#[test]
fn units_are_those_of_the_table() {
    // `in` is a small word too, and those of two words or with a sign are patterns of their own.
    let one_word = |spelling: &&&str| spelling.chars().all(|c| c.is_ascii_alphabetic()) && **spelling != "in";
    let table = words(UNITS.iter().flat_map(|unit| unit.spellings).filter(one_word).copied());
    assert_eq!(tree_sitter_rule("unit"), table);
    let textmate = textmate("measure");
    let begin_two = words(["deg", "fl", "per"]);
    assert_all_in(&table, &textmate);
    assert_all_in(&textmate, &(&(&table | &begin_two) | &words(["in"])));
    for spelling in UNITS.iter().flat_map(|unit| unit.spellings) {
        let tree = parser::parse(&format!("kit oven is oven\n  holds 2 {spelling}\n"));
        assert!(tree.root_node().to_sexp().contains("(unit)"), "{spelling}");
    }
}

#[test]
fn purposes_and_weekdays_are_those_of_the_compiler() {
    let purposes = words(Purpose::WRITTEN.map(Purpose::words));
    assert_eq!(tree_sitter_rule("_purpose"), purposes);
    assert_eq!(textmate("purpose"), purposes);
    let weekdays = words(pest().filter(|(rule, _)| *rule == "weekday").map(|(_, word)| word));
    assert_eq!(tree_sitter_rule("weekday"), weekdays);
    let textmate = textmate("moment");
    assert_all_in(&weekdays, &textmate);
}

/// The words in quotes between a mark and the end of the list that it opens.
fn quoted_after(file: &str, mark: &str) -> Words {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("editors").join(file);
    let text = std::fs::read_to_string(path).unwrap();
    let list = text.split_once(mark).unwrap_or_else(|| panic!("{mark} in {file}")).1;
    let list = list.split([')', '}']).next().unwrap_or(list);
    words(list.split(['"', '\'']).skip(1).step_by(2).filter(|word| word.starts_with(char::is_alphabetic)))
}

#[test]
fn editors_without_the_grammar_know_the_same_words() {
    let blocks = words(forms::BLOCKS.iter().map(|form| form.word));
    assert_eq!(quoted_after("neovim/lua/dwell/indent.lua", "local blocks = {"), blocks);
    assert_eq!(quoted_after("emacs/dwell-mode.el", "(defconst dwell-blocks\n  '("), blocks);
    assert_eq!(
        quoted_after("emacs/dwell-mode.el", "(defconst dwell-small-words\n  '("),
        textmate("small-word")
    );
    let vscode = include_str!("../../editors/vscode/language-configuration.json");
    let indented = vscode.lines().filter(|line| line.contains("\"pattern\": \"^"));
    for line in indented {
        // What stands alone in its block opens none; the others are in the pattern as they are in a word list.
        let known: Words = line.split(|c: char| !c.is_ascii_lowercase()).map(str::to_owned).collect();
        let alone = words(["dish", "dwell"]);
        assert_all_in(&(&blocks - &alone), &known);
    }
}
