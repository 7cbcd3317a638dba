//! Elapsed minutes and the clock on the wall.
//!
//! The axis counts elapsed minutes. The wall counts minutes from midnight of *day 0*, the day of the
//! first serving, as hands on a clock would: on a night when clocks change the two part company.

use chrono::{
    DateTime, Datelike, Duration, FixedOffset, LocalResult, NaiveDate, NaiveDateTime, Offset, TimeZone,
    Timelike, Weekday,
};
use chrono_tz::Tz;

use crate::cook::{Day, Happened, When};
use crate::quantity::ClockTime;

/// Elapsed minutes on the axis of one cook.
pub type Minute = i64;
/// Minutes from midnight of day 0 on the clock face.
pub type Wall = i64;

/// Minutes of a day on the clock face.
pub const DAY: Wall = 24 * 60;
/// Days on either side of day 0 that a calendar is asked for; further away a day is a day.
const REACH: Wall = 3660;
/// What somebody says of a cook happened within so many days of its plan.
const NEAR_DAYS: Wall = 40;

/// How a time on the clock face lies on the axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reading {
    One(Minute),
    /// Clocks jump over it; the minute after the jump.
    Skipped(Minute),
    /// Clocks show it twice.
    Twice(Minute, Minute),
}

impl Reading {
    pub fn first(self) -> Minute {
        match self {
            Self::One(minute) | Self::Skipped(minute) | Self::Twice(minute, _) => minute,
        }
    }

    pub fn last(self) -> Minute {
        match self {
            Self::One(minute) | Self::Skipped(minute) | Self::Twice(_, minute) => minute,
        }
    }
}

/// What is known of day 0, and in which zone its clock hangs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Clock {
    date: Option<NaiveDate>,
    weekday: Option<Weekday>,
    zone: Option<Tz>,
}

impl Clock {
    /// Day 0 has a date. Without a zone it is read as UTC.
    pub fn dated(date: NaiveDate, zone: Option<Tz>) -> Self {
        Self { date: Some(date), weekday: Some(date.weekday()), zone }
    }

    /// Day 0 has only a weekday, or not even that.
    pub fn undated(weekday: Option<Weekday>) -> Self {
        Self { date: None, weekday, zone: None }
    }

    pub fn date(&self) -> Option<NaiveDate> {
        self.date
    }

    pub fn weekday(&self) -> Option<Weekday> {
        self.weekday
    }

    /// The zone that was named; without one the clock is that of the kitchen, wherever it hangs.
    pub fn zone(&self) -> Option<Tz> {
        self.zone
    }

    /// Where a time on the clock face lies on the axis.
    pub fn read(&self, wall: Wall) -> Reading {
        self.read_in(self.zone, wall)
    }

    /// The same for a clock that hangs in another zone.
    pub fn read_in(&self, zone: Option<Tz>, wall: Wall) -> Reading {
        let (Some(face), Some(zone), Some(zero)) = (self.face(wall), zone.or(self.read_as()), self.zero())
        else {
            return Reading::One(wall);
        };
        let axis = |utc: NaiveDateTime| (utc - zero).num_minutes();
        match zone.offset_from_local_datetime(&face) {
            LocalResult::Single(offset) => Reading::One(axis(face - offset.fix())),
            LocalResult::Ambiguous(a, b) => {
                let (a, b) = (axis(face - a.fix()), axis(face - b.fix()));
                Reading::Twice(a.min(b), a.max(b))
            }
            // The hands jump: the time an hour before this one, an elapsed hour on, is after the jump;
            // the jump itself is the first minute whose face is past the one asked for.
            LocalResult::None => {
                let before = (1..=3 * 60)
                    .map(|back| face - Duration::minutes(back))
                    .find_map(|earlier| zone.from_local_datetime(&earlier).latest());
                Reading::Skipped(before.map_or(wall, |real| axis(real.naive_utc()) + 1))
            }
        }
    }

    /// The same clock, where `day` (counted from day 0) is known to be that weekday, if nothing was known of days before.
    pub fn knowing(self, day: Wall, weekday: Weekday) -> Self {
        let from_monday = Wall::from(weekday.num_days_from_monday()) - day;
        let weekday = || Weekday::try_from(from_monday.rem_euclid(7) as u8).ok();
        Self { weekday: self.weekday.or_else(weekday), ..self }
    }

    /// Every minute near `around` that somebody may mean by `when`, in order. Days count as far as this
    /// clock knows of any.
    pub fn meant(&self, when: When, around: Minute) -> Vec<Minute> {
        let here = self.day(around);
        let is_meant = |day: Wall| match when.day {
            None => true,
            Some(Day::Date(date)) if self.date.is_some() => self.date_of(day) == Some(date),
            Some(Day::Date(date)) => self.weekday_of(day).is_none_or(|weekday| weekday == date.weekday()),
            Some(Day::Weekday(meant)) => self.weekday_of(day).is_none_or(|weekday| weekday == meant),
        };
        let days = here - NEAR_DAYS..=here + NEAR_DAYS;
        let times = days.filter(|day| is_meant(*day)).map(|day| day * DAY + Wall::from(when.time.minutes()));
        times.map(|wall| self.read_in(when.zone, wall).first()).collect()
    }

