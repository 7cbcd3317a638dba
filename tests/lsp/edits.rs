//! However a text came about, what is known of it is what a fresh check of it finds, and nothing piles up.

use std::path::Path;

use dwell::compile::{Options, compile};
use dwell::syntax::{format, parse};
use dwell::text::FileId;
use serde_json::{Value, json};

use crate::common::Memory;
use crate::common::dice::Dice;
use crate::common::texts::TOO_COOL;
use crate::support::{Client, edited_in, folder, position, uri};

/// What is typed or pasted: accents, signs of two units and of several characters, every end of a line, halves of clauses.
const TYPED: [&str; 16] = [
    "é",
    "🍎",
    "e\u{301}",
    "𝄞𝄞",
    "\r\n",
    "\n",
    "\r",
    "\"",
    ",",
    "x",
    " 4",
    "°C",
    "  air 70 °C\n",
    "// ½ 👩‍🍳\r\n",
    "kit ",
    "\u{feff}",
];

/// Lamb in a layout that changes every line of it once it is laid out: what the server has of a line is then seen.
fn untidy(degrees: i64) -> String {
    TOO_COOL.replace("\n  ", "\n     ").replace('\n', " \n").replace("48", &degrees.to_string())
}

/// What a change has done, to be taken back.
struct Done {
    at: usize,
    old: String,
    new: usize,
}

/// A text as a client has it. Whatever happens to it is told as changes of a part of it.
struct Typist {
    dice: Dice,
    text: String,
    /// Places are in bytes, not in UTF-16.
    bytes: bool,
    /// What has become of the lamb since it was last as it should be.
    done: Vec<Done>,
    degrees: i64,
}

impl Typist {
    fn new(seed: u64, bytes: bool) -> Self {
        let degrees = 48;
        Self { dice: Dice(seed), text: untidy(degrees), bytes, done: Vec::new(), degrees }
    }

    /// A place that the protocol can name: not between the two signs that end a line.
    fn has(&self, at: usize) -> bool {
        let inside = self.text[..at].ends_with('\r') && self.text[at..].starts_with('\n');
        !inside
    }

    fn place(&mut self, near: usize) -> usize {
        let reach = self.dice.roll(-12, 12) as isize;
        let mut at = near.saturating_add_signed(reach).min(self.text.len());
        while !self.text.is_char_boundary(at) || !self.has(at) {
            at -= 1;
        }
        at
    }

    fn change(&mut self, start: usize, end: usize, new: &str) -> Value {
        let range = json!({
            "start": position(&self.text, start, self.bytes), "end": position(&self.text, end, self.bytes),
        });
        self.text.replace_range(start..end, new);
        json!({ "range": range, "text": new })
    }

    fn take_back(&mut self, done: &Done) -> Value {
        let (mut start, mut end) = (done.at, done.at + done.new);
        let mut old = done.old.clone();
        if !self.has(start) {
            start -= 1;
            old.insert(0, '\r');
        }
        if !self.has(end) {
            end += 1;
            old.push('\n');
        }
        self.change(start, end, &old)
    }

    /// One to four changes; mostly they are taken back at once, and now and then all are, so that the text goes on being a
    /// cook.
    fn changes(&mut self) -> Vec<Value> {
        let mut changes = Vec::new();
        let before = self.done.len();
        for _ in 0..self.dice.roll(1, 4) {
            let middle = self.dice.roll(0, self.text.len() as i64) as usize;
            let (one, other) = (self.place(middle), self.place(middle));
            let (start, end) = (one.min(other), one.max(other));
            let typed = TYPED[self.dice.roll(0, TYPED.len() as i64 - 1) as usize];
            self.done.push(Done { at: start, old: self.text[start..end].to_owned(), new: typed.len() });
            changes.push(self.change(start, end, typed));
        }
        let afresh = self.dice.one_in(24);
        if afresh || !self.dice.one_in(8) {
            for done in self.done.split_off(if afresh { 0 } else { before }).iter().rev() {
                changes.push(self.take_back(done));
            }
        }
        if afresh {
            assert_eq!(self.text, untidy(self.degrees));
            let at = untidy(48).find("48").expect("the setting");
            self.degrees = self.dice.roll(40, 80);
            changes.push(self.change(at, at + 2, &self.degrees.to_string()));
        }
        changes
    }
}

