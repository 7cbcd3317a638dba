//! What a client is told of the place of the cursor.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use tempfile::TempDir;

use crate::common::examples;
use crate::support::{Client, edited, folder, uri};

/// A folder with the examples, one of them open with its line `line` replaced.
struct Opened {
    client: Client,
    _folder: TempDir,
    path: PathBuf,
    text: String,
}

impl Opened {
    fn over_pipes(name: &str, from: &str, to: &str) -> Self {
        Self::with(Client::over_pipes, name, from, to)
    }

    fn with(connect: impl FnOnce(&Path) -> Client, name: &str, from: &str, to: &str) -> Self {
        let all = examples();
        let files: Vec<(&str, &str)> =
            all.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        let folder = folder(&files);
        let path = folder.path().join(name);
        let text =
            all.iter().find(|(known, _)| known == name).expect("such an example").1.replacen(from, to, 1);
        assert!(text.contains(to), "{name} has no {from}");
        let mut client = connect(folder.path());
        client.open(&path, &text);
        Self { client, _folder: folder, path, text }
    }

    /// Behind this stretch of the text, in UTF-16.
    fn behind(&self, before: &str) -> Value {
        let end = self.text.find(before).expect("such a stretch") + before.len();
        let line = self.text[..end].matches('\n').count();
        let start = self.text[..end].rfind('\n').map_or(0, |at| at + 1);
        json!({ "line": line, "character": self.text[start..end].encode_utf16().count() })
    }

    fn ask(&mut self, method: &str, before: &str) -> Value {
        let place = json!({ "textDocument": { "uri": uri(&self.path) }, "position": self.behind(before) });
        self.client.ask(method, place)
    }

    fn hints(&mut self) -> Vec<String> {
        let whole = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 999, "character": 0 } });
        let asked = json!({ "textDocument": { "uri": uri(&self.path) }, "range": whole });
        let hints = self.client.ask("textDocument/inlayHint", asked);
        let hints = hints.as_array().expect("hints").iter();
        hints.map(|hint| hint["label"].as_str().expect("a label").to_owned()).collect()
    }

    /// Asks again and again until the full check is done.
    fn until<T>(&mut self, ask: impl Fn(&mut Self) -> T, done: impl Fn(&T) -> bool) -> T {
        for _ in 0..600 {
            let answer = ask(self);
            if done(&answer) {
                return answer;
            }
            std::thread::sleep(std::time::Duration::from_millis(100));
        }
        panic!("the full check is not done");
    }
}

fn said(hover: &Value) -> &str {
    hover["contents"]["value"].as_str().unwrap_or("")
}

#[test]
fn hover_over_pipes() {
    let mut opened = Opened::over_pipes("turkey-crown.dwell", "the family", "the fämily 😀");
    let temperature = opened.ask("textDocument/hover", "until core 7");
    assert_eq!(said(&temperature), "`72 °C` is 161.6 °F.");
    let start = opened.behind("until core ");
    assert_eq!(temperature["range"]["start"], start);
    // First that nothing is known, then what is: never an old figure.
    let roast = opened.until(
        |opened| opened.ask("textDocument/hover", "phase roa"),
        |hover| !said(hover).contains("not worked out yet"),
    );
    assert!(said(&roast).contains("predicted 72 °C (71 to 73 °C)"), "{roast}");
    assert_eq!(
        opened.ask("textDocument/hover", "for the fämily 😀"),
        json!({
            "contents": { "kind": "plaintext", "value": "What this file cooks. The facts about the whole of it stand below." },
            "range": { "start": { "line": 0, "character": 0 }, "end": opened.behind("fämily 😀\"") },
        })
    );
    opened.client.leave();
}

#[test]
fn hints_over_pipes() {
    let mut opened = Opened::over_pipes("turkey-crown.dwell", "crown", "crown");
    let hints = opened.until(Opened::hints, |hints| hints.iter().any(|hint| hint.starts_with("core")));
    assert!(hints.contains(&"core at its end: predicted 72 °C (71 to 73 °C)".to_owned()), "{hints:#?}");
    assert!(hints.contains(&"(161.6 °F)".to_owned()), "{hints:#?}");
    assert!(hints.iter().any(|hint| hint.contains("ends 13:00 to 13:55")), "{hints:#?}");
    // Another kind is left out by a setting, while it runs.
    opened.client.tell(
        "workspace/didChangeConfiguration",
        json!({ "settings": { "dwell": { "hints": { "scale": false } } } }),
    );
    let hints = opened.hints();
    assert!(!hints.is_empty() && !hints.contains(&"(161.6 °F)".to_owned()), "{hints:#?}");
    opened.client.leave();
}

#[test]
fn hints_are_left_out_as_the_client_says_when_it_connects() {
    let settings = json!({ "hints": { "times": false, "core": false } });
    let connect = |folder: &Path| Client::in_memory_with(folder, json!({}), settings);
    let mut opened = Opened::with(connect, "turkey-crown.dwell", "crown", "crown");
    let hints = opened.until(
        |opened| (opened.ask("textDocument/hover", "phase roa"), opened.hints()),
        |(hover, _)| !said(hover).contains("not worked out yet"),
    );
    assert!(!hints.1.is_empty() && hints.1.iter().all(|hint| hint.starts_with('(')), "{hints:#?}");
    opened.client.leave();
}

