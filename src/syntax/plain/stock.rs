//! Amounts, and which food or which part of it.

use super::super::tree::{ClauseKind, Draw, DrawPart};
use super::clause::next_is;
use super::cursor::Cursor;
use super::measure::measure;

/// `6 kg`, `2 pieces of 3.2 kg each`; `3 trays of chilli in oven`.
pub fn amount(cursor: &mut Cursor<'_>) -> Option<ClauseKind> {
    let start = cursor.at();
    let amount = measure(cursor)?;
    let of = if cursor.joined_by("of") {
        if !cursor.byte().is_ascii_digit() {
            cursor.back_to(start);
            return placing(cursor);
        }
        Some(measure(cursor)?)
    } else {
        None
    };
    Some(ClauseKind::Amount { measure: amount, of, each: next_is(cursor, "each") })
}

/// `crown and potatoes in oven`.
pub fn placing(cursor: &mut Cursor<'_>) -> Option<ClauseKind> {
    let parts = parts(cursor)?;
    cursor.blanks().then_some(())?;
    let joint = cursor.word()?;
    let joins = joint.eq_ignore_ascii_case("in") || joint.eq_ignore_ascii_case("on");
    (joins && cursor.blanks()).then_some(())?;
    Some(ClauseKind::Place { parts, place: cursor.the_name()? })
}

/// Foods and parts of them, joined by `and`.
pub fn parts(cursor: &mut Cursor<'_>) -> Option<Vec<Draw>> {
    let parts = draws(cursor)?;
    parts.iter().all(|part| part.name.is_some()).then_some(parts)
}

pub fn draws(cursor: &mut Cursor<'_>) -> Option<Vec<Draw>> {
    let mut all = Vec::with_capacity(1);
    loop {
        all.push(draw(cursor)?);
        if !cursor.joined_by("and") {
            return Some(all);
        }
    }
}

/// `40 g of salt`, `65 buns`, `salt`, `all salt`; `half` and `the rest` are for the grammar.
pub fn draw(cursor: &mut Cursor<'_>) -> Option<Draw> {
    let start = cursor.at();
    if !cursor.byte().is_ascii_digit() {
        let part = if cursor.keyword("all").is_some() {
            DrawPart::All
        } else {
            cursor.back_to(start);
            DrawPart::Plain
        };
        let name = cursor.name()?;
        return Some(Draw { span: cursor.since(start), part, name: Some(name) });
    }
    let measure = measure(cursor)?;
    if !cursor.joined_by("of") {
        return Some(Draw { span: measure.span, part: DrawPart::Measure(measure), name: None });
    }
    let name = cursor.the_name()?;
    Some(Draw { span: cursor.since(start), part: DrawPart::Amount(measure), name: Some(name) })
}
