//! Predictions against published times of roasting, baths, cooling and thawing (`reference/published`).
//!
//! A row is typed as a cook would type it and predicted with the figures of the built-in tables. Run with `--nocapture`
//! to read the errors; `grammar/forecast.md` prints them for users, and is held to them here.

#[path = "../common/mod.rs"]
mod common;

mod baths;
mod cooling;
mod frozen;
mod frying;
mod kitchen;
mod moist_air;

mod page;
mod pasteurizing;
mod roasting;
mod score;
