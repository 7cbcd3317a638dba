//! What people and other tools see. Only this folder and [`crate::cli`] know how anything looks.
//!
//! Every function here turns a plain value into text; none of them prints.

pub mod buy;
pub mod cautions;
pub mod clean;
pub mod curve;
pub mod curves;
pub mod deadlines;
mod drawing;
pub mod escape;
pub mod explain;
pub mod export;
pub mod human;
pub mod json;
mod layout;
pub mod measure;
mod microbes;
pub mod pdf;
pub mod prep;
pub mod probe;
pub mod recipe;
pub mod rules;
pub mod sarif;
mod serves;
pub mod sheet;
pub mod tables;
pub mod timeline;
pub mod timelines;
pub mod verdicts;
