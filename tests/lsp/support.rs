//! A client: of `dwell lsp` over pipes, or of the server in memory.

use std::collections::BTreeMap;
use std::io::BufReader;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use dwell::lsp::Ended;
use lsp_server::{Connection, Message, Notification, Request, RequestId, Response, ResponseError};
use lsp_types::PublishDiagnosticsParams;
use serde_json::{Value, json};
use url::Url;

/// No answer takes so long, however slow the machine.
pub const PATIENCE: Duration = Duration::from_secs(120);

pub struct Client {
    pub connection: Connection,
    server: Server,
    asked: i32,
    /// What `initialize` was answered.
    pub capabilities: Value,
    /// Findings by URI, as they were published last.
    pub shown: BTreeMap<String, Value>,
    /// What the server asked.
    pub requests: Vec<Request>,
}

enum Server {
    Process(Child),
    Thread(JoinHandle<Ended>),
}

impl Client {
    /// `dwell lsp` as a process, connected and initialized with the folder open.
    pub fn over_pipes(folder: &Path) -> Self {
        let mut client = Self::unconnected_over_pipes();
        client.initialize(folder, json!({}), Value::Null);
        client
    }

    /// The server on a thread of this process, initialized with the folder open.
    pub fn in_memory(folder: &Path) -> Self {
        Self::in_memory_with(folder, json!({}), Value::Null)
    }

    /// The same with these capabilities of the client, and these settings.
    pub fn in_memory_with(folder: &Path, capabilities: Value, settings: Value) -> Self {
        let mut client = Self::unconnected_in_memory();
        client.initialize(folder, capabilities, settings);
        client
    }

    pub fn unconnected_in_memory() -> Self {
        let (server, client) = Connection::memory();
        let thread = thread::spawn(move || dwell::lsp::run(&server).expect("a thread"));
        Self::new(client, Server::Thread(thread))
    }

    pub fn unconnected_over_pipes() -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_dwell"))
            .arg("lsp")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the program starts");
        let (mut input, output) = (child.stdin.take().expect("input"), child.stdout.take().expect("output"));
        let (sender, to_server) = crossbeam_channel::unbounded::<Message>();
        thread::spawn(move || to_server.into_iter().try_for_each(|message| message.write(&mut input)));
        let (from_server, receiver) = crossbeam_channel::unbounded();
        thread::spawn(move || {
            let mut output = BufReader::new(output);
            while let Ok(Some(message)) = Message::read(&mut output) {
                if from_server.send(message).is_err() {
                    return;
                }
            }
        });
        Self::new(Connection { sender, receiver }, Server::Process(child))
    }

    fn new(connection: Connection, server: Server) -> Self {
        let (capabilities, shown, requests) = (Value::Null, BTreeMap::new(), Vec::new());
        Self { connection, server, asked: 0, capabilities, shown, requests }
    }

    pub fn initialize(&mut self, folder: &Path, capabilities: Value, settings: Value) {
        let params = json!({
            "processId": null, "capabilities": capabilities, "initializationOptions": settings,
            "workspaceFolders": [{ "uri": uri(folder), "name": "folder" }],
        });
        self.capabilities = self.ask("initialize", params)["capabilities"].clone();
        self.tell("initialized", json!({}));
    }

    pub fn tell(&self, method: &str, params: Value) {
        let told = Notification { method: method.to_owned(), params };
        self.connection.sender.send(told.into()).expect("a server");
    }

    /// The result of a request; fails on an error.
    pub fn ask(&mut self, method: &str, params: Value) -> Value {
        self.response(method, params).unwrap_or_else(|why| panic!("{method}: {why:?}"))
    }

    pub fn response(&mut self, method: &str, params: Value) -> Result<Value, ResponseError> {
        self.asked += 1;
        let id = RequestId::from(self.asked);
        let request = Request { id: id.clone(), method: method.to_owned(), params };
        self.connection.sender.send(request.into()).expect("a server");
        loop {
            if let Some(response) = self.next().filter(|response| response.id == id) {
                return response.response_result;
            }
        }
    }

    /// Takes one message; gives it if it is a response.
    fn next(&mut self) -> Option<Response> {
        match self.connection.receiver.recv_timeout(PATIENCE).expect("the server says something") {
            Message::Response(response) => return Some(response),
            Message::Request(request) => {
                let answer = Response::new_ok(request.id.clone(), ());
                self.connection.sender.send(answer.into()).expect("a server");
                self.requests.push(request);
            }
            Message::Notification(told) if told.method == "textDocument/publishDiagnostics" => {
                let params: PublishDiagnosticsParams =
                    serde_json::from_value(told.params).expect("findings as the protocol has them");
                let findings = serde_json::to_value(params.diagnostics).expect("JSON");
                self.shown.insert(params.uri.as_str().to_owned(), findings);
            }
            Message::Notification(_) => {}
        }
        None
    }

    /// Takes messages until what is shown is as it should be.
    pub fn until(&mut self, is_so: impl Fn(&Self) -> bool) {
        while !is_so(self) {
            self.next();
        }
    }

    pub fn open(&mut self, path: &Path, text: &str) {
        let document = json!({ "uri": uri(path), "languageId": "dwell", "version": 1, "text": text });
        self.tell("textDocument/didOpen", json!({ "textDocument": document }));
    }

    pub fn change(&mut self, path: &Path, version: i32, changes: Value) {
        let document = json!({ "uri": uri(path), "version": version });
        self.tell("textDocument/didChange", json!({ "textDocument": document, "contentChanges": changes }));
    }

    /// The whole text anew.
    pub fn replace(&mut self, path: &Path, version: i32, text: &str) {
        self.change(path, version, json!([{ "text": text }]));
    }

    pub fn close(&mut self, path: &Path) {
        self.tell("textDocument/didClose", json!({ "textDocument": { "uri": uri(path) } }));
    }

    /// The codes that are shown of a file, in their order.
    pub fn codes(&self, path: &Path) -> Vec<&str> {
        let shown = self.shown.get(&uri(path)).and_then(Value::as_array);
        shown.into_iter().flatten().map(|finding| finding["code"].as_str().expect("a code")).collect()
    }

    /// Takes messages until these codes are shown of a file.
    pub fn until_codes(&mut self, path: &Path, codes: &[&str]) {
        self.until(|client| client.shown.contains_key(&uri(path)) && client.codes(path) == codes);
    }

    /// The number of the server's process.
    pub fn process(&self) -> u32 {
        match &self.server {
            Server::Process(child) => child.id(),
            Server::Thread(_) => std::process::id(),
        }
    }

    /// Leaves as the protocol wants it.
    pub fn leave(mut self) {
        self.ask("shutdown", Value::Null);
        self.tell("exit", Value::Null);
        assert_eq!(self.ended(), Ended::InOrder);
    }

    /// Waits for the server to end.
    pub fn ended(self) -> Ended {
        drop(self.connection);
        match self.server {
            Server::Thread(thread) => thread.join().expect("no panic"),
            Server::Process(mut child) => match child.wait().expect("the program ends").code() {
                Some(0) => Ended::InOrder,
                Some(1) => Ended::Abruptly,
                other => panic!("ended with {other:?}"),
            },
        }
    }
}

