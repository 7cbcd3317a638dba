//! Rule sets: who asks for which temperatures and times, as data.
//!
//! A rule set is one file in `data/rules/`; adding one is the file and its line in [`FILES`]. Nothing
//! here knows how a cook is judged, only what a publisher prints.

use std::sync::OnceLock;

use serde::Deserialize;

use super::Species;
use crate::cook::{Medium, Structure};
use crate::quantity::{Duration, Temperature};

/// The files that are built in. A test holds this list against the folder.
const FILES: [&str; 2] = [include_str!("data/rules/us-food-code.toml"), include_str!("data/rules/uk.toml")];

/// The set that judges a cook which names none.
pub const ASSUMED: &str = "us-food-code";

/// A limit as it is published, in each scale its publisher prints.
///
/// Publishers round: the Food Code's 135 °F is 57.2 °C, printed as 57 °C. Both figures are theirs, so
/// one that satisfies either satisfies the limit, and nobody is refused for using the scale they own.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    pub c: Option<f64>,
    pub f: Option<f64>,
}

/// What conversion between scales may cost in the last digits.
const ROUNDING_K: f64 = 1e-6;

impl Limit {
    fn figures(self) -> impl Iterator<Item = Temperature> {
        self.c.map(Temperature::from_celsius).into_iter().chain(self.f.map(Temperature::from_fahrenheit))
    }

    /// The lowest temperature that counts as this much.
    pub fn lowest(self) -> Temperature {
        self.figures().fold(Temperature::from_kelvin(f64::INFINITY), Temperature::min)
    }

    /// The highest temperature that counts as no more than this.
    pub fn highest(self) -> Temperature {
        self.figures().fold(Temperature::from_kelvin(f64::NEG_INFINITY), Temperature::max)
    }

    /// `strict`: the figure itself is not enough.
    pub fn at_least(self, temperature: Temperature, strict: bool) -> bool {
        let beyond = temperature.kelvin() - self.lowest().kelvin();
        if strict { beyond > ROUNDING_K } else { beyond >= -ROUNDING_K }
    }

    pub fn at_most(self, temperature: Temperature, strict: bool) -> bool {
        let beyond = self.highest().kelvin() - temperature.kelvin();
        if strict { beyond > ROUNDING_K } else { beyond >= -ROUNDING_K }
    }
}

/// As published: `57 °C (135 °F)`.
impl std::fmt::Display for Limit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match (self.c, self.f) {
            (Some(c), Some(fahrenheit)) => write!(f, "{c} °C ({fahrenheit} °F)"),
            (Some(c), None) => write!(f, "{c} °C"),
            (None, Some(fahrenheit)) => write!(f, "{fahrenheit} °F"),
            (None, None) => Ok(()),
        }
    }
}

/// A temperature, and how long the coldest part has to stay there. No time means that reaching it is enough.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Point {
    /// The row's own id, where a rule is a chart.
    pub id: Option<String>,
    pub c: Option<f64>,
    pub f: Option<f64>,
    pub hold_s: f64,
    /// Where it differs from the rule's.
    pub status: Option<Status>,
}

impl Point {
    pub fn limit(&self) -> Limit {
        Limit { c: self.c, f: self.f }
    }

    pub fn hold(&self) -> Duration {
        Duration::from_seconds(self.hold_s)
    }
}

/// As published: `63 °C (145 °F) for 15 s`.
impl std::fmt::Display for Point {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.limit())?;
        if self.hold_s > 0.0 { write!(f, " for {}", self.hold().show()) } else { Ok(()) }
    }
}

/// Raw food that a rule is about; an empty list means any.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FoodClass {
    #[serde(default)]
    pub species: Vec<Species>,
    #[serde(default)]
    pub structures: Vec<Structure>,
}

impl FoodClass {
    pub fn holds(&self, species: Species, structure: Structure) -> bool {
        (self.species.is_empty() || self.species.contains(&species))
            && (self.structures.is_empty() || self.structures.contains(&structure))
    }
}

/// How far a figure can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Status {
    /// Read on the legal or agency text, or on one that adopts it.
    Verified,
    /// Read on a page that quotes it.
    Secondary,
    /// Arithmetic on a verified figure.
    Computed,
    Memory,
}

impl Status {
    pub fn word(self) -> &'static str {
        match self {
            Self::Verified => "verified",
            Self::Secondary => "secondary",
            Self::Computed => "computed",
            Self::Memory => "memory",
        }
    }
}