#[test]
fn completion_over_pipes() {
    let mut opened = Opened::over_pipes(
        "overnight-shoulder.dwell",
        "  shoulder in cabinet\n  air 110",
        "  shoulder in \n  air 110",
    );
    let list = opened.ask("textDocument/completion", "  shoulder in ");
    let labels: Vec<&str> = list["items"]
        .as_array()
        .expect("items")
        .iter()
        .map(|item| item["label"].as_str().expect("a label"))
        .collect();
    assert_eq!(labels, ["cabinet", "oven", "bath", "fridge", "chiller", "hob", "bench"]);
    let edits = json!([list["items"][0]["textEdit"]]);
    assert!(edited(&opened.text, &edits).contains("  shoulder in cabinet\n  air 110"));
    // The files of the folder; not this one.
    let mut opened = Opened::over_pipes("club-supper.dwell", "dish \"roast-celeriac.dwell\"", "dish \"roa\"");
    let list = opened.ask("textDocument/completion", "dish \"roa");
    assert_eq!(list["items"][0]["label"], "\"roast-celeriac.dwell\"");
    let edits = json!([list["items"][0]["textEdit"]]);
    assert!(edited(&opened.text, &edits).contains("dish \"roast-celeriac.dwell\" for 40"));
    opened.client.leave();
}

#[test]
fn examples_are_put_in_only_where_they_can_be_filled_in() {
    let item = |connect: &dyn Fn(&Path) -> Client| {
        let mut opened = Opened::with(connect, "turkey-crown.dwell", "  air 170 °C\n", "  \n");
        let list = opened.ask("textDocument/completion", "crown in oven\n  ");
        let items = list["items"].as_array().expect("items");
        let air = items.iter().find(|item| item["label"] == "air 110 °C").expect("the clause").clone();
        opened.client.leave();
        air
    };
    let plain = item(&|folder| Client::in_memory(folder));
    assert_eq!((&plain["textEdit"]["newText"], &plain["insertTextFormat"]), (&json!("air "), &json!(1)));
    let snippets =
        json!({ "textDocument": { "completion": { "completionItem": { "snippetSupport": true } } } });
    let filled = item(&|folder| Client::in_memory_with(folder, snippets.clone(), Value::Null));
    assert_eq!(
        (&filled["textEdit"]["newText"], &filled["insertTextFormat"]),
        (&json!("air ${1:110 °C}"), &json!(2))
    );
}

#[test]
fn own_rows_of_the_folder_are_offered() {
    let folder = folder(&[(
        "dwell.toml",
        "[foods.\"boathouse loaf\"]\nspecies = \"grain\"\nstate = \"baked\"\nconductivity_w_mk = 0.2\ndensity_kg_m3 = 300\nspecific_heat_j_kgk = 2500\n",
    )]);
    let path = folder.path().join("bread.dwell");
    let mut client = Client::in_memory(folder.path());
    client.open(&path, "cook \"Bread\"\nfood loaf is boat");
    let asked = json!({ "textDocument": { "uri": uri(&path) }, "position": { "line": 1, "character": 17 } });
    let list = client.ask("textDocument/completion", asked);
    assert_eq!(list["items"][0]["label"], "boathouse loaf");
    client.leave();
}

#[test]
fn signature_help_over_pipes() {
    let mut opened = Opened::over_pipes(
        "turkey-crown.dwell",
        "until core 72 °C, takes 1 h 40 min to 2 h 20 min",
        "until core 72 °C, takes 1 h to ",
    );
    let help = opened.ask("textDocument/signatureHelp", "takes 1 h to ");
    assert_eq!((&help["activeSignature"], &help["activeParameter"]), (&json!(0), &json!(1)));
    assert_eq!(help["signatures"][0]["label"], "takes 15 min to 25 min");
    assert_eq!(help["signatures"][0]["parameters"][1]["label"], "25 min");
    // In a text there is nothing to fill in a form with but words.
    assert!(opened.ask("textDocument/signatureHelp", "serves").is_null());
    opened.client.leave();
}

#[test]
fn parts_of_a_form_are_marked_by_their_places_where_the_client_can() {
    let can = json!({ "textDocument": { "signatureHelp": { "signatureInformation": { "parameterInformation": { "labelOffsetSupport": true } } } } });
    let connect = |folder: &Path| Client::in_memory_with(folder, can, Value::Null);
    let mut opened = Opened::with(connect, "turkey-crown.dwell", "  air 170 °C\n", "  air 1\n");
    let help = opened.ask("textDocument/signatureHelp", "  air 1");
    // "air 110 °C": counted in UTF-16, whatever else is.
    assert_eq!(help["signatures"][0]["parameters"][0]["label"], json!([4, 10]));
    opened.client.leave();
}

#[test]
fn hover_over_a_finding_tells_its_long_text() {
    let mut opened = Opened::over_pipes("too-cool.dwell", "air 48 °C", "air 48 °C");
    let told = opened.ask("textDocument/hover", "air 4");
    for part in ["118.4 °F", "hold-too-cool: ", "How to mend it: ", "Source: "] {
        assert!(said(&told).contains(part), "{part}: {told}");
    }
    let told = opened.ask("textDocument/hover", "serves");
    assert!(!said(&told).contains("Source: "), "nothing was found there: {told}");
    opened.client.leave();
    // A line that cannot be read has nothing else to tell.
    let mut opened = Opened::over_pipes("too-cool.dwell", "air 48 °C", "iar 48 °C");
    let told = opened.ask("textDocument/hover", "iar");
    assert!(said(&told).starts_with("line-unreadable: "), "{told}");
    opened.client.leave();
}
