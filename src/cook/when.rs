//! Clock times, days and the people who cook.

use crate::quantity::ClockTime;
use crate::text::{Span, Spanned};

/// `18:30`, `Saturday 18:30`, `2026-12-12 18:30 in Europe/Dublin`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct When {
    pub day: Option<Day>,
    pub time: ClockTime,
    pub zone: Option<chrono_tz::Tz>,
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
