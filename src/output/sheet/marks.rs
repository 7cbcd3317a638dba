//! The few marks that every part of the sheet is made of.

use maud::{Markup, html};

use crate::output::layout::keep_units;
use crate::timing::{Clock, Minute, Window};

/// How deep a heading stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    Part,
    /// A part of one dish of a menu.
    Below,
}

pub fn heading(depth: Depth, text: &str) -> Markup {
    html! {
        @match depth {
            Depth::Part => h2 { (text) },
            Depth::Below => h3 { (text) },
        }
    }
}

/// Words of the file or about it, whichever way they are written; what stands in backticks is what a cook types.
pub fn said(text: &str) -> Markup {
    let parts: Vec<&str> = text.split('`').collect();
    // A backtick without its fellow is one of the writer's own.
    let paired = parts.len() % 2 == 1;
    html! {
        bdi {
            @if paired {
                @for (n, part) in parts.iter().enumerate() {
                    @if n % 2 == 1 { code { (part) } } @else { (keep_units(part)) }
                }
            } @else { (keep_units(text)) }
        }
    }
}

/// "22:30 to 22:55" with both times as a machine reads them, where a date is known.
pub fn times(clock: &Clock, window: Window) -> Markup {
    let time = |minute: Minute| {
        let shown = clock.time_of_day(minute);
        html! { time datetime=(clock.rfc3339(minute).unwrap_or_else(|| shown.clone())) { (shown) } }
    };
    let Window { earliest, latest } = window;
    html! {
        (time(earliest))
        @if earliest != latest {
            " to " (time(latest))
            @if clock.day(earliest) != clock.day(latest) {
                " (" (crate::output::timeline::day_name(clock, clock.day(latest))) ")"
            }
        }
    }
}

/// A box to tick; what it is for stands in the element with this id.
pub fn tick(labelled_by: &str) -> Markup {
    html! { input type="checkbox" aria-labelledby=(labelled_by); }
}

/// A line for a time, behind words.
pub fn short_line(what: &str, labelled_by: &str) -> Markup {
    html! { input.write.short type="text" autocomplete="off" aria-label=(what) aria-describedby=(labelled_by); }
}

/// A line to write on.
pub fn line(what: &str, labelled_by: &str) -> Markup {
    html! { input.write type="text" autocomplete="off" aria-label=(what) aria-describedby=(labelled_by); }
}
