//! Changes of one or two figures that cure a finding, each tried by compiling the changed text.
//!
//! Takes a typed cook, its text and what was found in it, and a way to compile another text; gives the smallest round
//! change that takes a finding away, meets its rule and brings up no other. What was not tried is not claimed.

mod changes;
mod offers;
mod search;
mod steps;
mod trial;
mod words;

pub use trial::Said;

use std::collections::BTreeMap;

use crate::cook::{Allow, Cook};
use crate::findings::{Cure, Edit, Finding, Text};
use crate::stop;
use crate::text::{FileId, Sources};

use changes::{Change, Written};
use search::Trial;

/// So many texts are compiled for one finding, and for all of a file: steps, not time, so that results repeat.
const TRIES: usize = 12;
const TRIES_IN_ALL: usize = 40;
/// Longer than any real cook or meal; what is longer is not compiled again and again.
const MOST_PHASES: usize = 200;

/// What compiling another text of a file says.
pub type Again<'a> = &'a dyn Fn(FileId, &str) -> Said;

/// A cure, and the finding it is for.
pub struct Found {
    pub finding: usize,
    pub cure: Cure,
    /// What the remedy says of it, behind what it says already.
    pub tried: Text,
}

/// Cures of what was said of these cooks, as far as a change that is known to this stage cures it alone.
pub fn find(cooks: &[&Cook], sources: &Sources, said: &Said, again: Again) -> Vec<Found> {
    if cooks.iter().map(|cook| cook.phases.len()).sum::<usize>() > MOST_PHASES {
        return Vec::new();
    }
    let mut bench = Bench { sources, said, again, known: BTreeMap::new(), left: TRIES_IN_ALL };
    let mut found = Vec::new();
    for (n, fault) in said.findings.iter().enumerate() {
        let Some(cook) = cooks.iter().find(|cook| cook.file == fault.span.file) else { continue };
        let allowed = |allow: &Allow| {
            allow.code.value == fault.code && allow.block.range().contains(&(fault.span.start as usize))
        };
        if !cook.allows.iter().any(allowed) {
            found.extend(bench.cure(cook, fault).map(|(cure, tried)| Found { finding: n, cure, tried }));
        }
    }
    found
}

/// Where changes are tried.
struct Bench<'b> {
    sources: &'b Sources,
    said: &'b Said,
    again: Again<'b>,
    /// Two findings often ask for the same change.
    known: BTreeMap<(FileId, String), Said>,
    left: usize,
}

impl Bench<'_> {
    fn cure(&mut self, cook: &Cook, fault: &Finding) -> Option<(Cure, Text)> {
        let written = Written { cook, source: self.sources.get(cook.file) };
        let mut left = TRIES;
        for ladder in offers::offers(written, fault) {
            let offers::Ladder { rungs, hint, all_or_none } = &ladder;
            let first = search::first_cured(rungs.len(), *hint, *all_or_none, |at| {
                self.attempt(cook.file, fault, &rungs[at], &mut left)
            });
            if let Some(at) = first {
                let mut changes = rungs[at].clone();
                changes.sort_by_key(|change| change.edit.span);
                let tried = words::tried(fault.code, &changes, cook);
                let text = words::to_do(&changes);
                return Some((Cure { text, edits: edits(&changes) }, tried));
            }
        }
        None
    }

    /// `None` once no more may be tried.
    fn attempt(
        &mut self,
        file: FileId,
        fault: &Finding,
        changes: &[Change],
        left: &mut usize,
    ) -> Option<Trial> {
        let mut changes = changes.to_vec();
        changes.sort_by_key(|change| change.edit.span);
        let text = Edit::apply(&self.sources.get(file).text, &edits(&changes));
        let key = (file, text);
        if !self.known.contains_key(&key) {
            stop::here();
            *left = left.checked_sub(1)?;
            self.left = self.left.checked_sub(1)?;
            let after = (self.again)(file, &key.1);
            self.known.insert(key.clone(), after);
        }
        self.known.get(&key).map(|after| trial::weigh(self.said, fault, after))
    }
}

fn edits(changes: &[Change]) -> Vec<Edit> {
    changes.iter().map(|change| change.edit.clone()).collect()
}
