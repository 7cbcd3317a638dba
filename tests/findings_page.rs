//! The page of all findings beside the grammar is generated from the registry, and never stale.
//!
//! Run with `DWELL_ACCEPT=1` to write it anew.

use std::fmt::Write as _;

use dwell::findings::{ALL, Example, Stage};

const STAGES: &[Stage] = &[
    Stage::Syntax,
    Stage::Units,
    Stage::Names,
    Stage::Ledger,
    Stage::Kit,
    Stage::Heat,
    Stage::Safety,
    Stage::Timing,
];

fn page() -> String {
    let mut page = String::from(
        "<!-- Generated from src/findings; `DWELL_ACCEPT=1 cargo test --test findings_page` writes it anew. -->\n\n\
         # Findings\n\n\
         What `dwell check` can say of a cook, in the order in which it looks. Only an error makes it fail.\n\
         `dwell explain CODE` prints any of these.\n",
    );
    for &stage in STAGES {
        let codes = ALL.iter().filter(|code| code.stage() == stage);
        write!(page, "\n- {}:", stage.name()).unwrap();
        for (nth, code) in codes.enumerate() {
            write!(page, "{} [{name}](#{name})", if nth == 0 { "" } else { "," }, name = code.name())
                .unwrap();
        }
    }
    page.push('\n');
    for &code in ALL {
        let text = code.explained();
        write!(
            page,
            "\n## {}\n\n{} ({}, {}).\n",
            code.name(),
            text.title,
            code.stage().name(),
            code.severity().name()
        )
        .unwrap();
        write!(page, "\n{}\n\n{}\n", text.checks, text.why).unwrap();
        write!(page, "\nHas it:\n{}\nHas it not:\n{}", blocks(&text.bad), blocks(&text.good)).unwrap();
        write!(page, "\n**To mend:** {}\n\n**Source:** {}\n", text.mend, text.source).unwrap();
    }
    page
}

fn blocks(examples: &[Example<'_>]) -> String {
    if examples.is_empty() {
        return "\nA page cannot show it.\n".into();
    }
    examples.iter().fold(String::new(), |mut all, example| {
        let name = example.name.map(|name| format!(" {name}")).unwrap_or_default();
        write!(all, "\n```dwell{name}\n{}```\n", example.text).unwrap();
        all
    })
}

#[test]
fn the_committed_page_is_the_generated_one() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/grammar/findings.md");
    let page = page();
    if std::env::var_os("DWELL_ACCEPT").is_some() {
        std::fs::write(path, &page).unwrap();
    }
    let committed = std::fs::read_to_string(path).unwrap_or_default();
    assert!(
        committed == page,
        "grammar/findings.md is stale: run DWELL_ACCEPT=1 cargo test --test findings_page and commit it"
    );
}

#[test]
fn every_stage_has_its_place_on_the_page() {
    assert!(ALL.iter().all(|code| STAGES.contains(&code.stage())));
    assert!(ALL.is_sorted_by_key(|code| code.stage()), "codes stand in the order of the stages");
}
