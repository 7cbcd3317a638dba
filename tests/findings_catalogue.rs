//! Every finding has a readable code and a whole text, and its examples do what they say.

use std::collections::BTreeSet;

use dwell::findings::{ALL, Code, Example, HEADINGS};
use dwell::quantity::Scale;

mod common;

/// Files that no page of text can show.
const CANNOT_BE_SHOWN: &[Code] = &[Code::FileUnreadable, Code::FileTooLong];

/// The headings of a text, in order, without those inside examples.
fn headings(text: &str) -> Vec<&str> {
    text.split("```").step_by(2).flat_map(str::lines).filter_map(|line| line.strip_prefix("## ")).collect()
}

/// What a page of text cannot show: bytes that are no text, a line of ten pages, and what only an option
/// brings about.
const NOT_SHOWN: [Code; 13] = [
    Code::FileUnreadable,
    Code::FileTooLong,
    Code::WeekdayMoved,
    Code::ReadingContradicts,
    Code::ReadingUnplaced,
    Code::LogUnreadable,
    Code::LogRowUnreadable,
    Code::LogOutOfOrder,
    Code::LogGap,
    Code::LogEndsEarly,
    Code::SensorImplausible,
    Code::ProgressUnclear,
    Code::PhaseOverdue,
];

#[test]
fn every_text_has_its_sections_and_none_is_empty() {
    for &code in ALL {
        let name = code.name();
        assert_eq!(headings(code.text()), HEADINGS, "{name}");
        let text = code.explained();
        for (section, body) in [
            ("title", text.title),
            ("checks", text.checks),
            ("why", text.why),
            ("mend", text.mend),
            ("source", text.source),
        ] {
            assert!(body.chars().count() >= 10, "{name}: {section} is {body:?}");
        }
        assert!(
            !text.title.contains('\n') && !text.title.ends_with('.'),
            "{name}: a title is one plain line"
        );
        for (section, examples) in [("Bad", &text.bad), ("Good", &text.good)] {
            if section == "Bad" && NOT_SHOWN.contains(&code) {
                assert!(examples.is_empty(), "{name}: can be shown after all");
                continue;
            }
            if section == "Bad" && CANNOT_BE_SHOWN.contains(&code) {
                assert!(examples.is_empty(), "{name} can be shown after all");
                continue;
            }
            assert!(!examples.is_empty(), "{name}: {section} has no example");
            assert_eq!(examples[0].name, None, "{name}: the first file of {section} has no name");
            let names: BTreeSet<_> = examples.iter().map(|example| example.name).collect();
            assert_eq!(names.len(), examples.len(), "{name}: {section} has two files of one name");
            for example in examples {
                let empty = section == "Bad" && code == Code::FileEmpty;
                assert_eq!(example.text.trim().is_empty(), empty, "{name}: {section}");
                assert!(example.text.ends_with('\n'), "{name}: {section}");
            }
        }
        assert_ne!(text.bad, text.good, "{name}");
        assert_eq!(code.text().matches("```").count() % 2, 0, "{name}: a fence is open");
    }
}

#[test]
fn codes_are_lower_case_words_that_name_a_fault() {
    // A code reads after `allow` and gives no order.
    let orders = [
        "add", "avoid", "change", "check", "close", "correct", "declare", "do", "dont", "fix", "give",
        "keep", "make", "move", "must", "no", "not", "remove", "say", "should", "use", "write",
    ];
    let mut seen = BTreeSet::new();
    for &code in ALL {
        let name = code.name();
        let words: Vec<&str> = name.split('-').collect();
        assert!((2..=4).contains(&words.len()), "{name}");
        for word in &words {
            assert!(!word.is_empty() && word.bytes().all(|byte| byte.is_ascii_lowercase()), "{name}");
        }
        assert!(!orders.contains(&words[0]), "{name} gives an order");
        assert!(seen.insert(name), "{name} is there twice");
        assert_eq!(Code::find(name), Some(code));
        assert_eq!(Code::find(&name.to_uppercase()), Some(code));
        let spelt: String = words.iter().map(|word| word[..1].to_uppercase() + &word[1..]).collect();
        assert_eq!(format!("{code:?}"), spelt, "the name in the code is the name that people type");
    }
    assert_eq!(Code::find("hold-to-cool"), None);
}

#[test]
fn no_text_is_without_its_code() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/findings/texts");
    let found: BTreeSet<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    let expected: BTreeSet<String> = ALL.iter().map(|code| format!("{}.md", code.name())).collect();
    assert_eq!(found, expected);
}

/// What the compiler finds in an example, one line a finding.
fn found(examples: &[Example<'_>]) -> (Vec<&'static str>, String) {
    let files: Vec<_> =
        examples.iter().map(|example| (example.name.unwrap_or("example.dwell"), example.text)).collect();
    let findings = common::findings(&files);
    let shown = findings.iter().map(|finding| {
        let message = finding.message.render(Scale::Celsius);
        format!("\n    {}: {message} ({})", finding.code.name(), finding.remedy.render(Scale::Celsius))
    });
    (findings.iter().map(|finding| finding.code.name()).collect(), shown.collect())
}

#[test]
fn each_example_does_what_it_says() {
    let mut wrong = String::new();
    for &code in ALL {
        let text = code.explained();
        if !text.bad.is_empty() {
            let (codes, shown) = found(&text.bad);
            if codes != [code.name()] {
                wrong += &format!("\n{}: the bad example has{shown}", code.name());
            }
        }
        let (codes, shown) = found(&text.good);
        if !codes.is_empty() {
            wrong += &format!("\n{}: the good example has{shown}", code.name());
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}
