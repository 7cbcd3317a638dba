//! The grammar at work. pest and its types stay inside this folder.
//!
//! Lines come in with [`plain_blanks`](crate::text::plain_blanks).

mod clause;
mod draw;
mod head;
mod measure;
mod order;
mod words;

use pest::Parser;
use pest::iterators::Pair;
use pest_derive::Parser;

use super::tree::{Clause, Head};
use crate::text::{FileId, Span};
use clause::clause;
use head::head;

#[derive(Parser)]
#[grammar = "../grammar/dwell.pest"]
struct Grammar;

/// What one line holds.
#[derive(Debug, Default)]
pub struct LineRead {
    pub head: Option<Head>,
    pub clauses: Vec<Clause>,
    pub comment: Option<Span>,
}

/// Whether a line is read as the head of a block: its first word tells.
fn start(line: &str) -> Rule {
    let trimmed = line.trim_start();
    let end = trimmed.find(|c: char| !c.is_alphanumeric() && c != '-').unwrap_or(trimmed.len());
    let word = trimmed.get(..end).unwrap_or(trimmed);
    if super::heads::is_block_word(word, trimmed) { Rule::head_line } else { Rule::clause_line }
}

/// What a stretch of a line is, for the formatter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TokenKind {
    Number,
    Unit,
    To,
    PlusMinus,
    Clock,
    Weekday,
    /// Names, codes, zones and dates: as typed.
    Literal,
    /// A description.
    Words,
    Text,
    Comment,
}

/// Turns offsets in one line into spans of the file.
#[derive(Clone, Copy)]
pub struct Base {
    pub file: FileId,
    pub offset: usize,
}

impl Base {
    fn span(self, pair: &Pair<'_, Rule>) -> Span {
        let span = pair.as_span();
        Span::new(self.file, self.offset + span.start(), self.offset + span.end())
    }
}

/// Reads a whole line; `Err` holds the offset up to which it could be read.
pub fn read_line(line: &str, base: Base) -> Result<LineRead, usize> {
    let pairs = Grammar::parse(start(line), line).map_err(|error| offset_of(&error))?;
    let mut read = LineRead::default();
    for pair in pairs {
        let span = base.span(&pair);
        match pair.as_rule() {
            Rule::EOI => {}
            Rule::comment => read.comment = Some(span),
            rule => {
                if let Some(kind) = clause(rule, &pair, base) {
                    read.clauses.push(Clause { span, kind });
                } else if let Some(kind) = head(rule, pair, base) {
                    read.head = Some(Head { span, kind });
                }
            }
        }
    }
    Ok(read)
}

/// Reads one clause alone.
pub fn read_clause(piece: &str, base: Base) -> Option<Clause> {
    let pair = Grammar::parse(Rule::only_clause, piece).ok()?.next()?;
    let span = base.span(&pair);
    clause(pair.as_rule(), &pair, base).map(|kind| Clause { span, kind })
}

/// Is `piece` one clause and nothing else?
pub fn reads_as_clause(piece: &str) -> bool {
    Grammar::parse(Rule::only_clause, piece).is_ok()
}

/// Is `piece` the head of a block and nothing else?
pub fn reads_as_head(piece: &str) -> bool {
    Grammar::parse(Rule::only_head, piece).is_ok()
}

/// The tokens of a line that can be read, in order. What lies between them are keywords and signs.
pub fn tokens(line: &str) -> Option<Vec<(TokenKind, std::ops::Range<usize>)>> {
    let mut found = Vec::new();
    for pair in Grammar::parse(start(line), line).ok()?.flatten() {
        let kind = match pair.as_rule() {
            Rule::number => TokenKind::Number,
            Rule::unit => TokenKind::Unit,
            Rule::to => TokenKind::To,
            Rule::tolerance => {
                let start = pair.as_span().start();
                let sign = if pair.as_str().starts_with('±') {
                    '±'.len_utf8()
                } else {
                    pair.as_str().find(|c: char| c.is_ascii_digit() || c == ' ').unwrap_or(1)
                };
                found.push((TokenKind::PlusMinus, start..start + sign));
                continue;
            }
            Rule::clock => TokenKind::Clock,
            Rule::weekday => TokenKind::Weekday,
            Rule::name | Rule::date | Rule::zone => TokenKind::Literal,
            Rule::words => TokenKind::Words,
            Rule::text => TokenKind::Text,
            Rule::comment => TokenKind::Comment,
            _ => continue,
        };
        let span = pair.as_span();
        found.push((kind, span.start()..span.end()));
    }
    Some(found)
}

fn offset_of(error: &pest::error::Error<Rule>) -> usize {
    match error.location {
        pest::error::InputLocation::Pos(at) => at,
        pest::error::InputLocation::Span((start, _)) => start,
    }
}
