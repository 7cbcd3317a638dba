//! Safety: judges a cook by a rule set, on the figures that the cook declares and on its predicted curves.
//!
//! Declared are settings, `until`, `expect` and `core` figures, and lengths of time. What only the temperature inside
//! the food shows is judged on the curves (`predicted/`), and called predicted; where a food has none, it is listed as
//! not judged, with what it needs, and never as met. Knows the cook, the curves and the rules; knows nothing of how any
//! of them is written or shown.

mod again;
pub mod allergens;
mod allowance;
mod bought;
pub mod cautions;
mod chance;
mod control;
mod cooking;
mod cooling;
mod deadline;
mod declared;
mod flow;
mod growth;
pub mod history;
mod holding;
mod lethal;
mod listing;
mod lot;
pub mod microbes;
mod microbial;
mod need;
mod nitrite;
mod out;
mod parasites;
mod predicted;
mod raw;
mod reheating;
mod report;
mod starts;
mod stock;
mod storing;
mod trail;
mod unknown;
mod waiting;
mod walk;
mod without_air;

pub use deadline::{ByThen, Deadline, Since};
pub use growth::growth;
pub use listing::{RuleRow, listing};
pub use microbial::{FoodMicrobes, Line, Microbe, microbial, opened, sorts};

use crate::cook::{Cook, Phase};
use crate::findings::{Finding, Text};
use crate::heat::Curves;
use crate::say;
use crate::tables::{Demand, RuleSet};

/// How one rule came out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    Met,
    Broken,
    NotJudged,
}

impl Verdict {
    pub fn name(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::Broken => "broken",
            Self::NotJudged => "not-judged",
        }
    }
}

/// One rule, judged in one phase for one food.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    pub rule: String,
    pub set: String,
    pub verdict: Verdict,
    pub phase: Option<String>,
    pub food: Option<String>,
    /// What was judged, or what it would take.
    pub why: Text,
}

/// All that one rule set has to say of one cook.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Verdicts {
    pub judged: Vec<Judged>,
    pub findings: Vec<Finding>,
    /// In the order in which they were come upon; none twice.
    pub deadlines: Vec<Deadline>,
}

/// Judges `cook`, with what is predicted of it, by `rules`.
pub fn judge(cook: &Cook, rules: &RuleSet, curves: &Curves) -> Verdicts {
    let mut report = report::Report::new(cook, rules, curves);
    walk::walk(&mut report);
    unknown::say_which(&mut report);
    list(&mut report);
    report.finish()
}

/// Rules that are written down and cannot be judged from what is declared: silence is never a verdict.
fn list(report: &mut report::Report) {
    let cook = report.cook;
    for rule in report.rules() {
        let Demand::Listed { purposes, media, bagged, needs } = &rule.demand else { continue };
        if rule.on_curve.is_some() && report.spoke_of(&rule.id) {
            continue;
        }
        let concerned = |phase: &Phase| {
            let around = declared::surroundings(cook, phase).map(|band| band.medium);
            purposes.iter().any(|said| said.replace('-', " ") == phase.purpose.words())
                && media.as_ref().is_none_or(|media| around.is_some_and(|medium| media.contains(&medium)))
        };
        if *bagged {
            for about in report.bagged().into_iter().filter(|about| concerned(cook.phase(about.phase))) {
                let why = say![format!("{} This needs {needs}.", rule.asks)];
                report.judged(&rule.id, Verdict::NotJudged, about, why);
            }
        } else if let Some((phase, _)) = cook.phases().find(|(_, phase)| concerned(phase)) {
            report.listed(rule, phase, say![format!("{} This needs {needs}.", rule.asks)]);
        }
    }
}
