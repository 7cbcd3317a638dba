//! The text that all of it was made from, to be typed in again.

use maud::{Markup, html};

use crate::compile::Compiled;
use crate::text::FileId;

pub fn texts(file: &Compiled) -> Markup {
    let files = (0..file.sources.len()).map(|n| file.sources.get(FileId(n as u16)));
    html! {
        section {
            h2 { "The text of this sheet" }
            p { "Typed in again and saved under these names, it makes the same sheet." }
            @for source in files {
                h3 { bdi { (source.path) } }
                // HTML drops a line end right after the tag.
                pre { "\n" (source.text.lines().collect::<Vec<_>>().join("\n")) }
            }
        }
    }
}
