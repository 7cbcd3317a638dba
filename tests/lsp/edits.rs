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

/// A text as a client has it.
struct Typist {
    dice: Dice,
    text: String,
    /// Places are in bytes, not in UTF-16.
    bytes: bool,
}

impl Typist {
    /// A place that the protocol can name: not between the two signs that end a line.
    fn place(&mut self, near: usize) -> usize {
        let reach = self.dice.roll(-12, 12) as isize;
        let mut at = near.saturating_add_signed(reach).min(self.text.len());
        while !self.text.is_char_boundary(at)
            || (self.text[..at].ends_with('\r') && self.text[at..].starts_with('\n'))
        {
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

    /// One to four changes; mostly they are taken back at once, so that the text goes on being a cook.
    fn changes(&mut self) -> (Vec<Value>, usize) {
        let before = self.text.clone();
        let count = self.dice.roll(1, 4);
        let mut changes = Vec::new();
        for _ in 0..count {
            let middle = self.dice.roll(0, self.text.len() as i64) as usize;
            let (one, other) = (self.place(middle), self.place(middle));
            let typed = TYPED[self.dice.roll(0, TYPED.len() as i64 - 1) as usize];
            changes.push(self.change(one.min(other), one.max(other), typed));
        }
        if !self.dice.one_in(8) {
            changes.push(json!({ "text": before }));
            self.text = before;
        } else if self.dice.one_in(3) {
            self.text = TOO_COOL.replace("48", &self.dice.roll(40, 80).to_string());
            changes.push(json!({ "text": self.text }));
        }
        let steps = changes.len();
        (changes, steps)
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
    client.open(&path, TOO_COOL);
    let mut typist = Typist { dice: Dice(0x0da7_0001), text: TOO_COOL.to_owned(), bytes };
    let (mut steps, mut version, mut understood) = (0, 1, 0);
    while steps < 10_000 {
        for _ in 0..100 {
            let (changes, made) = typist.changes();
            (steps, version) = (steps + made, version + 1);
            client.change(&path, version, json!(changes));
        }
        // The layout of a text keeps what cannot be read, byte for byte.
        let options = json!({ "tabSize": 2, "insertSpaces": true });
        let asked = json!({ "textDocument": { "uri": uri(&path) }, "options": options });
        let edits = client.ask("textDocument/formatting", asked);
        let (tree, _) = parse(FileId(0), &typist.text);
        assert_eq!(edited_in(&typist.text, &edits, bytes), format(&tree, &typist.text));
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
    client.open(&path, TOO_COOL);
    let mut typist = Typist { dice: Dice(0x0da7_0002), text: TOO_COOL.to_owned(), bytes: false };
    let mut early = 0;
    for nth in 1..=edits {
        let (changes, _) = typist.changes();
        client.change(&path, nth as i32 + 1, json!(changes));
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
