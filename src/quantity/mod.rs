//! Quantities as types: SI inside, people's units at the edges.
//!
//! A temperature is not a temperature difference, and neither is a number. Values are held as `f64`
//! in SI base units (kelvin, seconds, kilograms, cubic metres, metres); they are rounded only for
//! show, and compared before rounding.

mod show;
mod types;
mod units;
mod weekday;
mod written;

pub use show::{Scale, plain_number};
pub use types::{ClockTime, Dimension, Duration, Share, Temperature, TemperatureDifference, Volume};
pub use units::{Factor, KitchenMeasures, UNITS, Unit, find_unit};
pub use weekday::weekday_name;
pub use written::{Length, Mass, Written};
