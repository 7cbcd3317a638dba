//! Findings as people see them: both layouts, hostile text, long lines.

use dwell::findings::{CitedRule, Code, Finding};
use dwell::output::human::{Layout, findings};
use dwell::quantity::{Scale, Temperature};
use dwell::say;
use dwell::text::{Source, Sources, Span};

fn one(text: &str, marked: &str) -> (Sources, Finding) {
    let mut sources = Sources::default();
    let file = sources.add(Source::new("lamb.dwell", text));
    let at = text.find(marked).expect("the marked part is in the text");
    let span = Span::new(file, at, at + marked.len());
    let message = say!["The hold is at ", Temperature::from_celsius(48.0), "."];
    let finding = Finding::new(Code::HoldTooCool, span, message, say!["Raise the setting."]);
    (sources, finding)
}

#[test]
fn plain_layout_is_a_fact_a_line_and_ascii() {
    let (sources, finding) = one("phase wait is hot hold\n  air 48 degC\n", "48 degC");
    let rule = CitedRule { id: "r".into(), set: "s".into(), source: "Food Code 3-501.16".into() };
    let finding = finding.citing(rule).also(Span::new(sources_file(), 0, 5), say!["The phase begins here."]);
    let shown = findings(&sources, &[finding], Scale::Fahrenheit, Layout::Plain);
    assert_eq!(
        shown,
        "error: The hold is at 118.4 °F. [hold-too-cool]
  line 2: air 48 degC
  marked: 48 degC
  help: Raise the setting.
  source: Food Code 3-501.16
  more: dwell explain hold-too-cool
  place: lamb.dwell:2:7
  see also: The phase begins here.
  line 1: phase wait is hot hold
  marked: phase
  place: lamb.dwell:1:1

"
    );
}

fn sources_file() -> dwell::text::FileId {
    dwell::text::FileId(0)
}

#[test]
fn graphical_layout_says_severity_code_place_and_remedy() {
    let (sources, finding) = one("phase wait is hot hold\n  air 48 °C\n", "air 48 °C");
    let shown = findings(&sources, &[finding], Scale::Celsius, Layout::Graphical);
    for part in
        ["hold-too-cool", "error:", "lamb.dwell:2:3", "The hold is at 48 °C.", "help:", "Raise the setting."]
    {
        assert!(shown.contains(part), "{part} is missing in\n{shown}");
    }
}

#[test]
fn nothing_of_a_file_acts_on_the_terminal() {
    let (sources, finding) =
        one("note \"\u{1b}]0;owned\u{7}\u{202e}\u{9b}31m\" air 48\rx\n", "\u{1b}]0;owned\u{7}");
    let finding = finding.in_phase("a\u{1b}b");
    let shown = findings(&sources, std::slice::from_ref(&finding), Scale::Celsius, Layout::Plain);
    assert!(shown.contains("<U+001B>]0;owned<U+0007>"), "{shown}");
    assert!(shown.chars().all(|c| c == '\n' || !dwell::output::clean::acts(c)), "{shown:?}");

    // The drawn layout holds no escape but the colours of its own theme.
    let shown = findings(&sources, &[finding], Scale::Celsius, Layout::Graphical);
    for (at, _) in shown.match_indices('\u{1b}') {
        let rest = &shown[at + 1..];
        let end = rest.find('m').expect("a colour ends in m");
        assert!(rest[..end].chars().all(|c| "[;0123456789".contains(c)), "{:?}", &rest[..end]);
    }
    assert!(!shown.contains(['\u{202e}', '\u{7}', '\u{9b}', '\r']));
}

#[test]
fn a_megabyte_on_one_line_is_cut_around_the_mark() {
    let text = format!("{} 48 °C {}", "x".repeat(1 << 20), "y".repeat(1 << 20));
    let (sources, finding) = one(&text, "48 °C");
    for layout in [Layout::Plain, Layout::Graphical] {
        let shown = findings(&sources, std::slice::from_ref(&finding), Scale::Celsius, layout);
        assert!(shown.contains("48 °C") && shown.len() < 3000, "{} bytes", shown.len());
    }
}

#[test]
fn a_place_at_the_very_end_of_an_empty_file_is_shown() {
    let mut sources = Sources::default();
    let file = sources.add(Source::new("empty.dwell", ""));
    let finding = Finding::new(Code::FileEmpty, Span::new(file, 0, 0), say!["Empty."], say!["Write."]);
    for layout in [Layout::Plain, Layout::Graphical] {
        let shown = findings(&sources, std::slice::from_ref(&finding), Scale::Celsius, layout);
        assert!(shown.contains("empty.dwell:1:1"), "{shown}");
    }
}
