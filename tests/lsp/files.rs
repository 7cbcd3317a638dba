//! Several files, saved and not.

use std::fs;

use serde_json::json;

use crate::common::texts::{GOOD, TOO_COOL};
use crate::support::{Client, folder, uri};

/// The lamb, with its kit in another file.
fn with_kitchen() -> (String, String) {
    let kit = "kit oven is oven\n  air 40 °C to 250 °C\n";
    assert!(TOO_COOL.contains(kit));
    (TOO_COOL.replace(kit, "kit from \"kitchen.dwell\"\n").replace("air 48", "air 70"), kit.to_owned())
}

#[test]
fn a_finding_is_shown_under_the_file_that_it_lies_in_and_an_open_kitchen_counts_as_it_stands() {
    let (cook, kitchen) = with_kitchen();
    let folder = folder(&[("lamb.dwell", &cook), ("kitchen.dwell", &kitchen)]);
    let [lamb, kit] = ["lamb.dwell", "kitchen.dwell"].map(|name| folder.path().join(name));
    let mut client = Client::in_memory(folder.path());
    client.open(&lamb, &cook);
    client.open(&kit, &kitchen.replace("is oven", "is ovn"));
    client.until_codes(&kit, &["kit-class-unknown"]);
    // The oven goes no lower than 100 °C: the cook that names it is at fault.
    client.replace(&kit, 2, &kitchen.replace("40 °C", "100 °C"));
    client.until_codes(&lamb, &["setting-out-of-range"]);
    assert!(client.codes(&kit).is_empty());
    // Closed without saving, it is again what is on disk.
    client.close(&kit);
    client.until_codes(&lamb, &[]);
    client.leave();
}

#[test]
fn a_kitchen_that_is_written_anew_on_disk_is_read_anew() {
    let (cook, kitchen) = with_kitchen();
    let folder = folder(&[]);
    let [lamb, kit] = ["lamb.dwell", "kitchen.dwell"].map(|name| folder.path().join(name));
    let watching = json!({ "workspace": { "didChangeWatchedFiles": { "dynamicRegistration": true } } });
    let mut client = Client::in_memory_with(folder.path(), watching, json!(null));
    client.open(&lamb, &cook);
    client.until_codes(&lamb, &["file-missing"]);
    assert_eq!(client.requests[0].method, "client/registerCapability");
    let changed = |client: &Client, path| {
        client
            .tell("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": uri(path), "type": 1 }] }));
    };
    fs::write(&kit, kitchen).expect("a kitchen");
    changed(&client, &kit);
    client.until_codes(&lamb, &[]);
    // What the folder lays down counts too.
    let own = folder.path().join("dwell.toml");
    fs::write(&own, "rules = \"no-such-set\"\n").expect("a project file");
    changed(&client, &own);
    client.until_codes(&own, &["rules-unknown"]);
    fs::remove_file(&own).expect("it goes");
    changed(&client, &own);
    client.until_codes(&own, &[]);
    client.leave();
}

#[test]
fn the_dishes_of_a_menu_are_read_as_they_stand_in_the_editor() {
    let menu = "menu \"Supper\"\n  serve at 2026-12-12 18:30 in UTC\ndish \"apples.dwell\"\n";
    let folder = folder(&[("supper.dwell", menu), ("apples.dwell", GOOD)]);
    let [supper, apples] = ["supper.dwell", "apples.dwell"].map(|name| folder.path().join(name));
    let mut client = Client::in_memory(folder.path());
    client.open(&supper, menu);
    client.open(&apples, &GOOD.replace("18 °C", "18"));
    client.until_codes(&apples, &["unit-missing"]);
    client.close(&apples);
    client.until_codes(&apples, &[]);
    client.leave();
}

#[test]
fn nothing_outside_the_folder_is_read() {
    let (cook, kitchen) = with_kitchen();
    let outside = folder(&[("kitchen.dwell", &kitchen)]);
    let folder = folder(&[]);
    let path = folder.path().join("lamb.dwell");
    let mut client = Client::in_memory(folder.path());
    let kit = outside.path().join("kitchen.dwell");
    // Not even where it is open.
    client.open(&kit, &kitchen);
    for name in [
        kit.to_string_lossy().into_owned(),
        format!("../{}/kitchen.dwell", outside.path().file_name().expect("a name").to_string_lossy()),
    ] {
        client.open(&path, &cook.replace("kitchen.dwell", &name));
        client.until_codes(&path, &["file-outside"]);
        client.close(&path);
        client.until_codes(&path, &[]);
    }
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(&kit, folder.path().join("kitchen.dwell")).expect("a link");
        client.open(&path, &cook);
        client.until_codes(&path, &["file-outside"]);
    }
    client.leave();
}

#[test]
fn a_wider_folder_that_is_open_lets_a_file_name_its_neighbours() {
    let (cook, kitchen) = with_kitchen();
    let folder = folder(&[("kitchen.dwell", &kitchen)]);
    fs::create_dir(folder.path().join("cooks")).expect("a folder");
    let path = folder.path().join("cooks/lamb.dwell");
    let mut client = Client::in_memory(folder.path());
    client.open(&path, &cook.replace("kitchen.dwell", "../kitchen.dwell").replace("air 70", "air 48"));
    client.until_codes(&path, &["hold-too-cool"]);
    client.leave();
}

#[cfg(unix)]
#[test]
fn a_file_is_called_what_the_client_calls_it() {
    let (real, elsewhere) = (folder(&[]), folder(&[]));
    let linked = elsewhere.path().join("linked");
    std::os::unix::fs::symlink(real.path(), &linked).expect("a link");
    let path = linked.join("lamb.dwell");
    fs::write(&path, TOO_COOL).expect("a file");
    let mut client = Client::in_memory(&linked);
    client.open(&path, TOO_COOL);
    client.until_codes(&path, &["hold-too-cool"]);
    assert_eq!(client.shown.len(), 1);
    client.leave();
}
