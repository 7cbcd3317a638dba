//! Where offers are tried.

use std::collections::BTreeMap;

use super::moved::{Moved, Place, by_code, more};
use super::{Again, NewFile};
use crate::findings::{Code, Edit, Finding, Severity, Stage};

/// So many texts are compiled for one request: an editor asks wherever the cursor goes.
const TRIES: usize = 16;

/// A change and what it is called.
pub type Offer = (String, Vec<Edit>);

pub struct Bench<'b> {
    text: &'b str,
    again: Again<'b>,
    /// What is found in the text as it is, once it is needed.
    before: Option<Vec<Finding>>,
    left: usize,
}

impl<'b> Bench<'b> {
    pub fn new(text: &'b str, again: Again<'b>) -> Self {
        Self { text, again, before: None, left: TRIES }
    }

    /// Of each row of offers, which are the same thing done in several ways, the first that takes the finding away and
    /// brings up nothing. Where none does, the first that only brings up, in other lines, what one that could not be read
    /// had hidden.
    pub fn sure(&mut self, fault: &Finding, rows: Vec<Vec<Offer>>) -> Vec<Offer> {
        let (mut clean, mut bare) = (Vec::new(), Vec::new());
        for row in rows {
            let mut second = None;
            let first = row.into_iter().find(|(title, edits)| {
                let Some(after) = self.tried(edits, &[]) else { return false };
                let moved = Moved::new(self.text, edits);
                let before = self.before();
                let (had, has) = (moved.before(before), moved.after(&after));
                let count = |all: &BTreeMap<Place, usize>| all.get(&moved.was(fault)).copied().unwrap_or(0);
                if count(&has) >= count(&had) {
                    return false;
                }
                let new = more(&had, has);
                if second.is_none() && is_unread(before) && elsewhere(&moved, &after, &new) {
                    second = Some((title.clone(), edits.clone()));
                }
                new.is_empty()
            });
            match first {
                Some(offer) => clean.push(offer),
                None => bare.extend(second),
            }
        }
        if clean.is_empty() { bare } else { clean }
    }

    /// Whether a change brings up nothing.
    pub fn harmless(&mut self, edits: &[Edit]) -> bool {
        let moved = Moved::new(self.text, edits);
        let after = self.tried(edits, &[]);
        after.is_some_and(|after| more(&moved.before(self.before()), moved.after(&after)).is_empty())
    }

    /// The same where lines go to further files: of each kind there is no more than before.
    pub fn harmless_with(&mut self, edits: &[Edit], files: &[NewFile]) -> bool {
        let after = self.tried(edits, files);
        after.is_some_and(|after| more(&by_code(self.before()), by_code(&after)).is_empty())
    }

    fn before(&mut self) -> &[Finding] {
        let (again, text) = (self.again, self.text);
        self.before.get_or_insert_with(|| again(text, &[]))
    }

    /// `None` once no more may be tried.
    fn tried(&mut self, edits: &[Edit], files: &[NewFile]) -> Option<Vec<Finding>> {
        self.left = self.left.checked_sub(1)?;
        Some((self.again)(&Edit::apply(self.text, edits), files))
    }
}

fn reads(code: Code) -> bool {
    matches!(code.stage(), Stage::Syntax | Stage::Units | Stage::Names)
}

/// Something could not be read, and hides what follows.
fn is_unread(findings: &[Finding]) -> bool {
    findings.iter().any(|finding| reads(finding.code) && finding.severity == Severity::Error)
}

/// What has come up is of the stages behind the reading, and none of it in a line that was changed.
fn elsewhere(moved: &Moved<'_>, after: &[Finding], new: &[Place]) -> bool {
    let mut found = after.iter().filter(|finding| new.contains(&moved.is(finding)));
    found.all(|finding| !reads(finding.code) && !moved.touches(finding))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say;
    use crate::text::{FileId, Span};

    /// Findings of one kind, one at the start of each of these lines.
    fn found(text: &str, lines: &[&str]) -> Vec<Finding> {
        let at = |line: &&str| text.find(&format!("{line}\n")).expect("such a line");
        let finding = |at| {
            Finding::new(
                Code::StockOverdrawn,
                Span::new(FileId(0), at, at + 1),
                say!["Short."],
                say!["Mend."],
            )
        };
        lines.iter().map(at).map(finding).collect()
    }

    const TEXT: &str = "first\nsecond\nthird\n";

    /// `first` with a line of its own before it.
    fn edits() -> Vec<Edit> {
        vec![Edit { span: Span::new(FileId(0), 0, 5), text: "new\nother".to_owned() }]
    }

    fn tried(before: &[&str], after: &[&str]) -> (bool, bool) {
        let again = |text: &str, _: &[NewFile]| found(text, if text == TEXT { before } else { after });
        let mut bench = Bench::new(TEXT, &again);
        let offer = vec![("Mend it".to_owned(), edits())];
        let fault = found(TEXT, &["first"]).remove(0);
        (!bench.sure(&fault, vec![offer]).is_empty(), bench.harmless(&edits()))
    }

    #[test]
    fn what_goes_is_not_set_against_the_like_that_comes_up_in_another_line() {
        assert_eq!(tried(&["first", "second"], &["second"]), (true, true));
        assert_eq!(tried(&["first", "second"], &["third"]), (false, false));
        assert_eq!(tried(&["first", "second"], &["other", "second"]), (false, true));
        assert_eq!(tried(&["first", "second"], &["other"]), (false, true));
        assert_eq!(tried(&["second"], &["third"]), (false, false));
        assert_eq!(tried(&["second", "third"], &["second", "third"]), (false, true));
    }
}
