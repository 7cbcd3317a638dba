//! What a temperature over time does to microbes: the models, the table, and what a cook sees of them.

#[path = "../common/mod.rs"]
mod common;

mod cases;
mod cooks;
mod histories;
mod published;
mod table;
mod witness;

use dwell::safety::history::History;
use dwell::tables::microbes::{Growth, Microbes, Organism};

/// From hours and °C.
fn history(t_h: &[f64], temp_c: &[f64]) -> History {
    assert_eq!(t_h.len(), temp_c.len());
    History::from_celsius(t_h.iter().map(|hours| hours * 3600.0).zip(temp_c.iter().copied()))
        .expect("a history")
}

fn organism(name: &str) -> &'static Organism {
    let all = &Microbes::built_in().organisms;
    all.iter().find(|organism| organism.name == name).unwrap_or_else(|| panic!("no {name} in the table"))
}

/// Figures of a test.
fn growth(mu_opt_per_h: f64, t_min_c: f64, t_opt_c: f64, t_max_c: f64, q0: Option<f64>) -> Growth {
    let said = "the test".to_owned();
    Growth { mu_opt_per_h, t_min_c, t_opt_c, t_max_c, q0, source: said.clone(), status: said, note: None }
}
