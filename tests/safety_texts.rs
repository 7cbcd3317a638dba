//! The examples in the long texts of the safety findings do what they say, through the whole compiler.

mod common;

use dwell::compile::{Options, compile};
use dwell::findings::{ALL, Stage};
use dwell::quantity::Scale;

fn said(text: &str) -> Vec<String> {
    let compiled =
        compile(&common::Memory(&[]), "test.dwell".into(), text.as_bytes().to_vec(), &Options::default());
    let line =
        |f: &dwell::findings::Finding| format!("{}: {}", f.code.name(), f.message.render(Scale::Celsius));
    compiled.findings.iter().map(line).collect()
}

#[test]
fn bad_examples_have_their_one_finding_and_good_ones_none() {
    for code in ALL.iter().filter(|code| code.stage() == Stage::Safety) {
        let text = code.explained();
        let bad = said(text.bad[0].text);
        assert_eq!(bad.len(), 1, "{}: {bad:#?}", code.name());
        assert!(bad[0].starts_with(&format!("{}: ", code.name())), "{bad:#?}");
        assert_eq!(said(text.good[0].text), [""; 0], "{}", code.name());
    }
}
