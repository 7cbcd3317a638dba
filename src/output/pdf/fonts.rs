//! The fonts of a PDF, which are a part of the program: the same sheet on every machine.
//!
//! DejaVu 2.37 (free to embed and to hand on) has the letters of Latin with all its accents, Greek, Cyrillic, Arabic,
//! Hebrew, Armenian and Georgian, and fractions. It has none of East Asia, India and Ethiopia, no Thai, and few emoji.

use std::collections::BTreeSet;
use std::fmt::Write;
use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

pub static ALL: LazyLock<Vec<Font>> = LazyLock::new(|| {
    let files =
        [dejavu::sans_condensed::regular(), dejavu::sans_condensed::bold(), dejavu::sans_mono::regular()];
    files.into_iter().filter_map(|file| Font::new(Bytes::new(file), 0)).collect()
});

pub static BOOK: LazyLock<LazyHash<FontBook>> =
    LazyLock::new(|| LazyHash::new(FontBook::from_fonts(ALL.iter())));

/// A page of HTML in which what no font can show stands by its number, as
/// [`crate::output::escape::html_page`] writes what acts; and what that was.
pub fn name_unshown(page: &str) -> (String, Vec<char>) {
    let mut named = String::with_capacity(page.len());
    let mut unshown = BTreeSet::new();
    for c in page.chars() {
        // Of ASCII only line ends act, and those are the page's own.
        if c.is_ascii() || ALL.iter().any(|font| font.info().coverage.contains(u32::from(c))) {
            named.push(c);
        } else {
            // Writing to a String cannot fail.
            let _ = write!(named, "&lt;U+{:04X}&gt;", u32::from(c));
            unshown.insert(c);
        }
    }
    (named, unshown.into_iter().collect())
}
