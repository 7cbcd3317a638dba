//! The language, edition 1: each lexical rule, and each row of its tables.

#[path = "../common/mod.rs"]
mod common;

mod blocks;
mod descriptions;
mod figures;
mod forms;
mod lines;
mod names;
mod phases;
mod servings;
