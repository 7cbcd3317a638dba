//! What to say of a line that does not fit the grammar.
//!
//! The line is cut at its commas, each piece is read alone, and each piece that cannot be read is
//! compared with what it could have been.

use super::comma::{comma_missing, is_common};
use super::forms::{is_clause_word, keyword, nearest};
use super::habits;
use super::heads::{bad_head, headless, is_block_word, is_like_head};
use super::pieces::{decimal_comma, pieces, unclosed_quote, words};
use super::reader::{Base, read_clause, reads_as_clause, reads_as_head};
use crate::findings::{Code, Finding, Text};
use crate::say;
use crate::text::Span;

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
    let (near, _) = nearest(&first).filter(|_| !is_clause_word(&first))?;
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
