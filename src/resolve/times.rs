//! Clock times, days and zones as typed.

use chrono::{NaiveDate, Weekday};

use super::units::Units;
use crate::cook::{Day, When};
use crate::findings::Code;
use crate::quantity::ClockTime;
use crate::say;
use crate::syntax::WhenWords;
use crate::text::Span;

impl Units<'_> {
    /// A time with its day and zone.
    pub fn when(&mut self, words: &WhenWords) -> Option<When> {
        let time = self.clock(words.clock?)?;
        let day = match (words.weekday, words.date) {
            (None, None) => None,
            _ => Some(self.day(words)?),
        };
        let zone = match words.zone {
            None => None,
            Some(span) => Some(self.zone(span)?),
        };
        Some(When { day, time, zone })
    }

    /// The day alone (`on Thursday`).
    pub fn day(&mut self, words: &WhenWords) -> Option<Day> {
        if let Some(span) = words.weekday {
            // The grammar lets only names of days through; their first three letters tell them apart.
            let day = self.slice(span).get(..3).unwrap_or_default();
            return day.parse::<Weekday>().ok().map(Day::Weekday).or_else(|| {
                self.report(
                    Code::DateImpossible,
                    span,
                    say![format!("`{}` is not a day of the week.", self.slice(span))],
                    say!["Write it out: `Saturday`."],
                );
                None
            });
        }
        let span = words.date?;
        let typed = self.slice(span);
        match NaiveDate::parse_from_str(typed, "%Y-%m-%d") {
            Ok(date) => Some(Day::Date(date)),
            Err(_) => {
                self.report(
                    Code::DateImpossible,
                    span,
                    say![format!("There is no day `{typed}` in the calendar.")],
                    say!["Write year, month and day: `2026-12-12`."],
                );
                None
            }
        }
    }

    fn zone(&mut self, span: Span) -> Option<chrono_tz::Tz> {
        let typed = self.slice(span);
        let known = typed.contains('/') || typed == "UTC";
        match typed.parse::<chrono_tz::Tz>() {
            Ok(zone) if known => Some(zone),
            _ => {
                let near = chrono_tz::TZ_VARIANTS
                    .iter()
                    .map(|zone| zone.name())
                    .filter(|name| name.contains('/'))
                    .min_by_key(|name| {
                        let city = name.rsplit('/').next().filter(|_| !typed.contains('/')).unwrap_or(name);
                        strsim::osa_distance(&city.to_lowercase(), &typed.to_lowercase())
                    })
                    .unwrap_or("Europe/Dublin");
                self.report(
                    Code::ZoneUnknown,
                    span,
                    say![format!("`{typed}` is not the name of a time zone.")],
                    say![format!(
                        "Write continent and city, like `Europe/Dublin`. The nearest name is `{near}`."
                    )],
                );
                None
            }
        }
    }

    /// `18:30` and nothing else; what people type instead gets its remedy.
    pub fn clock(&mut self, span: Span) -> Option<ClockTime> {
        let typed = self.slice(span);
        let strict = typed.split_once(':').and_then(|(hour, minute)| {
            let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
            (digits(hour) && digits(minute) && minute.len() == 2)
                .then(|| ClockTime::new(hour.parse().ok()?, minute.parse().ok()?))
                .flatten()
        });
        if strict.is_some() {
            return strict;
        }
        let remedy = match meant(typed) {
            Some(time) => say![format!("Write `{time}`.")],
            None => say!["Write hours and minutes of 24 hours: `18:30`."],
        };
        self.report(
            Code::ClockTimeForm,
            span,
            say![format!("`{typed}` is not how a time of day is written here.")],
            remedy,
        );
        None
    }
}

/// What somebody meant by `6:30 pm`, `18.30`, `18h30`, `noon`.
fn meant(typed: &str) -> Option<ClockTime> {
    let lower = typed.to_lowercase();
    match lower.as_str() {
        "noon" => return ClockTime::new(12, 0),
        "midnight" => return ClockTime::new(24, 0),
        _ => {}
    }
    let letters: String = lower.chars().filter(char::is_ascii_alphabetic).collect();
    let figures: Vec<u32> = lower
        .split(|c: char| !c.is_ascii_digit())
        .filter(|part| !part.is_empty())
        .filter_map(|part| part.parse().ok())
        .collect();
    let hour = *figures.first()?;
    let minute = figures.get(1).copied().unwrap_or(0);
    let hour = match letters.as_str() {
        "pm" if hour < 12 => hour + 12,
        "am" if hour == 12 => 0,
        _ => hour,
    };
    ClockTime::new(hour, minute)
}
