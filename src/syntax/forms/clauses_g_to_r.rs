//! Clauses that start with a word of their own, from `ground` to `rules`.

use super::Slot::{
    Amount, Clock, Content, Day, Kit, KitchenMeasures, Number, RuleSet, Share, Temperature, Text, Time,
};
use super::places::*;
use super::{Form, clause};

pub const FORMS: &[Form] = &[
    clause(
        "ground",
        "ground",
        &[],
        FOOD_ANYWHERE,
        "It is minced, or mixed through: what was on its surface is everywhere in it.",
    ),
    clause(
        "guests",
        "guests between [12:30] and [14:00]",
        &[Clock, Clock],
        SERVE,
        "The guests decide when they eat, and you learn it when they come.",
    ),
    clause("hands-on", "hands-on", &[], SERVED, "Somebody is busy with it for as long as it lasts."),
    clause(
        "hands-on",
        "hands-on [10 min]",
        &[Time],
        SERVED,
        "Somebody is busy with it for the first so many minutes.",
    ),
    clause("holds", "holds [12 kg]", &[Content], KIT, "How much food fits."),
    clause(
        "injected",
        "injected",
        &[],
        FOOD_ANYWHERE,
        "Brine was put into the meat: what was on its surface may be deep in it.",
    ),
    clause(
        "intact",
        "intact",
        &[],
        FOOD_ANYWHERE,
        "The muscle is whole: nothing was stuck into it, and it was not minced.",
    ),
    clause("look", "look in every [1 h]", &[Time], SERVED, "Somebody looks at it this often, at night too."),
    clause(
        "measures",
        "measures [metric]",
        &[KitchenMeasures],
        COOK,
        "Whose cups and spoons this file means.",
    ),
    clause(
        "moisture",
        "moisture [40 %]",
        &[Share],
        &["kit", "phase", "serve"],
        "How humid the air around the food is.",
    ),
    clause("nitrite", "nitrite [6.25 %]", &[Share], INGREDIENT, "How much nitrite a curing salt holds."),
    clause(
        "note",
        "note [\"Two parts ice to one of water.\"]",
        &[Text],
        &["cook", "kit", "food", "ingredient", "phase", "serve", "crew", "menu"],
        "A remark that is printed.",
    ),
    clause(
        "on",
        "on [hob]",
        &[Kit],
        SERVED,
        "Where it is: a phase that is made from stock alone, or a meal that is kept in its kit.",
    ),
    clause(
        "on",
        "on hand [500 g]",
        &[Amount],
        STOCK,
        "How much of it is in the house. Only the rest is bought.",
    ),
    clause(
        "on",
        "on [Saturday] at [19:30]",
        &[Day, Clock],
        &["serve", "dish"],
        "On which day people eat, and when.",
    ),
    clause(
        "ph",
        "pH [4.6]",
        &[Number],
        FOOD_ANYWHERE,
        "How sour it is: of food as it is bought, of a phase as it ends.",
    ),
    clause("preheat", "preheat [20 min]", &[Time], KIT, "How long this kit takes to heat from cold."),
    clause("programmable", "programmable", &[], KIT, "It comes on and changes its setting by itself."),
    clause("room", "room [20 °C]", &[Temperature], KIT, "How warm it is around this kit."),
    clause(
        "rules",
        "rules [us-food-code]",
        &[RuleSet],
        &["cook", "menu", "dish"],
        "The set of rules that judges the cook.",
    ),
];
