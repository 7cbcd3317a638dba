//! Kit.

use schemars::JsonSchema;
use serde::Serialize;

use super::Place;
use crate::cook;
use crate::text::Sources;

#[derive(Serialize, JsonSchema)]
pub(super) struct Kit {
    name: String,
    class: String,
    ranges: Vec<Range>,
    swing_k: Option<f64>,
    preheat_s: Option<f64>,
    cools_down_s: Option<f64>,
    shelves: Option<f64>,
    holds_kg: Option<f64>,
    holds_m3: Option<f64>,
    moisture_fraction: Option<f64>,
    room_c: Option<f64>,
    vented: bool,
    programmable: bool,
    place: Place,
}

/// The temperatures it can be set to.
#[derive(Serialize, JsonSchema)]
struct Range {
    medium: Medium,
    low_c: f64,
    high_c: f64,
    /// Written in the file rather than taken from the class.
    written: bool,
}

/// What a setting is the temperature of.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum Medium {
    Air,
    Water,
    Steam,
    Oil,
    Plate,
    Liquid,
}

impl From<cook::Medium> for Medium {
    fn from(medium: cook::Medium) -> Self {
        match medium {
            cook::Medium::Air => Self::Air,
            cook::Medium::Water => Self::Water,
            cook::Medium::Steam => Self::Steam,
            cook::Medium::Oil => Self::Oil,
            cook::Medium::Plate => Self::Plate,
            cook::Medium::Liquid => Self::Liquid,
        }
    }
}

pub(super) fn all(sources: &Sources, kit: &[cook::Kit]) -> Vec<Kit> {
    kit.iter().map(|kit| Kit::new(sources, kit)).collect()
}

impl Kit {
    fn new(sources: &Sources, kit: &cook::Kit) -> Self {
        let holds = kit.holds.map(|holds| holds.value);
        Self {
            name: kit.name.value.clone(),
            class: kit.class.name.clone(),
            ranges: kit
                .ranges
                .iter()
                .map(|range| Range {
                    medium: range.medium.into(),
                    low_c: range.low.celsius(),
                    high_c: range.high.celsius(),
                    written: range.span.is_some(),
                })
                .collect(),
            swing_k: kit.swing.map(|swing| swing.kelvin()),
            preheat_s: kit.preheat.map(|time| time.seconds()),
            cools_down_s: kit.cools_down.map(|time| time.seconds()),
            shelves: kit.shelves.map(|shelves| shelves.value),
            holds_kg: match holds {
                Some(cook::Capacity::Mass(mass)) => Some(mass.kg()),
                _ => None,
            },
            holds_m3: match holds {
                Some(cook::Capacity::Volume(volume)) => Some(volume.cubic_metres()),
                _ => None,
            },
            moisture_fraction: kit.moisture.map(|share| share.fraction()),
            room_c: kit.room.map(|room| room.celsius()),
            vented: kit.vented,
            programmable: kit.programmable,
            place: Place::new(sources, kit.name.span),
        }
    }
}
