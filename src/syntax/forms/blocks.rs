//! The first lines of blocks.

use super::Slot::{Amount, Clock, File, Food, FoodKind, KitClass, NewName, Number, Purpose, Text, Words};
use super::{Form, Slot};

const fn head(
    word: &'static str,
    pattern: &'static str,
    slots: &'static [Slot],
    blocks: &'static [&'static str],
    means: &'static str,
) -> Form {
    Form { word, pattern, slots, is_head: true, blocks, means }
}

/// Of a file that is one cook.
const COOK: &[&str] = &["cook"];
const MENU: &[&str] = &["menu"];
const ANY: &[&str] = &[];

pub const FORMS: &[Form] = &[
    head(
        "dwell",
        "dwell [1]",
        &[Number],
        ANY,
        "The edition of the language. It may stand on the first line.",
    ),
    head(
        "cook",
        "cook [\"Title\"]",
        &[Text],
        ANY,
        "What this file cooks. The facts about the whole of it stand below.",
    ),
    head(
        "kit",
        "kit [oven] is [fan oven]",
        &[NewName, KitClass],
        ANY,
        "A place where food can be, or a thermometer. What yours does, other than such kit usually does, stands below.",
    ),
    head(
        "kit",
        "kit from [\"kitchen.dwell\"]",
        &[File],
        ANY,
        "Takes the kit of another file, so that a kitchen is written once.",
    ),
    head(
        "food",
        "food [shoulder] is [pork shoulder]",
        &[NewName, FoodKind],
        COOK,
        "Stock whose temperature matters. The kind is a row of the food table, and decides which rules judge it.",
    ),
    head(
        "ingredient",
        "ingredient [salt] is [70 g sea salt]",
        &[NewName, Amount],
        COOK,
        "The short line for stock that is only used and never placed.",
    ),
    head(
        "ingredient",
        "ingredient [chives] is [chives]",
        &[NewName, Words],
        COOK,
        "The short line for stock that is only used and never placed. Below it stands that it is to taste.",
    ),
    head(
        "phase",
        "phase [roast] is [cook]",
        &[NewName, Purpose],
        COOK,
        "What happens to food between two moments. The purpose decides which rules judge it.",
    ),
    head(
        "phase",
        "phase [rest]",
        &[NewName],
        COOK,
        "What happens to food between two moments. It is named after its purpose, which decides which rules judge it.",
    ),
    head("serve", "serve [shoulder]", &[Food], COOK, "A meal, or a part of one. When it is stands below."),
    head("serve", "serve at [18:30]", &[Clock], MENU, "When the meal of this menu is."),
    head(
        "crew",
        "crew",
        &[],
        ANY,
        "The people, and when nobody is there. Without a crew, sleep and hands are not looked at.",
    ),
    head("menu", "menu [\"Title\"]", &[Text], ANY, "Several cooks that share kit, hands and a time."),
    head(
        "dish",
        "dish [\"beans.dwell\"] for [40]",
        &[File, Number],
        MENU,
        "One of the cooks of this menu, and for how many people it is made.",
    ),
    head(
        "dish",
        "dish [\"beans.dwell\"]",
        &[File],
        MENU,
        "One of the cooks of this menu, for as many as it is written for.",
    ),
];
