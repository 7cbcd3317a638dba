//! Plain text for a terminal or a kitchen wall: 80 columns, indented.

use super::clean;

const WIDTH: usize = 80;

/// Adds a paragraph to a page: cleaned, wrapped, its first line indented by `first`, the others by
/// `others`.
pub fn paragraph(page: &mut String, first: usize, others: usize, text: &str) {
    let (first, others) = (" ".repeat(first), " ".repeat(others));
    let options = textwrap::Options::new(WIDTH)
        .initial_indent(&first)
        .subsequent_indent(&others)
        .break_words(false)
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
        .wrap_algorithm(textwrap::WrapAlgorithm::FirstFit);
    // A figure and its unit stay on one line.
    let text = clean::line(text);
    for line in textwrap::wrap(&keep_units(&text), options) {
        page.push_str(line.trim_end().replace(GLUE, " ").as_str());
        page.push('\n');
    }
}

/// A blank that may not break.
const GLUE: char = '\u{a0}';

/// With blanks that may not break between a figure and its unit.
pub(super) fn keep_units(text: &str) -> String {
    let mut glued = String::with_capacity(text.len());
    let mut before = ' ';
    for c in text.chars() {
        glued.push(if c == ' ' && before.is_ascii_digit() { GLUE } else { c });
        before = c;
    }
    glued
}

#[cfg(test)]
mod tests {
    use super::paragraph;

    #[test]
    fn wraps_at_eighty_and_keeps_a_figure_with_its_unit() {
        let mut page = String::new();
        let text = format!("{} 40 g of salt", "x".repeat(74));
        paragraph(&mut page, 2, 4, &text);
        assert_eq!(page, format!("  {}\n    40 g of salt\n", "x".repeat(74)));
    }

    #[test]
    fn nothing_acts_on_the_terminal() {
        let mut page = String::new();
        paragraph(&mut page, 0, 0, "salt\u{1b}[31m\u{202e}");
        assert_eq!(page, "salt<U+001B>[31m<U+202E>\n");
    }
}
