//! `dwell probe`: logs of made-up cooks, each with one thing wrong.
//!
//! The limits are those of the FDA Food Code 2022: hot hold 57 °C (135 °F) 3-501.16(A)(1), cold hold 5 °C (41 °F)
//! 3-501.16(A)(2), cooling 57 °C to 21 °C (70 °F) in 2 h and to 5 °C in 6 h 3-501.14(A), poultry 74 °C (165 °F)
//! 3-401.11(A)(3), reheating for a hot hold 74 °C in 2 h 3-403.11; and of the come-up of 6 h between 50 and 130 °F, FSIS
//! Appendix A, 2021.

use std::fmt::Write;

use serde_json::Value;

use super::support::{Folder, GOOD, Ran};

const HEAD: &str = r#"cook "Stew after the regatta"
  serves 8
  rules us-food-code

kit oven is oven
  air 60 °C to 250 °C
kit fridge is fridge
kit probe is probe thermometer

food bird is chicken breast
  2 kg
  thickness 5 cm
  starts at 4 °C

"#;
const COOK: &str =
    "phase roast is cook\n  bird in oven\n  air 160 °C\n  until core 75 °C, takes 1 h to 3 h\n\n";
const HOLD: &str = "phase wait is hot hold\n  bird in oven\n  air 70 °C\n  for 1 h to 3 h\n\n";
const COOL: &str =
    "phase chill is cool\n  bird in fridge\n  air 3 °C\n  until core 5 °C, takes 3 h to 6 h\n\n";
const COLD: &str = "phase keep is cold hold\n  bird in fridge\n  air 3 °C\n  for 4 h to 24 h\n\n";
const REHEAT: &str =
    "phase warm is reheat\n  bird in oven\n  air 160 °C\n  until core 75 °C, takes 30 min to 3 h\n\n";
const SERVE: &str = "serve bird\n  at 19:00, up to 2 h late\n";

fn cook(phases: &[&str]) -> String {
    format!("{HEAD}{}{SERVE}", phases.concat())
}

/// A log with a reading every five minutes along straight lines between corners in minutes and °C.
fn log(corners: &[(f64, f64)]) -> String {
    let mut log = "elapsed_min,core_c\n".to_owned();
    let last = corners.last().expect("corners").0;
    for minute in (0..=last as u32).step_by(5) {
        let _ = writeln!(log, "{minute},{:.2}", on(corners, f64::from(minute)));
    }
    log
}

fn on(corners: &[(f64, f64)], minute: f64) -> f64 {
    let after = corners.iter().position(|(t, _)| *t >= minute).expect("in the log").max(1);
    let ((t0, c0), (t1, c1)) = (corners[after - 1], corners[after]);
    c0 + (c1 - c0) * (minute - t0) / (t1 - t0)
}

fn probe(cook: &str, log: &str, options: &[&str]) -> Ran {
    let folder = Folder::new();
    folder.file("bird.dwell", cook);
    folder.file("log.csv", log);
    folder.run(&[&["probe", "bird.dwell", "log.csv"], options].concat())
}

fn document(cook: &str, log: &str, options: &[&str]) -> (Value, Option<i32>) {
    let ran = probe(cook, log, &[options, &["--format", "json"]].concat());
    (serde_json::from_str(&ran.out).unwrap_or_else(|why| panic!("{why}: {ran:?}")), ran.status)
}

/// The codes of the findings, in their order.
fn codes(document: &Value) -> Vec<&str> {
    let findings = document["findings"].as_array().expect("findings");
    findings.iter().map(|finding| finding["code"].as_str().expect("a code")).collect()
}

fn verdict<'d>(document: &'d Value, rule: &str) -> &'d str {
    let judged = document["judged"].as_array().expect("verdicts");
    let row = judged.iter().find(|row| row["rule"] == rule);
    row.unwrap_or_else(|| panic!("{rule} is not in {judged:?}"))["verdict"].as_str().expect("a verdict")
}

const WHOLE: [(f64, f64); 8] = [
    (0.0, 4.0),
    (90.0, 78.0),
    (210.0, 66.0),
    (270.0, 20.0),
    (420.0, 4.0),
    (700.0, 4.0),
    (760.0, 78.0),
    (800.0, 78.0),
];

fn whole() -> String {
    cook(&[COOK, HOLD, COOL, COLD, REHEAT])
}

