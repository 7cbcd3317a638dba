//! What an editor puts there for the writer can be read, and a whole cook checks without an error.

use dwell::findings::Severity;
use dwell::syntax::parse;
use dwell::text::FileId;
use serde_json::Value;

use crate::common::findings;

/// A snippet as it stands before anything is typed: `${1:lamb}` as `lamb`, `${2|cook,reheat|}` as `cook`, `$1` as what
/// the first of that number holds.
fn untouched(body: &str) -> String {
    let mut held = std::collections::BTreeMap::new();
    let mut text = String::new();
    let mut rest = body;
    while let Some((before, place)) = rest.split_once('$') {
        text.push_str(before);
        let (number, shown, after) = match place.strip_prefix('{') {
            Some(place) => {
                let (inside, after) = place.split_once('}').expect("a closed place");
                let (number, shown) = inside.split_once([':', '|']).expect("a number and what it shows");
                (number, shown.trim_end_matches('|').split(',').next().map(str::to_owned), after)
            }
            None => {
                let end = place.find(|c: char| !c.is_ascii_digit()).unwrap_or(place.len());
                (&place[..end], None, &place[end..])
            }
        };
        let shown = shown.unwrap_or_else(|| held.get(number).cloned().unwrap_or_default());
        text.push_str(&shown);
        held.insert(number.to_owned(), shown);
        rest = after;
    }
    text + rest
}

fn snippets() -> Vec<(String, String)> {
    let file: Value =
        serde_json::from_str(include_str!("../../editors/vscode/snippets/dwell.json")).expect("JSON");
    let text = |snippet: &Value| {
        let lines = snippet["body"].as_array().expect("lines").iter();
        untouched(&lines.map(|line| line.as_str().expect("a line")).collect::<Vec<_>>().join("\n"))
    };
    file.as_object().expect("snippets").iter().map(|(name, snippet)| (name.clone(), text(snippet))).collect()
}

#[test]
fn every_snippet_reads() {
    let snippets = snippets();
    assert!(snippets.len() >= 8, "{snippets:?}");
    for (name, text) in snippets {
        let (_, findings) = parse(FileId(0), &text);
        assert!(findings.is_empty(), "{name}: {findings:?}\n{text}");
        assert!(!text.contains(['$', '|']), "{name}: {text}");
    }
}

#[test]
fn a_whole_cook_checks_without_an_error() {
    let snippets = snippets();
    let (_, text) = snippets.iter().find(|(name, _)| name == "A whole cook").expect("it is there");
    let found = findings(&[("cook.dwell", text)]);
    assert!(found.iter().all(|finding| finding.severity != Severity::Error), "{found:#?}");
}
