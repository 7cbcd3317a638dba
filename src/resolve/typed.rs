//! What is typed outside a file, in the forms that a file takes.

use super::units::Units;
use crate::findings::Text;
use crate::quantity::{Duration, Temperature};
use crate::say;
use crate::syntax::{Clause, ClauseKind, parse};
use crate::text::FileId;

/// `2 h 30 min = 54 °C`: a probe reading, and when it was taken.
///
/// # Errors
/// What is wrong with it, and what to type instead.
pub fn reading(typed: &str) -> Result<(Duration, Temperature), (Text, Text)> {
    let form = || {
        (
            say![format!("`{typed}` is not a reading.")],
            say![
                "Write how long after the start of the cook it was, and what the probe said: `--core \"2 h 30 min = 54 °C\"`."
            ],
        )
    };
    if typed.chars().any(|c| c.is_control() || c == ',' || c == '"') {
        return Err(form());
    }
    let (when, what) = typed.split_once('=').ok_or_else(form)?;
    let text = format!("for {}\ncore {}\n", when.trim(), what.trim());
    let (tree, findings) = parse(FileId(0), &text);
    let [Clause { kind: ClauseKind::For(when), .. }, Clause { kind: ClauseKind::Check { measure, .. }, .. }] =
        tree.clauses.as_slice()
    else {
        return Err(form());
    };
    if !findings.is_empty() {
        return Err(form());
    }
    let mut units = Units::new(&text);
    let read = units.duration(when).zip(units.temperature(measure).map(|(core, _)| core));
    match units.findings.into_iter().next() {
        Some(fault) => Err((fault.message, fault.remedy)),
        None => read.ok_or_else(form),
    }
}
