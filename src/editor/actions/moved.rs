//! Where findings stand before and after a change, so that none is taken for another of the same kind.

use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use crate::findings::{Code, Edit, Finding};
use crate::text::FileId;

/// What is found, and the start of its line in the text after the change; what the change touches is one place.
pub type Place = (Code, FileId, usize);

pub struct Moved<'e> {
    edits: &'e [Edit],
    /// The text after the change.
    pub text: String,
    /// The lines that it touches, by their bytes after it.
    touched: Vec<RangeInclusive<usize>>,
}

impl<'e> Moved<'e> {
    pub fn new(text: &str, edits: &'e [Edit]) -> Self {
        let mut moved = Self { edits, text: Edit::apply(text, edits), touched: Vec::new() };
        moved.touched = edits
            .iter()
            .map(|edit| {
                let start = moved.there(edit);
                let end = start + edit.text.len();
                let rest = moved.text.get(end..).and_then(|rest| rest.find('\n'));
                moved.line(start)..=rest.map_or(moved.text.len(), |at| end + at)
            })
            .collect();
        moved
    }

    /// How many of each there were before the change.
    pub fn before(&self, findings: &[Finding]) -> BTreeMap<Place, usize> {
        counts(findings.iter().map(|finding| self.was(finding)))
    }

    /// How many of each there are after it.
    pub fn after(&self, findings: &[Finding]) -> BTreeMap<Place, usize> {
        counts(findings.iter().map(|finding| self.is(finding)))
    }

    /// The place of a finding in the text as it was.
    pub fn was(&self, finding: &Finding) -> Place {
        self.place(finding, |at| {
            let passed = |edit: &&Edit| edit.span.start as usize <= at;
            match self.edits.iter().take_while(passed).last() {
                None => at,
                Some(edit) if at < edit.span.end as usize => self.there(edit),
                Some(edit) => self.there(edit) + edit.text.len() + (at - edit.span.end as usize),
            }
        })
    }

    /// The place of a finding in the text as it is.
    pub fn is(&self, finding: &Finding) -> Place {
        self.place(finding, |at| at)
    }

    /// A finding of the text as it is lies in a line that was changed.
    pub fn touches(&self, finding: &Finding) -> bool {
        let at = finding.span.start as usize;
        finding.span.file == FileId(0) && self.touched.iter().any(|lines| lines.contains(&at))
    }

    fn place(&self, finding: &Finding, there: impl Fn(usize) -> usize) -> Place {
        let (file, at) = (finding.span.file, finding.span.start as usize);
        if file != FileId(0) {
            return (finding.code, file, at);
        }
        let at = there(at);
        let touched = self.touched.iter().find(|lines| lines.contains(&at));
        (finding.code, file, touched.map_or_else(|| self.line(at), |lines| *lines.start()))
    }

    /// Where an edit starts after the change.
    fn there(&self, edit: &Edit) -> usize {
        let before = self.edits.iter().take_while(|before| before.span.start < edit.span.start);
        let (new, old) = before.fold((0, 0), |(new, old), edit| {
            (new + edit.text.len(), old + (edit.span.end - edit.span.start) as usize)
        });
        (edit.span.start as usize + new).saturating_sub(old)
    }

    fn line(&self, at: usize) -> usize {
        self.text.get(..at).and_then(|before| before.rfind('\n')).map_or(0, |end| end + 1)
    }
}

fn counts<K: Ord>(all: impl Iterator<Item = K>) -> BTreeMap<K, usize> {
    all.fold(BTreeMap::new(), |mut counts, key| {
        *counts.entry(key).or_default() += 1;
        counts
    })
}

/// What there is more of than there was.
pub fn more<K: Ord>(had: &BTreeMap<K, usize>, has: BTreeMap<K, usize>) -> Vec<K> {
    let more = has.into_iter().filter(|(key, count)| *count > had.get(key).copied().unwrap_or(0));
    more.map(|(key, _)| key).collect()
}

/// By their codes alone, for lines that go to other files.
pub fn by_code(findings: &[Finding]) -> BTreeMap<Code, usize> {
    counts(findings.iter().map(|finding| finding.code))
}
