//! Two readers in another language come to the same times and texts.

use std::io::Write;
use std::process::{Command, Stdio};

use dwell::output::timelines;
use serde_json::{Value, json};

use crate::{COOKS, hostile, written};

#[test]
#[ignore = "NOT RUN unless asked for: needs Python 3.11 with icalendar and vobject"]
fn python_reads_the_same() {
    let cases: Vec<Value> = COOKS
        .iter()
        .map(|file| {
            let timeline: Value = serde_json::from_str(&timelines::json(file)).expect("JSON");
            json!({ "ics": written(file), "timeline": timeline })
        })
        .collect();
    let hostile: Vec<Value> = hostile::calendars()
        .map(|(ics, summary, alarm)| json!({ "ics": ics, "summary": summary, "alarm": alarm }))
        .collect();
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/calendar/read_back.py");
    let mut python =
        Command::new("python3").arg(script).stdin(Stdio::piped()).spawn().expect("Python is there");
    let document = json!({ "cases": cases, "hostile": hostile }).to_string();
    python.stdin.take().expect("a pipe").write_all(document.as_bytes()).expect("written");
    assert!(python.wait().expect("an end").success(), "see what it printed above");
}
