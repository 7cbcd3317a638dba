//! The food table as people read it.

use super::{WIDTH, field, share};
use crate::quantity::plain_number;
use crate::tables::{FoodKind, FoodState, Foods, Properties};

pub(super) fn list(table: &Foods) -> String {
    let mut page =
        format!("{:26} {:10} {:8} {:>7} {:>7}  source\n", "food", "species", "state", "water", "fat");
    for kind in table.kinds() {
        let (water, fat) = match kind.properties {
            Properties::Composition(c) => (tenths(c.water_percent), tenths(c.fat_percent)),
            Properties::Measured { .. } => (String::new(), String::new()),
        };
        let row = format!(
            "{:26} {:10} {:8} {water:>7} {fat:>7}  {}",
            kind.name,
            kind.species.word(),
            kind.state.word(),
            kind.source_id
        );
        page.push_str(row.trim_end());
        page.push('\n');
    }
    page.push('\n');
    page.push_str(&textwrap::fill(
        "Each is found in any order of words, one or many, with commas or without. \
         dwell foods NAME shows one with its source.",
        WIDTH,
    ));
    page.push('\n');
    page
}

/// With one decimal always, so that the column reads straight.
fn tenths(percent: f64) -> String {
    format!("{percent:.1} %")
}

pub(super) fn page(kind: &FoodKind) -> String {
    let mut page = format!("{}\n", kind.name);
    let mut line = |label: &str, text: &str| field(&mut page, label, text);
    if !kind.also.is_empty() {
        line("also", &format!("{} (common practice, no source)", kind.also.join("; ")));
    }
    if let Some(note) = &kind.also_note {
        line("", note);
    }
    line("species", kind.species.word());
    line("state", &format!("{}: {}", kind.state.word(), state_in_words(kind.state)));
    match kind.properties {
        Properties::Composition(c) => line(
            "made of",
            &format!(
                "water {}, protein {}, fat {}, carbohydrate {} (fibre {} of it), ash {}",
                share(c.water_percent),
                share(c.protein_percent),
                share(c.fat_percent),
                share(c.carbohydrate_percent),
                share(c.fibre_percent),
                share(c.ash_percent)
            ),
        ),
        Properties::Measured { conductivity_w_mk, density_kg_m3, specific_heat_j_kgk } => line(
            "measured",
            &format!(
                "conductivity {} W/m K, density {} kg/m³, specific heat {} J/kg K",
                plain_number(conductivity_w_mk, 4),
                plain_number(density_kg_m3, 1),
                plain_number(specific_heat_j_kgk, 1)
            ),
        ),
    }
    line("source", &format!("{}, {}: {}", kind.source_edition, kind.source_id, kind.source_description));
    line("status", &kind.status);
    if let Some(note) = &kind.note {
        line("note", note);
    }
    page
}

pub fn state_in_words(state: FoodState) -> &'static str {
    match state {
        FoodState::Intact => "as bought, a whole piece",
        FoodState::Ground => "raw, minced or mixed through",
        FoodState::Liquid => "pours",
        FoodState::Thick => "stirred, hardly flows",
        FoodState::Cooked => "cooked or ready to eat",
        FoodState::Dough => "raw dough",
        FoodState::Baked => "baked",
        FoodState::Fat => "melts",
        FoodState::Tenderised => "raw, needled or cut to make it tender",
        FoodState::Injected => "raw, with brine put into it",
    }
}
