//! What to say of a line that does not fit the grammar.
//!
//! The line is cut at its commas, each piece is read alone, and each piece that cannot be read is
//! compared with what it could have been.

use super::forms::{keyword, nearest};
use super::habits;
use super::heads::{bad_head, headless, is_block_word, is_like_head};
use super::reader::{Base, LineRead, read_clause, reads_as_clause, reads_as_head};
use super::tree::{ClauseKind, HeadKind};
use crate::findings::{Code, Finding, Text};
use crate::say;
use crate::text::Span;

/// Words of a line with their byte offsets.
pub fn words(line: &str) -> impl Iterator<Item = (usize, &str)> {
    line.split(|c: char| c.is_whitespace() || c.is_control() || matches!(c, ',' | '"' | '“' | '„'))
        .filter(|word| !word.is_empty())
        .map(move |word| (word.as_ptr() as usize - line.as_ptr() as usize, word))
}

/// The byte range of the first figure with a comma between digits, outside quotes and comments.
pub fn decimal_comma(line: &str) -> Option<std::ops::Range<usize>> {
    let bytes = line.as_bytes();
    let outside = outside_quotes(line);
    let at = (1..bytes.len().saturating_sub(1)).find(|&at| {
        bytes[at] == b',' && bytes[at - 1].is_ascii_digit() && bytes[at + 1].is_ascii_digit() && outside(at)
    })?;
    let figure = |byte: &u8| byte.is_ascii_digit() || *byte == b',' || *byte == b'.';
    let start = bytes[..at].iter().rposition(|byte| !figure(byte)).map_or(0, |before| before + 1);
    let end = bytes[at..].iter().position(|byte| !figure(byte)).map_or(bytes.len(), |after| at + after);
    Some(start..end)
}

/// Says of a byte offset whether it lies outside quotes and before any comment.
fn outside_quotes(line: &str) -> impl Fn(usize) -> bool {
    let mut quoted: Vec<std::ops::Range<usize>> = Vec::new();
    let mut open: Option<(usize, bool)> = None;
    for (at, c) in line.char_indices() {
        match (c, open) {
            ('"', None) => open = Some((at, false)),
            ('“' | '”' | '„' | '‟', None) => open = Some((at, true)),
            ('"', Some((start, false))) | ('“' | '”' | '‟', Some((start, true))) => {
                quoted.push(start..at + c.len_utf8());
                open = None;
            }
            ('/', None) if line[at..].starts_with("//") => {
                quoted.push(at..line.len());
                break;
            }
            _ => {}
        }
    }
    if let Some((start, _)) = open {
        quoted.push(start..line.len());
    }
    move |at| {
        let next = quoted.partition_point(|range| range.end <= at);
        !quoted.get(next).is_some_and(|range| range.contains(&at))
    }
}

/// Every finding of a line that could not be read; with `mend`, it is tried what the line may have been.
pub fn explain(line: &str, base: Base, mend: bool) -> Vec<Finding> {
    let place = |range: std::ops::Range<usize>| {
        Span::new(base.file, base.offset + range.start, base.offset + range.end)
    };
    if let Some(range) = decimal_comma(line) {
        return vec![decimal_comma_finding(&line[range.clone()], place(range))];
    }
    if let Some(at) = unclosed_quote(line) {
        return vec![Finding::new(
            Code::QuoteUnclosed,
            place(at..line.trim_end().len().max(at + 1)),
            say!["The text that starts here has no closing quote on this line."],
            if line[at..].starts_with('"') {
                say!["Close it with `\"` before the line ends. Text stands on one line."]
            } else {
                say![
                    "It opens with a curly quote, so close it with one: `”`. Or write straight quotes, `\"`, at both ends."
                ]
            },
        )];
    }
    let mut findings = Vec::new();
    let mut ranges = pieces(line);
    swallow_speech(line, &mut ranges);
    for (nth, range) in ranges.iter().cloned().enumerate() {
        let piece = &line[range.clone()];
        let span = place(range);
        let first = words(piece).next().map_or("", |(_, word)| word);
        if piece.is_empty() {
            findings.push(Finding::new(
                Code::LineUnreadable,
                Span { start: span.start.saturating_sub(u32::from(nth > 0)), ..span },
                say!["Nothing stands between this comma and the next, or the end of the line."],
                say!["Take the comma away, or write the fact that is missing."],
            ));
        } else if nth == 0 && is_like_head(piece) {
            findings.push(headless(piece, span));
        } else if nth == 0 && is_block_word(first, piece) {
            if !reads_as_head(piece) {
                let description = if mend { described(piece, base) } else { None };
                findings.push(description.unwrap_or_else(|| bad_head(first, piece, span)));
            }
        } else if ranges.len() == 1 || !reads_as_clause(piece) {
            let guess = Guess {
                mended: if mend { habits::remedy(piece) } else { None },
                joined: if mend { joined_by_and(line, &ranges, nth) } else { None },
                corrected: if mend { corrected(piece) } else { None },
                after_comma: nth > 0,
            };
            findings.push(bad_clause(piece, guess, span));
        }
        // A hostile line must not turn into thousands of findings.
        if findings.len() == 20 {
            break;
        }
    }
    if findings.is_empty() {
        findings.push(Finding::new(
            Code::LineUnreadable,
            place(0..line.trim_end().len()),
            say!["This line cannot be read."],
            say!["Write one fact on a line, or put a comma between two."],
        ));
    }
    findings
}

