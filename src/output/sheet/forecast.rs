//! What the forecast is worth: two paragraphs of the page that measures it, so that the two never differ.

use maud::{Markup, html};

use super::marks::said;

const PAGE: &str = include_str!("../../../grammar/forecast.md");
const MEASURED: &str = "In short: ";
const DECIDES: &str = "The forecast tells you when to start";

pub fn worth() -> Markup {
    html! {
        section {
            h2 { "What the forecast is worth" }
            @for opening in [MEASURED, DECIDES] { p { (said(&paragraph(opening))) } }
        }
    }
}

/// The paragraph that opens with these words, on one line.
fn paragraph(opening: &str) -> String {
    let found = PAGE.split("\n\n").find(|paragraph| paragraph.starts_with(opening));
    found.map(|found| found.split_whitespace().collect::<Vec<_>>().join(" ")).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::{DECIDES, MEASURED, paragraph};

    #[test]
    fn both_paragraphs_are_on_the_page() {
        assert!(paragraph(MEASURED).contains("%"));
        assert!(paragraph(DECIDES).contains("probe"));
    }
}
