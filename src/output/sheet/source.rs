//! The text that all of it was made from, to be typed in again.

use maud::{Markup, PreEscaped, html};

use crate::carried::{Block, CLOSES, OPENS};
use crate::compile::Compiled;
use crate::output::{escape, recipe};

/// To be read and typed.
pub fn texts(file: &Compiled, options: &[String]) -> Markup {
    html! {
        section {
            h2 { "The text of this sheet" }
            p {
                "Typed in again and saved under these names, it makes the same sheet"
                @if !options.is_empty() { ", with " code { (options.join(" ")) } }
                ". "
                // Not of a PDF of it.
                span.as-a-file {
                    "This page as a file carries it as well: " code { "dwell check" }
                    " and every other command take the page instead of the text, and " code { "dwell source" }
                    " writes the text."
                }
            }
            @for source in file.sources.once() {
                h3 { bdi { (source.name) } }
                // HTML drops a line end right after the tag.
                pre { "\n" (source.text.lines().collect::<Vec<_>>().join("\n")) }
            }
        }
    }
}

/// To be read back, byte for byte.
pub fn carried(file: &Compiled) -> Markup {
    let block = escape::json_in_page(&Block::of(&file.sources));
    PreEscaped(format!("{OPENS}{}{CLOSES}", block.trim_end()))
}

/// For other programs.
pub fn recipe(file: &Compiled) -> Markup {
    html! {
        @if let Some(recipe) = recipe::json_ld(file) {
            script type="application/ld+json" { (PreEscaped(recipe.trim_end())) }
        }
    }
}
