//! `examples/too-cool.dwell` and the cooks in `examples/unsafe` under every set of rules, and the page that says so.
//!
//! Run with `DWELL_ACCEPT=1` to write its table anew.

mod common;

use std::fmt::Write as _;

use dwell::compile::{Compiled, Options, compile};
use dwell::findings::{Finding, Severity, Stage};
use dwell::safety::Verdict;
use dwell::tables::{RuleSet, RuleSets};

/// A cook that would hurt somebody, and what of it does.
struct Unsafe {
    name: &'static str,
    /// How the fault is called, by one set or another.
    codes: &'static [&'static str],
    /// Pieces of the names of the rules that it is about, for sets that find no fault.
    rules: &'static [&'static str],
}

const COOKS: [Unsafe; 11] = [
    Unsafe {
        name: "too-cool",
        codes: &["cook-end-too-cool", "hold-too-cool", "hold-entered-cold"],
        rules: &["hot"],
    },
    Unsafe { name: "beef-in-its-bag", codes: &["kept-too-long"], rules: &["vacuum", "keep", "days"] },
    Unsafe { name: "beef-reheated-twice", codes: &["reheated-twice"], rules: &["reheat", "leftover"] },
    Unsafe { name: "burgers-at-66", codes: &["cook-end-too-cool"], rules: &["cook"] },
    Unsafe { name: "chicken-in-a-warm-fridge", codes: &["hold-too-warm"], rules: &["cold"] },
    Unsafe { name: "chicken-on-the-buffet", codes: &["time-without-control"], rules: &["hold", "room"] },
    Unsafe { name: "chilli-cooled-in-its-pot", codes: &["cool-too-slow"], rules: &["cool"] },
    Unsafe {
        name: "injected-shoulder-in-the-bath",
        codes: &["come-up-too-slow"],
        rules: &["comeup", "below"],
    },
    Unsafe {
        name: "salmon-sliced-raw",
        codes: &["parasites-not-frozen", "raw-into-cooked"],
        rules: &["parasites"],
    },
    Unsafe { name: "stew-kept-at-58", codes: &["hold-too-cool"], rules: &["hot"] },
    Unsafe { name: "turkey-thawed-on-the-bench", codes: &["thaw-too-warm"], rules: &["thaw"] },
];

/// Predicted growth is a remark, and is said of whatever is in the warm for too long.
const GROWTH: &str = "growth-above-limit";

fn path(name: &str) -> String {
    let folder = if name == "too-cool" { "" } else { "unsafe/" };
    format!("examples/{folder}{name}.dwell")
}

fn text(name: &str) -> String {
    let path = format!("{}/{}", env!("CARGO_MANIFEST_DIR"), path(name));
    std::fs::read_to_string(path).expect("a readable example")
}

fn compiled(name: &str, rules: Option<&str>) -> Compiled {
    let options = Options { rules: rules.map(str::to_owned), outline: true, ..Options::default() };
    compile(&common::Memory(&[]), "test.dwell".into(), text(name).into_bytes(), &options)
}

fn sets() -> impl Iterator<Item = &'static RuleSet> {
    RuleSets::built_in().sets()
}

fn word(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "**error**",
        Severity::Warning => "warning",
        Severity::Note => "remark",
    }
}

/// What a set says of the danger in a cook: its findings, else the rules about it that it could not judge, else those
/// that it calls met.
fn says(cook: &Unsafe, set: &RuleSet) -> Vec<String> {
    let compiled = compiled(cook.name, Some(&set.id));
    let mut said: Vec<(Severity, String)> = Vec::new();
    for finding in &compiled.findings {
        let code = finding.code.name();
        if !cook.codes.contains(&code) && code != GROWTH {
            continue;
        }
        let by = finding.rule.as_ref().map_or(code, |rule| rule.id.as_str());
        said.push((finding.severity, format!("{} `{by}`", word(finding.severity))));
    }
    said.sort();
    said.dedup();
    if !said.is_empty() {
        return said.into_iter().map(|(_, said)| said).collect();
    }
    let mut rows: Vec<(Verdict, String)> = Vec::new();
    for worked in compiled.cooks() {
        for one in worked.judged.iter().filter(|one| cook.rules.iter().any(|piece| one.rule.contains(piece)))
        {
            rows.push((one.verdict, one.rule.clone()));
        }
    }
    for (verdict, word) in [(Verdict::NotJudged, "not judged"), (Verdict::Met, "met")] {
        let mut of: Vec<&str> =
            rows.iter().filter(|(other, _)| *other == verdict).map(|(_, rule)| rule.as_str()).collect();
        of.dedup();
        if let Some(first) = of.first() {
            return vec![format!("{word} `{first}`")];
        }
    }
    Vec::new()
}