    /// When something happened that somebody says happened near `around`; `None` where its day is not near.
    pub fn nearest(&self, happened: Happened, around: Minute) -> Option<Minute> {
        match happened {
            Happened::At(when) => {
                self.meant(when, around).into_iter().min_by_key(|minute| (minute - around).abs())
            }
            Happened::Instant(instant) => {
                self.minute_of(instant, around).map(|minute| minute.round() as Minute)
            }
            Happened::Since(_) => None,
        }
    }

    /// The first minute from `start` on that somebody may mean.
    pub fn first_from(&self, happened: Happened, start: Minute) -> Option<Minute> {
        match happened {
            Happened::At(when) => self.meant(when, start).into_iter().find(|minute| *minute >= start),
            other => self.nearest(other, start).filter(|minute| *minute >= start),
        }
    }

    /// Where an instant lies on the axis, in minutes: by its date where this clock has one, else as the time of day that
    /// its own clock shows, next to `around`.
    pub fn minute_of(&self, instant: DateTime<FixedOffset>, around: Minute) -> Option<f64> {
        let seconds = f64::from(instant.second()) / 60.0;
        if let Some(zero) = self.zero() {
            return Some((instant.naive_utc() - zero).num_seconds() as f64 / 60.0);
        }
        let time = ClockTime::new(instant.hour(), instant.minute())?;
        let when = When { day: Some(Day::Date(instant.date_naive())), time, zone: None };
        let near = self.meant(when, around).into_iter().min_by_key(|minute| (minute - around).abs())?;
        Some(near as f64 + seconds)
    }

    /// What the clock shows at a minute of the axis.
    pub fn wall(&self, minute: Minute) -> Wall {
        let (Some(real), Some(date)) = (self.real(minute), self.date) else { return minute };
        let local = real.naive_local();
        (local.date() - date).num_days() * DAY + Wall::from(local.hour() * 60 + local.minute())
    }

    /// The moment of a minute, where a date is known and it is not years away.
    pub fn real(&self, minute: Minute) -> Option<DateTime<Tz>> {
        if minute.abs() > REACH * DAY {
            return None;
        }
        let utc = self.zero()?.checked_add_signed(Duration::minutes(minute))?;
        Some(self.read_as()?.from_utc_datetime(&utc))
    }

    /// RFC 3339 with offset, where a date is known.
    pub fn rfc3339(&self, minute: Minute) -> Option<String> {
        Some(self.real(minute)?.to_rfc3339_opts(chrono::SecondsFormat::Secs, false))
    }

    /// The date on the calendar `days` after day 0, where one is known.
    pub fn date_of(&self, days: Wall) -> Option<NaiveDate> {
        self.date?.checked_add_signed(Duration::try_days(days.clamp(-REACH, REACH))?)
    }

    /// The weekday `days` after day 0, where one is known.
    pub fn weekday_of(&self, days: Wall) -> Option<Weekday> {
        let from_monday = Wall::from(self.weekday?.num_days_from_monday());
        Weekday::try_from((from_monday + days).rem_euclid(7) as u8).ok()
    }

    /// `22:30`.
    pub fn time_of_day(&self, minute: Minute) -> String {
        let wall = self.wall(minute).rem_euclid(DAY);
        format!("{:02}:{:02}", wall / 60, wall % 60)
    }

    /// Days after day 0.
    pub fn day(&self, minute: Minute) -> Wall {
        self.wall(minute).div_euclid(DAY)
    }

    /// The zone that dates are read in; none without a date.
    fn read_as(&self) -> Option<Tz> {
        self.date.map(|_| self.zone.unwrap_or(Tz::UTC))
    }

    fn face(&self, wall: Wall) -> Option<NaiveDateTime> {
        if wall.abs() > REACH * DAY {
            return None;
        }
        self.date?.and_hms_opt(0, 0, 0)?.checked_add_signed(Duration::minutes(wall))
    }

    /// Minute 0 of the axis in UTC: midnight of day 0 by the offset that holds at noon, so that minute
    /// and clock face agree on the day itself.
    fn zero(&self) -> Option<NaiveDateTime> {
        let noon = self.date?.and_hms_opt(12, 0, 0)?;
        let offset = self.read_as()?.offset_from_local_datetime(&noon).earliest()?.fix();
        Some(noon - Duration::hours(12) - offset)
    }
}
