//! What a rule asks, by kind, with its figures.

use serde::Deserialize;

use super::course::Band;
use super::figures::{Limit, Point};
use crate::cook::Medium;

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

/// What reheated food is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Served {
    Now,
    Held,
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
    TimeAlone { max_s: f64, clock: Clock, side: Option<Side>, out: Band },
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
        /// From the cold to the figure within this time.
        window_s: Option<f64>,
        /// What counts as the cold there; without it, the start.
        window_from: Option<Limit>,
        /// Only before it is eaten at once, or only before a hot hold.
        served: Option<Served>,
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
