//! What thermometers wrote down: the bytes of a table in, typed rows and findings out.
//!
//! A header names the columns: `elapsed_s`, `elapsed_min` or `time` (RFC 3339), and any of `core`, `surface` and `medium`
//! with `_c` or `_f`. Other columns mean nothing here. What cannot be read is a finding at its place and has no effect.

mod columns;
mod rows;

pub use rows::GAP_S;

use chrono::{DateTime, FixedOffset};

use crate::findings::{Code, Finding, Text};
use crate::load::LONGEST_FILE;
use crate::say;
use crate::text::{FileId, Source, Sources, Span};

/// Temperatures as they were measured, in the order of time.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Log {
    /// When [`Row::t_s`] is nought, where the log tells the time of day; otherwise that is the start of the cook.
    pub began: Option<DateTime<FixedOffset>>,
    pub rows: Vec<Row>,
}

/// One row; °C. What no sensor measured, or none that can be believed, is `None`.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Row {
    pub t_s: f64,
    pub core_c: Option<f64>,
    pub surface_c: Option<f64>,
    pub medium_c: Option<f64>,
}

/// Reads a log, and adds it to `sources` so that findings can point into it.
pub fn read(sources: &mut Sources, path: String, bytes: Vec<u8>) -> (Log, Vec<Finding>) {
    if bytes.len() > LONGEST_FILE {
        let file = sources.add(Source::new(path, ""));
        return nothing(
            Span::new(file, 0, 0),
            say!["This log is 10 MiB long or longer; it was not read."],
            say!["Leave out rows: one every minute is plenty."],
        );
    }
    let (text, bad) = match String::from_utf8(bytes) {
        Ok(text) => (text, None),
        Err(error) => {
            let at = error.utf8_error().valid_up_to();
            let mut bytes = error.into_bytes();
            bytes.truncate(at);
            (String::from_utf8(bytes).unwrap_or_default(), Some(at))
        }
    };
    let file = sources.add(Source::new(path, text));
    if let Some(at) = bad {
        return nothing(
            Span::new(file, at, at),
            say!["This log is not plain text in UTF-8 from here on; it was not read."],
            say!["Save it as CSV with the encoding UTF-8."],
        );
    }
    table(file, &sources.get(file).text)
}

fn nothing(span: Span, message: Text, remedy: Text) -> (Log, Vec<Finding>) {
    (Log::default(), vec![Finding::new(Code::LogUnreadable, span, message, remedy)])
}

fn table(file: FileId, text: &str) -> (Log, Vec<Finding>) {
    let mut records = rows::records(file, text);
    let Some(header) = records.next() else {
        return nothing(
            Span::new(file, 0, 0),
            say!["There is nothing in this log."],
            say!["Its first line names the columns, such as `elapsed_min,core_c`; the others are figures."],
        );
    };
    let columns = match header.and_then(|header| columns::columns(&header)) {
        Ok(columns) => columns,
        Err(finding) => return (Log::default(), vec![*finding]),
    };
    let (log, mut findings) = rows::rows(&columns, records);
    if log.rows.is_empty() {
        findings.push(Finding::new(
            Code::LogUnreadable,
            Span::new(file, text.len(), text.len()),
            say!["There is no row in this log that can be used."],
            say!["Under the names of the columns write one row for each moment."],
        ));
    }
    (log, findings)
}
