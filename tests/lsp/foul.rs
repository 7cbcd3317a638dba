//! Nothing that a client says makes the server fall over, or wait for ever.

use std::io::Write;
use std::process::{Command, Stdio};

use dwell::lsp::Ended;
use serde_json::{Value, json};

use crate::common::regatta::IMPOSSIBLE;
use crate::common::texts::{GOOD, TOO_COOL};
use crate::support::{Client, folder, uri};

const METHOD_NOT_FOUND: i32 = -32601;
const INVALID_PARAMS: i32 = -32602;
const INVALID_REQUEST: i32 = -32600;
const NOT_INITIALIZED: i32 = -32002;

fn code(client: &mut Client, method: &str, params: Value) -> Option<i32> {
    client.response(method, params).err().map(|error| error.code)
}

#[test]
fn what_is_out_of_order_or_unknown_is_turned_away_and_the_session_goes_on() {
    let folder = folder(&[]);
    let path = folder.path().join("lamb.dwell");
    let text = json!({ "textDocument": { "uri": uri(&path) } });
    let mut client = Client::unconnected_over_pipes();
    assert_eq!(code(&mut client, "textDocument/hover", text.clone()), Some(NOT_INITIALIZED));
    client.open(&path, TOO_COOL);
    assert_eq!(code(&mut client, "initialize", json!("nonsense")), Some(INVALID_PARAMS));
    client.initialize(folder.path(), json!({}), Value::Null);
    assert_eq!(code(&mut client, "initialize", json!({ "capabilities": {} })), Some(INVALID_REQUEST));
    assert_eq!(code(&mut client, "textDocument/telepathy", text), Some(METHOD_NOT_FOUND));
    assert_eq!(code(&mut client, "textDocument/formatting", json!([1])), Some(INVALID_PARAMS));
    client.tell("textDocument/didTelepathy", json!({}));
    client.tell("textDocument/didOpen", json!("nonsense"));
    client.tell("$/cancelRequest", json!({ "id": 99 }));
    client.open(&path, TOO_COOL);
    client.until_codes(&path, &["hold-too-cool"]);

    client.ask("shutdown", Value::Null);
    assert_eq!(code(&mut client, "shutdown", Value::Null), Some(INVALID_REQUEST));
    assert_eq!(code(&mut client, "dwell/explain", json!({ "code": "end-missing" })), Some(INVALID_REQUEST));
    client.tell("exit", Value::Null);
    assert_eq!(client.ended(), Ended::InOrder);
}

#[test]
fn a_client_that_vanishes_takes_the_server_with_it() {
    let files = IMPOSSIBLE[3].files();
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let folder = folder(&files);
    for connect in [Client::over_pipes, Client::in_memory] {
        let mut client = connect(folder.path());
        // A plan that would go on for minutes is under way.
        client.open(&folder.path().join("menu.dwell"), files[0].1);
        client.ask("dwell/explain", json!({ "code": "end-missing" }));
        assert_eq!(client.ended(), Ended::Abruptly);
    }
    let client = Client::unconnected_over_pipes();
    assert_eq!(client.ended(), Ended::Abruptly);
    let client = Client::over_pipes(folder.path());
    client.tell("exit", Value::Null);
    assert_eq!(client.ended(), Ended::Abruptly);
}

#[test]
fn edits_of_what_is_not_there_do_nothing_and_places_outside_are_brought_in() {
    let folder = folder(&[]);
    let path = folder.path().join("lamb.dwell");
    let mut client = Client::in_memory(folder.path());
    client.change(&path, 2, json!([{ "text": "what is not open" }]));
    client.close(&path);
    client.open(&path, "");
    client.until_codes(&path, &["file-empty"]);
    let at = |line: u32, character: u32| json!({ "line": line, "character": character });
    let edit =
        |from: Value, to: Value, text: &str| json!([{ "range": { "start": from, "end": to }, "text": text }]);
    client.change(&path, 2, edit(at(900, 4), at(u32::MAX, u32::MAX), TOO_COOL));
    client.until_codes(&path, &["hold-too-cool"]);
    // Backwards, and past the end of its line.
    let line = TOO_COOL.lines().position(|line| line == "  air 48 °C").expect("the line") as u32;
    client.change(&path, 1, edit(at(line, 999), at(line, 0), "  air 70 °C"));
    client.until_codes(&path, &[]);
    // Opened once more, without having been closed.
    client.open(&path, TOO_COOL);
    client.until_codes(&path, &["hold-too-cool"]);
    client.leave();
}

