//! A place in a line, and the small things that can stand there.

use super::super::reader::Base;
use crate::text::Span;

pub struct Cursor<'t> {
    text: &'t str,
    at: usize,
    base: Base,
}

impl<'t> Cursor<'t> {
    pub fn new(text: &'t str, base: Base) -> Self {
        Self { text, at: 0, base }
    }

    pub fn at(&self) -> usize {
        self.at
    }

    pub fn back_to(&mut self, at: usize) {
        self.at = at;
    }

    pub fn skip(&mut self, bytes: usize) {
        self.at += bytes;
    }

    /// The byte here, 0 at the end of the line (a line never holds one).
    pub fn byte(&self) -> u8 {
        self.text.as_bytes().get(self.at).copied().unwrap_or(0)
    }

    fn ahead(&self) -> &'t [u8] {
        self.text.as_bytes().get(self.at..).unwrap_or(&[])
    }

    pub fn starts_with(&self, sign: &str) -> bool {
        self.ahead().starts_with(sign.as_bytes())
    }

    pub fn is_comment(&self) -> bool {
        self.starts_with("//")
    }

    /// Is the fact at its end: nothing more, or a comma or a comment, after any blanks?
    pub fn ends_here(&self) -> bool {
        let ahead = self.ahead();
        let ink = ahead.iter().position(|&byte| byte != b' ').unwrap_or(ahead.len());
        matches!(ahead.get(ink), None | Some(b',')) || ahead[ink..].starts_with(b"//")
    }

    /// What was typed in `span`.
    pub fn typed(&self, span: Span) -> &'t str {
        &self.text[span.start as usize - self.base.offset..span.end as usize - self.base.offset]
    }

    pub fn since(&self, start: usize) -> Span {
        Span::new(self.base.file, self.base.offset + start, self.base.offset + self.at)
    }

    pub fn typed_since(&self, start: usize) -> &'t str {
        &self.text[start..self.at]
    }

    /// From here to the end of the line.
    pub fn rest(&mut self) -> Span {
        let start = self.at;
        self.at = self.text.len();
        self.since(start)
    }

    /// Passes over blanks; were there any?
    pub fn blanks(&mut self) -> bool {
        let start = self.at;
        while self.byte() == b' ' {
            self.at += 1;
        }
        self.at > start
    }

    /// Passes over what has the form of a word: a letter, then letters, digits and hyphens.
    pub fn word(&mut self) -> Option<&'t str> {
        let ahead = self.ahead();
        if !ahead.first()?.is_ascii_alphabetic() {
            return None;
        }
        let length = ahead.iter().position(|&byte| !is_of_word(byte)).unwrap_or(ahead.len());
        // A letter of another script may belong to the word.
        if ahead.get(length).is_some_and(|byte| !byte.is_ascii()) {
            return None;
        }
        let start = self.at;
        self.at += length;
        Some(self.typed_since(start))
    }

    /// Passes over one given word and the blanks after it.
    pub fn keyword(&mut self, wanted: &str) -> Option<()> {
        let is_it = self.word()?.eq_ignore_ascii_case(wanted);
        (is_it && self.blanks()).then_some(())
    }

    /// The same between blanks, or nothing at all.
    pub fn joined_by(&mut self, wanted: &str) -> bool {
        let start = self.at;
        let joined = self.blanks() && self.keyword(wanted).is_some();
        if !joined {
            self.at = start;
        }
        joined
    }

    pub fn name(&mut self) -> Option<Span> {
        let start = self.at;
        let word = self.word()?;
        (!is_small(word)).then(|| self.since(start))
    }

    /// A name that may have `the` before it.
    pub fn the_name(&mut self) -> Option<Span> {
        let start = self.at;
        if self.keyword("the").is_none() {
            self.at = start;
        }
        self.name()
    }

    /// Text in straight quotes: the span inside them.
    pub fn quoted(&mut self) -> Option<Span> {
        if self.byte() != b'"' {
            return None;
        }
        self.at += 1;
        let start = self.at;
        self.at += self.ahead().iter().position(|&byte| byte == b'"')?;
        let inside = self.since(start);
        self.at += 1;
        Some(inside)
    }

    /// A description of plain letters, to the comma or the end: without the blanks at its end, which are passed
    /// over as well.
    pub fn description(&mut self) -> Option<Span> {
        let ahead = self.ahead();
        let ends = |byte: u8| matches!(byte, b',' | b'"' | b'/') || !byte.is_ascii();
        let length = ahead.iter().position(|&byte| ends(byte)).unwrap_or(ahead.len());
        if length == 0 || ahead.get(length).is_some_and(|&byte| byte == b'/' || !byte.is_ascii()) {
            return None;
        }
        let start = self.at;
        let ink = ahead[..length].iter().rposition(|&byte| byte != b' ')? + 1;
        self.at += ink;
        let words = self.since(start);
        self.at += length - ink;
        Some(words)
    }
}

fn is_of_word(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || byte == b'-'
}

/// `word` in lower case; empty where it is longer than any word of the language.
pub fn lower<'b>(word: &str, room: &'b mut [u8; 12]) -> &'b str {
    let Some(room) = room.get_mut(..word.len()) else { return "" };
    room.copy_from_slice(word.as_bytes());
    room.make_ascii_lowercase();
    std::str::from_utf8(room).unwrap_or("")
}

/// Words that are never a name, as in the grammar's `small`.
pub fn is_small(word: &str) -> bool {
    matches!(
        lower(word, &mut [0; 12]),
        "all"
            | "and"
            | "after"
            | "at"
            | "of"
            | "on"
            | "or"
            | "in"
            | "is"
            | "to"
            | "the"
            | "before"
            | "by"
            | "each"
            | "ends"
            | "for"
            | "from"
            | "when"
            | "with"
            | "starts"
            | "serving"
            | "half"
            | "look"
    )
}
