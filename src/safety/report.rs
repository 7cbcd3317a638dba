//! Verdicts and findings as they are collected: each said once.

use std::collections::{BTreeMap, BTreeSet};

use super::{Deadline, Judged, Verdict, Verdicts};
use crate::cook::{Cook, ItemId, PhaseId};
use crate::findings::{CitedRule, Code, Finding, Severity, Text};
use crate::heat::Curves;
use crate::say;
use crate::tables::{Demand, Rule, RuleSet};
use crate::text::Span;

pub(super) struct Report<'a> {
    pub cook: &'a Cook,
    pub rules: &'a RuleSet,
    pub curves: &'a Curves,
    verdicts: Verdicts,
    said: BTreeSet<(String, PhaseId, ItemId, Verdict)>,
    /// Food with stock in it that nobody recognises, and which.
    unrecognised: BTreeMap<ItemId, ItemId>,
    bagged: Vec<About>,
}

/// The food and the phase that a verdict is about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct About {
    pub phase: PhaseId,
    pub food: ItemId,
}

/// A fault, before it is put down.
pub(super) struct Fault {
    pub code: Code,
    pub span: Span,
    pub message: Text,
    pub remedy: Text,
    pub also: Vec<(Span, Text)>,
    pub severity: Severity,
}

impl Fault {
    pub fn new(code: Code, span: Span, message: Text, remedy: Text) -> Self {
        Self { code, span, message, remedy, also: Vec::new(), severity: code.severity() }
    }
}

impl<'a> Report<'a> {
    pub fn new(cook: &'a Cook, rules: &'a RuleSet, curves: &'a Curves) -> Self {
        Self {
            cook,
            rules,
            curves,
            verdicts: Verdicts::default(),
            said: BTreeSet::new(),
            unrecognised: BTreeMap::new(),
            bagged: Vec::new(),
        }
    }

    pub fn finish(self) -> Verdicts {
        self.verdicts
    }

    /// The rules of the set that count for these guests.
    pub fn rules(&self) -> impl Iterator<Item = &'a Rule> + use<'a> {
        let vulnerable = self.cook.vulnerable_guests.is_some();
        self.rules.rules.iter().filter(move |rule| rule.counts_for(vulnerable))
    }

    pub fn phase_name(&self, phase: PhaseId) -> String {
        self.cook.phase(phase).name.clone()
    }

    pub fn food_name(&self, food: ItemId) -> String {
        self.cook.item(food).name.clone()
    }

    pub fn cite(&self, rule: &Rule) -> String {
        self.rules.cite(rule)
    }

    /// What is not recognised in a food as it stands now: no rule that needs its kind is met by it.
    pub fn holds_unrecognised(&mut self, food: ItemId, stock: Option<ItemId>) {
        match stock {
            Some(stock) => self.unrecognised.insert(food, stock),
            None => self.unrecognised.remove(&food),
        };
    }

    pub fn in_a_bag(&mut self, about: About) {
        self.bagged.push(about);
    }

    /// Which food is in a sealed bag, and in which phases.
    pub fn bagged(&self) -> Vec<About> {
        self.bagged.clone()
    }

    pub fn judged(&mut self, rule: &str, verdict: Verdict, about: About, why: Text) {
        let any_food =
            self.rules.rule(rule).is_some_and(|rule| matches!(rule.demand, Demand::HotHold { .. }));
        let doubt = self.unrecognised.get(&about.food).filter(|_| verdict == Verdict::Met && !any_food);
        let (verdict, why) = match doubt {
            Some(stock) => {
                let name = self.food_name(*stock);
                let doubt = format!("It holds `{name}`, which is not in the food table. Otherwise: ");
                (Verdict::NotJudged, say![doubt].followed_by(why))
            }
            None => (verdict, why),
        };
        if !self.said.insert((rule.into(), about.phase, about.food, verdict)) {
            return;
        }
        self.verdicts.judged.push(Judged {
            rule: rule.into(),
            set: self.rules.id.clone(),
            verdict,
            phase: Some(self.phase_name(about.phase)),
            food: Some(self.food_name(about.food)),
            why,
        });
    }

    /// A limit in time that a rule hands on.
    pub fn deadline(&mut self, deadline: Deadline) {
        if !self.verdicts.deadlines.contains(&deadline) {
            self.verdicts.deadlines.push(deadline);
        }
    }

    pub fn is_broken(&self, rule: &str, about: About) -> bool {
        self.said.contains(&(rule.into(), about.phase, about.food, Verdict::Broken))
    }

    /// Has something been said of the rule for some food?
    pub fn spoke_of(&self, rule: &str) -> bool {
        self.verdicts.judged.iter().any(|judged| judged.rule == rule)
    }

    /// A rule that is listed, and about no one food.
    pub fn listed(&mut self, rule: &Rule, phase: PhaseId, why: Text) {
        self.verdicts.judged.push(Judged {
            rule: rule.id.clone(),
            set: self.rules.id.clone(),
            verdict: Verdict::NotJudged,
            phase: Some(self.phase_name(phase)),
            food: None,
            why,
        });
    }

    /// A rule is broken by what is declared.
    pub fn broken(&mut self, rule: &Rule, about: About, fault: Fault) {
        self.judged(&rule.id, Verdict::Broken, about, fault.message.clone());
        self.fault(rule, about, fault);
    }

    /// A finding without a verdict: the rule may be broken.
    pub fn fault(&mut self, rule: &Rule, about: About, fault: Fault) {
        let severity = if rule.advice { fault.severity.max(Severity::Warning) } else { fault.severity };
        let food = self.food_name(about.food);
        let known = |finding: &Finding| {
            let alike = finding.code == fault.code && finding.span == fault.span;
            alike && finding.food.as_ref() == Some(&food)
        };
        if let Some(at) = self.verdicts.findings.iter().position(known) {
            // Said once, and as the worst of what is to be said.
            let graver = severity == Severity::Error && self.verdicts.findings[at].severity != severity;
            if !graver {
                return;
            }
            self.verdicts.findings.remove(at);
        }
        let mut finding = Finding::new(fault.code, fault.span, fault.message, fault.remedy)
            .with_severity(severity)
            .in_phase(self.phase_name(about.phase))
            .about_food(self.food_name(about.food))
            .citing(CitedRule { id: rule.id.clone(), set: self.rules.id.clone(), source: self.cite(rule) });
        for (span, text) in fault.also {
            finding = finding.also(span, text);
        }
        self.verdicts.findings.push(finding);
    }
}
