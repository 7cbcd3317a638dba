//! Where offers are tried.

use std::collections::{BTreeMap, BTreeSet};

use super::{Again, NewFile};
use crate::findings::{Code, Edit, Finding, Severity, Stage};
use crate::text::FileId;

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
                let Some(after) = self.tried(edits) else { return false };
                let before = self.before();
                if !fewer(fault.code, before, &after) {
                    return false;
                }
                let new = new_codes(before, &after);
                if second.is_none() && is_unread(before) && elsewhere(self.text, edits, &after, &new) {
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
        self.harmless_with(edits, &[])
    }

    /// The same with further files.
    pub fn harmless_with(&mut self, edits: &[Edit], files: &[NewFile]) -> bool {
        self.tried_with(edits, files).is_some_and(|after| new_codes(self.before(), &after).is_empty())
    }

    fn before(&mut self) -> &[Finding] {
        let (again, text) = (self.again, self.text);
        self.before.get_or_insert_with(|| again(text, &[]))
    }

    /// `None` once no more may be tried.
    fn tried(&mut self, edits: &[Edit]) -> Option<Vec<Finding>> {
        self.tried_with(edits, &[])
    }

    fn tried_with(&mut self, edits: &[Edit], files: &[NewFile]) -> Option<Vec<Finding>> {
        self.left = self.left.checked_sub(1)?;
        Some((self.again)(&Edit::apply(self.text, edits), files))
    }
}

fn counts(findings: &[Finding]) -> BTreeMap<Code, usize> {
    findings.iter().fold(BTreeMap::new(), |mut counts, finding| {
        *counts.entry(finding.code).or_default() += 1;
        counts
    })
}

fn fewer(code: Code, before: &[Finding], after: &[Finding]) -> bool {
    let count = |findings: &[Finding]| findings.iter().filter(|finding| finding.code == code).count();
    count(after) < count(before)
}

/// What has come up.
fn new_codes(before: &[Finding], after: &[Finding]) -> BTreeSet<Code> {
    let (had, has) = (counts(before), counts(after));
    let more = has.into_iter().filter(|(code, count)| *count > had.get(code).copied().unwrap_or(0));
    more.map(|(code, _)| code).collect()
}

fn reads(code: Code) -> bool {
    matches!(code.stage(), Stage::Syntax | Stage::Units | Stage::Names)
}

/// Something could not be read, and hides what follows.
fn is_unread(findings: &[Finding]) -> bool {
    findings.iter().any(|finding| reads(finding.code) && finding.severity == Severity::Error)
}

/// What has come up is of the stages behind the reading, and none of it in a line that was changed.
fn elsewhere(text: &str, edits: &[Edit], after: &[Finding], new: &BTreeSet<Code>) -> bool {
    let changed = Edit::apply(text, edits);
    let mut shift = 0_usize;
    let lines: Vec<(usize, usize)> = edits
        .iter()
        .map(|edit| {
            let start = (edit.span.start as usize).wrapping_add(shift);
            let end = start + edit.text.len();
            shift = shift.wrapping_add(edit.text.len()).wrapping_sub(edit.span.range().len());
            let first = changed.get(..start).and_then(|before| before.rfind('\n')).map_or(0, |at| at + 1);
            let last =
                changed.get(end..).and_then(|rest| rest.find('\n')).map_or(changed.len(), |at| end + at);
            (first, last)
        })
        .collect();
    let in_change = |finding: &Finding| {
        let at = finding.span.start as usize;
        finding.span.file == FileId(0) && lines.iter().any(|(first, last)| (*first..=*last).contains(&at))
    };
    let mut found = after.iter().filter(|finding| new.contains(&finding.code));
    found.all(|finding| !reads(finding.code) && !in_change(finding))
}
