//! Single words, quoted texts and descriptions.

use pest::iterators::Pair;

use super::{Base, Rule};
use crate::cook::{CoverKind, Medium};
use crate::syntax::tree::Checked;
use crate::text::Span;

pub fn medium(word: &str) -> Option<Medium> {
    Medium::ALL.into_iter().find(|medium| medium.word().eq_ignore_ascii_case(word))
}

pub fn checked(word: &str) -> Option<Checked> {
    let all = [
        ("core", Checked::Core),
        ("surface", Checked::Surface),
        ("weight", Checked::Weight),
        ("ph", Checked::Ph),
        ("salt", Checked::Salt),
    ];
    all.into_iter().find(|(name, _)| name.eq_ignore_ascii_case(word)).map(|(_, checked)| checked)
}

pub fn cover_kind(words: &str) -> CoverKind {
    match words.as_bytes()[0].to_ascii_lowercase() {
        b'u' => CoverKind::Uncovered,
        b'c' => CoverKind::Covered,
        b'w' => CoverKind::Wrapped,
        b's' => CoverKind::Sealed,
        b'b' => CoverKind::Bagged,
        _ => CoverKind::VacuumBagged,
    }
}

/// The inside of a quoted text.
pub fn text_of(pair: Pair<'_, Rule>, base: Base) -> Span {
    let outer = base.span(&pair);
    pair.into_inner().next().map_or(outer, |inner| base.span(&inner))
}

pub fn words_or_text(pair: Pair<'_, Rule>, base: Base) -> Span {
    if pair.as_rule() == Rule::text { text_of(pair, base) } else { words_span(&pair, base) }
}

/// `beef dripping from the joint`: the words before the last `from`, and the name after it.
pub fn kind_and_parent(words: &Pair<'_, Rule>, base: Base) -> (Option<Span>, Option<Span>) {
    let whole = words_span(words, base);
    let text = words.as_str().trim_end();
    let lower = text.to_ascii_lowercase();
    let Some(at) = lower.rfind(" from ") else { return (Some(whole), None) };
    let after = &text[at + " from ".len()..];
    let name = after.trim_start();
    let name =
        name.get(..4).filter(|the| the.eq_ignore_ascii_case("the ")).map_or(name, |_| name[4..].trim_start());
    if name.is_empty() || name.contains(' ') {
        return (Some(whole), None);
    }
    let start = whole.start as usize;
    let kind = Span::new(base.file, start, start + text[..at].trim_end().len());
    let from = Span::new(base.file, start + text.len() - name.len(), start + text.len());
    (Some(kind), Some(from))
}

/// A description without the blanks at its end.
pub fn words_span(words: &Pair<'_, Rule>, base: Base) -> Span {
    let span = base.span(words);
    let blanks = words.as_str().len() - words.as_str().trim_end().len();
    Span { end: span.end - blanks as u32, ..span }
}
