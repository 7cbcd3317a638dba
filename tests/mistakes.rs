//! Mistakes that a cook would make, as a table: each gives the one finding it should, the remedy says
//! what to type instead, and typing that makes the finding go away.

use dwell::quantity::Scale;
use serde::Deserialize;
use std::collections::BTreeMap;

mod common;

/// Where only the writer knows what was meant.
const EXEMPT: &[&str] = &["figure-impossible", "clause-twice"];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    context: BTreeMap<String, String>,
    mistake: Vec<Mistake>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Mistake {
    context: String,
    typed: String,
    code: String,
    remedy: String,
    instead: String,
}

fn table() -> Table {
    toml::from_str(include_str!("mistakes.toml")).unwrap()
}

/// Code and remedy of everything found in `text`.
fn found(text: &str) -> Vec<(String, String)> {
    common::findings(&[("cook.dwell", text)])
        .iter()
        .map(|finding| (finding.code.name().to_string(), finding.remedy.render(Scale::Celsius)))
        .collect()
}

#[test]
fn each_mistake_is_found_and_its_remedy_mends_it() {
    let table = table();
    let mut wrong = String::new();
    for mistake in &table.mistake {
        let context = &table.context[&mistake.context];
        let findings = found(&context.replace("{}", &mistake.typed));
        if findings != [(mistake.code.clone(), mistake.remedy.clone())] {
            wrong += &format!("\n`{}` ({}) gives {findings:#?}", mistake.typed, mistake.context);
        }
        let findings = found(&context.replace("{}", &mistake.instead));
        if !findings.is_empty() {
            wrong += &format!("\n`{}` ({}) should be right: {findings:#?}", mistake.instead, mistake.context);
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn there_are_fifty_and_none_twice() {
    let table = table();
    let mut all: Vec<_> = table.mistake.iter().map(|mistake| (&mistake.context, &mistake.typed)).collect();
    all.sort();
    all.dedup();
    assert_eq!(all.len(), table.mistake.len());
    assert!(all.len() >= 50);
    assert!(table.context.keys().all(|name| all.iter().any(|(context, _)| *context == name)), "idle context");
}

#[test]
fn every_remedy_shows_what_to_type() {
    for mistake in &table().mistake {
        if EXEMPT.contains(&mistake.code.as_str()) {
            continue;
        }
        let shown = mistake.remedy.matches('`').count();
        assert!(
            shown >= 2 && shown % 2 == 0 || mistake.remedy.contains('"'),
            "{}: {}",
            mistake.typed,
            mistake.remedy
        );
    }
}
