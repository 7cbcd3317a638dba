//! What the header of a log says of its columns.

use super::rows::Record;
use crate::findings::{Code, Finding};
use crate::say;

/// How the first figure of a row tells the time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TimeColumn {
    /// `elapsed_s`, `elapsed_min`: so many seconds for each.
    Elapsed { seconds: u32 },
    /// `time`.
    Clock,
}

/// What a sensor is in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sensor {
    Core,
    Surface,
    Medium,
}

/// Where the columns are that mean something.
#[derive(Debug, Clone, PartialEq)]
pub struct Columns {
    pub time: (usize, TimeColumn),
    /// `true` where it counts in °F.
    pub sensors: Vec<(usize, Sensor, bool)>,
    /// How many columns there are in all.
    pub count: usize,
}

const TIMES: [(&str, TimeColumn); 3] = [
    ("elapsed_s", TimeColumn::Elapsed { seconds: 1 }),
    ("elapsed_min", TimeColumn::Elapsed { seconds: 60 }),
    ("time", TimeColumn::Clock),
];
const SENSORS: [(&str, Sensor, bool); 6] = [
    ("core_c", Sensor::Core, false),
    ("core_f", Sensor::Core, true),
    ("surface_c", Sensor::Surface, false),
    ("surface_f", Sensor::Surface, true),
    ("medium_c", Sensor::Medium, false),
    ("medium_f", Sensor::Medium, true),
];

/// # Errors
/// What is missing, or is there twice.
pub fn columns(header: &Record<'_>) -> Result<Columns, Box<Finding>> {
    let mut time = None;
    let mut sensors: Vec<(usize, Sensor, bool)> = Vec::new();
    for (nth, (name, span)) in header.fields.iter().enumerate() {
        let name = name.trim_start_matches('\u{feff}').trim();
        let found_time = TIMES.iter().find(|(known, _)| known.eq_ignore_ascii_case(name));
        let found_sensor = SENSORS.iter().find(|(known, ..)| known.eq_ignore_ascii_case(name));
        let twice = match (found_time, found_sensor) {
            (Some((_, kind)), _) => time.replace((nth, *kind)).is_some(),
            (_, Some((_, sensor, fahrenheit))) => {
                let before = sensors.iter().any(|(_, other, _)| other == sensor);
                sensors.push((nth, *sensor, *fahrenheit));
                before
            }
            _ => false,
        };
        if twice {
            return Err(Box::new(Finding::new(
                Code::LogUnreadable,
                *span,
                say![format!("`{name}` tells again what another column tells; the log was not read.")],
                say!["Leave one of them out."],
            )));
        }
    }
    match time.filter(|_| !sensors.is_empty()) {
        Some(time) => Ok(Columns { time, sensors, count: header.fields.len() }),
        None => Err(Box::new(Finding::new(
            Code::LogUnreadable,
            header.span,
            if time.is_none() {
                say!["No column of this log tells the time; it was not read."]
            } else {
                say!["No column of this log is a temperature; it was not read."]
            },
            say![
                "The first line names the columns: one of `elapsed_s`, `elapsed_min` or `time`, and any of `core_c`, `surface_c` and `medium_c` (or `_f`)."
            ],
        ))),
    }
}
