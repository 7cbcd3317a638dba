//! The examples in the long texts about kit and about `dwell.toml` do what they say, through the
//! whole compiler.

mod common;

use dwell::compile::{Options, compile};
use dwell::findings::{ALL, Code, Example, Stage};
use dwell::quantity::Scale;

const OWN_TABLES: [Code; 4] =
    [Code::OwnFileUnreadable, Code::OwnKeyUnknown, Code::OwnValueWrong, Code::OwnRowIncomplete];

fn said(files: &[Example]) -> Vec<String> {
    let named: Vec<(&str, &str)> =
        files.iter().map(|file| (file.name.unwrap_or("test.dwell"), file.text)).collect();
    let (path, text) = named[0];
    let compiled =
        compile(&common::Memory(&named), path.into(), text.as_bytes().to_vec(), &Options::default());
    let line =
        |f: &dwell::findings::Finding| format!("{}: {}", f.code.name(), f.message.render(Scale::Celsius));
    compiled.findings.iter().map(line).collect()
}

#[test]
fn bad_examples_have_their_one_finding_and_good_ones_none() {
    for code in ALL.iter().filter(|code| code.stage() == Stage::Kit || OWN_TABLES.contains(code)) {
        let text = code.explained();
        let bad = said(&text.bad);
        assert_eq!(bad.len(), 1, "{}: {bad:#?}", code.name());
        assert!(bad[0].starts_with(&format!("{}: ", code.name())), "{bad:#?}");
        assert_eq!(said(&text.good), [""; 0], "{}", code.name());
    }
}
