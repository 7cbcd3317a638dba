//! Text that is fit for a terminal.
//!
//! A file from a stranger may hold characters that move the cursor, change colours or turn the
//! reading direction round. They are shown by number instead.

use std::borrow::Cow;
use std::fmt::Write;

/// One line of text without anything that acts on the terminal: a tab becomes two blanks, every
/// other such character becomes `<U+001B>`.
pub fn line(text: &str) -> Cow<'_, str> {
    cleaned(text, |_| false)
}

/// The same for text of several lines: its line ends stay.
pub fn page(text: &str) -> Cow<'_, str> {
    cleaned(text, |c| c == '\n')
}

/// Whether a character acts on its surroundings instead of standing for something to read: control
/// characters, the marks of Unicode's bidirectional algorithm (UAX #9), line separators, and
/// invisible characters that can hide a difference between two names.
pub fn acts(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
            | '\u{2028}' | '\u{2029}'
            | '\u{200b}' | '\u{2060}'..='\u{2064}' | '\u{206a}'..='\u{206f}' | '\u{feff}' | '\u{ad}'
            | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

fn cleaned(text: &str, keep: impl Fn(char) -> bool) -> Cow<'_, str> {
    let harmless = |c: char| !acts(c) || keep(c);
    if text.chars().all(harmless) {
        return Cow::Borrowed(text);
    }
    let mut clean = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        if harmless(c) {
            clean.push(c);
        } else if c == '\t' {
            clean.push_str("  ");
        } else {
            // Writing to a String cannot fail.
            let _ = write!(clean, "<U+{:04X}>", c as u32);
        }
    }
    Cow::Owned(clean)
}

#[cfg(test)]
mod tests {
    use super::{line, page};

    #[test]
    fn names_what_would_act_on_the_terminal() {
        assert_eq!(line("a\u{1b}[31mb"), "a<U+001B>[31mb");
        assert_eq!(line("a\u{9b}31mb\u{7f}"), "a<U+009B>31mb<U+007F>");
        assert_eq!(line("salt\u{202e}tlas"), "salt<U+202E>tlas");
        assert_eq!(line("a\tb\r\n"), "a  b<U+000D><U+000A>");
    }

    #[test]
    fn leaves_scripts_and_signs_alone() {
        let text = "crème brûlée, 燻製, חלב, ½ × 110 °C — “tender”";
        assert_eq!(line(text), text);
        assert_eq!(page("one\ntwo\n"), "one\ntwo\n");
        assert_eq!(page("one\r\ntwo"), "one<U+000D>\ntwo");
    }
}
