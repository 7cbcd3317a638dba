//! The blocks of a text and the sort of every word.

use dwell::compile::{Options, compile};
use dwell::editor::{self, Sort, Space, Token, View};
use dwell::syntax::{self, LineKind};
use dwell::text::FileId;
use serde_json::json;

use crate::common::texts::GOOD;
use crate::common::{Memory, examples};
use crate::support::{Client, folder, uri};

#[test]
fn blocks_are_listed_and_folded() {
    let folder = folder(&[]);
    let path = folder.path().join("apples.dwell");
    let mut client = Client::over_pipes(folder.path());
    let text = format!("// One remark\n// and another.\n{GOOD}");
    client.open(&path, &text);
    let asked = json!({ "textDocument": { "uri": uri(&path) } });
    let symbols = client.ask("textDocument/documentSymbol", asked.clone());
    let listed: Vec<_> = symbols
        .as_array()
        .expect("symbols")
        .iter()
        .map(|one| (one["name"].as_str().expect("a name"), one["detail"].as_str().unwrap_or("")))
        .collect();
    assert_eq!(
        listed,
        [
            ("Apples for the crew", ""),
            ("bench", "bench"),
            ("apples", "apple"),
            ("slice", "prep"),
            ("serve apples", "")
        ]
    );
    let folds = client.ask("textDocument/foldingRange", asked);
    let folds: Vec<_> = folds
        .as_array()
        .expect("folds")
        .iter()
        .map(|fold| (fold["startLine"].as_u64().expect("a line"), fold["endLine"].as_u64().expect("a line")))
        .collect();
    assert_eq!(folds, [(0, 1), (2, 4), (8, 10), (12, 14), (16, 17)]);
    client.leave();
}

#[test]
fn tokens_follow_the_meaning_and_count_as_the_protocol_does() {
    let folder = folder(&[]);
    let path = folder.path().join("salt.dwell");
    let mut client = Client::over_pipes(folder.path());
    let text = "food salt is sea salt\n  salt 2.5 % // 🧂 é\n  1 kg\n";
    client.open(&path, text);
    let asked = json!({ "textDocument": { "uri": uri(&path) } });
    let legend = client.capabilities["semanticTokensProvider"]["legend"]["tokenTypes"].clone();
    let data = client.ask("textDocument/semanticTokens/full", asked)["data"].clone();
    let numbers: Vec<u64> =
        data.as_array().expect("numbers").iter().map(|n| n.as_u64().expect("a number")).collect();
    let mut line = 0;
    let mut start = 0;
    let mut told = Vec::new();
    for token in numbers.chunks(5) {
        let [lines, units, length, kind, _] = token else { panic!("five each") };
        (line, start) = if *lines > 0 { (line + lines, *units) } else { (line, start + units) };
        let words: Vec<u16> = text.lines().nth(line as usize).expect("a line").encode_utf16().collect();
        let word =
            String::from_utf16(&words[start as usize..(start + length) as usize]).expect("whole letters");
        told.push((word, legend[*kind as usize].as_str().expect("a type").to_owned()));
    }
    let told: Vec<(&str, &str)> = told.iter().map(|(word, kind)| (word.as_str(), kind.as_str())).collect();
    assert_eq!(
        told,
        [
            ("food", "keyword"),
            ("salt", "variable"),
            ("is", "keyword"),
            ("sea salt", "type"),
            ("salt", "keyword"),
            ("2.5", "number"),
            ("%", "operator"),
            ("// 🧂 é", "comment"),
            ("1", "number"),
            ("kg", "operator"),
        ]
    );
    client.leave();
}

#[test]
fn every_word_of_every_example_has_its_sort() {
    for (name, text) in examples() {
        let options = Options { declared_only: true, ..Options::default() };
        let compiled = compile(&Memory(&[]), name.clone(), text.clone().into(), &options);
        let (tree, _) = syntax::parse(FileId(0), &text);
        let view = View { tree: &tree, compiled: &compiled, file: FileId(0) };
        let tokens = editor::tokens(&view);
        assert!(tokens.windows(2).all(|pair| pair[0].0.end <= pair[1].0.start), "{name}: they overlap");
        for line in &tree.lines {
            if !matches!(line.kind, LineKind::Read { .. }) {
                continue;
            }
            for (at, c) in text[line.span.range()].char_indices().filter(|(_, c)| c.is_alphanumeric()) {
                let at = line.span.start + at as u32;
                assert!(
                    tokens.iter().any(|(span, _)| span.start <= at && at < span.end),
                    "{name}: {c} at {at}"
                );
            }
        }
        let has = |wanted: Token| tokens.iter().any(|(_, token)| *token == wanted);
        let kit = |declares| Token::Of(Sort::Name { space: Space::Kit, declares });
        assert!(
            has(Token::Word) && (has(kit(true)) || has(kit(false)) || name == "club-supper.dwell"),
            "{name}"
        );
    }
}