fn faults(compiled: &Compiled) -> Vec<&Finding> {
    compiled.findings.iter().filter(|finding| finding.severity != Severity::Note).collect()
}

#[test]
fn the_folder_holds_these_cooks_laid_out_with_their_danger_in_the_first_line() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/unsafe");
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .expect("the unsafe examples are in the project")
        .map(|entry| {
            entry.expect("a readable folder").path().file_stem().unwrap().to_string_lossy().to_string()
        })
        .collect();
    names.sort();
    assert_eq!(names, COOKS[1..].iter().map(|cook| cook.name).collect::<Vec<_>>());
    for cook in &COOKS {
        let text = text(cook.name);
        let first = text.lines().next().expect("a line");
        assert!(first.starts_with("// ") && first.ends_with('.'), "{}: {first}", cook.name);
        let (tree, _) = dwell::syntax::parse(dwell::text::FileId(0), &text);
        assert_eq!(dwell::syntax::format(&tree, &text), text, "{}", cook.name);
    }
}

#[test]
fn each_is_refused_or_doubted_by_its_own_set_for_its_one_reason() {
    for cook in &COOKS {
        let compiled = compiled(cook.name, None);
        let faults = faults(&compiled);
        assert!(!faults.is_empty(), "{}", cook.name);
        for finding in faults {
            assert_eq!(finding.code.stage(), Stage::Safety, "{}: {finding:#?}", cook.name);
            assert!(cook.codes.contains(&finding.code.name()), "{}: {finding:#?}", cook.name);
        }
    }
}

/// Where no set finds a fault and none says that it could not judge it, silence would be taken for a verdict.
#[test]
fn no_set_is_silent_about_any_of_them() {
    assert_eq!(sets().count(), 11);
    for cook in &COOKS {
        for set in sets() {
            let said = says(cook, set);
            assert!(!said.is_empty(), "{} says nothing of {}", set.id, cook.name);
            let silent = said.iter().all(|said| said.starts_with("met"));
            assert!(!silent, "{} calls {} met: {said:?}", set.id, cook.name);
        }
    }
}

const START: &str =
    "<!-- Generated: `DWELL_ACCEPT=1 cargo test --test unsafe_examples` writes it anew. -->\n";
const END: &str = "<!-- End of what is generated. -->\n";

fn table() -> String {
    let mut table = String::from("| cook |");
    for set in sets() {
        write!(table, " {} |", set.id).unwrap();
    }
    table.push_str("\n|---|");
    table.push_str(&"---|".repeat(sets().count()));
    for cook in &COOKS {
        write!(table, "\n| [{name}](#{name}) |", name = cook.name).unwrap();
        for set in sets() {
            write!(table, " {} |", says(cook, set).join(", ")).unwrap();
        }
    }
    table.push('\n');
    table
}

#[test]
fn the_page_holds_the_table_and_a_reason_for_each_cook() {
    let path_of_page = concat!(env!("CARGO_MANIFEST_DIR"), "/grammar/unsafe-cooks.md");
    let page = std::fs::read_to_string(path_of_page).expect("the page of unsafe cooks");
    let (before, rest) = page.split_once(START).expect("where the table starts");
    let (_, after) = rest.split_once(END).expect("where the table ends");
    let right = format!("{before}{START}\n{}\n{END}{after}", table());
    if std::env::var_os("DWELL_ACCEPT").is_some() {
        std::fs::write(path_of_page, &right).unwrap();
    } else {
        assert!(
            page == right,
            "grammar/unsafe-cooks.md is stale: run DWELL_ACCEPT=1 cargo test --test unsafe_examples, read what \
             has changed, and commit it"
        );
    }
    for cook in &COOKS {
        let name = cook.name;
        let heading = format!("\n## {name}\n\n[The cook](../{}): ", path(name));
        let reason = after.split_once(&heading).unwrap_or_else(|| panic!("{name} has no reason")).1;
        let reason = reason.split("\n## ").next().unwrap_or_default();
        assert!(reason.len() > 300, "{name}: {reason}");
    }
}