/// Code and range of each finding of a fresh check.
fn fresh(path: &Path, text: &str, bytes: bool) -> Vec<Value> {
    let path = path.to_string_lossy().into_owned();
    let found = compile(&Memory(&[]), path, text.into(), &Options::default()).findings;
    let place = |offset: u32| position(text, offset as usize, bytes);
    let shown = found.iter().map(|finding| {
        let range = json!({ "start": place(finding.span.start), "end": place(finding.span.end) });
        json!([finding.code.name(), range])
    });
    shown.collect()
}

fn shown(client: &Client, path: &Path) -> Vec<Value> {
    let shown = client.shown.get(&uri(path)).and_then(Value::as_array);
    shown.into_iter().flatten().map(|finding| json!([finding["code"], finding["range"]])).collect()
}

fn ten_thousand_edits(bytes: bool) {
    let folder = folder(&[]);
    let path = folder.path().join("lamb.dwell");
    let offered = if bytes { json!(["utf-16", "utf-8"]) } else { json!(["utf-16"]) };
    let can = json!({ "general": { "positionEncodings": offered } });
    let mut client = Client::in_memory_with(folder.path(), can, Value::Null);
    assert_eq!(client.capabilities["positionEncoding"], if bytes { "utf-8" } else { "utf-16" });
    let mut typist = Typist::new(0x0da7_0001, bytes);
    client.open(&path, &typist.text);
    let options = json!({ "tabSize": 2, "insertSpaces": true });
    let layout = json!({ "textDocument": { "uri": uri(&path) }, "options": options });
    let (mut steps, mut version, mut understood) = (0, 1, 0);
    while steps < 10_000 {
        for _ in 0..20 {
            let changes = typist.changes();
            (steps, version) = (steps + changes.len(), version + 1);
            client.change(&path, version, json!(changes));
            // The layout of a text keeps what cannot be read, byte for byte.
            let edits = client.ask("textDocument/formatting", layout.clone());
            let (tree, _) = parse(FileId(0), &typist.text);
            assert_eq!(edited_in(&typist.text, &edits, bytes), format(&tree, &typist.text));
        }
        let wanted = fresh(&path, &typist.text, bytes);
        understood += usize::from(wanted.iter().all(|one| one[0] == "hold-too-cool"));
        client.until(|client| shown(client, &path) == wanted);
    }
    assert!(understood >= 3, "texts that are predicted come too: {understood}");
    client.leave();
}

#[test]
fn ten_thousand_edits_in_bytes_come_to_a_fresh_check() {
    ten_thousand_edits(true);
}

#[test]
fn ten_thousand_edits_in_units_of_sixteen_bits_come_to_a_fresh_check() {
    ten_thousand_edits(false);
}

/// Kilobytes that a process has in memory.
#[cfg(target_os = "linux")]
fn resident_kb(process: u32) -> u64 {
    let status = std::fs::read_to_string(format!("/proc/{process}/status")).expect("it runs");
    let line = status.lines().find(|line| line.starts_with("VmRSS:")).expect("its memory");
    line.split_whitespace().nth(1).and_then(|figure| figure.parse().ok()).expect("a figure")
}

/// Memory after a tenth of so many edits, each of them checked, and after all.
#[cfg(target_os = "linux")]
fn memory_over(edits: usize) -> (u64, u64) {
    let folder = folder(&[]);
    let path = folder.path().join("lamb.dwell");
    let mut client = Client::over_pipes(folder.path());
    let mut typist = Typist::new(0x0da7_0002, false);
    client.open(&path, &typist.text);
    let mut early = 0;
    for nth in 1..=edits {
        client.change(&path, nth as i32 + 1, json!(typist.changes()));
        // Whatever is asked, what has changed is checked before.
        client.ask("dwell/explain", json!({ "code": "end-missing" }));
        if nth == edits / 10 {
            early = resident_kb(client.process());
        }
    }
    let late = resident_kb(client.process());
    client.leave();
    (early, late)
}

/// What fragments of memory, and a check that happens to run, may make of a difference.
#[cfg(target_os = "linux")]
const SPARE_KB: u64 = 8 * 1024;

#[cfg(target_os = "linux")]
#[test]
fn memory_stays_flat_over_five_thousand_edits() {
    let (early, late) = memory_over(5_000);
    assert!(late < early + SPARE_KB, "{early} kB became {late} kB");
}

#[cfg(target_os = "linux")]
#[test]
#[ignore = "takes minutes"]
fn memory_stays_flat_over_a_hundred_thousand_edits() {
    let (early, late) = memory_over(100_000);
    println!("{early} kB after 10,000 edits, {late} kB after 100,000");
    assert!(late < early + SPARE_KB, "{early} kB became {late} kB");
}
