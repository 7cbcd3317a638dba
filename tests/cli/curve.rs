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

/// Two dishes, of which one has an error.
fn menu() -> Folder {
    let folder = Folder::with("apples.dwell", GOOD);
    folder.file("lamb.dwell", TOO_COOL);
    folder.file(
        "menu.dwell",
        "menu \"Supper\"\n  serve at 19:00\n  dish \"apples.dwell\"\n  dish \"lamb.dwell\"\n  dish \"lamb.dwell\"\n",
    );
    folder
}

#[test]
fn what_is_not_understood_has_no_curve() {
    let folder = Folder::with("odd.dwell", GOOD.replace("serves 4", "serves many"));
    let ran = folder.run(&["curve", "odd.dwell"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(1), ""));
    assert!(ran.err.contains("nothing is written"), "{}", ran.err);
    folder.file("kit.dwell", "kit bench is bench\n");
    let ran = folder.run(&["curve", "kit.dwell"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(ran.err.contains("there is no cook"), "{}", ran.err);
}

#[test]
fn the_dishes_of_a_menu_are_shown_one_after_the_other() {
    let folder = menu();
    let text = folder.run(&["curve", "menu.dwell"]).out;
    assert!(text.starts_with("CAUTION: menu.dwell has "), "{text}");
    for title in ["Apples for the crew: predicted temperatures", "Lamb left to wait: predicted temperatures"]
    {
        assert!(text.contains(title), "{title}: {text}");
    }
    let document = json(&folder.run(&["curve", "--format", "json", "menu.dwell"]).out);
    assert_eq!(document["format"], "dwell.curve/1");
    let alone = json(&folder.run(&["curve", "--format", "json", "lamb.dwell"]).out);
    let foods = document["foods"].as_array().expect("foods");
    let lamb = foods.iter().find(|food| food["name"] == "Lamb left to wait: lamb").expect("the lamb");
    assert_eq!(lamb["samples"], alone["foods"][0]["samples"], "on the dish's own clock");
    let phases = document["phases"].as_array().expect("phases");
    assert!(phases.iter().any(|phase| phase["name"] == "Lamb left to wait: wait"), "{phases:?}");
    let table = folder.run(&["curve", "--format", "csv", "menu.dwell"]).out;
    assert!(table.contains("\nLamb left to wait: lamb,Lamb left to wait: wait,"), "{table}");
    assert_eq!(table.matches("food,phase").count(), 1);
    let picture = folder.run(&["curve", "--format", "svg", "menu.dwell"]).out;
    assert_eq!(picture.matches("<svg ").count(), 1);
    assert!(picture.contains(">Supper<") && picture.contains(">Lamb left to wait<"), "{picture}");
    // One food, in whichever dish it is.
    let one = json(&folder.run(&["curve", "--format", "json", "--food", "apples", "menu.dwell"]).out);
    assert!(one["foods"].as_array().into_iter().flatten().all(|food| food["name"] != "lamb"), "{one}");
    let ran = folder.run(&["curve", "--food", "mutton", "menu.dwell"]);
    assert!(ran.status == Some(2) && ran.err.contains("lamb"), "{ran:?}");
}

#[test]
fn a_probe_reads_one_dish() {
    let ran = menu().run(&["curve", "--core", "2 h = 40 °C", "menu.dwell"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""), "{ran:?}");
    assert!(ran.err.contains("name the file of that dish"), "{}", ran.err);
}

#[test]
fn a_picture_warns_like_the_page() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    let caution = "CAUTION: lamb.dwell has 1 error. Do not cook from this before `dwell check` finds none.";
    for format in ["text", "svg"] {
        let shown = folder.run(&["curve", "--format", format, "lamb.dwell"]).out;
        assert!(shown.contains(caution), "{format}: {shown}");
    }
    // What the forecast itself doubts: nobody roasts this in a quarter of an hour.
    folder.file(
        "quick.dwell",
        TOO_COOL.replace("air 48 °C", "air 63 °C").replace("1 h 45 min to 3 h", "10 min to 15 min"),
    );
    for format in ["text", "svg"] {
        let ran = folder.run(&["curve", "--format", format, "quick.dwell"]);
        let shown = ran.out.replace('\n', " ");
        assert_eq!(ran.status, Some(0), "{ran:?}");
        assert!(shown.contains("CAUTION in roast: The prediction does not fit"), "{format}: {shown}");
    }
    // In a menu, every dish may have a phase that is called `roast`.
    folder.file("menu.dwell", "menu \"Supper\"\n  serve at 19:00\n  dish \"quick.dwell\"\n");
    for format in ["text", "svg"] {
        let shown = folder.run(&["curve", "--format", format, "menu.dwell"]).out.replace('\n', " ");
        let caution = "CAUTION in roast of Lamb left to wait: The prediction does not fit";
        assert!(shown.contains(caution), "{format}: {shown}");
    }
}

/// The lamb with a plan that starts at any time in a quarter of an hour or more.
#[test]
fn a_clock_time_needs_the_start_and_says_so() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    let found = |words: &[&str]| folder.run(&[&["curve", "lamb.dwell", "--format", "json"], words].concat());
    let elapsed = found(&["--core", "1 h = 21 °C"]);
    assert_eq!(json(&elapsed.out)["foods"][0]["readings"][0]["t_s"], 3600.0);
    let started = found(&["--core", "Sat 07:40 = 21 °C", "--started", "Sat 06:40"]);
    assert_eq!(json(&started.out)["foods"][0]["readings"][0]["t_s"], 3600.0, "{started:?}");
    let night = found(&["--core", "Sat 00:10 = 21 °C", "--started", "Friday 23:10"]);
    assert_eq!(json(&night.out)["foods"][0]["readings"][0]["t_s"], 3600.0, "{night:?}");
    let text = folder.run(&["curve", "lamb.dwell", "--core", "1 h = 21 °C"]).out;
    assert!(text.contains("The last reading, after 1 h") && text.contains("o what the probe read"), "{text}");
    // The start that was given is the start on the clock, and the plan says that it is for another.
    let given = ["--core", "1 h = 21 °C", "--started", "Sat 06:41"];
    let text = folder.run(&[&["curve", "lamb.dwell"], &given[..]].concat()).out;
    assert!(text.contains("1 h (07:41)") && text.contains("the start that was given, 06:41"), "{text}");
    let plan = folder.run(&[&["timeline", "lamb.dwell"], &given[..]].concat()).out;
    assert!(plan.contains("1 reading of `") && plan.contains("not for the one that was given"), "{plan}");
    let odd = found(&["--core", "1 h = 21 °C", "--started", "yesterday"]);
    assert!(
        odd.err.contains("`yesterday` is not a time of day") && !odd.err.contains("serve"),
        "{}",
        odd.err
    );
    folder.file("air.csv", "elapsed_min,medium_c\n0,120\n10,121\n");
    assert!(found(&["--readings", "air.csv"]).err.contains("no temperature of the core"));
    let bad = found(&["--core", "soon = 21 °C"]);
    assert_eq!(bad.status, Some(2));
    assert!(bad.err.contains("--core"), "{}", bad.err);
}

#[test]
fn a_log_is_read_and_its_faults_are_told() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    folder.file("log.csv", "elapsed_min,core_c\n0,5\n10,5.2\n20,x\n30,8\n");
    let ran = folder.run(&["curve", "lamb.dwell", "--format", "json", "--readings", "log.csv"]);
    assert!(ran.err.contains("log-row-unreadable") && ran.err.contains("log.csv:4"), "{}", ran.err);
    assert_eq!(json(&ran.out)["foods"][0]["readings"].as_array().expect("readings").len(), 3);
    let ran = folder.run(&["curve", "lamb.dwell", "--readings", "none.csv"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    folder.file("clock.csv", "time,core_c\n2026-12-12T06:40:00+01:00,5\n2026-12-12T06:50:00+01:00,5.2\n");
    let started = ["--started", "2026-12-12T06:30:00+01:00"];
    let ran = folder.run(
        &[&["curve", "lamb.dwell", "--format", "json", "--readings", "clock.csv"], &started[..]].concat(),
    );
    assert_eq!(json(&ran.out)["foods"][0]["readings"][0]["t_s"], 600.0, "{ran:?}");
}
