//! Places as a client counts them, and as byte offsets.

use std::ops::Range;

use lsp_types::{self as lsp, Position, PositionEncodingKind};

use crate::text::Source;

/// What a column counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Encoding {
    Utf8,
    /// What every client knows.
    #[default]
    Utf16,
}

impl Encoding {
    /// Bytes where the client can count them.
    pub fn agreed(offered: Option<&[PositionEncodingKind]>) -> Self {
        match offered.is_some_and(|kinds| kinds.contains(&PositionEncodingKind::UTF8)) {
            true => Self::Utf8,
            false => Self::Utf16,
        }
    }

    pub fn kind(self) -> PositionEncodingKind {
        match self {
            Self::Utf8 => PositionEncodingKind::UTF8,
            Self::Utf16 => PositionEncodingKind::UTF16,
        }
    }

    fn width(self, c: char) -> usize {
        match self {
            Self::Utf8 => c.len_utf8(),
            Self::Utf16 => c.len_utf16(),
        }
    }

    /// The byte offset of a place. Past the end of a line is its end, past the last line the end of the text, and inside of
    /// a character before it.
    pub fn offset(self, source: &Source, at: Position) -> usize {
        let line = at.line as usize + 1;
        if line > source.line_count() {
            return source.text.len();
        }
        let range = source.line_range(line);
        let content = source.text[range.clone()].trim_end_matches(['\r', '\n']);
        let mut left = at.character as usize;
        for (at, c) in content.char_indices() {
            let width = self.width(c);
            if left < width {
                return range.start + at;
            }
            left -= width;
        }
        range.start + content.len()
    }

    pub fn position(self, source: &Source, offset: usize) -> Position {
        let offset = offset.min(source.text.len());
        let line = source.line_of(offset);
        let start = source.line_range(line).start;
        let before = source.text.get(start..offset).unwrap_or("");
        let character: usize = before.chars().map(|c| self.width(c)).sum();
        Position::new(line as u32 - 1, character as u32)
    }

    pub fn range(self, source: &Source, range: Range<usize>) -> lsp::Range {
        lsp::Range::new(self.position(source, range.start), self.position(source, range.end))
    }

    pub fn offsets(self, source: &Source, range: lsp::Range) -> Range<usize> {
        let (from, to) = (self.offset(source, range.start), self.offset(source, range.end));
        from.min(to)..from.max(to)
    }
}

#[cfg(test)]
mod tests {
    use super::{Encoding, Position, Source};

    #[test]
    fn columns_count_what_was_agreed() {
        let source = Source::new("a", "é🍞b\r\nzwei\rdrei\n");
        let at =
            |encoding: Encoding, line, character| encoding.offset(&source, Position::new(line, character));
        assert_eq!([0, 1, 2, 3, 4, 9].map(|column| at(Encoding::Utf16, 0, column)), [0, 2, 2, 6, 7, 7]);
        assert_eq!([0, 1, 2, 3, 6, 7, 9].map(|column| at(Encoding::Utf8, 0, column)), [0, 0, 2, 2, 6, 7, 7]);
        assert_eq!(
            [(1, 0), (1, 99), (2, 1), (3, 0), (9, 9)].map(|(l, c)| at(Encoding::Utf16, l, c)),
            [9, 13, 15, 19, 19]
        );
        for encoding in [Encoding::Utf8, Encoding::Utf16] {
            for offset in [0, 2, 6, 7, 9, 13, 14, 19] {
                assert_eq!(encoding.offset(&source, encoding.position(&source, offset)), offset);
            }
        }
        assert_eq!(Encoding::Utf16.position(&source, 7), Position::new(0, 4));
    }
}
