//! What a rule asks of the temperature of food over time, where its kind does not say it already.

use serde::Deserialize;

use super::figures::Limit;

/// What a stretch of a food's history was for. A rule may count for several.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Aim {
    Cook,
    /// The way up through the warm, while food is cooked.
    ComeUp,
    HotHold,
    ColdHold,
    Cool,
    /// For eating at once.
    ReheatNow,
    /// Before a hot hold.
    ReheatToHold,
    /// Neither kept hot nor kept cold, on time alone.
    TimeControl,
    Thaw,
}

impl Aim {
    /// As it stands in a rule set.
    pub const ALL: [(Self, &'static str); 9] = [
        (Self::Cook, "cook"),
        (Self::ComeUp, "come-up"),
        (Self::HotHold, "hot-hold"),
        (Self::ColdHold, "cold-hold"),
        (Self::Cool, "cool"),
        (Self::ReheatNow, "reheat-now"),
        (Self::ReheatToHold, "reheat-to-hold"),
        (Self::TimeControl, "time-control"),
        (Self::Thaw, "thaw"),
    ];

    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(aim, _)| *aim == self).map_or("", |(_, word)| word)
    }

    pub fn find(word: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, known)| *known == word).map(|(aim, _)| *aim)
    }

    /// Are the rules about it alternatives, of which one will do?
    pub fn has_alternatives(self) -> bool {
        !matches!(self, Self::ComeUp | Self::Cool)
    }
}

/// How time out of the heat and the cold is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Count {
    /// Every outing is added up.
    Total,
    /// One outing; a second is not allowed.
    Once,
    /// The clock starts on leaving the heat or the cold, and runs to the end whatever the food does then.
    SinceLeaving,
}

/// Between two temperatures, and how the time there is counted.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Band {
    /// At this or below it is cold enough.
    pub above: Option<Limit>,
    /// At this or above it is hot enough.
    pub below: Option<Limit>,
    pub count: Count,
    /// The food may never get warmer than this meanwhile.
    pub ceiling: Option<Limit>,
    /// After so long in all it may not go back to be kept hot or cold.
    pub back_within_s: Option<f64>,
    /// Only up to the moment at which some cooking rule of the set is satisfied.
    #[serde(default)]
    pub until_cooked: bool,
}

/// What a rule that is only listed for declared figures asks of a history.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(tag = "asks", rename_all = "kebab-case")]
pub enum Course {
    /// As much heat in all as this long at `at`, with the time at T counted 10^((T - at)/z) times, and nothing
    /// below `credit`.
    Heat { at: Limit, z_k: f64, hold_s: f64, credit: Limit },
    /// In this band no longer than this.
    Between { band: Band, max_s: f64 },
    /// From one temperature to another; without `from`, from the start of the history. `further`: from the moment
    /// the food is as cold as `from`, where the stage above ends, rather than from its falling below it.
    Fall {
        from: Option<Limit>,
        to: Limit,
        max_s: f64,
        #[serde(default)]
        further: bool,
    },
    /// No temperature breaks it.
    Anything {},
}
