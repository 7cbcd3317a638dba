//! The table of verdicts groups what is alike, and loses nothing of it.

mod common;

use std::collections::BTreeSet;

use dwell::compile::{Compiled, Options, compile};
use dwell::output::{json, verdicts};
use dwell::safety::{Judged, Verdict};

fn compiled(text: &str) -> Compiled {
    compile(&common::Memory(&[]), "test.dwell".into(), text.as_bytes().to_vec(), &Options::default())
}

/// Ham and rice go through the fridge twice and to the table, together; nothing is predicted of them.
const TWO: &str = "cook \"Cold table\"\n  serves 6\n  rules us-food-code\nkit bench is bench\nkit fridge is fridge\n  air 3 °C\n\
    food ham is cooked ham\n  1 kg\n  starts at 4 °C\nfood rice is cooked rice\n  1 kg\n  starts at 4 °C\n\
    phase keep is cold hold\n  ham and rice in fridge\n  for 1 day\nphase chill is cold hold\n  ham and rice in fridge\n  for 1 day\n\
    serve ham and rice\n  at Saturday 19:00, up to 15 min late\n";

/// The table as one line for each row: a row starts with its verdict, and goes on further in.
fn rows(table: &str) -> Vec<String> {
    let mut rows: Vec<String> = Vec::new();
    for line in table.lines().skip(1) {
        match line.strip_prefix("      ") {
            Some(more) => rows.last_mut().expect("a row").push_str(&format!(" {more}")),
            None => rows.push(line.trim().to_string()),
        }
    }
    rows
}

fn judged(file: &Compiled) -> Vec<Judged> {
    file.cooks().into_iter().flat_map(|worked| worked.judged.to_vec()).collect()
}

#[test]
fn one_row_for_each_rule_and_food_with_its_phases() {
    let file = compiled(TWO);
    let table = verdicts::table(&file);
    let rows = rows(&table);
    let cold: Vec<&String> = rows.iter().filter(|row| row.contains("us-fc.hold.cold")).collect();
    let [ham, rice] = cold.as_slice() else { panic!("{table}") };
    // What has to be added is another thing for each.
    for (row, food) in [(ham, "ham"), (rice, "rice")] {
        let starts = format!("not judged: us-fc.hold.cold {food} (keep, chill). Whether the food itself is");
        assert!(row.starts_with(&starts) && row.contains(&format!("say how thick `{food}` is")), "{row}");
        // What it met in the same phases stands in the same row.
        assert!(
            row.contains(" Met: 3 °C (37.4 °F) is the temperature around it")
                || row.contains(" Met: 3 °C is the temperature around it"),
            "{row}"
        );
    }
    assert!(
        rows.iter().any(|row| row.starts_with("not judged: us-fc.date.7d ham; rice (keep). ")),
        "{table}"
    );
    let pairs: Vec<(&str, &str)> = rows
        .iter()
        .flat_map(|row| {
            let (_, rest) = row.split_once(": ").expect("a verdict");
            let (rule, rest) = rest.split_once(' ').expect("a rule");
            ["ham (", "rice ("].into_iter().filter(|food| rest.contains(*food)).map(move |food| (rule, food))
        })
        .collect();
    let once: BTreeSet<_> = pairs.iter().collect();
    assert_eq!(once.len(), pairs.len(), "{table}");
}

#[test]
fn nothing_not_judged_is_lost() {
    for (name, text) in common::examples().into_iter().chain([("two".to_string(), TWO.to_string())]) {
        let files = common::examples();
        let files: Vec<(&str, &str)> =
            files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        let file = compile(&common::Memory(&files), name.clone(), text.into_bytes(), &Options::default());
        let table = verdicts::table(&file);
        let rows = rows(&table);
        for one in judged(&file).iter().filter(|one| one.verdict == Verdict::NotJudged) {
            let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
            let why = words(&one.why.render(file.scale));
            let shown = rows.iter().map(|row| words(row)).any(|row| {
                let named = |name: &Option<String>| name.as_deref().is_none_or(|name| row.contains(name));
                row.contains(&one.rule) && named(&one.food) && named(&one.phase) && row.contains(&why)
            });
            assert!(shown, "{name}: {one:#?}\n{table}");
        }
    }
}

#[test]
fn what_is_met_is_counted_and_what_is_said_of_a_food_comes_first() {
    // The rule for standing 6 h is said of a phase, and of no food.
    let file = compiled(TWO);
    let table = verdicts::table(&file);
    let rows = rows(&table);
    assert!(rows.iter().all(|row| !row.starts_with("met: us-")), "{table}");
    let met = judged(&file).iter().filter(|one| one.verdict == Verdict::Met).count();
    assert_eq!(
        rows.last().is_some_and(|row| row.starts_with("met: ") && row.contains("--format json")),
        met > 0
    );
    let of_food = |row: &String| row.contains("ham (") || row.contains("rice (");
    let listed: Vec<bool> = rows.iter().filter(|row| row.starts_with("not judged")).map(of_food).collect();
    assert!(listed.contains(&true), "{table}");
    assert!(listed.is_sorted_by_key(|of_food| !of_food), "{table}");
}

#[test]
fn json_has_a_row_for_every_judgement() {
    let file = compiled(TWO);
    let all = judged(&file);
    let mut report = json::Report::default();
    report.add(&file);
    let report: serde_json::Value = serde_json::from_str(&report.text()).expect("JSON");
    let rows = report["judged"].as_array().expect("rows");
    assert_eq!(rows.len(), all.len());
    for (row, one) in rows.iter().zip(&all) {
        assert_eq!(row["rule"], one.rule.as_str());
        assert_eq!(row["verdict"], one.verdict.name());
        assert_eq!(row["phase"].as_str(), one.phase.as_deref());
        assert_eq!(row["food"].as_str(), one.food.as_deref());
    }
}
