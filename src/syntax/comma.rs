//! A description that swallowed a fact for want of a comma.

use super::explain::clip;
use super::forms::is_clause_word;
use super::pieces::words;
use super::reader::{Base, LineRead, read_clause};
use super::tree::{ClauseKind, HeadKind};
use crate::findings::{Code, Finding};
use crate::say;
use crate::text::Span;

/// A description whose end could be a clause (`soft butter contains milk`) is refused: with a comma
/// it would mean another thing.
pub fn missing_comma(line: &str, read: &LineRead, base: Base) -> Option<Finding> {
    type Belongs = fn(&ClauseKind) -> bool;
    let any: Belongs = |_| true;
    let head = read.head.as_ref().and_then(|head| match &head.kind {
        HeadKind::Food { kind, quoted: false, .. } => Some((*kind, is_of_food as Belongs)),
        // A text after the words may be that of `from "…"`.
        HeadKind::Ingredient { words: Some(words), .. } => {
            Some((Span { end: head.span.end, ..*words }, is_of_ingredient as Belongs))
        }
        HeadKind::Kit { class, .. } => Some((*class, is_of_kit as Belongs)),
        HeadKind::Phase { purpose: Some(purpose), .. } => Some((*purpose, any)),
        _ => None,
    });
    let kinds = read.clauses.iter().filter_map(|clause| match &clause.kind {
        ClauseKind::Becomes { kind, .. } | ClauseKind::Collect { kind, .. } => Some(((*kind)?, any)),
        _ => None,
    });
    head.into_iter().chain(kinds).find_map(|(span, belongs)| {
        let start = span.start as usize - base.offset;
        let description = line.get(start..span.end as usize - base.offset)?;
        // The first word is never the start of a clause: `cooked beans` is a kind of food.
        let (at, tail) = words(description)
            .skip(1)
            .map(|(at, _)| (at, &description[at..]))
            .find(|(_, tail)| ends_as_clause(tail, belongs, base))?;
        let from = Span::new(base.file, base.offset + start + at, span.end as usize);
        Some(comma_missing(&line[..start + at], tail, from))
    })
}

pub fn comma_missing(before: &str, tail: &str, span: Span) -> Finding {
    Finding::new(
        Code::CommaMissing,
        span,
        say![format!("`{}` could be part of the description or a fact of its own.", clip(tail))],
        say![format!(
            "If it is a fact, put a comma before it: `{}, {}`. If it belongs to the description, put the whole description in quotes.",
            before.trim(),
            tail
        )],
    )
}

/// Could these last words of a description be a clause of its block?
fn ends_as_clause(tail: &str, belongs: fn(&ClauseKind) -> bool, base: Base) -> bool {
    let first = words(tail).next().map_or("", |(_, word)| word).to_lowercase();
    is_clause_word(&first)
        && read_clause(tail, base).is_some_and(|clause| !is_common(&clause.kind) && belongs(&clause.kind))
}

/// Amounts and places are too common in plain descriptions to count.
pub fn is_common(kind: &ClauseKind) -> bool {
    matches!(kind, ClauseKind::Place { .. } | ClauseKind::Amount { .. })
}

fn is_of_ingredient(kind: &ClauseKind) -> bool {
    use ClauseKind as K;
    matches!(
        kind,
        K::Contains(_)
            | K::Supplier(_)
            | K::OnHand(_)
            | K::SameForAnyNumber
            | K::ToTaste
            | K::Nitrite(_)
            | K::Note(_)
            | K::Allow { .. }
    )
}

fn is_of_food(kind: &ClauseKind) -> bool {
    use ClauseKind as K;
    is_of_ingredient(kind)
        || matches!(
            kind,
            K::Thickness(_)
                | K::Depth(_)
                | K::Shape(_)
                | K::StartsAt(_)
                | K::Frozen
                | K::Cooked
                | K::TrimLoss(_)
                | K::CookedYield(_)
                | K::Structure(_)
                | K::Check { .. }
                | K::Cover { .. }
        )
}

fn is_of_kit(kind: &ClauseKind) -> bool {
    use ClauseKind as K;
    matches!(
        kind,
        K::Setting { .. }
            | K::Swing(_)
            | K::Preheat(_)
            | K::CoolsDown(_)
            | K::Shelves(_)
            | K::Holds(_)
            | K::Moisture(_)
            | K::Room(_)
            | K::Vented
            | K::Programmable
            | K::Note(_)
            | K::Allow { .. }
    )
}
