//! The dwell compiler as a library.
//!
//! Data flows one way, and every stage is a pure function in the folder that bears its name:
//! [`text`] → [`syntax`] (a tree that keeps every byte) → [`resolve`] (the typed [`cook`]) →
//! [`ledger`], [`kit`], [`safety`], [`timing`] → [`output`]. Findings are collected, never printed.

#![deny(
    clippy::dbg_macro,
    clippy::disallowed_methods,
    clippy::iter_over_hash_type,
    clippy::print_stderr,
    clippy::print_stdout,
    clippy::todo,
    clippy::unimplemented
)]

pub mod carried;
#[allow(
    clippy::disallowed_methods,
    clippy::print_stderr,
    clippy::print_stdout,
    reason = "the command line is where files are opened and results printed"
)]
pub mod cli;
pub mod compile;
pub mod cook;
pub mod cures;
pub mod desk;
pub mod editor;
pub mod findings;
#[allow(clippy::disallowed_methods, reason = "files on disk are read here, for whoever runs the library")]
pub mod folder;
pub mod heat;
pub mod kit;
pub mod ledger;
pub mod load;
pub mod log;
pub mod lsp;
pub mod output;
pub mod probe;
pub mod quantity;
pub mod resolve;
pub mod safety;
pub mod stop;
pub mod syntax;
pub mod tables;
pub mod text;
pub mod timing;