#[test]
fn a_log_that_meets_every_rule_says_so_and_no_more() {
    let (document, status) = document(&whole(), &log(&WHOLE), &[]);
    assert_eq!((codes(&document), status), (vec![], Some(0)));
    for rule in ["cook.165", "hold.hot", "cool.stage1", "cool.total", "hold.cold"] {
        assert_eq!(verdict(&document, &format!("us-fc.{rule}")), "met", "{rule}");
    }
    assert_eq!(document["format"], "dwell.probe/1");
    let stretches = document["foods"][0]["stretches"].as_array().expect("stretches");
    let aims: Vec<&str> = stretches.iter().filter_map(|stretch| stretch["aim"].as_str()).collect();
    assert_eq!(aims, ["cooking", "hot hold", "cooling", "cold hold", "reheating"]);
    // 75 °C on the way from 4 °C to 78 °C in 90 min: after 86 min, so at the reading after 90.
    assert_eq!(stretches[0]["end_s"], 5400.0);
    // Never a word of praise.
    let page = probe(&whole(), &log(&WHOLE), &[]).out.to_lowercase();
    assert!(!page.contains("safe"), "{page}");
    assert!(page.contains("one probe sees one place"), "{page}");
}

#[test]
fn each_aim_is_broken_by_its_own_fault() {
    let with = |nth: usize, corner: (f64, f64)| {
        let mut corners = WHOLE;
        corners[nth] = corner;
        corners
    };
    // 71 °C: never 74. The phases that follow are then found by the hottest moment.
    let raw = [(0.0, 4.0), (90.0, 71.0), (150.0, 60.0)];
    let (found, status) = document(&cook(&[COOK, HOLD]), &log(&raw), &["--done", "roast=90 min"]);
    assert_eq!((verdict(&found, "us-fc.cook.165"), status), ("broken", Some(1)));
    assert!(codes(&found).contains(&"cook-end-too-cool"), "{found:?}");

    let dip =
        [(0.0, 4.0), (90.0, 78.0), (150.0, 50.0), (170.0, 66.0), (210.0, 66.0), (270.0, 20.0), (420.0, 4.0)];
    let (found, _) = document(&cook(&[COOK, HOLD, COOL]), &log(&dip), &[]);
    assert_eq!(codes(&found), ["hold-too-cool"]);

    // 66 °C at 3 h 30 min to 30 °C at 6 h 30 min: 57 to 21 °C takes well over 2 h.
    let slow = [(0.0, 4.0), (90.0, 78.0), (210.0, 66.0), (390.0, 30.0), (420.0, 4.0)];
    let (found, _) = document(&cook(&[COOK, HOLD, COOL]), &log(&slow), &[]);
    assert_eq!(codes(&found), ["cool-too-slow"]);
    // 66 to 30 °C in 180 min passes 57 °C after 45 min; 30 to 4 °C in 30 min passes 21 °C after 10.4 min.
    let message = found["findings"][0]["message"].as_str().expect("a message");
    assert!(message.contains("measured 2 h 25 min") && message.contains("limit is 2 h"), "{message}");

    let warm = [(0.0, 4.0), (90.0, 78.0), (210.0, 66.0), (270.0, 20.0), (420.0, 4.0), (600.0, 9.0)];
    let (found, _) = document(&cook(&[COOK, HOLD, COOL, COLD]), &log(&warm), &[]);
    assert!(codes(&found).contains(&"hold-too-warm"), "{found:?}");

    let (found, _) =
        document(&cook(&[COOK, COOL, COLD, REHEAT, HOLD]), &log(&with(6, (900.0, 78.0))[..7]), &[]);
    assert!(codes(&found).contains(&"reheat-too-slow"), "{found:?}");
    let tepid = [&WHOLE[..6], &[(760.0, 66.0), (800.0, 66.0)]].concat();
    let (found, _) = document(&cook(&[COOK, COOL, COLD, REHEAT, HOLD]), &log(&tepid), &[]);
    assert!(codes(&found).contains(&"reheat-too-cool"), "{found:?}");

    // 4 to 78 °C in 15 h: 10 to 54.4 °C takes 9 h.
    let beef = cook(&[COOK]).replace("chicken breast", "beef topside").replace("us-food-code", "us-fsis");
    let (found, _) = document(&beef, &log(&[(0.0, 4.0), (900.0, 78.0)]), &[]);
    assert!(codes(&found).contains(&"time-without-control"), "{found:?}");
}

