//! Definition, references and rename across the files of a folder.

use std::collections::BTreeMap;

use dwell::compile::{Options, compile};
use dwell::editor::{self, Sort, Texts};
use dwell::findings::Edit;
use dwell::syntax;
use dwell::text::FileId;
use serde_json::{Value, json};

use crate::common::{Memory, examples};
use crate::support::{Client, edited, folder, uri};

/// The place of the `nth` time that `words` stand in `text`, as the protocol counts.
fn place(text: &str, words: &str, nth: usize) -> Value {
    let (at, _) = text.match_indices(words).nth(nth).unwrap_or_else(|| panic!("{words} stands there"));
    let before = &text[..at];
    let line = before.matches('\n').count();
    let start = before.rfind('\n').map_or(0, |at| at + 1);
    json!({ "line": line, "character": text[start..at].encode_utf16().count() + 1 })
}

struct Kitchen {
    folder: tempfile::TempDir,
    files: BTreeMap<String, String>,
}

impl Kitchen {
    fn new() -> Self {
        let files: BTreeMap<String, String> = examples().into_iter().collect();
        let all: Vec<(&str, &str)> =
            files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        Self { folder: folder(&all), files }
    }

    fn asked(&self, name: &str, words: &str, nth: usize) -> Value {
        let document = json!({ "uri": uri(&self.folder.path().join(name)) });
        json!({ "textDocument": document, "position": place(&self.files[name], words, nth) })
    }

    fn open(&self, client: &mut Client, name: &str) {
        client.open(&self.folder.path().join(name), &self.files[name]);
    }
}

#[test]
fn a_name_leads_to_where_it_is_declared_and_a_file_to_the_file() {
    let kitchen = Kitchen::new();
    let mut client = Client::over_pipes(kitchen.folder.path());
    for name in ["overnight-shoulder.dwell", "club-supper.dwell"] {
        kitchen.open(&mut client, name);
    }
    let mut leads = |file: &str, words: &str, nth| {
        let found = client.ask("textDocument/definition", kitchen.asked(file, words, nth));
        let file =
            found["uri"].as_str().and_then(|uri| uri.rsplit('/').next()).unwrap_or("nowhere").to_owned();
        (file, found["range"]["start"]["line"].as_u64().unwrap_or(9999))
    };
    let shoulder = "overnight-shoulder.dwell";
    let line = |text: &str, words: &str| {
        text.lines().position(|line| line.starts_with(words)).expect("the line") as u64
    };
    let kit = line(&kitchen.files["clubhouse.dwell"], "kit cabinet");
    assert_eq!(leads(shoulder, "cabinet", 0), ("clubhouse.dwell".to_owned(), kit));
    let food = line(&kitchen.files[shoulder], "food shoulder");
    assert_eq!(leads(shoulder, "shoulder on bench", 0), (shoulder.to_owned(), food));
    assert_eq!(leads(shoulder, "clubhouse.dwell", 0), ("clubhouse.dwell".to_owned(), 0));
    assert_eq!(leads("club-supper.dwell", "baked-beans.dwell", 0), ("baked-beans.dwell".to_owned(), 0));
    assert_eq!(leads(shoulder, "serves", 0).0, "nowhere", "a word of the language");

    // A kitchen that is open counts as it stands, not as it was saved.
    let moved = format!("// A remark.\n{}", kitchen.files["clubhouse.dwell"]);
    client.open(&kitchen.folder.path().join("clubhouse.dwell"), &moved);
    let found = client.ask("textDocument/definition", kitchen.asked(shoulder, "cabinet", 0));
    assert_eq!(found["range"]["start"]["line"], kit + 1);
    client.leave();
}

#[test]
fn kit_is_renamed_in_every_file_that_uses_it() {
    let kitchen = Kitchen::new();
    let mut client = Client::over_pipes(kitchen.folder.path());
    kitchen.open(&mut client, "overnight-shoulder.dwell");
    let asked = kitchen.asked("overnight-shoulder.dwell", "cabinet", 0);
    let ready = client.ask("textDocument/prepareRename", asked.clone());
    assert_eq!(ready["start"]["character"], json!(ready["end"]["character"].as_u64().expect("a number") - 7));
    let mut rename = asked.clone();
    rename["newName"] = json!("smoker");
    let changes = client.ask("textDocument/rename", rename)["changes"].clone();
    let mut after = kitchen.files.clone();
    for (uri, edits) in changes.as_object().expect("changes") {
        let name = uri.rsplit('/').next().expect("a name");
        let text = edited(&after[name], edits);
        after.insert(name.to_owned(), text);
    }
    let uses = |files: &BTreeMap<String, String>, word: &str| {
        files
            .values()
            .map(|text| {
                text.split(|c: char| !c.is_alphanumeric() && c != '-').filter(|part| *part == word).count()
            })
            .sum::<usize>()
    };
    assert!(uses(&after, "smoker") > 3);
    for (name, text) in &after {
        assert_eq!(
            findings(&kitchen.files, name, &kitchen.files[name]),
            findings(&after, name, text),
            "{name}"
        );
    }
    // What is called so only in prose, and the class of the kit, stay.
    let prose = |text: &str| text.matches("smoking cabinet").count();
    assert_eq!(prose(&after["clubhouse.dwell"]), prose(&kitchen.files["clubhouse.dwell"]));

    for (new, why) in [
        ("oven", "already"),
        ("phase", "word of the language"),
        ("kg", "word of the language"),
        ("two words", "one word"),
        ("a,b", "one word"),
        ("", "one word"),
        ("\"x\"", "one word"),
        ("x // y", "one word"),
    ] {
        let mut rename = asked.clone();
        rename["newName"] = json!(new);
        let refused = client.response("textDocument/rename", rename).expect_err(new);
        assert!(refused.message.contains(why), "{new}: {}", refused.message);
    }
    let mut of_a_word = kitchen.asked("overnight-shoulder.dwell", "serves", 0);
    assert!(client.ask("textDocument/prepareRename", of_a_word.clone()).is_null());
    of_a_word["newName"] = json!("feeds");
    client.response("textDocument/rename", of_a_word).expect_err("a word of the language");
    client.leave();
}

