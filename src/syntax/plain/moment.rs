//! Times of day and the order of things.

use super::super::tree::{ClauseKind, Measure, MomentWords, Nearness, WhenWords};
use super::cursor::Cursor;
use super::measure::measure;
use crate::cook::Edge;
use crate::text::Span;

/// `18:30`, with a weekday or without, where no more belongs to it.
pub fn when(cursor: &mut Cursor<'_>) -> Option<WhenWords> {
    let start = cursor.at();
    let weekday = if cursor.byte().is_ascii_digit() {
        None
    } else {
        let day = cursor.word()?;
        let span = cursor.since(start);
        let known = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
        known.iter().any(|known| known.eq_ignore_ascii_case(day)).then_some(())?;
        cursor.blanks().then_some(span)
    };
    let clock = clock(cursor)?;
    Some(WhenWords { span: cursor.since(start), weekday, date: None, clock: Some(clock), zone: None })
}

fn clock(cursor: &mut Cursor<'_>) -> Option<Span> {
    let start = cursor.at();
    let digits = |cursor: &mut Cursor<'_>| {
        let from = cursor.at();
        while cursor.byte().is_ascii_digit() {
            cursor.skip(1);
        }
        cursor.at() - from
    };
    let hours = digits(cursor);
    (matches!(hours, 1 | 2) && cursor.byte() == b':').then_some(())?;
    cursor.skip(1);
    (digits(cursor) == 2).then_some(())?;
    let (span, end) = (cursor.since(start), cursor.at());
    let ends = cursor.ends_here() || cursor.joined_by("to");
    cursor.back_to(end);
    ends.then_some(span)
}

/// `23:00 to 06:30`.
pub fn clocks(cursor: &mut Cursor<'_>) -> Option<(Span, Span)> {
    let from = clock(cursor)?;
    cursor.joined_by("to").then_some(())?;
    Some((from, clock(cursor)?))
}

/// `from Saturday 12:00 to 13:00`.
pub fn whens(cursor: &mut Cursor<'_>) -> Option<ClauseKind> {
    let from = when(cursor)?;
    cursor.joined_by("to").then_some(())?;
    Some(ClauseKind::FromTo(from, when(cursor)?))
}

/// `starts when crisp starts`, `starts at 4 °C`.
pub fn order(edge: Edge, cursor: &mut Cursor<'_>) -> Option<ClauseKind> {
    let word = cursor.word()?;
    cursor.blanks().then_some(())?;
    let is = |wanted: &str| word.eq_ignore_ascii_case(wanted);
    if is("at") && edge == Edge::Start {
        let measure = measure(cursor)?;
        // `4 pm` is a time, whatever follows it.
        let unit = measure.figures.first()?.unit?;
        return cursor.typed(unit).starts_with('°').then_some(ClauseKind::StartsAt(measure));
    }
    let nearness = if is("when") {
        Nearness::When
    } else if is("after") {
        Nearness::After
    } else {
        return None;
    };
    let name = cursor.name()?;
    // These are times too; the grammar says which.
    let is_time = ["noon", "midnight"].iter().any(|time| time.eq_ignore_ascii_case(cursor.typed(name)));
    (!is_time && cursor.blanks()).then_some(())?;
    let edge_of_it = cursor.word()?;
    let edge_of_it = if edge_of_it.eq_ignore_ascii_case("starts") {
        Edge::Start
    } else if edge_of_it.eq_ignore_ascii_case("ends") {
        Edge::End
    } else {
        return None;
    };
    Some(ClauseKind::Order { edge, nearness, moment: MomentWords::Phase { name, edge: edge_of_it } })
}

/// `trim loss 8 %`, from its second word on.
pub fn after(second: &str, cursor: &mut Cursor<'_>) -> Option<Measure> {
    cursor.keyword(second)?;
    measure(cursor)
}
