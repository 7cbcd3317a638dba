//! What a changed text is held against: the fault is gone, it is met, and nothing else has come up.

use std::collections::BTreeMap;
use std::mem::{Discriminant, discriminant};

use super::search::Trial;
use crate::findings::{Code, Finding, Severity, Stage};
use crate::safety::{Judged, Verdict};
use crate::tables::{Demand, Rule, RuleSets};

/// What the stages say of a text.
#[derive(Debug, Clone, Default)]
pub struct Said {
    pub findings: Vec<Finding>,
    pub judged: Vec<Judged>,
}

/// What makes two findings the same in two texts of one cook: their places move.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Key<'f> {
    code: Code,
    phase: Option<&'f str>,
    food: Option<&'f str>,
    set: Option<&'f str>,
}

fn key(finding: &Finding) -> Key<'_> {
    Key {
        code: finding.code,
        phase: finding.phase.as_deref(),
        food: finding.food.as_deref(),
        set: finding.rule.as_ref().map(|rule| rule.set.as_str()),
    }
}

/// The text of `before` was changed to cure `fault`, and `after` is said of it now.
pub fn weigh(before: &Said, fault: &Finding, after: &Said) -> Trial {
    let (fault_key, heavy) = (key(fault), Severity::Warning);
    if after.findings.iter().any(|finding| finding.severity <= heavy && key(finding) == fault_key) {
        return Trial::NotYet;
    }
    let (had, has) = (weights(&before.findings), weights(&after.findings));
    let more = has.iter().filter(|(key, (errors, all))| {
        let (errors_then, all_then) = had.get(key).copied().unwrap_or_default();
        *errors > errors_then || *all > all_then
    });
    let mut more = more.map(|(key, _)| key).peekable();
    if more.peek().is_some() {
        // The next rule that the same food breaks is often met a little further on.
        let same = |key: &Key| key.code.stage() == Stage::Safety && key.food == fault_key.food;
        return if more.all(same) { Trial::NotYet } else { Trial::Harms };
    }
    if !is_met(fault, after) {
        return Trial::NotYet;
    }
    if lost(before, after) { Trial::Harms } else { Trial::Cured }
}

/// Errors, and errors and warnings together.
fn weights(findings: &[Finding]) -> BTreeMap<Key<'_>, (usize, usize)> {
    let mut weights: BTreeMap<Key, (usize, usize)> = BTreeMap::new();
    for finding in findings.iter().filter(|finding| finding.severity <= Severity::Warning) {
        let weight = weights.entry(key(finding)).or_default();
        weight.0 += usize::from(finding.severity == Severity::Error);
        weight.1 += 1;
    }
    weights
}

pub fn rule(set: &str, id: &str) -> Option<&'static Rule> {
    RuleSets::built_in().find(set)?.rule(id)
}

fn kind(set: &str, id: &str) -> Option<Discriminant<Demand>> {
    rule(set, id).map(|rule| discriminant(&rule.demand))
}

/// Silence is no verdict: the rule of the fault, or another of its kind, has to be met in the same phase.
fn is_met(fault: &Finding, after: &Said) -> bool {
    let Some(cited) = &fault.rule else { return true };
    let asked = kind(&cited.set, &cited.id);
    let about = after.judged.iter().filter(|judged| {
        judged.set == cited.set
            && judged.phase == fault.phase
            && judged.food == fault.food
            && kind(&judged.set, &judged.rule) == asked
    });
    let mut met = false;
    for judged in about {
        match judged.verdict {
            Verdict::Met => met = true,
            Verdict::Broken => return false,
            // Of a chart of alternatives only the one that was cited has to be judged.
            Verdict::NotJudged if judged.rule == cited.id => return false,
            Verdict::NotJudged => {}
        }
    }
    met
}

/// Something that was met is met no more, not even by another rule of its kind.
fn lost(before: &Said, after: &Said) -> bool {
    let met = |judged: &&Judged| judged.verdict == Verdict::Met;
    before.judged.iter().filter(met).any(|then| {
        let asked = kind(&then.set, &then.rule);
        !after.judged.iter().filter(met).any(|now| {
            now.set == then.set
                && now.phase == then.phase
                && now.food == then.food
                && kind(&now.set, &now.rule) == asked
        })
    })
}
