//! Which sets of rules judge a cook.

use crate::cook::Cook;
use crate::findings::{Code, Finding};
use crate::say;
use crate::tables::{RuleSet, RuleSets};
use crate::text::Spanned;

/// The sets that apply, and what there is to say about the choice: the one asked for at the command
/// line, else those that the cook and its menu name, else that of `dwell.toml`, else an assumed one.
pub fn choose(
    asked: Option<&str>,
    cook: &Cook,
    menu: Option<&Spanned<String>>,
    own: Option<&Spanned<String>>,
) -> (Vec<&'static RuleSet>, Option<Finding>) {
    let known = RuleSets::built_in();
    if let Some(asked) = asked {
        return (known.find(asked).into_iter().collect(), None);
    }
    let named: Vec<&str> = cook.rules.iter().chain(menu).map(|name| name.value.as_str()).collect();
    // A name that no set has is a finding of the stage that read it, and then no set stands in for it.
    let mut sets: Vec<&RuleSet> = named.iter().filter_map(|name| known.find(name)).collect();
    sets.dedup_by(|a, b| a.id == b.id);
    if !named.is_empty() {
        return (sets, None);
    }
    if let Some(own) = own.and_then(|own| known.find(&own.value)) {
        return (vec![own], None);
    }
    let assumed = known.assumed();
    let finding = Finding::new(
        Code::RulesAssumed,
        cook.title.span,
        say![format!("This cook names no rules; it is judged by {}.", assumed.title)],
        say![format!("Name the rules that hold where you cook, such as `rules {}`.", assumed.id)],
    );
    (vec![assumed], Some(finding))
}
