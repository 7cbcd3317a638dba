//! What acts on a terminal never comes out raw, whichever string of a file it hides in.

use crate::support::{Folder, GOOD, Ran, TOO_COOL, json};

/// An escape sequence that renames the window, a C1 one, a bell, and a mark that turns the reading
/// direction round.
const HOSTILE: &str = "x\u{1b}]0;owned\u{7}\u{9b}31m\u{202e}y";

fn acts(c: char) -> bool {
    c != '\n' && dwell::output::clean::acts(c)
}

/// Copies of both cooks with hostile characters in one string field, name or comment each.
fn copies() -> Vec<String> {
    let mut copies = Vec::new();
    for (from, to) in [
        ("Apples for the crew", HOSTILE.to_owned()),
        ("  serves 4\n", format!("  serves 4\n  about \"{HOSTILE}\"\n  by \"{HOSTILE}\"\n")),
        ("  serves 4\n", format!("  serves 4\n  adapted from \"{HOSTILE}\"\n")),
        ("rules us-food-code", format!("rules {HOSTILE}")),
        ("kit bench is bench\n", format!("kit {HOSTILE} is bench\n")),
        ("kit bench is bench\n", format!("kit bench is {HOSTILE}\n")),
        ("kit bench is bench\n", format!("kit from \"{HOSTILE}\"\n")),
        ("is apple\n", format!("is {HOSTILE}\n")),
        ("  4 pieces of 150 g\n", format!("  4 {HOSTILE} of 150 g\n")),
        ("  4 pieces of 150 g\n", format!("  4 pieces of 150 g\n  from \"{HOSTILE}\"\n")),
        ("phase slice", format!("ingredient salt is 70 g {HOSTILE}\n\nphase slice")),
        ("phase slice", format!("ingredient salt is 70 g \"{HOSTILE}\"\n\nphase slice")),
        ("phase slice", format!("phase {HOSTILE}")),
        ("apples on bench", format!("{HOSTILE} on bench")),
        ("  takes", format!("  do \"{HOSTILE}\"\n  note \"{HOSTILE}\"\n  takes")),
        ("  takes", format!("  until \"{HOSTILE}\"\n  takes")),
        ("  takes", format!("  allow stock-left because \"{HOSTILE}\"\n  takes")),
        ("  takes", format!("  allow {HOSTILE} because \"x\"\n  takes")),
        ("  takes", format!("  {HOSTILE}\n  takes")),
        ("  takes", format!("  use 1 {HOSTILE}\n  takes")),
        ("at 13:00", format!("at 13:00 in {HOSTILE}")),
        ("at 13:00", format!("at {HOSTILE}")),
        ("kit bench is bench\n", format!("kit bench is bench // {HOSTILE}\n")),
    ] {
        assert!(GOOD.contains(from), "{from}");
        copies.push(GOOD.replacen(from, &to, 1));
    }
    for (from, to) in [
        ("phase wait", format!("phase {HOSTILE}")),
        ("  air 48 °C\n", format!("  air 48 °C\n  note \"{HOSTILE}\"\n")),
        ("  air 48 °C\n", format!("  air 48 °C\n  allow hold-too-cool because \"{HOSTILE}\"\n")),
    ] {
        assert!(TOO_COOL.contains(from), "{from}");
        copies.push(TOO_COOL.replacen(from, &to, 1));
    }
    copies
}

fn assert_calm(ran: &Ran, what: &str) {
    for text in [&ran.out, &ran.err] {
        assert!(!text.chars().any(acts), "{what}: {text:?}");
    }
    assert!(matches!(ran.status, Some(0 | 1)), "{what}: {ran:?}");
}

#[test]
fn no_command_lets_it_through() {
    for (n, text) in copies().iter().enumerate() {
        let folder = Folder::with("cook.dwell", text);
        for words in [
            &["check", "cook.dwell"][..],
            &["check", "--format", "json", "cook.dwell"],
            &["check", "--format", "sarif", "cook.dwell"],
            &["timeline", "cook.dwell"],
            &["timeline", "--format", "json", "cook.dwell"],
            &["curve", "cook.dwell"],
            &["curve", "--format", "csv", "cook.dwell"],
            &["curve", "--format", "json", "cook.dwell"],
            &["curve", "--format", "svg", "cook.dwell"],
            &["timeline", "--format", "svg", "cook.dwell"],
            &["buy", "cook.dwell"],
            &["prep", "cook.dwell"],
            &["sheet", "cook.dwell"],
            &["export", "cook.dwell"],
        ] {
            assert_calm(&folder.run(words), &format!("copy {n}, {words:?}"));
        }
    }
}

/// A calendar ends its lines with CR and LF, and holds nothing else that acts.
#[test]
fn no_calendar_lets_it_through() {
    for (n, text) in copies().iter().enumerate() {
        let folder = Folder::with("cook.dwell", text);
        let ran = folder.run(&["timeline", "cook.dwell", "--format", "ics", "--serve", "2026-12-12 13:00"]);
        assert!(ran.out.split("\r\n").all(|line| line.len() <= 75), "copy {n}: {ran:?}");
        assert_calm(&Ran { out: ran.out.replace("\r\n", "\n"), ..ran }, &format!("copy {n}"));
    }
}

#[test]
fn a_drawn_finding_holds_no_escape_but_its_own_colours() {
    for text in copies() {
        let ran = Folder::with("cook.dwell", text).run(&["--color", "always", "check", "cook.dwell"]);
        for (at, _) in ran.err.match_indices('\u{1b}') {
            let rest = &ran.err[at + 1..];
            let code: String = rest.chars().take_while(|c| *c != 'm').collect();
            assert!(code.starts_with('[') && code[1..].chars().all(|c| c.is_ascii_digit() || c == ';'));
        }
        assert!(!ran.err.chars().any(|c| c != '\u{1b}' && acts(c)), "{:?}", ran.err);
    }
}

#[test]
fn a_title_keeps_what_can_be_read_of_it() {
    let text = GOOD.replace("Apples for the crew", HOSTILE);
    let ran = Folder::with("cook.dwell", text).run(&["export", "cook.dwell"]);
    assert_eq!(json(&ran.out)["cooks"][0]["title"], "x ]0;owned 31m y");
}

#[test]
fn names_on_the_command_line_are_cleaned_too() {
    let folder = Folder::with("apples.dwell", GOOD);
    for words in
        [["check", HOSTILE], ["explain", HOSTILE], ["rules", HOSTILE], ["foods", HOSTILE], ["kit", HOSTILE]]
    {
        let ran = folder.run(&words);
        assert_eq!(ran.status, Some(2), "{words:?}");
        assert!(!ran.err.chars().any(acts), "{words:?}: {:?}", ran.err);
    }
}
