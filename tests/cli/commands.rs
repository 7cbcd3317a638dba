//! The other commands.

use std::process::{Command, Stdio};

use crate::support::{Folder, GOOD, TOO_COOL};

#[test]
fn new_writes_a_file_that_checks_clean_and_never_overwrites() {
    let folder = Folder::new();
    let ran = folder.run(&["new", "slow-lamb"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    let text = std::fs::read_to_string(folder.path("slow-lamb.dwell")).unwrap();
    assert!(text.contains("\"Slow lamb\""), "{text}");
    assert_eq!(folder.codes("slow-lamb.dwell"), (vec![], Some(0)));
    assert_eq!(folder.run(&["fmt", "--check", "slow-lamb.dwell"]).status, Some(0), "it is laid out");

    std::fs::write(folder.path("slow-lamb.dwell"), "mine").unwrap();
    let ran = folder.run(&["new", "slow-lamb"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("left alone"), "{}", ran.err);
    assert_eq!(std::fs::read_to_string(folder.path("slow-lamb.dwell")).unwrap(), "mine");
    assert_eq!(folder.names(), ["slow-lamb.dwell"]);

    assert_eq!(folder.run(&["new", "no/such/folder"]).status, Some(2));
    // A name with a quote in it cannot break out of the title.
    assert_eq!(folder.run(&["new", "a\" serves 9"]).status, Some(0));
    assert_eq!(folder.codes("a\" serves 9.dwell"), (vec![], Some(0)));
}

#[test]
fn explain_prints_every_section_and_suggests_the_nearest() {
    let folder = Folder::new();
    let ran = folder.run(&["explain", "file-missing"]);
    assert_eq!(ran.status, Some(0));
    for part in
        ["file-missing (error, names)", "WHAT IT CHECKS", "WHY", "BAD", "GOOD", "HOW TO MEND", "SOURCE"]
    {
        assert!(ran.out.contains(part), "{part}: {}", ran.out);
    }
    assert!(!ran.out.contains("```"), "{}", ran.out);
    let ran = folder.run(&["explain", "hold-to-cool"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("hold-too-cool"), "{}", ran.err);
}

#[test]
fn fmt_lays_out_in_place_and_check_only_names() {
    let untidy = GOOD.replace("  serves 4", "serves 4").replace("  apples on bench", "\tapples on bench");
    let folder = Folder::with("apples.dwell", &untidy);
    let ran = folder.run(&["fmt", "--check", "."]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(1), "apples.dwell\n"));
    assert_eq!(std::fs::read_to_string(folder.path("apples.dwell")).unwrap(), untidy);

    assert_eq!(folder.run(&["fmt", "apples.dwell"]).status, Some(0));
    assert_eq!(std::fs::read_to_string(folder.path("apples.dwell")).unwrap(), GOOD);
    assert_eq!(folder.run(&["fmt", "--check", "apples.dwell"]).status, Some(0));
    assert_eq!(folder.names(), ["apples.dwell"]);

    let ran = folder.run_with(&["fmt", "-"], untidy.as_bytes(), &[]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(0), GOOD));
    // What is not text is left alone.
    folder.file("odd.dwell", b"\xff");
    assert_eq!(folder.run(&["fmt", "odd.dwell"]).status, Some(1));
    assert_eq!(std::fs::read(folder.path("odd.dwell")).unwrap(), b"\xff");
}

#[cfg(unix)]
#[test]
fn fmt_keeps_permissions_and_links() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::with("real.dwell", GOOD.replace("  serves 4", "serves 4"));
    let mode = |name| std::fs::metadata(folder.path(name)).unwrap().permissions().mode() & 0o777;
    std::fs::set_permissions(folder.path("real.dwell"), PermissionsExt::from_mode(0o640)).unwrap();
    std::os::unix::fs::symlink("real.dwell", folder.path("link.dwell")).unwrap();
    assert_eq!(folder.run(&["fmt", "link.dwell"]).status, Some(0));
    assert_eq!(std::fs::read_to_string(folder.path("real.dwell")).unwrap(), GOOD);
    assert!(folder.path("link.dwell").is_symlink());
    assert_eq!(mode("real.dwell"), 0o640);
}

#[test]
fn tables_list_everything_and_one_in_full() {
    let folder = Folder::new();
    for (table, one) in [("rules", "us-food-code"), ("foods", "pork shoulder"), ("kit", "fan oven")] {
        let all = folder.run(&[table]);
        assert_eq!(all.status, Some(0), "{all:?}");
        assert!(all.out.contains(one), "{table}: {}", all.out);
        let entry = folder.run(&[table, one]);
        assert_eq!(entry.status, Some(0), "{entry:?}");
        assert!(entry.out.contains(one), "{table}: {}", entry.out);
        let unknown = folder.run(&[table, "no such thing at all"]);
        assert_eq!(unknown.status, Some(2), "{unknown:?}");
    }
    let near = folder.run(&["foods", "pork sholder"]);
    assert!(near.err.contains("pork shoulder"), "{near:?}");
}

#[test]
fn timeline_buy_and_prep_work_from_a_good_cook() {
    let folder = Folder::with("apples.dwell", GOOD);
    for (words, part) in [
        (&["timeline", "apples.dwell"][..], "slice"),
        (&["timeline", "--format", "json", "apples.dwell"], "\"dwell.timeline/1\""),
        (&["buy", "apples.dwell"], "apple"),
        (&["prep", "apples.dwell"], "apples"),
    ] {
        let ran = folder.run(words);
        assert_eq!(ran.status, Some(0), "{words:?}: {ran:?}");
        assert!(ran.out.contains(part), "{words:?}: {}", ran.out);
        let twice = folder.run(words);
        assert_eq!(ran.out, twice.out);
        let to_file = folder.run(&[words, &["-o", "out"]].concat());
        assert_eq!((to_file.status, to_file.out.as_str()), (Some(0), ""));
        assert_eq!(std::fs::read_to_string(folder.path("out")).unwrap(), ran.out);
    }
}

#[test]
fn a_timeline_is_a_calendar_once_it_has_a_date() {
    let folder = Folder::with("apples.dwell", GOOD);
    let calendar = ["timeline", "apples.dwell", "--format", "ics"];
    for undated in [&calendar[..], &[&calendar[..], &["--serve", "Saturday 13:00"]].concat()] {
        let ran = folder.run(&[undated, &["-o", "x.ics"]].concat());
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""), "{ran:?}");
        assert!(
            ran.err.contains("needs a date") && ran.err.contains("--serve \"2026-12-12 18:30\""),
            "{ran:?}"
        );
        assert!(!folder.path("x.ics").exists());
    }
    let dated = [&calendar[..], &["--serve", "2026-12-12 13:00 in Europe/Dublin"]].concat();
    let ran = folder.run(&dated);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert!(ran.out.starts_with("BEGIN:VCALENDAR\r\n"), "{}", ran.out);
    // Sliced in 5 to 10 min, not to be over before 13:00, served then or up to 15 min later.
    assert!(ran.out.contains("\r\nDTSTART:20261212T125500Z\r\nDTEND:20261212T131500Z\r\n"), "{}", ran.out);
    assert!(ran.out.contains("\r\nDTSTART:20261212T130000Z\r\nDTEND:20261212T131500Z\r\n"), "{}", ran.out);
    assert_eq!(folder.run(&dated).out, ran.out);
    let to_file = folder.run(&[&dated[..], &["-o", "apples.ics"]].concat());
    assert_eq!((to_file.status, to_file.out.as_str()), (Some(0), ""));
    assert_eq!(std::fs::read_to_string(folder.path("apples.ics")).unwrap(), ran.out);
}

