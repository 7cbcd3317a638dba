//! Whatever is cooked, the judge answers: no panic, the same twice, every place and every rule real.

mod common;

use dwell::quantity::Scale;
use dwell::safety::{Verdict, judge};
use proptest::prelude::*;
use proptest::sample::select;

const FOODS: [&str; 8] = [
    "pork shoulder",
    "beef mince",
    "chicken thigh",
    "salmon",
    "eggs",
    "potato",
    "cooked rice",
    "white bread",
];

const PURPOSES: [&str; 11] =
    ["prep", "thaw", "cure", "ferment", "cook", "rest", "hot hold", "cool", "cold hold", "freeze", "reheat"];

const CLAUSES: [&str; 14] = [
    "use 10 g of other",
    "becomes made",
    "collect 10 g of juice",
    "ground",
    "4 pieces of 50 g, thickness 2 cm",
    "expect core 50 °C to 60 °C",
    "expect core 70 °C to 80 °C",
    "until core 55 °C",
    "until core 75 °C, takes 1 h to 2 h",
    "until core 4 °C, takes 1 h to 9 h",
    "until \"done\", takes 1 h to 2 h",
    "for up to 6 h",
    "for at least 2 h",
    "until pH 4",
];

const PLACES: [(&str, &str); 6] = [
    ("oven", "air 180 °C"),
    ("oven", "air 50 °C ± 5 °C"),
    ("bench", "covered"),
    ("fridge", "air 7 °C"),
    ("bath", "water 57 °C"),
    ("hob", "covered"),
];

fn text(rules: &str, first: &str, other: &str, phases: &[(&str, (&str, &str), Vec<&str>)]) -> String {
    let mut text = format!(
        "cook \"Any\"\n  serves 4\n  rules {rules}\nkit oven is oven\nkit bench is bench\nkit fridge is fridge\n  air 0 °C to 12 °C\n\
         kit bath is water bath\nkit hob is hob\nfood one is {first}\n  2 kg\n  thickness 4 cm\nfood other is {other}\n  2 kg\n  thickness 4 cm\n"
    );
    for (n, (purpose, (place, setting), clauses)) in phases.iter().enumerate() {
        text += &format!("phase p{n} is {purpose}\n  one in {place}\n  {setting}\n");
        for clause in clauses {
            text += &format!(
                "  {}\n",
                clause.replace("made", &format!("made{n}")).replace("juice", &format!("juice{n}"))
            );
        }
    }
    text + "serve one\n  at 18:30\n"
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn the_judge_answers_whatever_is_cooked(
        rules in select(vec!["us-food-code", "uk"]),
        first in select(FOODS.to_vec()),
        other in select(FOODS.to_vec()),
        phases in prop::collection::vec(
            (select(PURPOSES.to_vec()), select(PLACES.to_vec()), prop::sample::subsequence(CLAUSES.to_vec(), 0..4)),
            0..7,
        ),
    ) {
        let text = text(rules, first, other, &phases);
        let (sources, cook, _) = common::cook(&text);
        let Some(cook) = cook else { return Ok(()) };
        let set = common::rules_of(&cook);
        let curves = common::forecast(&cook);
        let verdicts = judge(&cook, set, &curves);
        prop_assert_eq!(&verdicts, &judge(&cook, set, &curves));
        for finding in &verdicts.findings {
            prop_assert!(!sources.slice(finding.span).is_empty(), "{}", text);
            let rule = finding.rule.as_ref().expect("a finding of safety cites its rule");
            prop_assert!(set.rule(&rule.id).is_some());
            prop_assert!(!finding.message.render(Scale::Fahrenheit).is_empty() && !finding.remedy.is_empty());
        }
        for judged in &verdicts.judged {
            prop_assert!(set.rule(&judged.rule).is_some(), "{}", judged.rule);
            prop_assert!(!judged.why.is_empty());
        }
        let broken = verdicts.judged.iter().filter(|j| j.verdict == Verdict::Broken).count();
        prop_assert!(broken == 0 || !verdicts.findings.is_empty(), "broken without a finding in\n{}", text);
    }
}
