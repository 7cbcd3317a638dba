//! From a keystroke to the findings that are shown at once, over a session of typing, with the full check running behind it.
//!
//! Run with `cargo bench --bench editing`. Of a hundred keystrokes 99 take less than 15 ms on a cook of 300 lines, and less
//! than 60 ms on one of 5,000; it fails where they do not.

#[path = "../common/dice.rs"]
mod dice;
#[path = "../common/long.rs"]
mod long;

use std::thread;
use std::time::{Duration, Instant};

use dice::Dice;
use long::long_cook;
use lsp_server::{Connection, Message, Notification, Request};
use serde_json::{Value, json};

const URI: &str = "untitled:cook.dwell";
/// Lines of the cook, and what a keystroke may take.
const TARGETS: [(usize, Duration); 2] =
    [(300, Duration::from_millis(15)), (5_000, Duration::from_millis(60))];
/// Facts that are typed, and taken out again.
const TYPED: [&str; 4] = [
    "  note \"Turn it round, front to back.\"\n",
    "  moisture 40 %\n",
    "  use 12 g of salt\n",
    "phase rset is rest\n",
];

fn main() {
    for (lines, target) in TARGETS {
        let mut times = session(lines, if cfg!(debug_assertions) { 60 } else { 2_000 });
        times.sort();
        let at = |share: usize| times[(times.len() * share / 100).min(times.len() - 1)];
        println!("{lines} lines: half {:?}, 99 of 100 {:?}, longest {:?}", at(50), at(99), at(100));
        assert!(cfg!(debug_assertions) || at(99) < target, "{lines} lines: more than {target:?}");
    }
}

/// What each of so many keystrokes took.
fn session(lines: usize, keystrokes: usize) -> Vec<Duration> {
    let text = long_cook(lines);
    let heads: Vec<usize> =
        text.lines().enumerate().filter(|(_, line)| line.starts_with("phase")).map(|(n, _)| n).collect();
    let (server, client) = Connection::memory();
    let serving = thread::spawn(move || dwell::lsp::run(&server).expect("a thread"));
    let mut session = Session { client, version: 0 };
    session.ask("initialize", json!({ "capabilities": {} }));
    let document = json!({ "uri": URI, "languageId": "dwell", "version": 0, "text": text });
    session.tell("textDocument/didOpen", json!({ "textDocument": document }));
    session.ask("dwell/explain", json!({ "code": "end-missing" }));
    let (mut dice, mut times) = (Dice(0x0da7_0003), Vec::new());
    while times.len() < keystrokes {
        let typed = TYPED[dice.roll(0, TYPED.len() as i64 - 1) as usize];
        let line = heads[dice.roll(0, heads.len() as i64 - 1) as usize] + 1;
        for (column, key) in typed.chars().enumerate() {
            times.push(session.key((line, column), (line, column), &key.to_string()));
        }
        // Now and then a cook looks up, and everything is predicted.
        thread::sleep(Duration::from_millis(if dice.one_in(4) { 100 } else { 0 }));
        times.push(session.key((line, 0), (line + 1, 0), ""));
    }
    session.ask("shutdown", Value::Null);
    session.tell("exit", Value::Null);
    serving.join().expect("no panic");
    times
}

struct Session {
    client: Connection,
    version: i32,
}

impl Session {
    fn tell(&self, method: &str, params: Value) {
        self.client.sender.send(Notification { method: method.to_owned(), params }.into()).expect("a server");
    }

    /// Waits for the answer; what was found is published before it.
    fn ask(&self, method: &str, params: Value) {
        let request = Request { id: 1.into(), method: method.to_owned(), params };
        self.client.sender.send(request.into()).expect("a server");
        let answered = |message| matches!(message, Message::Response(_));
        while !answered(self.client.receiver.recv().expect("a server")) {}
    }

    fn key(&mut self, from: (usize, usize), to: (usize, usize), text: &str) -> Duration {
        let place = |(line, character): (usize, usize)| json!({ "line": line, "character": character });
        let change = json!({ "range": { "start": place(from), "end": place(to) }, "text": text });
        self.version += 1;
        let document = json!({ "uri": URI, "version": self.version });
        let begin = Instant::now();
        self.tell("textDocument/didChange", json!({ "textDocument": document, "contentChanges": [change] }));
        self.ask("dwell/explain", json!({ "code": "end-missing" }));
        begin.elapsed()
    }
}
