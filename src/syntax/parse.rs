//! Text to tree, one line at a time, so that a bad line never takes its neighbours with it.

use super::comma::missing_comma;
use super::explain::explain;
use super::plain;
use super::reader::{Base, read_line};
use super::tree::{Line, LineKind, Tree};
use crate::findings::{Code, Finding};
use crate::say;
use crate::text::{FileId, Span, plain_blanks};

/// A line longer than this many bytes is reported and not read.
pub const LONGEST_LINE: usize = 16 * 1024;

/// After this many findings a file is no cook with slips in it, and trying to mend each line would
/// take its time.
const MOST_MENDED: usize = 200;

/// Reads a file. Every line is in the tree; each one that could not be read has a finding.
pub fn parse(file: FileId, text: &str) -> (Tree, Vec<Finding>) {
    let mut tree = Tree { file, ..Tree::default() };
    let mut findings = Vec::new();
    let mut start = 0;
    while start < text.len() {
        let (end, next) = line_end(text, start);
        let span = Span::new(file, start, end);
        let line = read(&text[start..end], span, &mut tree, &mut findings);
        tree.lines.push(Line { next: next as u32, ..line });
        start = next;
    }
    (tree, findings)
}

/// Where the line that starts at `start` ends, and where the next one starts.
fn line_end(text: &str, start: usize) -> (usize, usize) {
    let bytes = text.as_bytes();
    match bytes[start..].iter().position(|&byte| byte == b'\n' || byte == b'\r') {
        None => (text.len(), text.len()),
        Some(length) => {
            let end = start + length;
            let both = bytes[end] == b'\r' && bytes.get(end + 1) == Some(&b'\n');
            (end, end + if both { 2 } else { 1 })
        }
    }
}

fn read(content: &str, span: Span, tree: &mut Tree, findings: &mut Vec<Finding>) -> Line {
    let line = |kind, comment| Line { span, next: span.end, kind, comment };
    if content.bytes().all(|byte| byte == b' ' || byte == b'\t') {
        return line(LineKind::Blank, None);
    }
    let plain = plain_blanks(content);
    let content = plain.as_ref();
    let base = Base { file: span.file, offset: span.start as usize };
    if content.len() > LONGEST_LINE {
        findings.push(Finding::new(
            Code::LineUnreadable,
            Span::new(span.file, base.offset, base.offset + first_boundary(content, 60)),
            say![format!("This line has {} bytes, which is more than can be read.", content.len())],
            say![format!("Break it up: a line holds one fact, and {LONGEST_LINE} bytes at the most.")],
        ));
        return line(bad(content, base), None);
    }
    let read = if has_decimal_comma(content) {
        Err(0)
    } else {
        plain::read_line(content, base).map_or_else(|| read_line(content, base), Ok)
    };
    match read {
        Ok(read) => {
            if let Some(finding) = missing_comma(content, &read, base) {
                findings.push(finding);
                return line(bad(content, base), None);
            }
            if read.head.is_none() && read.clauses.is_empty() {
                return line(LineKind::Blank, read.comment);
            }
            let first = tree.clauses.len() as u32;
            tree.clauses.extend(read.clauses);
            let head = read.head.map(|head| {
                tree.heads.push(head);
                (tree.heads.len() - 1) as u32
            });
            line(LineKind::Read { head, clauses: first..tree.clauses.len() as u32 }, read.comment)
        }
        Err(_) => {
            findings.extend(explain(content, base, findings.len() < MOST_MENDED));
            line(bad(content, base), None)
        }
    }
}

/// A line that has no effect, and whether it would have opened a block.
fn bad(content: &str, base: Base) -> LineKind {
    let mut words = super::pieces::words(content);
    let first = words.next();
    let like = super::heads::is_like_head(content);
    let block = first.filter(|(_, word)| like || super::heads::is_block_word(word, content));
    let name = block.and_then(|_| words.next());
    let span =
        |(at, word): (usize, &str)| Span::new(base.file, base.offset + at, base.offset + at + word.len());
    LineKind::Bad { block: block.map(span), name: name.map(span) }
}

fn first_boundary(text: &str, at: usize) -> usize {
    (0..=at.min(text.len())).rev().find(|&at| text.is_char_boundary(at)).unwrap_or(0)
}

/// Is there a digit, a comma and a digit outside quotes and comments?
fn has_decimal_comma(line: &str) -> bool {
    line.contains(',') && super::pieces::decimal_comma(line).is_some()
}
