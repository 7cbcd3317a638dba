//! Clauses that say how hot it is around the food.

use super::Form;
use super::Slot::Temperature;

const fn setting(word: &'static str, pattern: &'static str, means: &'static str) -> Form {
    Form { word, pattern, slots: &[Temperature], is_head: false, blocks: &["kit", "phase", "serve"], means }
}

/// What a piece of kit can be set to.
const fn range(word: &'static str, pattern: &'static str, means: &'static str) -> Form {
    Form { word, pattern, slots: &[Temperature, Temperature], is_head: false, blocks: &["kit"], means }
}

pub const FORMS: &[Form] = &[
    setting(
        "air",
        "air [110 °C]",
        "How hot the air around the food is. It lasts while the food stays in this kit and nothing else is said. Of kit: \
         the one setting that it has.",
    ),
    range(
        "air",
        "air [30 °C] to [150 °C]",
        "The lowest and the highest that the air of this kit can be set to.",
    ),
    setting(
        "liquid",
        "liquid [95 °C]",
        "How hot the liquid is that the food is, or lies in. It lasts while the food stays in this kit and nothing else is said.",
    ),
    range(
        "liquid",
        "liquid [40 °C] to [98 °C]",
        "The lowest and the highest that liquid in this kit can be kept at.",
    ),
    setting(
        "oil",
        "oil [175 °C]",
        "How hot the oil around the food is. It lasts while the food stays in this kit and nothing else is said.",
    ),
    range(
        "oil",
        "oil [120 °C] to [190 °C]",
        "The lowest and the highest that the oil of this kit can be set to.",
    ),
    setting(
        "plate",
        "plate [250 °C]",
        "How hot the metal under the food is. It lasts while the food stays in this kit and nothing else is said.",
    ),
    range(
        "plate",
        "plate [80 °C] to [300 °C]",
        "The lowest and the highest that the plate of this kit can be set to.",
    ),
    setting(
        "steam",
        "steam [100 °C]",
        "How hot the steam around the food is. It lasts while the food stays in this kit and nothing else is said.",
    ),
    range(
        "steam",
        "steam [40 °C] to [100 °C]",
        "The lowest and the highest that the steam of this kit can be set to.",
    ),
    setting(
        "water",
        "water [57 °C]",
        "How hot the water bath is. It lasts while the food stays in this kit and nothing else is said.",
    ),
    range(
        "water",
        "water [20 °C] to [95 °C]",
        "The lowest and the highest that the water of this kit can be set to.",
    ),
];
