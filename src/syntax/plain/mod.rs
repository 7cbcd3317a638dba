//! The commonest lines, read without the grammar.
//!
//! The grammar (`reader`) says what a line means; this is only quicker, several times, at the lines that most of a
//! file consists of: plain letters, a known word, a figure with its unit. Anything else, and anything that is not
//! read to its very end, is left to the grammar. `agrees` holds the two to the same answer.

mod clause;
mod cursor;
mod head;
mod measure;
mod moment;
mod stock;

use super::reader::{Base, LineRead};
use super::tree::Clause;
use cursor::Cursor;

/// A line, where it is one of the common ones; `None` says nothing about it.
pub fn read_line(line: &str, base: Base) -> Option<LineRead> {
    let mut cursor = Cursor::new(line, base);
    let mut read = LineRead::default();
    cursor.blanks();
    if cursor.is_comment() {
        read.comment = Some(cursor.rest());
        return Some(read);
    }
    read.head = head::head(&mut cursor)?;
    if read.head.is_none() {
        read.clauses.push(clause(&mut cursor)?);
    }
    loop {
        cursor.blanks();
        match cursor.byte() {
            0 => return Some(read),
            b',' => {
                cursor.skip(1);
                cursor.blanks();
                read.clauses.push(clause(&mut cursor)?);
            }
            _ if cursor.is_comment() => {
                read.comment = Some(cursor.rest());
                return Some(read);
            }
            _ => return None,
        }
    }
}

fn clause(cursor: &mut Cursor<'_>) -> Option<Clause> {
    let start = cursor.at();
    let kind = clause::clause(cursor)?;
    Some(Clause { span: cursor.since(start), kind })
}

#[cfg(test)]
#[allow(clippy::disallowed_methods)] // A test may read the examples.
mod agrees;