pub fn uri(path: &Path) -> String {
    Url::from_file_path(path).expect("an absolute path").to_string()
}

/// A folder with these files.
pub fn folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder for the test");
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).expect("the file");
    }
    folder
}

/// A text after edits, in UTF-16, that a client is told to make.
pub fn edited(text: &str, edits: &Value) -> String {
    edited_in(text, edits, false)
}

/// The same with places in bytes, or in UTF-16.
pub fn edited_in(text: &str, edits: &Value, bytes: bool) -> String {
    let edits: Vec<lsp_types::TextEdit> = serde_json::from_value(edits.clone()).expect("edits");
    let starts = line_starts(text);
    let offset = |at: lsp_types::Position| {
        let start = starts.get(at.line as usize).copied().unwrap_or(text.len());
        let mut columns = text[start..].char_indices().scan(0, |column, (at, c)| {
            let here = (*column, start + at);
            *column += width(c, bytes);
            Some(here)
        });
        columns.find(|(column, _)| *column == at.character).map_or(text.len(), |(_, at)| at)
    };
    let mut places: Vec<_> =
        edits.iter().map(|edit| (offset(edit.range.start), offset(edit.range.end), &edit.new_text)).collect();
    places.sort_by_key(|place| place.0);
    assert!(places.is_sorted_by(|a, b| a.1 <= b.0), "edits overlap");
    let mut text = text.to_owned();
    for (start, end, new) in places.into_iter().rev() {
        text.replace_range(start..end, new);
    }
    text
}

fn width(c: char, bytes: bool) -> u32 {
    (if bytes { c.len_utf8() } else { c.len_utf16() }) as u32
}

/// Where the lines of a text start, as the protocol counts them.
fn line_starts(text: &str) -> Vec<usize> {
    let ends =
        text.char_indices().filter(|&(at, c)| c == '\n' || (c == '\r' && !text[at + 1..].starts_with('\n')));
    std::iter::once(0).chain(ends.map(|(at, _)| at + 1)).collect()
}

/// How a client names a place in a text, in bytes or in UTF-16.
pub fn position(text: &str, offset: usize, bytes: bool) -> Value {
    let starts = line_starts(text);
    let line = starts.partition_point(|start| *start <= offset) - 1;
    let column: u32 = text[starts[line]..offset].chars().map(|c| width(c, bytes)).sum();
    json!({ "line": line, "character": column })
}
