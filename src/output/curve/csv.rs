//! The curves for a spreadsheet or a program that reads tables.

use crate::heat::Curves;
use crate::output::escape::csv_cell;
use crate::output::measure;

/// RFC 4180 with a header, but for line ends, which are single as everywhere here. One row for each
/// sample; text that a spreadsheet might take for a formula starts with an apostrophe.
pub fn csv(curves: &Curves) -> String {
    let mut table = String::from("food,phase,t_s,medium_c,surface_c,core_c,core_low_c,core_high_c\n");
    for food in &curves.foods {
        let name = csv_cell(&food.name);
        for sample in &food.samples {
            let phase = curves.phases.iter().find(|phase| phase.phase == sample.phase);
            let phase = phase.map_or_else(String::new, |phase| csv_cell(&phase.name));
            let figures = [
                sample.t_s,
                sample.medium_c,
                sample.surface_c,
                sample.core_c,
                sample.core_low_c,
                sample.core_high_c,
            ];
            table.push_str(&format!("{name},{phase},{}\n", figures.map(figure).join(",")));
        }
    }
    table
}

/// To a thousandth; empty where it is no figure.
fn figure(value: f64) -> String {
    if value.is_finite() { measure::thousandth(value).to_string() } else { String::new() }
}