#[test]
fn what_falls_into_a_gap_is_not_judged() {
    let whole_log = log(&WHOLE);
    let without = |from: u32, to: u32| {
        let kept = |line: &&str| {
            let minute = line.split(',').next().and_then(|minute| minute.parse::<u32>().ok());
            minute.is_none_or(|minute| !(from..to).contains(&minute))
        };
        whole_log.lines().filter(kept).collect::<Vec<_>>().join("\n") + "\n"
    };
    // In the hot hold.
    let (found, status) = document(&whole(), &without(120, 180), &[]);
    assert_eq!((codes(&found), status), (vec!["log-gap"], Some(0)));
    assert_eq!(verdict(&found, "us-fc.hold.hot"), "not-judged");
    assert_eq!(verdict(&found, "us-fc.cook.165"), "met", "heat that was measured counts");
    assert_eq!(found["foods"][0]["gaps"], true);
    assert!(found["foods"][0]["microbes"][0]["growth_log10"].is_null());
    // In the cooling.
    let (found, _) = document(&whole(), &without(225, 265), &[]);
    assert_eq!(verdict(&found, "us-fc.cool.stage1"), "not-judged");
    // What is broken beside the gap stays broken: the dip is measured.
    let dip = [(0.0, 4.0), (90.0, 78.0), (150.0, 50.0), (170.0, 66.0), (240.0, 66.0)];
    let dipped = log(&dip);
    let gap = dipped.lines().filter(|line| !line.starts_with("19") && !line.starts_with("20"));
    let (found, status) = document(&cook(&[COOK, HOLD]), &(gap.collect::<Vec<_>>().join("\n") + "\n"), &[]);
    assert_eq!(status, Some(1));
    assert!(codes(&found).contains(&"log-gap") && codes(&found).contains(&"hold-too-cool"), "{found:?}");
}

#[test]
fn fahrenheit_seconds_and_what_is_out_of_order_change_nothing() {
    let (plain, _) = document(&whole(), &log(&WHOLE), &[]);
    let mut other = "elapsed_s,core_f\n".to_owned();
    for line in log(&WHOLE).lines().skip(1) {
        let (minute, celsius) = line.split_once(',').expect("two columns");
        let (minute, celsius): (f64, f64) = (minute.parse().expect("min"), celsius.parse().expect("°C"));
        let _ = writeln!(other, "{},{:.3}", minute * 60.0, celsius * 1.8 + 32.0);
    }
    let (fahrenheit, _) = document(&whole(), &other, &[]);
    let verdicts = |document: &Value| -> Vec<(String, String)> {
        let rows = document["judged"].as_array().expect("verdicts").iter();
        rows.map(|row| (row["rule"].to_string(), row["verdict"].to_string())).collect()
    };
    assert_eq!(verdicts(&plain), verdicts(&fahrenheit));
    let jumbled = log(&WHOLE).replace("\n300,", "\n10,99\n300,");
    let (found, status) = document(&whole(), &jumbled, &[]);
    assert_eq!((codes(&found), status), (vec!["log-out-of-order"], Some(0)));
    assert_eq!(verdicts(&plain), verdicts(&found));
}

#[test]
fn the_findings_of_the_log_come_first() {
    let raw = log(&[(0.0, 4.0), (90.0, 66.0), (150.0, 40.0)]).replace("\n45,", "\n3,4\n45,");
    let ran = probe(&cook(&[COOK, HOLD]), &raw, &[]);
    let place = |what: &str| ran.err.find(what).unwrap_or_else(|| panic!("{what} is not in {}", ran.err));
    assert!(place("log-out-of-order") < place("cook-end-too-cool"), "{}", ran.err);
    assert_eq!(ran.status, Some(1));
}

#[test]
fn a_log_that_ends_early_meets_no_hold() {
    let early = log(&[(0.0, 4.0), (90.0, 78.0), (100.0, 77.0)]);
    let (found, status) = document(&cook(&[COOK, HOLD]), &early, &[]);
    assert_eq!((codes(&found), status), (vec!["log-ends-early"], Some(0)));
    assert_eq!(verdict(&found, "us-fc.hold.hot"), "not-judged");
    let (found, _) = document(&whole(), &early, &[]);
    assert_eq!(found["foods"][0]["not_in_log"].as_array().map(Vec::len), Some(3));
}

#[test]
fn logs_that_say_nothing_are_errors_and_never_a_verdict() {
    for nothing in
        ["", "elapsed_min,core_c\n", "elapsed_min,medium_c\n0,4\n5,4\n", "elapsed_min,core_c\n0,\n5,\n"]
    {
        let (found, status) = document(&whole(), nothing, &[]);
        assert_eq!((codes(&found), status), (vec!["log-unreadable"], Some(1)), "{nothing:?}");
        assert_eq!(found["judged"].as_array().map(Vec::len), Some(0));
    }
}

