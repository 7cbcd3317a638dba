//! The long text of a finding, cut into its sections.
//!
//! A text is Markdown with six fixed headings, so that a gap shows. This only cuts; that nothing is
//! missing is what `tests/findings_catalogue.rs` makes sure of.

use super::Code;

/// The headings, in the order in which they must stand below the title.
pub const HEADINGS: [&str; 6] = ["What it checks", "Why", "Bad", "Good", "How to mend", "Source"];

/// The sections of one text. What a text lacks is empty.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Explained<'t> {
    pub title: &'t str,
    pub checks: &'t str,
    pub why: &'t str,
    /// A file that has this finding and no other, and the files it names.
    pub bad: Vec<Example<'t>>,
    /// The same, put right.
    pub good: Vec<Example<'t>>,
    pub mend: &'t str,
    pub source: &'t str,
}

/// One file of an example.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Example<'t> {
    /// The name that the first file gives it; `None` for the first file itself.
    pub name: Option<&'t str>,
    pub text: &'t str,
}

impl Code {
    /// What `dwell explain` shows of this code.
    pub fn explained(self) -> Explained<'static> {
        Explained::cut(self.text())
    }
}

impl<'t> Explained<'t> {
    /// Cuts a text at its headings.
    pub fn cut(text: &'t str) -> Self {
        let mut explained = Self::default();
        let (top, sections) = text.split_once("\n## ").unwrap_or((text, ""));
        explained.title = top.trim().trim_start_matches('#').trim();
        for section in sections.split("\n## ") {
            let (heading, body) = section.split_once('\n').unwrap_or((section, ""));
            let body = body.trim();
            match heading.trim() {
                "What it checks" => explained.checks = body,
                "Why" => explained.why = body,
                "Bad" => explained.bad = examples(body),
                "Good" => explained.good = examples(body),
                "How to mend" => explained.mend = body,
                "Source" => explained.source = body,
                _ => {}
            }
        }
        explained
    }
}

/// The blocks fenced as `dwell`, or as `dwell NAME` for a further file.
fn examples(body: &str) -> Vec<Example<'_>> {
    let mut fences = body.split("```");
    fences.next();
    let mut found = Vec::new();
    // Fences come in pairs: what stands between two pairs is prose.
    while let (Some(block), _) = (fences.next(), fences.next()) {
        let (info, text) = block.split_once('\n').unwrap_or((block, ""));
        if let Some(name) = info.trim().strip_prefix("dwell") {
            let name = name.trim();
            found.push(Example { name: (!name.is_empty()).then_some(name), text });
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cuts_at_headings_and_fences() {
        let text = "# Title\n\n## What it checks\n\nOne.\n\n## Why\n\nTwo.\n\n## Bad\n\n```dwell\ncook \"x\"\n```\n\
                    \nand\n\n```dwell kitchen.dwell\nkit a is hob\n```\n\n## Good\n\n```dwell\ncook \"y\"\n```\n\
                    \n## How to mend\n\nThree.\n\n## Source\n\nFour.\n";
        let explained = Explained::cut(text);
        assert_eq!((explained.title, explained.checks, explained.why), ("Title", "One.", "Two."));
        assert_eq!((explained.mend, explained.source), ("Three.", "Four."));
        let first = Example { name: None, text: "cook \"x\"\n" };
        let second = Example { name: Some("kitchen.dwell"), text: "kit a is hob\n" };
        assert_eq!(explained.bad, [first, second]);
        assert_eq!(explained.good, [Example { name: None, text: "cook \"y\"\n" }]);
    }

    #[test]
    fn what_is_missing_is_empty() {
        assert_eq!(Explained::cut(""), Explained::default());
        assert_eq!(Explained::cut("# Only a title").title, "Only a title");
    }
}
