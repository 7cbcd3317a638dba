//! What stands under every sheet that somebody cooks from.

use std::sync::OnceLock;

use serde::Deserialize;

/// When a caution applies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum When {
    Always,
    /// Wood smoulders indoors.
    Smoke,
    /// Food is sealed from the air.
    Sealed,
    AnimalFood,
    VulnerableGuests,
    /// There is animal food, and nothing is said of who eats it.
    OtherGuests,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    pub id: String,
    pub when: When,
    pub text: String,
    pub source: String,
    pub status: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Lists {
    caution: Vec<Caution>,
}

/// In the order in which they are printed.
pub fn all() -> &'static [Caution] {
    static LISTS: OnceLock<Lists> = OnceLock::new();
    let lists = LISTS.get_or_init(|| {
        toml::from_str(include_str!("data/cautions.toml")).expect("a test reads the embedded lists")
    });
    &lists.caution
}
