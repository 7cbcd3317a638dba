//! The examples under their own rules: good ones without an error, and what is said of each.

mod common;

use dwell::cook::Document;
use dwell::findings::Severity;
use dwell::quantity::Scale;
use dwell::safety::{Verdict, Verdicts, judge};

fn example(name: &str) -> (dwell::text::Sources, Verdicts) {
    let all = common::examples();
    let text = &all.iter().find(|(file, _)| file == name).expect("an example").1;
    let mut files = vec![(name, text.as_str())];
    files.extend(all.iter().map(|(name, text)| (name.as_str(), text.as_str())));
    let (sources, document, _) = common::resolve_files(&files);
    let Some(Document::Cook(cook)) = document else { panic!("{name} is no cook") };
    (sources, judge(&cook, common::rules_of(&cook), &common::forecast(&cook)))
}

/// Every cook of the examples but the one that is wrong on purpose.
const GOOD: [&str; 6] = [
    "baked-beans.dwell",
    "chilli.dwell",
    "overnight-shoulder.dwell",
    "roast-celeriac.dwell",
    "short-rib.dwell",
    "turkey-crown.dwell",
];

/// Where only the coldest that all tolerances together allow misses a rule: in each the food waits bare, or lies cut up
/// on the bench, before or in a hot hold.
const IN_DOUBT: [(&str, &str, &str); 3] = [
    ("overnight-shoulder.dwell", "hold-entered-cold", "keep"),
    ("roast-celeriac.dwell", "hold-too-cool", "rest"),
    ("turkey-crown.dwell", "hold-too-cool", "keep-crisp"),
];

#[test]
fn good_examples_raise_no_error_and_the_doubts_that_they_deserve() {
    let mut doubts = Vec::new();
    for name in GOOD {
        let (_, verdicts) = example(name);
        for finding in &verdicts.findings {
            let message = finding.message.render(Scale::Celsius);
            assert_eq!(finding.severity, Severity::Warning, "{name}: {message}");
            assert!(message.starts_with("At the cold end of what is predicted, "), "{message}");
            assert!(message.ends_with("Only that end of the prediction falls short."), "{message}");
            doubts.push((name, finding.code.name(), finding.phase.clone().expect("a phase")));
        }
        assert!(!verdicts.judged.is_empty(), "{name}");
    }
    let doubts: Vec<_> = doubts.iter().map(|(name, code, phase)| (*name, *code, phase.as_str())).collect();
    assert_eq!(doubts, IN_DOUBT);
}

#[test]
fn too_cool_is_refused_on_its_own_lines_with_the_limits_and_their_source() {
    let (sources, verdicts) = example("too-cool.dwell");
    let [cook, hold] = verdicts.findings.as_slice() else { panic!("{:#?}", verdicts.findings) };
    // 58 °C asks for about half an hour by the chart for roasts (FDA Food Code 2022, 3-401.11(B)), and the hold cooks nothing.
    assert_eq!((cook.code.name(), sources.slice(cook.span)), ("cook-end-too-cool", "until core 58 °C"));
    assert!(cook.message.render(Scale::Celsius).starts_with("As predicted, "));
    assert_eq!((hold.code.name(), sources.slice(hold.span)), ("hold-too-cool", "air 48 °C"));
    let message = hold.message.render(Scale::Celsius);
    // FDA Food Code 2022, 3-501.16: 135 °F (57 °C).
    for said in ["48 °C", "57 °C (135 °F)", "FDA Food Code 2022, 3-501.16"] {
        assert!(message.contains(said), "{message}");
    }
    let rule = hold.rule.as_ref().expect("a rule");
    assert_eq!((rule.id.as_str(), rule.set.as_str()), ("us-fc.hold.hot", "us-food-code"));
}

/// `verdict rule phase food`, in order, for one rule.
fn of(name: &str, rule: &str) -> Vec<String> {
    let (_, verdicts) = example(name);
    let line = |j: &dwell::safety::Judged| {
        let (phase, food) = (j.phase.as_deref().unwrap_or("-"), j.food.as_deref().unwrap_or("-"));
        format!("{} {phase} {food}", j.verdict.name())
    };
    verdicts.judged.iter().filter(|j| j.rule == rule).map(line).collect()
}

#[test]
fn the_shoulder_is_killed_and_its_drippings_are_not_called_so() {
    // 84 °C is past 158 °F (70 °C), which counts at once.
    assert_eq!(of("overnight-shoulder.dwell", "us-fc.roast"), ["met set-crust shoulder"]);
    // The drippings were taken at 55 to 72 °C: possible, and not proved.
    assert_eq!(of("overnight-shoulder.dwell", "us-fc.cook.145"), ["not-judged set-crust drippings"]);
    assert_eq!(
        of("overnight-shoulder.dwell", "us-fc.hold.hot"),
        ["met wait shoulder", "not-judged keep pulled"]
    );
}

#[test]
fn a_water_bath_is_a_cook_and_no_hold() {
    assert_eq!(of("short-rib.dwell", "us-fc.roast"), ["met bath rib"]);
    assert_eq!(of("short-rib.dwell", "us-fc.hold.hot"), [""; 0]);
    assert_eq!(of("short-rib.dwell", "us-fc.cool.total"), ["met ice rib"]);
    assert_eq!(of("short-rib.dwell", "us-fc.date.7d"), ["met keep rib"]);
}

#[test]
fn what_needs_the_food_itself_is_met_only_as_predicted() {
    for name in GOOD {
        let (_, verdicts) = example(name);
        for judged in verdicts.judged.iter().filter(|j| j.verdict == Verdict::Met) {
            let why = judged.why.render(Scale::Celsius);
            let declared =
                ["around it", "by the declared times", "does not end before", "kept cold for at most"];
            let predicted = why.starts_with("Predicted, ") && why.ends_with("A probe has to show it.");
            assert!(
                predicted || declared.iter().any(|word| why.contains(word)),
                "{name}: {} {why}",
                judged.rule
            );
        }
    }
}
