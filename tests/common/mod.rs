//! What several tests need: the compiler over texts in memory, and the example files.
#![allow(dead_code, reason = "each test binary uses its own part")]

pub mod chromium;
pub mod dice;
pub mod draws;
pub mod judge;
pub mod kit;
pub mod kitchen;
pub mod minutes;
pub mod paper;
pub mod regatta;
pub mod sheets;
pub mod texts;

use dwell::compile::{Options, compile};
use dwell::cook::{Cook, Document};
use dwell::findings::Finding;
use dwell::resolve::{Context, resolve};
use dwell::tables::{RuleSets, Tables};
use dwell::text::{FileProblem, Files, Source, Sources};

/// Files that exist only in a test.
pub struct Memory<'a>(pub &'a [(&'a str, &'a str)]);

impl Files for Memory<'_> {
    fn read(&self, _from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        if path.starts_with("../") {
            return Err(FileProblem::Outside);
        }
        self.0
            .iter()
            .find(|(name, _)| *name == path)
            .map(|(name, text)| (name.to_string(), text.as_bytes().to_vec()))
            .ok_or(FileProblem::Missing)
    }
}

/// The first file, resolved with the others at hand.
pub fn resolve_files(files: &[(&str, &str)]) -> (Sources, Option<Document>, Vec<Finding>) {
    let rule_sets: Vec<String> = RuleSets::built_in().names().map(str::to_string).collect();
    let memory = Memory(files);
    let context = Context { files: &memory, tables: Tables::built_in(), rule_sets: &rule_sets };
    let mut sources = Sources::default();
    let file = sources.add(Source::new(files[0].0, files[0].1));
    let (document, findings) = resolve(&context, &mut sources, file);
    (sources, document, findings)
}

/// What all stages find in the first file, with the others at hand.
pub fn findings(files: &[(&str, &str)]) -> Vec<Finding> {
    let (name, text) = files[0];
    compile(&Memory(files), name.into(), text.into(), &Options::default()).findings
}

/// The curves of a cook.
pub fn forecast(cook: &Cook) -> dwell::heat::Curves {
    dwell::heat::outline(cook, &dwell::ledger::balance(cook).0).curves
}

/// A cook from one text.
pub fn cook(text: &str) -> (Sources, Option<Cook>, Vec<Finding>) {
    let (sources, document, findings) = resolve_files(&[("test.dwell", text)]);
    match document {
        Some(Document::Cook(cook)) => (sources, Some(*cook), findings),
        _ => (sources, None, findings),
    }
}

/// Every example, by file name, in order.
pub fn examples() -> Vec<(String, String)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("the examples are in the project")
        .map(|entry| entry.expect("a readable folder").path())
        .filter(|path| path.extension().is_some_and(|end| end == "dwell"))
        .map(|path| {
            let name = path.file_name().expect("a file").to_string_lossy().to_string();
            (name, std::fs::read_to_string(&path).expect("a readable example"))
        })
        .collect();
    files.sort();
    files
}

/// The rule set that a cook names.
pub fn rules_of(cook: &Cook) -> &'static dwell::tables::RuleSet {
    let name = &cook.rules.as_ref().expect("the cook names its rules").value;
    RuleSets::built_in().find(name).expect("a known rule set")
}

/// How bright a colour of three or six hexadecimal digits is, 0 to 1 (relative luminance, WCAG 2.2).
pub fn luminance(colour: &str) -> f64 {
    let digits = colour.trim_start_matches('#');
    let full: String =
        if digits.len() == 3 { digits.chars().flat_map(|c| [c, c]).collect() } else { digits.to_owned() };
    let channel = |n: usize| {
        let c = f64::from(u8::from_str_radix(&full[2 * n..2 * n + 2], 16).expect("a colour")) / 255.0;
        if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * channel(0) + 0.7152 * channel(1) + 0.0722 * channel(2)
}
