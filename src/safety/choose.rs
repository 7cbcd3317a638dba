//! Which rule set judges a cook.

use crate::cook::Cook;
use crate::findings::{Code, Finding};
use crate::say;
use crate::tables::{RuleSet, RuleSets};

/// The set that the cook names; else the one that was asked for from outside; else the assumed one,
/// with a warning. A name that is not known has had its own finding, and is not reported again.
pub fn rules_for(cook: &Cook, asked: Option<&'static RuleSet>) -> (&'static RuleSet, Option<Finding>) {
    let sets = RuleSets::built_in();
    if let Some(name) = &cook.rules {
        return (sets.find(&name.value).or(asked).unwrap_or_else(|| sets.assumed()), None);
    }
    if let Some(asked) = asked {
        return (asked, None);
    }
    let assumed = sets.assumed();
    let finding = Finding::new(
        Code::RulesAssumed,
        cook.title.span,
        say![format!(
            "No rule set is named, so `{}` is taken: {} {}.",
            assumed.id, assumed.title, assumed.edition
        )],
        say![format!(
            "Add the rules you cook under to this block: `rules {}`, or one of: {}.",
            assumed.id,
            sets.names().collect::<Vec<_>>().join(", ")
        )],
    );
    (assumed, Some(finding))
}