fn findings(files: &BTreeMap<String, String>, name: &str, text: &str) -> Vec<(&'static str, usize)> {
    let all: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let options = Options { declared_only: true, ..Options::default() };
    let compiled = compile(&Memory(&all), name.into(), text.into(), &options);
    let line = |finding: &dwell::findings::Finding| {
        compiled.sources.get(finding.span.file).line_column(finding.span.start as usize).0
    };
    compiled.findings.iter().map(|finding| (finding.code.name(), line(finding))).collect()
}

#[test]
fn whatever_has_a_name_can_be_called_otherwise_and_nothing_else_changes() {
    let files: BTreeMap<String, String> = examples().into_iter().collect();
    let names: Vec<&String> = files.keys().collect();
    let texts: Vec<&str> = files.values().map(String::as_str).collect();
    let leads = |_: usize, named: &str| names.iter().position(|name| *name == named);
    let all = Texts::new(&texts, leads);
    let mut renamed = 0;
    for (n, text) in texts.iter().enumerate() {
        let (tree, _) = syntax::parse(FileId(n as u16), text);
        for piece in editor::pieces(&tree, text) {
            let Sort::Name { declares: true, .. } = piece.sort else { continue };
            let at = piece.span.start as usize;
            let edits = all
                .rename(n, at, "otherwise")
                .unwrap_or_else(|why| panic!("{why:?}: {}", &text[at..at + 20]));
            assert!(edits.iter().any(|edit| edit.span == piece.span));
            let mut after = files.clone();
            for (m, name) in names.iter().enumerate() {
                let own: Vec<Edit> =
                    edits.iter().filter(|edit| usize::from(edit.span.file.0) == m).cloned().collect();
                after.insert((*name).clone(), Edit::apply(texts[m], &own));
            }
            for name in &names {
                assert_eq!(
                    findings(&files, name, &files[*name]),
                    findings(&after, name, &after[*name]),
                    "{name} {edits:?}"
                );
            }
            // Where it is used is where it was used before: called back, it is the same text.
            let texts: Vec<&str> = after.values().map(String::as_str).collect();
            let back = Texts::new(&texts, leads);
            let same: usize = all.references(n, at, true).len();
            assert_eq!(back.references(n, at, true).len(), same, "{edits:?}");
            renamed += 1;
        }
    }
    assert!(renamed > 60, "{renamed}");
}

#[test]
fn a_new_name_is_refused_where_another_file_would_take_it_for_something_else() {
    let cook = "kit from \"near.dwell\"\nkit from \"far.dwell\"\nphase bake is cook\n  apples in smoker\n";
    let texts = [cook, "kit oven is oven\n", "kit smoker is smoking cabinet\n"];
    let leads = |_: usize, named: &str| match named {
        "near.dwell" => Some(1),
        "far.dwell" => Some(2),
        _ => None,
    };
    let all = Texts::new(&texts, leads);
    // The cook takes the first `smoker` it finds, and uses no `oven` at all.
    let oven = texts[1].find("oven").expect("its name");
    let refused = all.rename(1, oven, "smoker").expect_err("the cook would smoke in an oven");
    assert!(refused.0.contains("something else"), "{refused:?}");
    assert_eq!(all.rename(1, oven, "range").expect("a name of its own").len(), 1);
    let smoker = texts[2].find("smoker").expect("its name");
    assert_eq!(all.rename(2, smoker, "cupboard").expect("a name of its own").len(), 2);
}

#[cfg(unix)]
#[test]
fn a_link_that_leads_out_of_the_folder_is_not_followed() {
    let elsewhere = folder(&[("kitchen.dwell", "kit oven is oven\n")]);
    let inside = folder(&[]);
    std::os::unix::fs::symlink(elsewhere.path().join("kitchen.dwell"), inside.path().join("kitchen.dwell"))
        .expect("a link");
    let text = "cook \"x\"\nkit from \"kitchen.dwell\"\nphase bake is cook\n  apples in oven\n";
    let path = inside.path().join("cook.dwell");
    let mut client = Client::in_memory(inside.path());
    client.open(&path, text);
    let asked = json!({ "textDocument": { "uri": uri(&path) }, "position": place(text, "oven", 0) });
    assert!(client.ask("textDocument/definition", asked.clone()).is_null());
    assert_eq!(client.ask("textDocument/prepareRename", asked), Value::Null);
    client.leave();
}
