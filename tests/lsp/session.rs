//! A session from beginning to end.

use std::thread;
use std::time::{Duration, Instant};

use serde_json::json;

use crate::common::regatta::IMPOSSIBLE;
use crate::common::texts::{GOOD, TOO_COOL};
use crate::support::{Client, folder, uri};

#[test]
fn findings_come_as_one_types_and_go_when_they_are_mended() {
    let folder = folder(&[]);
    let path = folder.path().join("lamb.dwell");
    let mut client = Client::over_pipes(folder.path());
    client.open(&path, TOO_COOL);
    client.until_codes(&path, &["hold-too-cool"]);
    let finding = &client.shown[&uri(&path)][0];
    assert_eq!(finding["severity"], 1);
    assert_eq!(finding["source"], "dwell");
    let line = TOO_COOL.lines().position(|line| line == "  air 48 °C").expect("the line");
    assert_eq!(
        finding["range"],
        json!({
            "start": { "line": line, "character": 2 }, "end": { "line": line, "character": 11 },
        })
    );

    let figure =
        json!({ "start": { "line": line, "character": 6 }, "end": { "line": line, "character": 8 } });
    client.change(&path, 2, json!([{ "range": figure, "text": "70" }]));
    client.until_codes(&path, &[]);
    client.close(&path);
    client.leave();
}

#[test]
fn a_text_is_laid_out_as_dwell_fmt_does() {
    let folder = folder(&[]);
    let path = folder.path().join("apples.dwell");
    let mut client = Client::over_pipes(folder.path());
    let untidy = GOOD.replace("  serves 4", " SERVES   4").replace("\n\n", "\n\n\n");
    client.open(&path, &untidy);
    let options = json!({ "tabSize": 2, "insertSpaces": true });
    let asked = json!({ "textDocument": { "uri": uri(&path) }, "options": options });
    let edits = client.ask("textDocument/formatting", asked);
    assert_eq!(crate::support::edited(&untidy, &edits), GOOD);
    client.leave();
}

#[test]
fn the_long_text_of_a_finding_is_to_be_had() {
    let folder = folder(&[]);
    let mut client = Client::in_memory(folder.path());
    let text = client.ask("dwell/explain", json!({ "code": "hold-too-cool" }));
    assert!(text["markdown"].as_str().expect("a text").contains("## How to mend"));
    assert!(client.ask("dwell/explain", json!({ "code": "no-such-code" })).is_null());
    client.leave();
}

#[test]
fn a_check_that_nobody_waits_for_makes_room_for_the_next() {
    // A plan of thirty dishes that cannot be takes a debug build longer than anybody waits here.
    let files = IMPOSSIBLE[3].files();
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let folder = folder(&files);
    let [menu, lamb] = ["menu.dwell", "lamb.dwell"].map(|name| folder.path().join(name));
    let mut client = Client::in_memory(folder.path());
    client.open(&menu, files[0].1);
    client.ask("dwell/explain", json!({ "code": "end-missing" }));
    client.open(&lamb, &TOO_COOL.replace("air 48 °C", "air 70 °C").replace("for 1 h to 3 h", "for 1 h"));
    client.ask("dwell/explain", json!({ "code": "end-missing" }));
    // What is said of the lamb's time stands behind the menu, until that is closed.
    thread::sleep(Duration::from_secs(2));
    client.ask("dwell/explain", json!({ "code": "end-missing" }));
    assert!(client.codes(&lamb).is_empty());
    let begin = Instant::now();
    client.close(&menu);
    client.until_codes(&lamb, &["on-time-if-lucky"]);
    assert!(begin.elapsed() < Duration::from_secs(20), "{:?}", begin.elapsed());
    client.leave();
}
