//! Amounts for people and for other tools.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::cook::Amount;
use crate::ledger::Weight;
use crate::quantity::{Length, Mass, Volume, Written};

/// An amount: one key, which ends in its unit; a bare count says what is counted.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Measure {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_kg: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub volume_m3: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length_m: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<f64>,
    /// What is counted, as typed: "vacuum bags".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub counted: Option<String>,
    /// A part of it has no known mass, or was measured by volume.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub about: bool,
    /// The units that people read it in; other tools read SI.
    #[serde(skip)]
    #[schemars(skip)]
    pub(super) written: Written,
}

impl From<&Amount> for Measure {
    fn from(amount: &Amount) -> Self {
        let mut measure = Self::default();
        match amount {
            Amount::Mass(mass) => {
                measure.mass_kg = Some(tidy(mass.kg()));
                measure.written = mass.written();
            }
            Amount::Volume(volume) => measure.volume_m3 = Some(tidy(volume.cubic_metres())),
            Amount::Length(length) => {
                measure.length_m = Some(tidy(length.metres()));
                measure.written = length.written();
            }
            Amount::Count { number, word } => {
                measure.count = Some(tidy(*number));
                measure.counted = Some(word.clone()).filter(|word| !word.is_empty());
            }
        }
        measure
    }
}

impl From<Weight> for Measure {
    fn from(weight: Weight) -> Self {
        Self {
            mass_kg: Some(tidy(weight.mass.kg())),
            about: weight.about,
            written: weight.mass.written(),
            ..Self::default()
        }
    }
}

/// Without the dust of binary fractions: to a billionth.
pub fn tidy(value: f64) -> f64 {
    (value * 1e9).round() / 1e9
}

/// To a thousandth, which is finer than anything that is predicted.
pub fn thousandth(value: f64) -> f64 {
    (value * 1e3).round() / 1e3
}

impl Measure {
    /// As people read it: `70 g`, `about 3.5 kg`, `8 vacuum bags`.
    pub fn show(&self) -> String {
        let about = if self.about { "about " } else { "" };
        format!("{about}{}", self.amount().map_or_else(String::new, |amount| amount.show()))
    }

    fn amount(&self) -> Option<Amount> {
        let count = self.count.map(|number| {
            let word = self.counted.clone().unwrap_or_default();
            Amount::Count { number, word }
        });
        (self.mass_kg.map(|kg| Amount::Mass(Mass::from_kg(kg).written_in(self.written))))
            .or(self.volume_m3.map(|m3| Amount::Volume(Volume::from_cubic_metres(m3))))
            .or(self.length_m.map(|m| Amount::Length(Length::from_metres(m).written_in(self.written))))
            .or(count)
    }
}