#[test]
fn a_calendar_of_a_cook_with_errors_says_so_in_every_event() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    let ran = folder.run(&["timeline", "lamb.dwell", "--format", "ics", "--serve", "2026-12-12 19:00"]);
    assert_eq!(ran.status, Some(1), "{ran:?}");
    let count = |part: &str| ran.out.matches(part).count();
    assert_eq!(count("BEGIN:VEVENT"), 3);
    assert_eq!(count("\r\nSUMMARY:CAUTION\\, "), 3, "{}", ran.out);
    assert_eq!(count("\r\nDESCRIPTION:CAUTION: lamb.dwell has "), 3, "{}", ran.out);
}

#[test]
fn a_plan_goes_on_from_now() {
    let folder = Folder::with("apples.dwell", GOOD);
    // Sliced in 5 to 10 min, served at 13:00 or up to 15 min later.
    let going = folder.run(&["timeline", "apples.dwell", "--now", "12:58", "--started", "12:56"]);
    assert_eq!(going.status, Some(0), "{going:?}");
    assert!(going.out.contains("from now on") && going.out.contains("13:01 to 13:06"), "{}", going.out);
    let late = folder.run(&["timeline", "apples.dwell", "--now", "13:30"]);
    assert_eq!(late.status, Some(1), "{late:?}");
    assert!(late.err.contains("never-on-time"), "{}", late.err);
    let over = folder.run(&[
        "timeline",
        "apples.dwell",
        "--now",
        "12:58",
        "--done",
        "slice=12:57",
        "--format",
        "json",
    ]);
    assert!(over.out.contains("\"state\": \"done\"") && over.out.contains("\"now\""), "{}", over.out);
    let unknown = folder.run(&["timeline", "apples.dwell", "--now", "12:58", "--done", "slcie=12:57"]);
    assert_eq!(unknown.status, Some(1), "{unknown:?}");
    assert!(unknown.err.contains("slice"), "{}", unknown.err);
    for wrong in
        [&["--done", "slice=12:57"][..], &["--now", "noonish"], &["--now", "12:58", "--done", "slice"]]
    {
        let ran = folder.run(&[&["timeline", "apples.dwell"], wrong].concat());
        assert_eq!(ran.status, Some(2), "{wrong:?}: {ran:?}");
    }
}