#[test]
fn a_text_that_is_no_file_is_checked_too() {
    let folder = folder(&[]);
    let mut client = Client::in_memory(folder.path());
    for uri in [
        "untitled:Untitled-1",
        "file:///",
        "file://elsewhere/x.dwell",
        "http://[::1]/a%00b",
        "file:///no/such/folder/a.dwell",
    ] {
        let text = TOO_COOL.replace("kit probe", "kit from \"kitchen.dwell\"\nkit probe");
        let document = json!({ "uri": uri, "languageId": "dwell", "version": 1, "text": text });
        client.tell("textDocument/didOpen", json!({ "textDocument": document }));
        client.until(|client| client.shown.get(uri).is_some_and(|shown| shown[0]["code"] != Value::Null));
        let codes: Vec<&Value> =
            client.shown[uri].as_array().expect("findings").iter().map(|one| &one["code"]).collect();
        assert!(codes[0] == "file-missing" || codes[0] == "file-unreadable", "{uri}: {codes:?}");
        client.tell("textDocument/didClose", json!({ "textDocument": { "uri": uri } }));
        client.until(|client| client.shown[uri] == json!([]));
    }
    client.leave();
}

#[test]
fn a_file_that_is_far_too_long_has_one_finding_and_no_answers() {
    let folder = folder(&[]);
    let path = folder.path().join("long.dwell");
    let mut client = Client::over_pipes(folder.path());
    client.open(&path, &format!("cook \"Long\"\n{}", "x\n".repeat(5 << 20)));
    client.until_codes(&path, &["file-too-long"]);
    let asked =
        json!({ "textDocument": { "uri": uri(&path) }, "options": { "tabSize": 2, "insertSpaces": true } });
    assert_eq!(client.ask("textDocument/formatting", asked), Value::Null);
    client.replace(&path, 2, GOOD);
    client.until_codes(&path, &[]);
    client.leave();
}

#[test]
fn half_a_character_is_no_end_of_the_session() {
    let folder = folder(&[]);
    let path = folder.path().join("apples.dwell");
    let framed = |json: &str| format!("Content-Length: {}\r\n\r\n{json}", json.len());
    let mut child = Command::new(env!("CARGO_BIN_EXE_dwell"))
        .arg("lsp")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut input = child.stdin.take().expect("input");
    let uri = uri(&path);
    for json in [
        r#"{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}"#.to_owned(),
        format!(
            r#"{{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{{"textDocument":
            {{"uri":"{uri}","languageId":"dwell","version":1,"text":"cook \"\ud83c\"\n  serves x\n"}}}}}}"#
        ),
        r#"{"jsonrpc":"2.0","id":2,"method":"shutdown"}"#.to_owned(),
        r#"{"jsonrpc":"2.0","method":"exit"}"#.to_owned(),
    ] {
        input.write_all(framed(&json).as_bytes()).expect("it listens");
    }
    let done = child.wait_with_output().expect("it ends");
    assert_eq!(done.status.code(), Some(0));
    let said = String::from_utf8(done.stdout).expect("UTF-8");
    assert!(said.contains("line-unreadable") && said.contains(&uri), "{said}");
}

#[test]
fn places_inside_of_a_character_are_before_it() {
    let folder = folder(&[]);
    let path = folder.path().join("apples.dwell");
    let mut client = Client::in_memory(folder.path());
    client.open(&path, &GOOD.replace("Apples", "🍎Apples"));
    // From inside of the apple to behind it.
    let range = json!({ "start": { "line": 0, "character": 7 }, "end": { "line": 0, "character": 8 } });
    client.change(&path, 2, json!([{ "range": range, "text": "" }]));
    let asked =
        json!({ "textDocument": { "uri": uri(&path) }, "options": { "tabSize": 2, "insertSpaces": true } });
    assert_eq!(client.ask("textDocument/formatting", asked), json!([]), "it is {GOOD}");
    client.leave();
}

#[test]
fn of_a_text_that_is_no_cook_only_the_first_findings_are_shown() {
    let folder = folder(&[]);
    let path = folder.path().join("letter.dwell");
    let mut client = Client::in_memory(folder.path());
    client.open(&path, &format!("cook \"Letter\"\n{}", "Dear crew, this is no cook.\n".repeat(20_000)));
    client.until(|client| client.shown.contains_key(&uri(&path)));
    let shown = client.shown[&uri(&path)].as_array().expect("findings");
    assert_eq!(shown.len(), 501);
    let message = shown[500]["message"].as_str().expect("words");
    assert!(message.contains("more findings are not shown"), "{message}");
    client.leave();
}
