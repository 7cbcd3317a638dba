//! The program from outside: what is typed, what comes back, and with which exit status.

mod bad_input;
mod check;
mod commands;
#[path = "../common/mod.rs"]
mod common;
mod curve;
mod export;
mod hostile;
mod probe;
mod sheet;
mod support;
