//! Clock times, days and the people who cook.

use crate::quantity::{ClockTime, Duration};
use crate::text::{Span, Spanned};

/// `18:30`, `Saturday 18:30`, `2026-12-12 18:30 in Europe/Dublin`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct When {
    pub day: Option<Day>,
    pub time: ClockTime,
    pub zone: Option<chrono_tz::Tz>,
}

/// When something happened, as whoever was there says it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Happened {
    /// So long after the start of the cook.
    Since(Duration),
    /// On a clock on the wall.
    At(When),
    /// On every clock: RFC 3339.
    Instant(chrono::DateTime<chrono::FixedOffset>),
}

/// Which day a time lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Day {
    Date(chrono::NaiveDate),
    Weekday(chrono::Weekday),
}

/// A time of day on a day counted from the first serving's day (which is 0).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct DayTime {
    pub day: i32,
    pub time: ClockTime,
}

/// The people, and when nobody is there.
#[derive(Debug, Clone, PartialEq)]
pub struct Crew {
    pub span: Span,
    pub people: u32,
    /// `asleep 23:00 to 06:30` and `away 09:00 to 17:00`, every day.
    pub asleep: Vec<Spanned<(ClockTime, ClockTime)>>,
    pub away: Vec<Spanned<(ClockTime, ClockTime)>>,
}
