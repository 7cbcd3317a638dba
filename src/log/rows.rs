//! The rows of a log.

use chrono::{DateTime, FixedOffset};

use super::columns::{Columns, Sensor, TimeColumn};
use super::{Log, Row};
use crate::findings::{Code, Finding, Text};
use crate::quantity::{Duration, Temperature};
use crate::say;
use crate::text::{FileId, Span};

/// A longer silence may hide anything, s. The contract of the log's format.
pub const GAP_S: f64 = 600.0;
/// Nothing in a kitchen is colder or hotter, °C. A broken sensor often reads −127 or several hundred (from memory).
const POSSIBLE_C: (f64, f64) = (-60.0, 400.0);
/// No cook is longer, s.
const LONGEST_S: f64 = 400.0 * 86_400.0;
/// Of one kind no more findings than this are shown: the same fault is mostly on every row.
const MOST_OF_A_KIND: usize = 10;
/// So many characters of a field are shown.
const MOST_SHOWN: usize = 30;

/// One line, cut into fields with their places.
pub struct Record<'t> {
    pub span: Span,
    pub fields: Vec<(&'t str, Span)>,
}

/// The lines of `text` that hold anything.
pub fn records(file: FileId, text: &str) -> impl Iterator<Item = Result<Record<'_>, Box<Finding>>> {
    let reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
    let mut records = reader.into_byte_records().peekable();
    std::iter::from_fn(move || {
        let record = records.next()?;
        let from =
            record.as_ref().ok().and_then(|record| record.position()).map_or(0, |at| at.byte() as usize);
        let next = records.peek().and_then(|next| next.as_ref().ok()).and_then(|next| next.position());
        let to = next.map_or(text.len(), |at| at.byte() as usize);
        let whole = text.get(from..to).unwrap_or_default();
        let from = from + (whole.len() - whole.trim_start().len());
        let whole = whole.trim();
        let span = Span::new(file, from, from + whole.len());
        let Ok(record) = record else {
            return Some(Err(Box::new(Finding::new(
                Code::LogUnreadable,
                span,
                say!["This is no table of figures with commas between them."],
                say!["Save it as CSV, with a comma between columns."],
            ))));
        };
        // The figures are taken from the text itself, so that each has its place; quotes around them are left off.
        let mut at = 0;
        let fields = record.iter().map(|field| {
            let field = std::str::from_utf8(field).unwrap_or_default();
            let found = whole.get(at..).and_then(|rest| rest.find(field)).map_or(at, |found| at + found);
            let end = (found + field.len()).min(whole.len());
            at = end;
            let inside = whole.get(found..end).unwrap_or_default();
            let start = found + (inside.len() - inside.trim_start().len());
            let trimmed = inside.trim();
            (trimmed, Span::new(file, from + start, from + start + trimmed.len()))
        });
        Some(Ok(Record { span, fields: fields.collect() }))
    })
}

/// Typed rows in the order of time. What is wrong with one leaves out as little as it can.
pub fn rows<'t>(
    columns: &Columns,
    records: impl Iterator<Item = Result<Record<'t>, Box<Finding>>>,
) -> (Log, Vec<Finding>) {
    let mut reader = Reader { columns, log: Log::default(), findings: Vec::new(), more: Vec::new() };
    for record in records {
        match record {
            Ok(record) => reader.row(&record),
            Err(finding) => reader.findings.push(*finding),
        }
    }
    reader.told()
}

/// As much of a field as anybody wants to see.
fn short(field: &str) -> String {
    match field.char_indices().nth(MOST_SHOWN) {
        Some((end, _)) => format!("{}…", &field[..end]),
        None => field.to_owned(),
    }
}

struct Reader<'c> {
    columns: &'c Columns,
    log: Log,
    findings: Vec<Finding>,
    /// Kinds of findings, and how many there are of each.
    more: Vec<(Code, usize)>,
}

