//! The desk: a page in the browser to write a cook on, for people who have no editor set up.
//!
//! Here is what it answers and whom: [`guard`] decides who is answered at all, [`answers`] turns a text into what the page
//! shows, and `page/` is the page. Listening, and the file itself, are up to the command line.

pub mod answers;
pub mod guard;

/// The page and what belongs to it, with their types.
pub const PAGE: &str = include_str!("page/desk.html");
pub const STYLE: &str = include_str!("page/desk.css");
pub const SCRIPT: &str = include_str!("page/desk.js");
pub const SHOW: &str = include_str!("page/show.js");
