//! Logs of thermometers: what is read, and that nothing is too odd for a clear word at its place.

use dwell::log::{Log, read};
use dwell::text::Sources;
use proptest::prelude::*;

/// The log, and each finding as `code line:column`.
fn log(bytes: &[u8]) -> (Log, Vec<String>) {
    let mut sources = Sources::default();
    let (log, findings) = read(&mut sources, "log.csv".into(), bytes.to_vec());
    let place = |finding: &dwell::findings::Finding| {
        let (line, column) = sources.get(finding.span.file).line_column(finding.span.start as usize);
        format!("{} {line}:{column}", finding.code.name())
    };
    (log, findings.iter().map(place).collect())
}

#[test]
fn every_kind_of_column_is_read() {
    let (read, found) = log(b"elapsed_min,core_c,surface_f,note\n0,4,50,in\n1.5,,212,\r\n");
    assert_eq!(found, [""; 0]);
    assert_eq!(read.began, None);
    let rows: Vec<_> =
        read.rows.iter().map(|row| (row.t_s, row.core_c, row.surface_c, row.medium_c)).collect();
    assert_eq!(rows[0], (0.0, Some(4.0), Some(10.0), None));
    assert_eq!((rows[1].0, rows[1].1), (90.0, None));
    assert!((rows[1].2.expect("a figure") - 100.0).abs() < 1e-9);

    let text =
        "\u{feff}\"TIME\",medium_c\n2026-10-25T02:59:30+02:00,110\n\"2026-10-25T02:00:30+01:00\",111\n";
    let (read, found) = log(text.as_bytes());
    assert_eq!(found, [""; 0], "when summer time ends the offset tells");
    assert_eq!(read.rows.iter().map(|row| row.t_s).collect::<Vec<_>>(), [0.0, 60.0]);
    assert_eq!(read.began.expect("a time").to_rfc3339(), "2026-10-25T02:59:30+02:00");
}

#[test]
fn faults_are_told_at_their_place() {
    for (text, expected) in [
        ("", "log-unreadable 1:1"),
        ("core_c,surface_c\n1,2\n", "log-unreadable 1:1"),
        ("elapsed_s,weight\n1,2\n", "log-unreadable 1:1"),
        ("elapsed_s,core_c,core_f\n1,2,3\n", "log-unreadable 1:18"),
        ("elapsed_s,time,core_c\n", "log-unreadable 1:11"),
        ("elapsed_s,core_c\n", "log-unreadable 2:1"),
        ("elapsed_s,core_c\n0,1\n5,1,2\n", "log-row-unreadable 3:1"),
        ("elapsed_s,core_c\n0,1\n5,warm\n", "log-row-unreadable 3:3"),
        ("elapsed_s,core_c\n0,1\n5, NaN\n", "log-row-unreadable 3:4"),
        ("elapsed_s,core_c\n0,1\n5,inf\n", "log-row-unreadable 3:3"),
        ("elapsed_s,core_c\n0,1\ninf,2\n", "log-row-unreadable 3:1"),
        ("time,core_c\n2026-12-12T07:40:00Z,1\n07:41,2\n", "log-row-unreadable 3:1"),
        ("elapsed_s,core_c\n0,1\n60,2\n30,3\n", "log-out-of-order 4:1"),
        ("elapsed_s,core_c\n0,1\n600,1\n1201,2\n", "log-gap 4:1"),
        ("elapsed_s,core_c\n0,1\n5,-127\n", "sensor-implausible 3:3"),
        ("elapsed_s,core_f\n0,40\n5,6553.5\n", "sensor-implausible 3:3"),
    ] {
        assert_eq!(log(text.as_bytes()).1, [expected], "{text}");
    }
    assert_eq!(log(b"elapsed_s,core_c\n1,\xff2\n").1, ["log-unreadable 2:3"]);
}

#[test]
fn what_is_wrong_leaves_the_rest() {
    let (read, _) = log(b"elapsed_s,core_c,medium_c\n0,4,110\n10,x,111\n5,5,112\n20,5,999\n30,6\n40,7,113\n");
    let rows: Vec<_> = read.rows.iter().map(|row| (row.t_s, row.core_c, row.medium_c)).collect();
    assert_eq!(
        rows,
        [
            (0.0, Some(4.0), Some(110.0)),
            (10.0, None, Some(111.0)),
            (20.0, Some(5.0), None),
            (40.0, Some(7.0), Some(113.0)),
        ]
    );
}

#[test]
fn the_same_fault_on_every_row_is_told_ten_times() {
    let rows: String = (0..5000).map(|nth| format!("{nth},hot\n")).collect();
    let (read, found) = log(format!("elapsed_s,core_c\n{rows}").as_bytes());
    assert_eq!((read.rows.len(), found.len()), (5000, 10));
}

proptest! {
    #[test]
    fn nothing_makes_it_panic(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        log(&bytes);
    }

    #[test]
    fn no_table_makes_it_panic(
        text in "(elapsed_s|time|elapsed_min)?,(core_c|surface_f)?,?\"?\n([0-9eE+.\"\n\r,;é -]|NaN|inf|2026-12-12T07:40:00Z){0,80}"
    ) {
        let (log, _) = log(text.as_bytes());
        prop_assert!(log.rows.windows(2).all(|rows| rows[0].t_s <= rows[1].t_s));
    }
}
