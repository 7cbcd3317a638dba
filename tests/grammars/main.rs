//! The grammars for editors (`editors/`), held against the compiler: they know the same words, and take every line for
//! what the compiler takes it.

#[path = "../common/mod.rs"]
mod common;

mod corpus;
mod edits;
mod generated;
mod kinds;
mod parser;
mod queries;
mod settings;
mod snippets;
mod words;
