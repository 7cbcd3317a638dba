//! What holds for any text at all, tried on random bytes and on examples that were bent out of shape.

mod common;

use std::time::Duration;

use cpu_time::ThreadTime;

use dwell::findings::Finding;
use dwell::syntax;
use dwell::text::FileId;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

fn codes(findings: &[Finding]) -> Vec<&'static str> {
    findings.iter().map(|finding| finding.code.name()).collect()
}

fn formatted(text: &str) -> String {
    let (tree, _) = syntax::parse(FileId(0), text);
    syntax::format(&tree, text)
}

/// The lines that could not be read, as they stand.
fn unreadable(text: &str) -> Vec<String> {
    let (tree, _) = syntax::parse(FileId(0), text);
    tree.lines
        .iter()
        .filter(|line| matches!(line.kind, syntax::LineKind::Bad { .. }))
        .map(|line| text[line.span.range()].to_string())
        .collect()
}

fn comments(text: &str) -> Vec<String> {
    let (tree, _) = syntax::parse(FileId(0), text);
    tree.lines
        .iter()
        .filter_map(|line| line.comment)
        .map(|span| text[span.range()].trim().to_string())
        .collect()
}

/// Everything that must hold for one text.
fn hold(text: &str) {
    let (tree, found) = syntax::parse(FileId(0), text);
    let back: String = tree.lines.iter().map(|line| &text[tree.whole(line)]).collect();
    assert_eq!(back, text, "the tree gives the file back");
    let (_, document, resolved) = common::resolve_files(&[("any.dwell", text)]);
    for finding in found.iter().chain(&resolved) {
        assert!(text.get(finding.span.range()).is_some(), "a span lies inside the text: {finding:?}");
        assert!(!finding.message.render(Default::default()).is_empty());
        assert!(!finding.remedy.render(Default::default()).is_empty());
    }
    if document.is_none() {
        assert!(!resolved.is_empty(), "nothing came out, and nothing was said");
    }
    let once = formatted(text);
    assert_eq!(formatted(&once), once, "formatting twice equals once");
    assert_eq!(unreadable(&once), unreadable(text), "lines that cannot be read stay as they are");
    assert_eq!(comments(&once), comments(text), "comments stay");
    let (_, _, again) = common::resolve_files(&[("any.dwell", &once)]);
    assert_eq!(codes(&again), codes(&resolved), "formatting changes no finding");
}

fn pieces() -> Vec<String> {
    let mut all = Vec::new();
    for (_, text) in common::examples() {
        for line in text.lines() {
            all.push(line.to_string());
        }
    }
    all
}

