//! The language server, as a client sees it.

mod actions;
#[path = "../common/mod.rs"]
mod common;
mod edits;
mod files;
mod foul;
mod help;
mod names;
mod outline;
mod session;
mod support;
