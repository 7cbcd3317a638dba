//! The examples under their own rules: good ones without a finding, and what is said of each.

mod common;

use dwell::cook::Document;
use dwell::quantity::Scale;
use dwell::safety::{Verdict, Verdicts, judge};

fn example(name: &str) -> (dwell::text::Sources, Verdicts) {
    let all = common::examples();
    let text = &all.iter().find(|(file, _)| file == name).expect("an example").1;
    let mut files = vec![(name, text.as_str())];
    files.extend(all.iter().map(|(name, text)| (name.as_str(), text.as_str())));
    let (sources, document, _) = common::resolve_files(&files);
    let Some(Document::Cook(cook)) = document else { panic!("{name} is no cook") };
    (sources, judge(&cook, common::rules_of(&cook)))
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

#[test]
fn good_examples_raise_nothing() {
    for name in GOOD {
        let (_, verdicts) = example(name);
        let said: Vec<_> = verdicts.findings.iter().map(|f| f.message.render(Scale::Celsius)).collect();
        assert!(said.is_empty(), "{name}: {said:#?}");
        assert!(!verdicts.judged.is_empty(), "{name}");
    }
}

#[test]
fn too_cool_is_refused_on_its_own_line_with_the_limit_and_its_source() {
    let (sources, verdicts) = example("too-cool.dwell");
    let [finding] = verdicts.findings.as_slice() else { panic!("{:#?}", verdicts.findings) };
    assert_eq!(finding.code.name(), "hold-too-cool");
    assert_eq!(sources.slice(finding.span), "air 48 °C");
    let message = finding.message.render(Scale::Celsius);
    // FDA Food Code 2022, 3-501.16: 135 °F (57 °C), or 130 °F (54 °C) for such a roast.
    for said in ["48 °C", "57 °C (135 °F)", "54 °C (130 °F)", "FDA Food Code 2022, 3-501.16"] {
        assert!(message.contains(said), "{message}");
    }
    let rule = finding.rule.as_ref().expect("a rule");
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
        ["met wait shoulder", "not-judged wait shoulder", "met keep pulled", "not-judged keep pulled"]
    );
}

#[test]
fn a_water_bath_is_a_cook_and_proves_nothing_by_itself() {
    assert_eq!(of("short-rib.dwell", "us-fc.roast"), ["not-judged bath rib"]);
    assert_eq!(of("short-rib.dwell", "us-fc.hold.hot"), [""; 0]);
    assert_eq!(of("short-rib.dwell", "us-fc.cool.total"), ["not-judged ice rib"]);
    assert_eq!(of("short-rib.dwell", "us-fc.date.7d"), ["met keep rib"]);
}

#[test]
fn what_needs_the_food_itself_is_never_met() {
    for name in GOOD {
        let (_, verdicts) = example(name);
        for judged in verdicts.judged.iter().filter(|j| j.verdict == Verdict::Met) {
            let why = judged.why.render(Scale::Celsius);
            let declared =
                ["around it", "by the declared times", "does not end before", "kept cold for at most"];
            assert!(declared.iter().any(|word| why.contains(word)), "{name}: {} {why}", judged.rule);
        }
    }
}