/// Lines of the examples in any order, with words swapped, dropped and doubled.
fn bent_cook() -> impl Strategy<Value = String> {
    let lines = pieces();
    let line = prop::sample::select(lines);
    let bend = prop_oneof![
        6 => Just(None),
        1 => Just(Some(",")),
        1 => Just(Some(" ")),
        1 => Just(Some("\"")),
        1 => Just(Some(" // remark")),
        1 => Just(Some(" and")),
        1 => Just(Some("1,5 h")),
        1 => Just(Some("½")),
        1 => Just(Some("\u{202E}")),
        1 => Just(Some("é")),
        1 => Just(Some(" (230 °F)")),
    ];
    prop::collection::vec((line, bend, any::<prop::sample::Index>(), 0..6u8), 0..25).prop_map(|lines| {
        let mut text = String::new();
        for (line, bend, at, how) in lines {
            let boundaries: Vec<usize> = (0..=line.len()).filter(|&at| line.is_char_boundary(at)).collect();
            let cut = boundaries[at.index(boundaries.len())];
            match (bend, how) {
                (None, 0) => text.push_str(&line[..cut]),
                (None, 1) => text.push_str(&line[cut..]),
                (None, _) => text.push_str(&line),
                (Some(extra), _) => {
                    text.push_str(&line[..cut]);
                    text.push_str(extra);
                    text.push_str(&line[cut..]);
                }
            }
            text.push('\n');
        }
        text
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, rng_seed: RngSeed::Fixed(1), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_gives_findings_and_never_a_panic(text in "\\PC{0,400}") {
        hold(&text);
    }

    #[test]
    fn any_characters_at_all(text in any::<String>()) {
        hold(&text);
    }

    #[test]
    fn examples_bent_out_of_shape(text in bent_cook()) {
        hold(&text);
    }
}

#[test]
fn line_ends_and_blanks_change_nothing() {
    for (name, text) in common::examples() {
        let others = common::examples();
        let resolve = |text: &str| {
            let mut files = vec![(name.as_str(), text)];
            files.extend(others.iter().map(|(name, text)| (name.as_str(), text.as_str())));
            let (_, document, findings) = common::resolve_files(&files);
            (document.is_some(), codes(&findings))
        };
        let plain = resolve(&text);
        let changes: [(&str, String); 7] = [
            ("CRLF", text.replace('\n', "\r\n")),
            ("lone CR", text.replace('\n', "\r")),
            ("tabs", text.replace("  ", "\t")),
            ("no indentation", text.lines().map(str::trim_start).collect::<Vec<_>>().join("\n")),
            ("a byte order mark", format!("\u{FEFF}{text}")),
            ("control characters", text.replace(' ', " \u{1}")),
            ("direction marks", text.replace(' ', "\u{200F} ")),
        ];
        for (what, changed) in changes {
            assert_eq!(resolve(&changed), plain, "{name} with {what}");
        }
    }
}

#[test]
fn names_of_any_script_work() {
    for name in ["gualainn", "gúna-méithe", "كتف", "लकड़ी", "ไหล่", "肩", "плечо"]
    {
        let text = format!(
            "cook \"Any\"\n  rules us-food-code\nkit oven is oven\nkit probe is probe thermometer\nfood {name} is pork shoulder\n  3 kg\nphase roast is cook\n  {name} in oven\n  air 140 °C\n  until core 84 °C, takes 3 h to 5 h\nserve {name}\n  at 18:30\n"
        );
        let (_, cook, findings) = common::cook(&text);
        assert!(findings.is_empty(), "{name}: {:?}", codes(&findings));
        assert_eq!(cook.expect("a cook").items[0].name, name);
    }
}

/// 64 KiB of something, many times over. A second is the limit for the program as it is released;
/// built without optimising it is some ten times slower.
#[test]
fn sixty_four_kibibytes_of_anything_take_less_than_a_second() {
    let patterns = [
        "a",
        ",",
        "\"",
        "(",
        "1 ",
        "1/2 ",
        "use all ",
        "and ",
        "in ",
        "// ",
        "air 110 °C (",
        "on hob\n",
        "1,5 ",
        "cook \"",
        "phase a is cook\n",
        "half of ",
        "the rest of ",
        "until \"a\" and ",
        "½",
        "\u{202E}",
        "é ",
        "starts after ",
        "food a is b c d e f contains milk ",
        "8-",
        "± ",
        "at least ",
        "\n",
        "\r",
        " \n",
        "x in y\n",
        "ingredient a is 1 kg take use salt to taste for ",
        "kit from \"x\"\n",
        "dish \"x\"\n",
        "serve a and ",
    ];
    let limit = Duration::from_secs(if cfg!(debug_assertions) { 10 } else { 1 });
    for pattern in patterns {
        let text = pattern.repeat(64 * 1024 / pattern.len());
        let started = ThreadTime::now();
        let (tree, _) = syntax::parse(FileId(0), &text);
        let _ = syntax::format(&tree, &text);
        let (_, _, findings) = common::resolve_files(&[("any.dwell", &text)]);
        let took = started.elapsed();
        assert!(!findings.is_empty(), "{pattern:?} is no cook");
        assert!(took < limit, "{pattern:?} took {took:?}");
    }
}
