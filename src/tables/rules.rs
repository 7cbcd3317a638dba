//! Rule sets: who asks for which temperatures and times, as data.
//!
//! A rule set is one file in `data/rules/`; adding one is the file. Nothing here knows how a cook or a
//! history of temperatures is judged, only what a publisher prints.

mod course;
mod demand;
mod figures;

pub use course::{Aim, Band, Count, Course};
pub use demand::{Clock, CureWay, Demand, Served, Side};
pub use figures::{Limit, Point, Status};

use std::sync::OnceLock;

use serde::Deserialize;

use super::Species;
use crate::cook::Structure;

/// The files of the folder by the id they are named after, as `build.rs` finds them. A test holds them against it.
const FILES: &[(&str, &str)] = &include!(concat!(env!("OUT_DIR"), "/rule_sets.rs"));

/// The set that judges a cook which names none.
pub const ASSUMED: &str = "us-food-code";

/// Raw food that a rule is about; an empty list means any.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FoodClass {
    #[serde(default)]
    pub species: Vec<Species>,
    #[serde(default)]
    pub structures: Vec<Structure>,
    /// Only food in whose name one of these words stands.
    #[serde(default)]
    pub named: Vec<String>,
    /// Only food with enough curing salt in it, or only food without.
    pub cured: Option<bool>,
}

impl FoodClass {
    pub fn holds(&self, food: Subject) -> bool {
        let of_name = |word: &String| food.name.to_lowercase().contains(word.as_str());
        (self.species.is_empty() || self.species.contains(&food.species))
            && (self.structures.is_empty() || food.structure.is_some_and(|it| self.structures.contains(&it)))
            && (self.named.is_empty() || self.named.iter().any(of_name))
            && (self.cured.is_none() || self.cured == food.cured)
    }
}

/// What decides whether a rule is about some food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Subject<'a> {
    pub species: Species,
    /// `None` where it is no raw piece.
    pub structure: Option<Structure>,
    /// Of its row in the food table; may be empty.
    pub name: &'a str,
    /// `None` where nobody knows: then no rule about cured food, or about food without a cure, holds.
    pub cured: Option<bool>,
}

/// One rule of a set.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Rule {
    pub id: String,
    #[serde(flatten)]
    pub demand: Demand,
    /// What it asks, in a cook's words.
    pub asks: String,
    pub clause: String,
    /// What to cite instead of the set's source and the clause.
    pub source: Option<String>,
    pub status: Status,
    /// Which raw food it is about; none means any food.
    #[serde(default)]
    pub foods: Vec<FoodClass>,
    /// What no cook file says, and has to be so for the rule to count.
    pub condition: Option<String>,
    /// The limit itself is not enough.
    #[serde(default)]
    pub strict: bool,
    /// Advice, not law: a fault against it is a warning.
    #[serde(default)]
    pub advice: bool,
    #[serde(default)]
    pub not_for_vulnerable: bool,
    #[serde(default)]
    pub vulnerable_only: bool,
    /// What a history is looked at for by this rule, where its kind does not say it.
    pub aims: Option<Vec<Aim>>,
    /// What a history has to show, where its kind does not say it.
    pub on_curve: Option<Course>,
    /// The rules of one option hold together, and one option of several will do.
    pub option: Option<String>,
    /// A whole piece that nothing was stuck into may be judged at its surface instead.
    #[serde(default)]
    pub intact_by_surface: bool,
    /// Has to be met beside whichever alternative is.
    #[serde(default)]
    pub besides: bool,
}

impl Rule {
    /// Does it count where the guests are, or are not, vulnerable?
    pub fn counts_for(&self, vulnerable: bool) -> bool {
        if vulnerable { !self.not_for_vulnerable } else { !self.vulnerable_only }
    }

    /// `at 60 °C or above`, or `above 60 °C` where the figure itself is not enough.
    pub fn at_or_above(&self, limit: impl std::fmt::Display) -> String {
        if self.strict { format!("above {limit}") } else { format!("at {limit} or above") }
    }

    pub fn at_or_below(&self, limit: impl std::fmt::Display) -> String {
        if self.strict { format!("below {limit}") } else { format!("at {limit} or below") }
    }

    pub fn is_about(&self, food: Subject) -> bool {
        self.foods.is_empty() || self.foods.iter().any(|class| class.holds(food))
    }
}

/// The rules of one authority.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct RuleSet {
    /// What a cook types after `rules`.
    pub id: String,
    pub title: String,
    pub edition: String,
    pub place: String,
    pub source: String,
    #[serde(rename = "rule")]
    pub rules: Vec<Rule>,
}

impl RuleSet {
    pub fn rule(&self, id: &str) -> Option<&Rule> {
        self.rules.iter().find(|rule| rule.id == id)
    }

    /// Where a rule stands: "FDA Food Code 2022, 3-501.16".
    pub fn cite(&self, rule: &Rule) -> String {
        match &rule.source {
            Some(source) => source.clone(),
            None => format!("{}, {}", self.source, rule.clause),
        }
    }
}

/// All rule sets that a cook may name.
#[derive(Debug)]
pub struct RuleSets {
    files: Vec<RuleFile>,
}

/// A set that is read when it is first asked for: a cook is judged by one or two of many.
#[derive(Debug)]
struct RuleFile {
    id: &'static str,
    text: &'static str,
    set: OnceLock<RuleSet>,
}

impl RuleFile {
    fn set(&self) -> &RuleSet {
        self.set.get_or_init(|| toml::from_str(self.text).expect("the embedded rule sets are read by a test"))
    }
}

impl RuleSets {
    /// The sets that are built in.
    pub fn built_in() -> &'static Self {
        static SETS: OnceLock<RuleSets> = OnceLock::new();
        SETS.get_or_init(|| RuleSets {
            files: FILES.iter().map(|&(id, text)| RuleFile { id, text, set: OnceLock::new() }).collect(),
        })
    }

    /// All of them, in the order of their ids.
    pub fn sets(&self) -> impl Iterator<Item = &RuleSet> {
        self.files.iter().map(RuleFile::set)
    }

    /// What may stand after `rules`.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.files.iter().map(|file| file.id)
    }

    /// The set called `name`, in any letter case.
    pub fn find(&self, name: &str) -> Option<&RuleSet> {
        self.files.iter().find(|file| file.id.eq_ignore_ascii_case(name)).map(RuleFile::set)
    }

    /// The set that judges a cook which names none.
    pub fn assumed(&self) -> &RuleSet {
        self.find(ASSUMED).expect("the assumed rule set is built in")
    }
}
