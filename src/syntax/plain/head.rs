//! Lines that open a block.

use super::super::heads::is_block_word;
use super::super::tree::{Head, HeadKind};
use super::cursor::{Cursor, lower};
use super::measure::measure;
use super::stock::parts;

/// The head, if the line starts with one; `None` where the grammar has to say.
pub fn head(cursor: &mut Cursor<'_>) -> Option<Option<Head>> {
    let start = cursor.at();
    let Some(word) = cursor.word() else {
        return Some(None);
    };
    let mut room = [0; 12];
    let word = lower(word, &mut room);
    let blank = cursor.blanks();
    let kind = match word {
        "phase" if blank => {
            let name = cursor.name()?;
            HeadKind::Phase { name, purpose: described(cursor)? }
        }
        "food" if blank => HeadKind::Food { name: cursor.name()?, kind: described(cursor)??, quoted: false },
        "kit" if blank => HeadKind::Kit { name: cursor.name()?, class: described(cursor)?? },
        "ingredient" if blank => ingredient(cursor)?,
        "serve" if blank => HeadKind::Serve { parts: parts(cursor)? },
        "cook" if cursor.byte() == b'"' => HeadKind::Cook { title: cursor.quoted()? },
        "crew" => {
            if blank {
                return None;
            }
            HeadKind::Crew
        }
        "" | "cook" => return None,
        _ if is_block_word(word, word) => return None,
        _ => {
            cursor.back_to(start);
            return Some(None);
        }
    };
    Some(Some(Head { span: cursor.since(start), kind }))
}

/// `is` and a description, or neither.
fn described(cursor: &mut Cursor<'_>) -> Option<Option<crate::text::Span>> {
    if !cursor.joined_by("is") {
        return Some(None);
    }
    let words = cursor.description()?;
    (cursor.byte() != b'"').then_some(Some(words))
}

fn ingredient(cursor: &mut Cursor<'_>) -> Option<HeadKind> {
    let name = cursor.name()?;
    if !cursor.joined_by("is") || !cursor.byte().is_ascii_digit() {
        return None;
    }
    let amount = Some(measure(cursor)?);
    let end = cursor.at();
    cursor.blanks();
    if matches!(cursor.byte(), 0 | b',' | b'/') {
        cursor.back_to(end);
        return Some(HeadKind::Ingredient { name, amount, words: None, text: None });
    }
    let words = if cursor.byte() == b'"' { None } else { Some(cursor.description()?) };
    let text = if cursor.byte() == b'"' { Some(cursor.quoted()?) } else { None };
    Some(HeadKind::Ingredient { name, amount, words, text })
}
