//! `dwell curve`.

use crate::support::{Folder, GOOD, TOO_COOL, json};

#[test]
fn every_format_shows_the_lamb() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    let curve = |words: &[&str]| {
        let ran = folder.run(&[&["curve", "lamb.dwell"], words].concat());
        assert_eq!(ran.status, Some(1), "the cook has an error, and is drawn all the same: {ran:?}");
        ran.out
    };
    let text = curve(&[]);
    assert!(text.starts_with("CAUTION: lamb.dwell has 1 error."), "{text}");
    for part in
        ["Lamb left to wait: predicted temperatures", "lowest hot hold, FDA Food Code: 57 °C", "2 wait"]
    {
        assert!(text.contains(part), "{part}: {text}");
    }
    let table = curve(&["--format", "csv"]);
    assert!(table.starts_with("food,phase,t_s,medium_c,"), "{table}");
    assert!(table.lines().filter(|line| line.starts_with("lamb,wait,")).count() > 1, "{table}");
    let document = json(&curve(&["--format", "json"]));
    assert_eq!(document["format"], "dwell.curve/1");
    assert_eq!(document["foods"][0]["name"], "lamb");
    assert_eq!(document["foods"][0]["samples"][0]["core_c"], 5.0, "starts at 5 °C");
    assert!(curve(&["--format", "svg"]).starts_with("<svg "));
    assert!(curve(&["--fahrenheit"]).contains("lowest hot hold, FDA Food Code: 135 °F"));
    assert!(curve(&["--rules", "uk"]).contains(": 63 °C"));
}

#[test]
fn a_picture_goes_to_a_file() {
    let folder = Folder::with("apples.dwell", GOOD);
    let ran = folder.run(&["curve", "--format", "svg", "-o", "apples.svg", "apples.dwell"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(0), ""), "{ran:?}");
    assert_eq!(folder.names(), ["apples.dwell", "apples.svg"]);
}

#[test]
fn one_food_is_asked_for_by_name() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    assert!(folder.run(&["curve", "--food", "Lamb", "lamb.dwell"]).out.contains("lamb, predicted"));
    let ran = folder.run(&["curve", "--food", "mutton", "lamb.dwell"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(ran.err.contains("mutton") && ran.err.contains("there are: lamb"), "{}", ran.err);
}

#[test]
fn what_is_no_single_cook_or_not_understood_has_no_curve() {
    let folder = Folder::with("odd.dwell", GOOD.replace("serves 4", "serves many"));
    folder.file("apples.dwell", GOOD);
    folder.file("lamb.dwell", TOO_COOL.replace("air 48 °C", "air 63 °C"));
    folder.file(
        "menu.dwell",
        "menu \"Supper\"\n  serve at 13:00\n  dish \"apples.dwell\"\n  dish \"lamb.dwell\"\n",
    );
    let ran = folder.run(&["curve", "odd.dwell"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(1), ""));
    assert!(ran.err.contains("nothing is written"), "{}", ran.err);
    let ran = folder.run(&["curve", "menu.dwell"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""), "{ran:?}");
    assert!(ran.err.contains("that of a dish"), "{}", ran.err);
}