impl Reader<'_> {
    fn row(&mut self, record: &Record<'_>) {
        if record.fields.len() != self.columns.count {
            self.tell(
                Code::LogRowUnreadable,
                record.span,
                say![format!(
                    "This row has {} columns and the first line names {}; it was left out.",
                    record.fields.len(),
                    self.columns.count
                )],
                say!["Put a comma between columns, and a point, not a comma, inside figures."],
            );
            return;
        }
        let (time, span) = record.fields[self.columns.time.0];
        let Some(t_s) = self.time(time) else {
            let how = match self.columns.time.1 {
                TimeColumn::Elapsed { .. } => {
                    "Write how long after the start it was, as a plain figure: `90`."
                }
                TimeColumn::Clock => "Write it with its offset: `2026-12-12T07:40:00+01:00`.",
            };
            let message = say![format!("`{}` is not a time here; the row was left out.", short(time))];
            self.tell(Code::LogRowUnreadable, span, message, say![how]);
            return;
        };
        if let Some(before) = self.log.rows.last().map(|row| row.t_s) {
            if t_s < before {
                let minutes = Duration::from_seconds(before - t_s);
                self.tell(
                    Code::LogOutOfOrder,
                    span,
                    say!["This row is ", minutes, " earlier than the one above it; it was left out."],
                    say!["Sort the rows by time. Where the clock was set back, start a new log."],
                );
                return;
            }
            if t_s - before > GAP_S {
                self.tell(
                    Code::LogGap,
                    span,
                    say![
                        "Between this row and the one above it lie ",
                        Duration::from_seconds(t_s - before),
                        "."
                    ],
                    say!["Nobody knows what happened in between. Read at least every ten minutes."],
                );
            }
        }
        let mut row = Row { t_s, ..Row::default() };
        for (nth, sensor, fahrenheit) in &self.columns.sensors {
            let (figure, span) = record.fields[*nth];
            let read = self.temperature(figure, span, *fahrenheit);
            *match sensor {
                Sensor::Core => &mut row.core_c,
                Sensor::Surface => &mut row.surface_c,
                Sensor::Medium => &mut row.medium_c,
            } = read;
        }
        self.log.rows.push(row);
    }

    /// Seconds from where the log counts.
    fn time(&mut self, typed: &str) -> Option<f64> {
        let t_s = match self.columns.time.1 {
            TimeColumn::Elapsed { seconds } => typed.parse::<f64>().ok()? * f64::from(seconds),
            TimeColumn::Clock => {
                let at: DateTime<FixedOffset> = DateTime::parse_from_rfc3339(typed).ok()?;
                let began = *self.log.began.get_or_insert(at);
                (at - began).num_milliseconds() as f64 / 1000.0
            }
        };
        (t_s.abs() <= LONGEST_S).then_some(t_s)
    }

    /// °C; an empty field is no reading, and no fault.
    fn temperature(&mut self, typed: &str, span: Span, fahrenheit: bool) -> Option<f64> {
        if typed.is_empty() {
            return None;
        }
        let Some(figure) = typed.parse::<f64>().ok().filter(|figure| figure.is_finite()) else {
            self.tell(
                Code::LogRowUnreadable,
                span,
                say![format!("`{}` is not a temperature; it was left out.", short(typed))],
                say!["Write a plain figure such as `61.5`, or nothing where nothing was measured."],
            );
            return None;
        };
        let celsius = if fahrenheit { (figure - 32.0) / 1.8 } else { figure };
        if celsius < POSSIBLE_C.0 || celsius > POSSIBLE_C.1 {
            let message = say![
                "This sensor reads ",
                Temperature::from_celsius(celsius),
                ", which nothing in a kitchen has; it was left out."
            ];
            let remedy = say!["Look at its plug and cable, and whether the column counts in °C or °F."];
            self.tell(Code::SensorImplausible, span, message, remedy);
            return None;
        }
        Some(celsius)
    }

    fn tell(&mut self, code: Code, span: Span, message: Text, remedy: Text) {
        let count = match self.more.iter_mut().find(|(kind, _)| *kind == code) {
            Some((_, count)) => {
                *count += 1;
                *count
            }
            None => {
                self.more.push((code, 1));
                1
            }
        };
        if count <= MOST_OF_A_KIND {
            self.findings.push(Finding::new(code, span, message, remedy));
        }
    }

    fn told(mut self) -> (Log, Vec<Finding>) {
        for (code, count) in self.more.iter().filter(|(_, count)| *count > MOST_OF_A_KIND) {
            if let Some(last) = self.findings.iter_mut().rfind(|finding| finding.code == *code) {
                let others = count - MOST_OF_A_KIND;
                let more = say![format!(" ({others} more like it below.)")];
                last.message = std::mem::take(&mut last.message).followed_by(more);
            }
        }
        (self.log, self.findings)
    }
}
