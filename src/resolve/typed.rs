//! What is typed outside a file, in the forms that a file takes.

use chrono::DateTime;

use super::units::Units;
use super::when;
use crate::cook::Happened;
use crate::findings::Text;
use crate::quantity::{Duration, Temperature};
use crate::say;
use crate::syntax::{Clause, ClauseKind, parse};
use crate::text::FileId;

/// `2 h 30 min = 54 °C`, `Sat 07:40 = 61 °C`: a probe reading, and when it was taken.
///
/// # Errors
/// What is wrong with it, and what to type instead.
pub fn reading(typed: &str) -> Result<(Happened, Temperature), (Text, Text)> {
    let form = || {
        (
            say![format!("`{typed}` is not a reading.")],
            say![
                "Write when it was, on the clock or after the start of the cook, and what the probe said: `--core \"Sat 07:40 = 61 °C\"` or `--core \"2 h 30 min = 54 °C\"`."
            ],
        )
    };
    let (time, core) = typed.split_once('=').filter(|_| is_plain(typed)).ok_or_else(form)?;
    let time = if time.contains(':') { happened(time) } else { since(time, form).map(Happened::Since) };
    Ok((time?, temperature(core, form)?))
}

/// A moment on the clock: `07:40`, `Sat 07:40`, `2026-12-12 07:40 in Europe/Dublin`, `2026-12-12T07:40:00Z`.
///
/// # Errors
/// What is wrong with it, and what to type instead.
pub fn happened(typed: &str) -> Result<Happened, (Text, Text)> {
    match DateTime::parse_from_rfc3339(typed.trim()) {
        Ok(instant) => Ok(Happened::Instant(instant)),
        // The words of a fault in a file would be about its lines.
        Err(_) => when(typed.trim()).map(Happened::At).map_err(|_| {
            (
                say![format!("`{}` is not a time of day.", typed.trim())],
                say!["Write it like `22:03`, `Fri 22:03` or `2026-12-12 22:03`."],
            )
        }),
    }
}

/// As [`happened`], or so long after the start of the cook: `6 h 5 min`.
///
/// # Errors
/// What is wrong with it, and what to type instead.
pub fn moment(typed: &str) -> Result<Happened, (Text, Text)> {
    let form = || {
        (
            say![format!("`{typed}` is not a time.")],
            say!["Write it on the clock, `Sat 07:40`, or after the start of the cook, `6 h 5 min`."],
        )
    };
    if !is_plain(typed) {
        return Err(form());
    }
    if typed.contains(':') { happened(typed) } else { since(typed, form).map(Happened::Since) }
}

fn is_plain(typed: &str) -> bool {
    !typed.chars().any(|c| c.is_control() || c == ',' || c == '"')
}

fn since(typed: &str, form: impl Fn() -> (Text, Text)) -> Result<Duration, (Text, Text)> {
    let text = format!("for {}\n", typed.trim());
    clause(&text, &form, |kind, units| match kind {
        ClauseKind::For(measure) => units.duration(measure),
        _ => None,
    })
}

fn temperature(typed: &str, form: impl Fn() -> (Text, Text)) -> Result<Temperature, (Text, Text)> {
    let text = format!("core {}\n", typed.trim());
    clause(&text, &form, |kind, units| match kind {
        ClauseKind::Check { measure, .. } => units.temperature(measure).map(|(core, _)| core),
        _ => None,
    })
}

/// The figure of the one clause of `text`.
fn clause<T>(
    text: &str,
    form: impl Fn() -> (Text, Text),
    figure: impl Fn(&ClauseKind, &mut Units<'_>) -> Option<T>,
) -> Result<T, (Text, Text)> {
    let (tree, findings) = parse(FileId(0), text);
    let ([Clause { kind, .. }], []) = (tree.clauses.as_slice(), findings.as_slice()) else {
        return Err(form());
    };
    let mut units = Units::new(text);
    let figure = figure(kind, &mut units);
    match units.findings.into_iter().next() {
        Some(fault) => Err((fault.message, fault.remedy)),
        None => figure.ok_or_else(form),
    }
}
