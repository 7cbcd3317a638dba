//! What an editor asks about a text.

#[path = "../common/mod.rs"]
mod common;

mod anywhere;
mod completion;
mod hints;
mod hover;
mod signature;
mod support;
