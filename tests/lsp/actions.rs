//! Changes and layout, as a client asks for them.

use serde_json::{Value, json};

use crate::common::texts::{GOOD, TOO_COOL};
use crate::support::{Client, edited, folder, uri};

#[test]
fn a_cure_is_offered_with_its_finding_and_mends_it() {
    let folder = folder(&[]);
    let path = folder.path().join("lamb.dwell");
    let mut client = Client::over_pipes(folder.path());
    client.open(&path, TOO_COOL);
    let told = |client: &Client| {
        let message = client.shown.get(&uri(&path)).map(|shown| shown[0]["message"].clone());
        message.is_some_and(|message| message.as_str().is_some_and(|text| text.contains("Tried:")))
    };
    client.until(told);
    let finding = client.shown[&uri(&path)][0].clone();
    let ask = |only: Value| {
        let context = json!({ "diagnostics": [finding], "only": only });
        json!({ "textDocument": { "uri": uri(&path) }, "range": finding["range"], "context": context })
    };
    let offered = client.ask("textDocument/codeAction", ask(json!(["quickfix"])));
    assert_eq!(offered.as_array().map(Vec::len), Some(1), "{offered}");
    assert_eq!(offered[0]["diagnostics"], json!([finding]));
    let mended = edited(TOO_COOL, &offered[0]["edit"]["changes"][uri(&path)]);
    client.replace(&path, 2, &mended);
    client.until_codes(&path, &[]);
    let offered = client.ask("textDocument/codeAction", ask(json!(["refactor"])));
    assert_eq!(offered[0]["kind"], "refactor.rewrite");
    assert_eq!(client.ask("textDocument/codeAction", ask(json!(["source"]))), json!([]));
    client.leave();
}

#[test]
fn a_slip_is_mended_in_units_of_sixteen_bits() {
    let folder = folder(&[]);
    let path = folder.path().join("apples.dwell");
    let text = GOOD.replace("  starts at 18 °C", "  note \"🍏 é\", starts at 18");
    let mut client = Client::in_memory(folder.path());
    client.open(&path, &text);
    client.until_codes(&path, &["unit-missing"]);
    let range = client.shown[&uri(&path)][0]["range"].clone();
    let context = json!({ "diagnostics": [] });
    let asked = json!({ "textDocument": { "uri": uri(&path) }, "range": range, "context": context });
    let offered = client.ask("textDocument/codeAction", asked);
    let mended = edited(&text, &offered[0]["edit"]["changes"][uri(&path)]);
    assert_eq!(mended, text.replace("at 18", "at 18 °C"));
    client.leave();
}

#[test]
fn only_the_lines_that_were_chosen_are_laid_out() {
    let folder = folder(&[]);
    let path = folder.path().join("apples.dwell");
    let untidy = GOOD.replace("  ", "      ");
    let mut client = Client::in_memory(folder.path());
    client.open(&path, &untidy);
    let mut chosen = |from: (u32, u32), to: (u32, u32)| {
        let place = |(line, character)| json!({ "line": line, "character": character });
        let range = json!({ "start": place(from), "end": place(to) });
        let options = json!({ "tabSize": 2, "insertSpaces": true });
        let asked = json!({ "textDocument": { "uri": uri(&path) }, "range": range, "options": options });
        edited(&untidy, &client.ask("textDocument/rangeFormatting", asked))
    };
    let serves = untidy.replace("      serves", "  serves");
    // Whole lines are chosen up to where the next one starts, which is none of them.
    assert_eq!(chosen((1, 3), (2, 0)), serves);
    assert_eq!(chosen((1, 0), (2, 1)), serves.replace("      rules", "  rules"));
    // Nothing is chosen: the line that the cursor is on.
    assert_eq!(chosen((1, 0), (1, 0)), serves);
    client.leave();
}

#[test]
fn a_menu_and_its_dishes_are_files_of_their_own() {
    let folder = folder(&[]);
    let path = folder.path().join("lunch.dwell");
    let apples = GOOD.find("food apples").expect("the food");
    let text = format!(
        "{GOOD}\n{}",
        GOOD[apples..].replace("apples", "pears").replace("is apple", "is pear").replace("slice", "peel")
    );
    let can = json!({ "documentChanges": true, "resourceOperations": ["create"] });
    let mut client =
        Client::in_memory_with(folder.path(), json!({ "workspace": { "workspaceEdit": can } }), Value::Null);
    client.open(&path, &text);
    let title = json!({ "start": { "line": 0, "character": 2 }, "end": { "line": 0, "character": 2 } });
    let asked =
        json!({ "textDocument": { "uri": uri(&path) }, "range": title, "context": { "diagnostics": [] } });
    let offered = client.ask("textDocument/codeAction", asked.clone());
    let changes = offered[0]["edit"]["documentChanges"].as_array().expect("changes").clone();
    for name in ["lunch-kitchen.dwell", "lunch-apples.dwell", "lunch-pears.dwell"] {
        let file = uri(&folder.path().join(name));
        let of_it =
            |change: &&Value| change["uri"] == json!(file) || change["textDocument"]["uri"] == json!(file);
        let of_it: Vec<&Value> = changes.iter().filter(of_it).collect();
        assert_eq!(of_it[0]["kind"], "create");
        let text = of_it[1]["edits"][0]["newText"].as_str().expect("its text");
        std::fs::write(folder.path().join(name), text).expect("a file");
    }
    let menu = edited(&text, &changes.last().expect("the menu")["edits"]);
    assert!(menu.starts_with("menu "), "{menu}");
    // The files are there now: nothing would be written over them.
    assert_eq!(client.ask("textDocument/codeAction", asked.clone()), json!([]));
    client.replace(&path, 2, &menu);
    // Whatever is asked, what is declared has been checked before.
    assert!(client.ask("textDocument/codeAction", asked).is_array());
    assert!(client.shown.values().all(|shown| *shown == json!([])), "{:?}", client.shown);
    client.leave();
}
