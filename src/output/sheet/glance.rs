//! The plan as pictures.

use maud::{Markup, PreEscaped, html};

use crate::output::timeline::svg_pages;
use crate::timing::Timeline;

pub fn figures(plan: &Timeline) -> Markup {
    let pages = svg_pages(plan);
    html! {
        @for (n, picture) in pages.iter().enumerate() {
            div.whole {
                @if n == 0 { h2 { "The plan at a glance" } }
                // The picture is escaped where it is drawn.
                div.picture tabindex="0" role="region" aria-label={ "The plan at a glance, " (n + 1) " of " (pages.len()) } {
                    (PreEscaped(picture))
                }
            }
        }
    }
}