/// Clocks in Dublin go back at 02:00 on 25 October 2026 (Directive 2000/84/EC: the last Sunday of October at 01:00 UTC).
#[test]
fn a_log_with_times_of_day_goes_on_across_a_change_of_clocks() {
    let mut timed = "time,core_c\n".to_owned();
    let start = chrono::DateTime::parse_from_rfc3339("2026-10-24T22:00:00+01:00").expect("a time");
    let change = chrono::DateTime::parse_from_rfc3339("2026-10-25T01:00:00Z").expect("a time");
    for line in log(&WHOLE).lines().skip(1) {
        let (minute, celsius) = line.split_once(',').expect("two columns");
        let at = start + chrono::TimeDelta::minutes(minute.parse().expect("minutes"));
        let offset = chrono::FixedOffset::east_opt(if at < change { 3600 } else { 0 }).expect("an offset");
        let _ = writeln!(timed, "{},{celsius}", at.with_timezone(&offset).to_rfc3339());
    }
    let (found, status) = document(&whole(), &timed, &[]);
    assert_eq!((codes(&found), status), (vec![], Some(0)));
    let stretches = found["foods"][0]["stretches"].as_array().expect("stretches");
    assert_eq!(stretches[4]["end_s"], 48_000.0);
    // The hold over at 00:30 summer time, which is 150 min after the start: on the log's clock.
    let (found, _) = document(&whole(), &timed, &["--done", "wait=00:30"]);
    assert_eq!(found["foods"][0]["stretches"][1]["end_s"], 9_000.0);
}

#[test]
fn whoever_was_there_may_say_which_part_is_which() {
    let held = log(&[(0.0, 66.0), (120.0, 66.0)]);
    let (found, status) = document(&whole(), &held, &["--phase", "wait"]);
    assert_eq!((verdict(&found, "us-fc.hold.hot"), status), ("met", Some(0)));
    assert_eq!(found["judged"].as_array().map(Vec::len), Some(1));
    let (found, _) = document(&whole(), &log(&WHOLE), &["--done", "roast=100 min", "--done", "wait=3 h"]);
    let stretches = found["foods"][0]["stretches"].as_array().expect("stretches");
    assert_eq!((&stretches[0]["end_s"], &stretches[1]["end_s"]), (&6000.0.into(), &10_800.0.into()));
    assert_eq!(stretches[0]["because"], "as you said");
    for wrong in [
        ["--phase", "nap"],
        ["--done", "nap=1 h"],
        ["--done", "roast"],
        ["--done", "roast=soon"],
        ["--food", "fish"],
    ] {
        let ran = probe(&whole(), &held, &wrong);
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""), "{wrong:?}");
        assert!(ran.err.starts_with("dwell: "), "{}", ran.err);
    }
}

/// Half of the bird becomes another food and is warmed early: the probe is in that half, and what is done to the rest is
/// not looked for in its log.
#[test]
fn a_probe_stays_in_the_part_that_becomes_another_food() {
    let early = "phase warm-early is reheat\n  half of bird in oven\n  becomes early\n  air 160 °C\n  until core 75 °C, takes 30 min to 3 h\n\n";
    let late =
        "phase keep-late is cold hold\n  the rest of bird in fridge\n  air 3 °C\n  for 1 h to 24 h\n\n";
    let serve = "serve early\n  at 12:00, up to 2 h late\n\n";
    let (found, _) = document(&cook(&[COOK, HOLD, COOL, COLD, early, late, serve]), &log(&WHOLE), &[]);
    let stretches = found["foods"][0]["stretches"].as_array().unwrap_or_else(|| panic!("{found}"));
    let phases: Vec<&str> = stretches.iter().filter_map(|stretch| stretch["phases"].as_str()).collect();
    assert_eq!(phases, ["roast", "wait", "chill", "keep", "warm-early"]);
    assert_eq!(found["foods"][0]["not_in_log"].as_array().map(Vec::len), Some(0));
}

#[test]
fn a_cook_without_heat_or_cold_has_nothing_to_judge() {
    let ran = probe(GOOD, &log(&WHOLE), &[]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("no food of this cook"), "{}", ran.err);
}

/// Some 11 days of a reading each second, near the longest log that is read.
#[test]
fn a_million_rows_are_judged() {
    let mut long = "elapsed_s,core_c\n".to_owned();
    for second in 0..1_000_000 {
        let _ = writeln!(long, "{second},66");
    }
    let began = std::time::Instant::now();
    let (found, status) = document(&whole(), &long, &["--phase", "wait"]);
    assert_eq!((verdict(&found, "us-fc.hold.hot"), status), ("met", Some(0)));
    println!("a million rows: {:?}", began.elapsed());
}

#[test]
fn the_schema_describes_the_document() {
    let ran = Folder::new().run(&["schema", "probe"]);
    let schema: Value = serde_json::from_str(&ran.out).expect("a schema");
    let (document, _) = document(&whole(), &log(&WHOLE), &[]);
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    assert!(validator.is_valid(&document), "{document}");
}
