//! What people and other tools see. Only this folder and [`crate::cli`] know how anything looks.
//!
//! Every function here turns a plain value into text; none of them prints.

pub mod clean;
pub mod human;
pub mod tables;
