//! What an editor asks about a text.

#[path = "../common/mod.rs"]
mod common;

mod actions;
mod anywhere;
mod completion;
mod hints;
mod hover;
mod signature;
mod support;
