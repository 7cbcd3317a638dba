//! The ledger, the buying list and the prep list of the examples.

mod common;

use dwell::cook::{Cook, Document};
use dwell::findings::Severity;
use dwell::ledger::{balance, scale};
use dwell::output::{buy, prep};
use dwell::quantity::Scale;

/// Every cook of the examples, by file name; menus are left out.
fn cooks() -> Vec<(String, Cook)> {
    let all = common::examples();
    let texts: Vec<(&str, &str)> = all.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let one = |(name, text): &(String, String)| {
        let mut files = vec![(name.as_str(), text.as_str())];
        files.extend(&texts);
        match common::resolve_files(&files).1 {
            Some(Document::Cook(cook)) => Some((name.clone(), *cook)),
            _ => None,
        }
    };
    all.iter().filter_map(one).collect()
}

#[test]
fn the_examples_balance() {
    let mut said = String::new();
    for (name, cook) in cooks() {
        for finding in balance(&cook).1 {
            assert_ne!(finding.severity, Severity::Error, "{name}: {}", finding.code.name());
            said += &format!("{name}: {}: {}\n", finding.code.name(), finding.message.render(Scale::Celsius));
        }
    }
    insta::assert_snapshot!("what_is_said_of_the_examples", said);
}

#[test]
fn what_to_buy_and_prepare() {
    for (name, cook) in cooks() {
        let (ledger, _) = balance(&cook);
        let list = buy::text(&buy::list(&[&cook]));
        let work = prep::text(&prep::list(&[(&cook, &ledger)]));
        for line in list.lines().chain(work.lines()) {
            assert!(line.chars().count() <= 80, "{line}");
        }
        insta::assert_snapshot!(format!("{}_on_paper", name.replace('.', "_")), format!("{list}\n{work}"));
    }
}

#[test]
fn the_supper_for_forty_is_one_list() {
    let mut all = cooks();
    all.retain(|(name, _)| {
        ["overnight-shoulder.dwell", "baked-beans.dwell", "roast-celeriac.dwell"].contains(&name.as_str())
    });
    for (_, cook) in &mut all {
        assert!(scale(cook, 40).iter().all(|finding| finding.severity != Severity::Error));
        let (_, findings) = balance(cook);
        assert!(findings.iter().all(|finding| finding.severity == Severity::Note), "{findings:#?}");
    }
    let cooks: Vec<&Cook> = all.iter().map(|(_, cook)| cook).collect();
    insta::assert_snapshot!("supper_for_forty_to_buy", buy::text(&buy::list(&cooks)));
}

#[test]
fn any_number_of_people_balances() {
    for people in [1, 3, 7, 23, 100, 333] {
        for (name, mut cook) in cooks() {
            scale(&mut cook, people);
            for finding in balance(&cook).1 {
                let said = finding.message.render(Scale::Celsius);
                assert_eq!(finding.severity, Severity::Note, "{name} for {people}: {said}");
            }
        }
    }
}

#[test]
fn the_lists_are_json_with_units_in_their_keys() {
    let all = cooks();
    let (_, cook) = all.iter().find(|(name, _)| name == "overnight-shoulder.dwell").expect("the example");
    let (ledger, _) = balance(cook);
    insta::assert_json_snapshot!("shoulder_to_buy", buy::list(&[cook]));
    insta::assert_json_snapshot!("shoulder_to_prepare", prep::list(&[(cook, &ledger)]));
}
