//! The first lines of blocks.

use super::Slot::{Amount, Clock, File, Food, FoodKind, KitClass, NewName, Number, Purpose, Text};
use super::{Form, clause};

/// Of a file that is one cook.
const COOK: &[&str] = &["cook"];
const MENU: &[&str] = &["menu"];
const ANY: &[&str] = &[];

pub const FORMS: &[Form] = &[
    clause(
        "dwell",
        "dwell [1]",
        &[Number],
        ANY,
        "The edition of the language. It may stand on the first line.",
    ),
    clause(
        "cook",
        "cook [\"Title\"]",
        &[Text],
        ANY,
        "What this file cooks. The facts about the whole of it stand below.",
    ),
    clause(
        "kit",
        "kit [oven] is [fan oven]",
        &[NewName, KitClass],
        ANY,
        "A place where food can be, or a thermometer. What yours does, other than such kit usually does, stands below.",
    ),
    clause(
        "kit",
        "kit from [\"kitchen.dwell\"]",
        &[File],
        ANY,
        "Takes the kit of another file, so that a kitchen is written once.",
    ),
    clause(
        "food",
        "food [shoulder] is [pork shoulder]",
        &[NewName, FoodKind],
        COOK,
        "Stock whose temperature matters. The kind is a row of the food table, and decides which rules judge it.",
    ),
    clause(
        "ingredient",
        "ingredient [salt] is [70 g sea salt]",
        &[NewName, Amount],
        COOK,
        "The short line for stock that is only used and never placed.",
    ),
    clause(
        "phase",
        "phase [roast] is [cook]",
        &[NewName, Purpose],
        COOK,
        "What happens to food between two moments. The purpose decides which rules judge it.",
    ),
    clause("serve", "serve [shoulder]", &[Food], COOK, "A meal, or a part of one. When it is stands below."),
    clause("serve", "serve at [18:30]", &[Clock], MENU, "When the meal of this menu is."),
    clause(
        "crew",
        "crew",
        &[],
        ANY,
        "The people, and when nobody is there. Without a crew, sleep and hands are not looked at.",
    ),
    clause("menu", "menu [\"Title\"]", &[Text], ANY, "Several cooks that share kit, hands and a time."),
    clause(
        "dish",
        "dish [\"beans.dwell\"] for [40]",
        &[File, Number],
        MENU,
        "One of the cooks of this menu, and for how many people it is made.",
    ),
];
