//! A cook in a few lines, and what the safety judge says of it.

use dwell::quantity::Scale;
use dwell::safety::{Judged, Verdict, Verdicts, judge};
use dwell::text::Sources;

pub fn judged(text: &str) -> (Sources, Verdicts) {
    let (sources, cook, findings) = super::cook(text);
    let said: Vec<_> =
        findings.iter().map(|f| format!("{} {}", f.code.name(), f.message.render(Scale::Celsius))).collect();
    assert!(said.is_empty(), "{said:#?} in\n{text}");
    let cook = cook.expect("a cook");
    // What is declared, alone: without a forecast.
    let verdicts = judge(&cook, super::rules_of(&cook), &dwell::heat::Curves::default());
    (sources, verdicts)
}

/// `code severity` of each finding.
pub fn codes(text: &str) -> Vec<String> {
    judged(text).1.findings.iter().map(|f| format!("{} {}", f.code.name(), f.severity.name())).collect()
}

/// The text that the only finding points at.
pub fn points_at(text: &str) -> String {
    let (sources, verdicts) = judged(text);
    let [finding] = verdicts.findings.as_slice() else { panic!("{:#?}", verdicts.findings) };
    sources.slice(finding.span).to_string()
}

pub fn verdict(text: &str, rule: &str, phase: &str) -> Vec<Verdict> {
    let (_, verdicts) = judged(text);
    let about = |j: &&Judged| j.rule == rule && j.phase.as_deref() == Some(phase);
    verdicts.judged.iter().filter(about).map(|j| j.verdict).collect()
}

pub const NONE: [&str; 0] = [];

/// A joint that is cooked and held; the clauses of both phases are given.
pub fn held(rules: &str, food: &str, cook: &str, hold: &str) -> String {
    format!(
        "cook \"Joint\"\n  serves 6\n  rules {rules}\nkit oven is oven\nkit probe is probe thermometer\n\
         food joint is {food}\n  2 kg\n  thickness 9 cm\n  starts at 4 °C\n\
         phase roast is cook\n  joint in oven\n  {cook}\n\
         phase wait is hot hold\n  joint in oven\n  {hold}\n  for 1 h to 2 h\n\
         serve joint\n  at 19:00\n"
    )
}

/// A joint that is cooked and served.
pub fn cooked(rules: &str, food: &str, cook: &str) -> String {
    format!(
        "cook \"Joint\"\n  serves 6\n  rules {rules}\nkit oven is oven\nkit bath is water bath\n\
         kit probe is probe thermometer\nfood joint is {food}\n  2 kg\n  thickness 9 cm\n  starts at 4 °C\n\
         phase roast is cook\n  {cook}\nserve joint\n  at 19:00\n"
    )
}

/// A run of phases on one piece of food.
pub fn run(food: &str, phases: &str) -> String {
    let starts = if food.contains("frozen") { -18 } else { 4 };
    format!(
        "cook \"Run\"\n  serves 6\n  rules us-food-code\nkit oven is oven\nkit hob is hob\nkit bench is bench\n\
         kit fridge is fridge\n  air 3 °C\nkit freezer is freezer\nkit ice is ice bath\nkit probe is probe thermometer\n\
         kit box is insulated box\nkit bath is water bath\n\
         food joint is {food}\n  2 kg\n  thickness 9 cm\n  starts at {starts} °C\n{phases}"
    )
}

/// A joint of pork that is cooked through, and what happens to it before it is eaten.
pub fn roasted(phases: &str) -> String {
    run(
        "pork loin",
        &format!(
            "phase roast is cook\n  joint in oven\n  air 140 °C\n  until core 71 °C, takes 1 h to 2 h\n{phases}\
             serve joint\n  at 19:00\n"
        ),
    )
}