/// When the clock of food that is neither kept hot nor kept cold starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Clock {
    /// When it leaves the heat or the cold.
    LeavingControl,
    /// When the food itself passes the limit, which only a prediction can time.
    PassingLimit,
}

/// Food that comes to its place hot, or cold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    Hot,
    Cold,
}

/// How curing salt gets into meat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum CureWay {
    /// Rubbed on a whole piece.
    Dry,
    /// In a brine.
    Brine,
    /// Mixed into minced meat.
    Mixed,
}

/// What a rule asks, by kind, with its figures.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Demand {
    /// The coldest part reaches one of these. Rules of this kind that apply to a food are alternatives.
    Cook {
        points: Vec<Point>,
        /// Only before this purpose (`hot-hold`).
        then: Option<String>,
    },
    /// The outside reaches this; `None` where it must only look cooked.
    CookSurface { surface: Option<Limit> },
    /// Kept at this or above. Alternatives, too.
    HotHold {
        min: Limit,
        /// Only for food that the cooking rule of this id passed.
        after: Option<String>,
    },
    /// Kept at this or below. A rule about some food stands in place of the general one.
    ColdHold { max: Limit },
    /// So long neither hot nor cold, in all.
    TimeAlone { max_s: f64, clock: Clock, side: Option<Side> },
    /// From one temperature to another within this time; without `to`, from the heat into the fridge.
    Cool {
        from: Option<Limit>,
        to: Option<Limit>,
        max_s: f64,
        /// The time comes on top of that of the stage above, rather than from the same start.
        #[serde(default)]
        further: bool,
    },
    /// Before a hot hold. Alternatives, too.
    Reheat {
        #[serde(default)]
        points: Vec<Point>,
        /// The points are those of this cooking rule.
        points_of: Option<String>,
        after: Option<String>,
        /// Only for food that was bought cooked.
        #[serde(default)]
        bought_cooked: bool,
        window_s: Option<f64>,
    },
    /// Cooked and cooled food is heated up again only once.
    ReheatOnce {},
    /// Used within so many days in the cold.
    Keep { max_days: f64 },
    /// Used within so many days in the cold, where it is in a sealed bag.
    KeepBagged { max_days: f64 },
    /// Used within so many days in the cold, where it is a raw plant under oil.
    KeepUnderOil { max_days: f64 },
    /// No more nitrite goes in than this, for the mass of the meat. Without a way, whatever the way.
    Nitrite { max_ppm: f64, way: Option<CureWay> },
    /// Thawed in one of these media, no warmer than this. Alternatives, too.
    Thaw { media: Vec<Medium>, max: Limit },
    /// Fish that nothing cooks is frozen first: no warmer than one of these, for that long. Alternatives.
    FreezeFish {
        points: Vec<Point>,
        /// Kinds of the food table of which some species need none of it.
        exempt: Vec<String>,
    },
    /// More acid food than this needs no control.
    NeedsNoControl { ph_below: f64 },
    /// A ferment outside the cold ends on a measured figure at least this acid.
    FermentEnd { ph_max: f64 },
    /// Written down, and not judged from declared figures: `needs` says what it would take.
    Listed {
        purposes: Vec<String>,
        /// Only where the food is in one of these.
        media: Option<Vec<Medium>>,
        /// Only where something is in a sealed bag.
        #[serde(default)]
        bagged: bool,
        needs: String,
    },
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
}

impl Rule {
    pub fn is_about(&self, species: Species, structure: Structure) -> bool {
        self.foods.is_empty() || self.foods.iter().any(|class| class.holds(species, structure))
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
    sets: Vec<RuleSet>,
}

impl RuleSets {
    /// The sets that are built in.
    pub fn built_in() -> &'static Self {
        static SETS: OnceLock<RuleSets> = OnceLock::new();
        SETS.get_or_init(|| RuleSets {
            sets: FILES
                .iter()
                .map(|file| toml::from_str(file).expect("the embedded rule sets are read by a test"))
                .collect(),
        })
    }

    pub fn sets(&self) -> &[RuleSet] {
        &self.sets
    }

    /// What may stand after `rules`.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.sets.iter().map(|set| set.id.as_str())
    }

    /// The set called `name`, in any letter case.
    pub fn find(&self, name: &str) -> Option<&RuleSet> {
        self.sets.iter().find(|set| set.id.eq_ignore_ascii_case(name))
    }

    /// The set that judges a cook which names none.
    pub fn assumed(&self) -> &RuleSet {
        self.find(ASSUMED).expect("the assumed rule set is built in")
    }
}
