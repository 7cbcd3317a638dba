//! The sort of every word, for colours that follow the meaning: `salt` is stock in one line and a fact in another.

use super::View;
use super::pieces::{Sort, pieces};
use crate::syntax::LineKind;
use crate::text::Span;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Token {
    /// A word of the language.
    Word,
    Of(Sort),
}

/// All tokens in the order of their places. None overlaps another or runs over the end of a line.
pub fn tokens(view: &View<'_>) -> Vec<(Span, Token)> {
    let pieces = pieces(view.tree, view.text());
    let mut all = Vec::new();
    let mut next = pieces.iter().peekable();
    for line in &view.tree.lines {
        let is_read = matches!(line.kind, LineKind::Read { .. });
        let mut done = line.span.start;
        while let Some(piece) = next.next_if(|piece| piece.span.end <= line.span.end) {
            if is_read {
                all.extend(words(view, Span { start: done, end: piece.span.start, ..line.span }));
            }
            all.push((piece.span, Token::Of(piece.sort)));
            done = piece.span.end;
        }
        if is_read {
            all.extend(words(view, Span { start: done.min(line.span.end), ..line.span }));
        }
    }
    all
}

/// What stands between the pieces of a line.
fn words(view: &View<'_>, between: Span) -> Vec<(Span, Token)> {
    let text = view.text().get(between.range()).unwrap_or_default();
    let is_part = |c: char| c.is_alphanumeric() || c == '-';
    let mut found = Vec::new();
    let mut rest = text.char_indices().peekable();
    while let Some((start, c)) = rest.next() {
        if !c.is_alphabetic() {
            continue;
        }
        while rest.next_if(|&(_, c)| is_part(c)).is_some() {}
        let end = rest.peek().map_or(text.len(), |&(at, _)| at);
        let at = |offset: usize| between.start as usize + offset;
        found.push((Span::new(between.file, at(start), at(end)), Token::Word));
    }
    found
}