/// The parts of a line between its commas, trimmed, without a comment.
fn pieces(line: &str) -> Vec<std::ops::Range<usize>> {
    let outside = outside_quotes(line);
    let mut ends: Vec<usize> = line
        .bytes()
        .enumerate()
        .filter(|&(at, byte)| byte == b',' && outside(at))
        .map(|(at, _)| at)
        .collect();
    let comment = line.match_indices("//").map(|(at, _)| at).find(|&at| at == 0 || outside(at - 1));
    ends.push(comment.unwrap_or(line.len()));
    let mut start = 0;
    let mut found = Vec::new();
    for end in ends {
        if end < start {
            continue;
        }
        let piece = &line[start..end];
        let trimmed = piece.trim();
        let lead = piece.len() - piece.trim_start().len();
        let from = if trimmed.is_empty() { start } else { start + lead };
        found.push(from..from + trimmed.len());
        start = end + 1;
    }
    found
}

fn unclosed_quote(line: &str) -> Option<usize> {
    let mut open: Option<(usize, bool)> = None;
    for (at, c) in line.char_indices() {
        match (c, open) {
            ('"', None) => open = Some((at, false)),
            ('“' | '”' | '„' | '‟', None) => open = Some((at, true)),
            ('"', Some((_, false))) | ('“' | '”' | '‟', Some((_, true))) => open = None,
            ('/', None) if line[at..].starts_with("//") => return None,
            _ => {}
        }
    }
    open.map(|(at, _)| at)
}

fn decimal_comma_finding(figure: &str, span: Span) -> Finding {
    let decimal = figure.replacen(',', ".", 1);
    let decimal = decimal.trim_end_matches('0').trim_end_matches('.');
    let joined = figure.replace(',', "");
    let thousands = figure.split(',').skip(1).all(|group| group.len() == 3 && !group.contains('.'));
    let remedy = if figure.matches(',').count() > 1 || (figure.contains('.') && thousands) {
        say![format!("Write `{joined}`.")]
    } else if thousands {
        say![format!(
            "Write `{joined}` if the comma marks thousands, or `{decimal}` if it marks the decimals."
        )]
    } else {
        say![format!("Write `{decimal}`: a decimal takes a point.")]
    };
    Finding::new(
        Code::DecimalComma,
        span,
        say![format!("`{figure}` could be read in two ways, because a comma also parts two facts.")],
        remedy,
    )
}

/// What follows `do` or `note` without quotes was meant as text to its end, commas and all.
fn swallow_speech(line: &str, pieces: &mut Vec<std::ops::Range<usize>>) {
    let speech = |range: &std::ops::Range<usize>| {
        let piece = &line[range.clone()];
        !piece.contains(['"', '“'])
            && words(piece)
                .any(|(_, word)| ["do", "note"].iter().any(|speech| word.eq_ignore_ascii_case(speech)))
    };
    if let (Some(first), Some(end)) = (pieces.iter().position(speech), pieces.last().map(|last| last.end)) {
        pieces.truncate(first + 1);
        if let Some(last) = pieces.last_mut() {
            last.end = end;
        }
    }
}

/// `contains egg, milk` with `and` for the comma, if it then reads.
fn joined_by_and(line: &str, pieces: &[std::ops::Range<usize>], nth: usize) -> Option<String> {
    let both = |first: usize| {
        let [one, two] = pieces.get(first..first + 2)? else { return None };
        let joined = format!("{} and {}", &line[one.clone()], &line[two.clone()]);
        let serving = words(&joined).next().is_some_and(|(_, word)| word.eq_ignore_ascii_case("serve"));
        (reads_as_clause(&joined) || serving && reads_as_head(&joined)).then_some(joined)
    };
    nth.checked_sub(1).and_then(both).or_else(|| both(nth))
}

