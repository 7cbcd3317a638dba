//! The page for users prints the measured errors, and no others.

use crate::score::Score;
use crate::{baths, cooling, frozen, pasteurizing, roasting};

const PAGE: &str = include_str!("../../grammar/forecast.md");

/// A row of the page's table; `unit` follows each error.
fn row(what: &str, score: &Score, unit: &str) -> String {
    let signed = |error: f64| {
        let rounded = error.round();
        // A minus that reads as one, and no sign before a nought.
        let sign = if rounded > 0.0 {
            "+"
        } else if rounded < 0.0 {
            "−"
        } else {
            ""
        };
        format!("{sign}{:.0} {unit}", rounded.abs())
    };
    let inside = match score.bounded() {
        0 => "–".to_string(),
        bounded => format!("{} of {bounded}", score.inside()),
    };
    let absolute = score.mean_absolute();
    format!(
        "| {what} | {} | {} | {absolute:.0} {unit} | {} | {inside} |\n",
        score.len(),
        signed(score.mean()),
        signed(score.worst()),
    )
}

fn table() -> String {
    let head = "| what | figures | mean | mean, sign left out | worst | inside the bounds |\n";
    let rows = [
        row("heating in a water bath, bagged", &baths::HEATING, "%"),
        row("cooling in iced water, bagged", &baths::COOLING, "%"),
        row("pasteurizing meat in a bath", &pasteurizing::MEAT.usual, "%"),
        row("the same, by the lowest curve", &pasteurizing::MEAT.worse, "%"),
        row("pasteurizing poultry in a bath", &pasteurizing::POULTRY.usual, "%"),
        row("the same, by the lowest curve", &pasteurizing::POULTRY.worse, "%"),
        row("whole joints cooled in cold water", &cooling::WATER, "%"),
        row("joints cooled in moving air", &cooling::AIR, "%"),
        row("hams cooled in a chill room", &cooling::FRIDGE, "%"),
        row("roasting charts", &roasting::CHECKING, "%"),
        row("whole turkeys, measured", &roasting::TURKEYS, "%"),
        row("whole turkeys, chart", &roasting::TURKEY_CHART, "%"),
        row("how much longer from frozen, oven", &frozen::ROASTED, "%"),
        row("whole turkeys thawed in a fridge", &frozen::FRIDGE, "%"),
        row("rise of the core after the oven", &roasting::CARRY_OVER, "K"),
    ];
    format!("{head}|---|---|---|---|---|---|\n{}", rows.concat())
}

#[test]
fn the_page_prints_what_is_measured() {
    let table = table();
    assert!(PAGE.contains(&table), "grammar/forecast.md has to hold this table:\n{table}");
}
