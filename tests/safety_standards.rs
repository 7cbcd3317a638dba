//! Every history of every file in `tests/reference/standards` comes out as its source says.

use std::collections::BTreeMap;
use std::path::Path;

use dwell::quantity::{Duration, Temperature};
use dwell::safety::Verdict;
use dwell::safety::history::{Food, History, Outcome, judge, overall};
use dwell::tables::{Aim, Demand, FoodState, Rule, RuleSet, RuleSets, Species};
use serde::Deserialize;

#[derive(Deserialize)]
struct File {
    case: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    id: String,
    rule_set: String,
    purpose: String,
    rule: String,
    food: Eaten,
    /// Minutes and °C, straight lines between.
    history: Vec<(f64, f64)>,
    verdict: String,
    /// That of all rules together, where it is said.
    overall: Option<String>,
    source: String,
}

#[derive(Deserialize)]
struct Eaten {
    species: Species,
    state: FoodState,
    fat_percent: Option<f64>,
    #[serde(default)]
    name: String,
    cured: Option<bool>,
    cooked_by: Option<String>,
    #[serde(default)]
    bought_cooked: bool,
}

impl Eaten {
    fn food(&self) -> Food {
        Food {
            fat_percent: self.fat_percent,
            name: self.name.clone(),
            cured: self.cured,
            cooked_by: self.cooked_by.clone(),
            bought_cooked: self.bought_cooked,
            ..Food::new(self.species, self.state)
        }
    }
}

fn files() -> Vec<(String, Vec<Case>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/standards");
    let mut paths: Vec<_> =
        std::fs::read_dir(folder).expect("the folder").map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "toml"));
    paths.sort();
    let read = |path: &std::path::PathBuf| {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let file: File =
            toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap_or_else(|e| panic!("{name}: {e}"));
        (name, file.case)
    };
    paths.iter().map(read).collect()
}

/// The purposes by the words of the rule sets, and by those that people write for them.
fn aim(word: &str) -> Option<Aim> {
    let word = word.replace([' ', '_'], "-");
    Aim::find(&word).or(match word.as_str() {
        "cooling" => Some(Aim::Cool),
        "holding" => Some(Aim::HotHold),
        "reheat" | "reheat-for-holding" | "reheat-hold" => Some(Aim::ReheatToHold),
        "time-as-control" | "time-alone" => Some(Aim::TimeControl),
        "thawing" => Some(Aim::Thaw),
        _ => None,
    })
}

/// The rule of this id, or the one of which it is a row.
fn rule<'s>(set: &'s RuleSet, id: &str) -> Option<&'s Rule> {
    set.rule(id).or_else(|| {
        set.rules.iter().find(|rule| match &rule.demand {
            Demand::Cook { points, .. } => points.iter().any(|point| point.id.as_deref() == Some(id)),
            _ => false,
        })
    })
}

fn told(outcome: &Outcome) -> String {
    let Outcome { rule, row, verdict, measured, moment, why, .. } = outcome;
    format!(" {} {row:?} {verdict:?} {measured:?} at {moment:?}, {why:?}.", rule.id)
}

/// What came out otherwise than the case says.
fn fault(case: &Case) -> Option<String> {
    let wrong = |what: String| Some(format!("{}: {what}", case.id));
    if case.source.is_empty() {
        return wrong("no source".into());
    }
    let Some(set) = RuleSets::built_in().find(&case.rule_set) else {
        return wrong("no such rule set".into());
    };
    let Some(aim) = aim(&case.purpose) else { return wrong("no such purpose".into()) };
    let Some(rule) = rule(set, &case.rule) else { return wrong(format!("no rule {}", case.rule)) };
    let readings =
        case.history.iter().map(|(m, c)| (Duration::from_minutes(*m), Temperature::from_celsius(*c)));
    let history = match History::new(readings.collect()) {
        Ok(history) => history,
        Err(unusable) => return wrong(format!("{unusable:?}")),
    };
    let food = case.food.food();
    let outcomes = judge(&history, &food, aim, set);
    let together = overall(&outcomes).name();
    if case.overall.as_ref().is_some_and(|said| said != together) {
        return wrong(format!("together it is {together}:{}", outcomes.iter().map(told).collect::<String>()));
    }
    match outcomes.iter().find(|outcome| outcome.rule.id == rule.id) {
        Some(outcome) if outcome.verdict.name() == case.verdict => None,
        Some(outcome) => wrong(told(outcome)),
        // A rule that is not about the food lets nothing pass.
        None if case.verdict == "broken" && together != Verdict::Met.name() => None,
        None => wrong("the rule is not about this food and purpose".into()),
    }
}

#[test]
fn every_case_comes_out_as_its_source_says() {
    let files = files();
    let faults: Vec<String> = files.iter().flat_map(|(_, cases)| cases).filter_map(fault).collect();
    assert!(faults.is_empty(), "{} cases are wrong:\n{}", faults.len(), faults.join("\n"));
    assert!(files.iter().map(|(_, cases)| cases.len()).sum::<usize>() >= 150);
}

/// So that no set, and no rule that a history can judge, is left without a case on each side.
#[test]
fn every_rule_that_judges_a_history_has_cases_on_both_sides() {
    let files = files();
    let mut sides: BTreeMap<(&str, &str), Vec<&str>> = BTreeMap::new();
    for case in files.iter().flat_map(|(_, cases)| cases) {
        let set = RuleSets::built_in().find(&case.rule_set).expect("a set");
        let rule = rule(set, &case.rule).expect("a rule");
        sides.entry((&set.id, &rule.id)).or_default().push(&case.verdict);
    }
    for set in RuleSets::built_in().sets() {
        for rule in &set.rules {
            let judged = match &rule.demand {
                Demand::Cool { to, .. } => to.is_some(),
                Demand::Cook { .. }
                | Demand::HotHold { .. }
                | Demand::ColdHold { .. }
                | Demand::TimeAlone { .. }
                | Demand::Reheat { .. } => true,
                _ => rule.on_curve.is_some(),
            };
            // The same figure and food as 145 °F, on a condition; and a rule that nothing breaks.
            if !judged || ["us-fc.cook.145.game", "us-fc.reheat.immediate"].contains(&rule.id.as_str()) {
                continue;
            }
            let sides = sides.get(&(set.id.as_str(), rule.id.as_str())).cloned().unwrap_or_default();
            assert!(
                sides.contains(&"met") && sides.contains(&"broken"),
                "{} in {}: {sides:?}",
                rule.id,
                set.id
            );
        }
    }
}

#[test]
fn readings_out_of_order_are_no_history() {
    let at = |m: f64, c: f64| (Duration::from_minutes(m), Temperature::from_celsius(c));
    assert!(History::new(vec![]).is_err());
    assert!(History::new(vec![at(0.0, 5.0), at(-1.0, 5.0)]).is_err());
    assert!(History::new(vec![at(0.0, f64::NAN)]).is_err());
    assert!(History::new(vec![at(0.0, -300.0)]).is_err());
    assert!(History::new(vec![at(0.0, 5.0), at(0.0, 60.0)]).is_ok());
}
