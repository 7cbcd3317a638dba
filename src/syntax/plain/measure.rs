//! Figures with their units: `1 h 30 min to 2 h`, `110 °C (230 °F) ± 5 °C`.

use super::super::tree::{Figure, Measure};
use super::cursor::{Cursor, is_small};

pub fn measure(cursor: &mut Cursor<'_>) -> Option<Measure> {
    let start = cursor.at();
    let mut found = Measure { figures: Vec::with_capacity(1), ..Measure::default() };
    found.low = figures(cursor, &mut found.figures)?;
    let end = cursor.at();
    if cursor.joined_by("to") {
        if starts(cursor) {
            found.high = figures(cursor, &mut found.figures)?;
        } else {
            cursor.back_to(end);
        }
    }
    let end = cursor.at();
    cursor.blanks();
    if cursor.byte() == b'(' {
        cursor.skip(1);
        cursor.blanks();
        found.twin = figures(cursor, &mut found.figures)?;
        if cursor.joined_by("to") {
            found.twin_high = figures(cursor, &mut found.figures)?;
        }
        cursor.blanks();
        if cursor.byte() != b')' {
            return None;
        }
        cursor.skip(1);
    } else {
        cursor.back_to(end);
    }
    let end = cursor.at();
    cursor.blanks();
    if cursor.starts_with("±") {
        cursor.skip("±".len());
        cursor.blanks();
        found.tolerance = figures(cursor, &mut found.figures)?;
    } else {
        cursor.back_to(end);
    }
    // A sign here (a dash for `to`, a twin after the tolerance) is for the grammar.
    let end = cursor.at();
    cursor.blanks();
    let by_word = cursor.byte().is_ascii_alphabetic();
    if !by_word && !matches!(cursor.byte(), 0 | b',' | b'/' | b'"') {
        return None;
    }
    cursor.back_to(end);
    found.span = cursor.since(start);
    Some(found)
}

/// Does a figure start here?
pub fn starts(cursor: &Cursor<'_>) -> bool {
    cursor.byte().is_ascii_digit() || cursor.byte() == b'-'
}

/// One figure or several, one after the other; how many.
fn figures(cursor: &mut Cursor<'_>, found: &mut Vec<Figure>) -> Option<u8> {
    let mut count: u8 = 0;
    loop {
        found.push(figure(cursor)?);
        count = count.checked_add(1)?;
        let end = cursor.at();
        cursor.blanks();
        if !cursor.byte().is_ascii_digit() {
            cursor.back_to(end);
            return Some(count);
        }
    }
}

fn figure(cursor: &mut Cursor<'_>) -> Option<Figure> {
    let start = cursor.at();
    let value = number(cursor)?;
    let mut span = cursor.since(start);
    cursor.blanks();
    let at = cursor.at();
    let unit = if has_unit(cursor)? {
        span = cursor.since(start);
        Some(cursor.since(at))
    } else {
        cursor.back_to(span.end as usize - span.start as usize + start);
        None
    };
    Some(Figure { value, span, unit })
}

/// `12`, `-5` and `1.5`; other signs and fractions are for the grammar.
fn number(cursor: &mut Cursor<'_>) -> Option<f64> {
    let start = cursor.at();
    let digits = |cursor: &mut Cursor<'_>| {
        let from = cursor.at();
        while cursor.byte().is_ascii_digit() {
            cursor.skip(1);
        }
        cursor.at() > from
    };
    if cursor.byte() == b'-' {
        cursor.skip(1);
    }
    if !digits(cursor) {
        return None;
    }
    if cursor.byte() == b'.' {
        cursor.skip(1);
        if !digits(cursor) {
            return None;
        }
    }
    let whole = matches!(cursor.byte(), 0 | b' ' | b',' | b'%' | b')') || cursor.starts_with("°");
    let value = cursor.typed_since(start).parse().ok()?;
    let end = cursor.at();
    cursor.blanks();
    let fraction = cursor.byte().is_ascii_digit();
    cursor.back_to(end);
    (whole && !fraction).then_some(value)
}

/// Passes over a unit or a counted word, where one stands here; `None` where the grammar has to say.
fn has_unit(cursor: &mut Cursor<'_>) -> Option<bool> {
    match cursor.byte() {
        0 | b',' | b')' | b'(' | b'"' => return Some(false),
        b'%' => {
            cursor.skip(1);
            return Some(true);
        }
        _ => {}
    }
    if cursor.starts_with("±") {
        return Some(false);
    }
    if cursor.starts_with("°") {
        cursor.skip("°".len());
        let scale = cursor.word()?;
        return (scale.eq_ignore_ascii_case("c") || scale.eq_ignore_ascii_case("f")).then_some(true);
    }
    let start = cursor.at();
    let word = cursor.word()?;
    // Units of two words and the inch, which is a small word too.
    let told_apart = ["fl", "deg", "degree", "degrees", "per", "in"];
    if told_apart.iter().any(|unit| unit.eq_ignore_ascii_case(word))
        || !word.bytes().all(|byte| byte.is_ascii_alphabetic())
    {
        return None;
    }
    if is_small(word) {
        cursor.back_to(start);
        return Some(false);
    }
    Some(true)
}
