//! Content lines of RFC 5545 (3.1): escaped, folded, ended by CR and LF.

use crate::output::clean;

/// Octets of a line, without its end.
const WIDTH: usize = 75;

#[derive(Default)]
pub(super) struct Lines {
    pub(super) out: String,
}

impl Lines {
    /// A property whose value is our own and has nothing to escape.
    pub(super) fn plain(&mut self, name: &str, value: &str) {
        let mut room = WIDTH;
        for c in name.chars().chain([':']).chain(value.chars()) {
            if c.len_utf8() > room {
                self.out.push_str("\r\n ");
                room = WIDTH - 1;
            }
            self.out.push(c);
            room -= c.len_utf8();
        }
        self.out.push_str("\r\n");
    }

    /// A property whose value is text (RFC 5545, 3.3.11). What acts on its surroundings is shown by number, but for
    /// the end of a line.
    pub(super) fn text(&mut self, name: &str, value: &str) {
        let mut escaped = String::with_capacity(value.len());
        for c in clean::page(value).chars() {
            match c {
                '\n' => escaped.push_str("\\n"),
                '\\' | ',' | ';' => escaped.extend(['\\', c]),
                c => escaped.push(c),
            }
        }
        self.plain(name, &escaped);
    }
}

#[cfg(test)]
mod tests {
    use super::{Lines, WIDTH};

    fn text(value: &str) -> String {
        let mut lines = Lines::default();
        lines.text("SUMMARY", value);
        lines.out
    }

    #[test]
    fn escapes_what_would_end_or_split_a_value() {
        assert_eq!(text("a,b;c\\d:\"e\"\nf"), "SUMMARY:a\\,b\\;c\\\\d:\"e\"\\nf\r\n");
        assert_eq!(text("a\r\nEND:VEVENT"), "SUMMARY:a<U+000D>\\nEND:VEVENT\r\n");
        assert_eq!(text("\u{202e}\t\u{0}"), "SUMMARY:<U+202E>  <U+0000>\r\n");
    }

    #[test]
    fn folds_between_characters_and_loses_none() {
        for letter in ["a", "é", "ع", "燻", "🦀", ",", "\\"] {
            for length in 0..200 {
                let value = format!("{}{}", "x".repeat(length % 5), letter.repeat(length));
                let out = text(&value);
                assert!(out.split("\r\n").all(|line| line.len() <= WIDTH), "{out}");
                let unfolded = out.replace("\r\n ", "");
                let escaped = value.replace('\\', "\\\\").replace(',', "\\,");
                assert_eq!(unfolded, format!("SUMMARY:{escaped}\r\n"));
            }
        }
    }
}
