//! `dwell desk`: who is answered, what is answered, what becomes of the file, and the page in Chromium.

#[path = "../common/mod.rs"]
mod common;
mod file;
mod foreign;
mod page;
mod support;
