//! Kit: places where food sits, and thermometers.

use std::sync::Arc;

use crate::quantity::{Duration, Mass, Share, Temperature, TemperatureDifference, Volume};
use crate::tables::KitClass;
use crate::text::{Span, Spanned};

/// Index into [`Cook::kit`](super::Cook::kit).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KitId(pub u32);

/// What a setting is the temperature of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Medium {
    Air,
    Water,
    Steam,
    Oil,
    Plate,
    Liquid,
}

impl Medium {
    pub const ALL: [Self; 6] = [Self::Air, Self::Water, Self::Steam, Self::Oil, Self::Plate, Self::Liquid];

    pub fn word(self) -> &'static str {
        match self {
            Self::Air => "air",
            Self::Water => "water",
            Self::Steam => "steam",
            Self::Oil => "oil",
            Self::Plate => "plate",
            Self::Liquid => "liquid",
        }
    }
}

/// The temperatures a kit can be set to, in one medium; one figure means a fixed setting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MediumRange {
    pub medium: Medium,
    pub low: Temperature,
    pub high: Temperature,
    /// Where it is written; `None` for the default of the class.
    pub span: Option<Span>,
}

/// How much food fits (`holds 12 kg`, `holds 60 l`).
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Capacity {
    Mass(Mass),
    Volume(Volume),
}

/// One piece of kit: the defaults of its class, overridden by its clauses.
#[derive(Debug, Clone, PartialEq)]
pub struct Kit {
    pub name: Spanned<String>,
    /// The header line.
    pub span: Span,
    pub class: Arc<KitClass>,
    pub ranges: Vec<MediumRange>,
    pub swing: Option<TemperatureDifference>,
    pub preheat: Option<Duration>,
    pub cools_down: Option<Duration>,
    pub shelves: Option<Spanned<f64>>,
    pub holds: Option<Spanned<Capacity>>,
    pub moisture: Option<Share>,
    pub vented: bool,
    pub programmable: bool,
    /// The temperature of the room around it.
    pub room: Option<Temperature>,
    /// `true` when it was read from another file by `kit from`.
    pub imported: bool,
}