/// `food lamb is lamb leg from "butcher"`: a description whose end is a fact of its own.
fn described(piece: &str, base: Base) -> Option<Finding> {
    words(piece).skip(4).take(40).find_map(|(at, _)| {
        let (head, tail) = (piece[..at].trim_end(), &piece[at..]);
        let clause = read_clause(tail, base)?;
        let parts = reads_as_head(head) && !is_common(&clause.kind);
        parts.then(|| comma_missing(head, tail, clause.span))
    })
}

/// Clause words that are also the name of something to cook with.
const ALSO_STOCK: &[&str] = &["air", "liquid", "oil", "plate", "salt", "steam", "water"];

/// What a piece that cannot be read may have been.
struct Guess {
    /// The piece with its first word spelt as it should be.
    corrected: Option<String>,
    /// The remedy of a common habit.
    mended: Option<String>,
    /// The piece with its neighbour, where the two make one clause.
    joined: Option<String>,
    after_comma: bool,
}

/// `uncoverd` as `uncovered`, if the piece then reads.
fn corrected(piece: &str) -> Option<String> {
    let (_, typed) = words(piece).next()?;
    let first = typed.to_lowercase();
    let (near, _) = nearest(&first).filter(|_| keyword(&first).is_none())?;
    let corrected = format!("{near}{}", piece.get(typed.len()..)?);
    reads_as_clause(&corrected).then_some(corrected)
}

fn bad_clause(piece: &str, guess: Guess, span: Span) -> Finding {
    let Guess { corrected, mended, joined, after_comma } = guess;
    let mut all = words(piece).map(|(_, word)| word);
    let typed = all.next().unwrap_or("");
    let alone = all.next().is_none();
    // After a comma, one word is more likely the rest of a list than the start of a fact.
    let listed = alone && after_comma;
    let first = typed.to_lowercase();
    let unreadable = |message: Text, remedy: Text| Finding::new(Code::LineUnreadable, span, message, remedy);
    let known = keyword(&first);
    let near = if known.is_none() { nearest(&first) } else { None };
    let unknown = say![format!("`{typed}` is not a word that starts a fact here.")];
    if let Some(corrected) = corrected {
        return unreadable(unknown, say![format!("Did you mean `{corrected}`?")]);
    }
    if let Some(remedy) = mended {
        let message = say![format!("`{}` is not a way to state a fact here.", clip(piece))];
        return unreadable(message, say![remedy]);
    }
    if let Some(example) = known.filter(|_| !(listed && ALSO_STOCK.contains(&first.as_str()))) {
        return unreadable(
            say![format!("This starts like a fact with `{first}` but does not read on as one.")],
            say![format!("It is written `{example}`.")],
        );
    }
    if let Some((near, example)) = near.filter(|_| !listed) {
        return unreadable(unknown, say![format!("Did you mean `{near}`? It is written `{example}`.")]);
    }
    if alone && first.starts_with(char::is_alphabetic) {
        let remedy = match joined {
            Some(joined) => say![format!("Two names are joined by `and`: `{joined}`.")],
            None => say![
                "If it belongs to the words before it, join them with `and`, or put the whole description in quotes (\"…\")."
            ],
        };
        let message = say![format!("`{typed}` stands here alone, and a name alone says nothing.")];
        return Finding::new(Code::NameAlone, span, message, remedy);
    }
    unreadable(
        say![format!("`{}` cannot be read as a fact.", clip(piece))],
        say![
            "If it is something the cook does, put it in quotes after `do`: `do \"…\"`. If it is a remark, `note \"…\"`."
        ],
    )
}

/// The first words of a piece, for quoting in a message.
pub fn clip(piece: &str) -> String {
    let mut short: String = piece.chars().take(40).collect();
    if short.len() < piece.len() {
        short.push('…');
    }
    short
}

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

fn comma_missing(before: &str, tail: &str, span: Span) -> Finding {
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
    keyword(&first).is_some()
        && read_clause(tail, base).is_some_and(|clause| !is_common(&clause.kind) && belongs(&clause.kind))
}

/// Amounts and places are too common in plain descriptions to count.
fn is_common(kind: &ClauseKind) -> bool {
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