#[test]
fn a_cook_with_an_error_is_not_handed_on_without_a_word() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    for words in [["timeline", "lamb.dwell"], ["buy", "lamb.dwell"], ["prep", "lamb.dwell"]] {
        let ran = folder.run(&words);
        assert_eq!(ran.status, Some(1), "{words:?}: {ran:?}");
        assert!(ran.err.contains("hold-too-cool"), "{words:?}: {}", ran.err);
        assert!(ran.out.contains("1 error"), "{words:?}: {}", ran.out);
    }
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let folder = Folder::with("lamb.dwell", TOO_COOL);
    for words in [&["foods"][..], &["schema"], &["check", "--format", "json", "lamb.dwell"], &["man"]] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_dwell"))
            .args(words)
            .current_dir(folder.path("."))
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // Nobody reads a byte of it.
        drop(child.stdout.take());
        let done = child.wait_with_output().unwrap();
        let said = String::from_utf8_lossy(&done.stderr);
        assert!(!said.contains("panicked") && !said.contains("Broken pipe"), "{words:?}: {said}");
        assert!(matches!(done.status.code(), Some(0 | 1)), "{words:?}: {:?}", done.status);
    }
}

#[test]
fn completions_and_the_manual_page_name_the_commands() {
    let folder = Folder::new();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let ran = folder.run(&["completions", shell]);
        assert_eq!(ran.status, Some(0));
        assert!(ran.out.contains("timeline") && ran.out.contains("explain"), "{shell}");
    }
    let page = folder.run(&["man"]);
    assert_eq!(page.status, Some(0));
    assert!(page.out.contains(".TH dwell 1") && page.out.contains("timeline"), "{}", page.out);
}
