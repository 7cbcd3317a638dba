//! Times of day, days and the crew.

use schemars::JsonSchema;
use serde::Serialize;

use crate::cook;
use crate::quantity::{ClockTime, weekday_name};

/// A time as it is written; `dwell timeline` works out the moment.
#[derive(Serialize, JsonSchema)]
pub(super) struct When {
    /// "18:30".
    time: String,
    /// An ISO date, or a weekday in English.
    day: Option<String>,
    /// An IANA zone.
    zone: Option<String>,
}

impl From<&cook::When> for When {
    fn from(when: &cook::When) -> Self {
        Self {
            time: when.time.to_string(),
            day: when.day.map(day),
            zone: when.zone.map(|zone| zone.name().to_owned()),
        }
    }
}

pub(super) fn day(day: cook::Day) -> String {
    match day {
        cook::Day::Date(date) => date.to_string(),
        cook::Day::Weekday(weekday) => weekday_name(weekday).to_owned(),
    }
}

/// The people, and when nobody is there, every day.
#[derive(Serialize, JsonSchema)]
pub(super) struct Crew {
    people: u32,
    asleep: Vec<Hours>,
    away: Vec<Hours>,
}

#[derive(Serialize, JsonSchema)]
struct Hours {
    from: String,
    to: String,
}

impl From<&cook::Crew> for Crew {
    fn from(crew: &cook::Crew) -> Self {
        let hours = |all: &[crate::text::Spanned<(ClockTime, ClockTime)>]| {
            all.iter()
                .map(|hours| Hours { from: hours.value.0.to_string(), to: hours.value.1.to_string() })
                .collect()
        };
        Self { people: crew.people, asleep: hours(&crew.asleep), away: hours(&crew.away) }
    }
}
