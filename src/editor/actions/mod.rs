//! Changes that an editor may offer: cures that were tried, what a remedy says to type, a reason to leave it as it is, and
//! the other scale.
//!
//! What a remedy says in words is tried on the text like a cure, and offered only if the finding is then gone and nothing
//! else has come up.

mod allow;
mod begun;
mod moved;
mod places;
mod remedy;
mod split;
mod trial;
mod twin;
mod typed;

use super::View;
use crate::findings::{Edit, Finding};
use crate::text::Span;

/// What is found in another text of the file, with further files beside it, as far as it is declared.
pub type Again<'a> = &'a dyn Fn(&str, &[NewFile]) -> Vec<Finding>;

/// The name of a file beside this one, and its text.
pub type NewFile = (String, String);

/// A change of the text.
#[derive(Debug, Clone, PartialEq)]
pub struct Action {
    /// What it does, as a cook says it.
    pub title: String,
    pub aim: Aim,
    /// In the order of the file; none overlaps another.
    pub edits: Vec<Edit>,
    /// To be written beside the file; none of them may be there yet.
    pub files: Vec<NewFile>,
}

/// What a change is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Aim {
    /// Mends the finding with this number.
    Mend(usize),
    /// Leaves what that finding is about as it is, once the writer has put in the reason.
    Allow(usize),
    /// Begins what mends that finding; what it needs besides is for the cook to write.
    Begin(usize),
    /// Says the same in other words.
    Rewrite,
}

/// Everything that may be offered at a place.
pub fn actions(view: &View<'_>, at: Span, again: Again<'_>) -> Vec<Action> {
    let mut bench = trial::Bench::new(view.text(), again);
    let mut all = Vec::new();
    for (nth, finding) in view.compiled.findings.iter().enumerate() {
        if finding.span.file != view.file || finding.span.start > at.end || at.start > finding.span.end {
            continue;
        }
        let mends = match &finding.cure {
            Some(cure) => vec![(cure.text.render(view.compiled.scale), cure.edits.clone())],
            None => {
                let mends = bench.sure(finding, remedy::offers(view, finding)).into_iter();
                mends.map(|(title, edits)| (title + remedy::reservation(finding.code), edits)).collect()
            }
        };
        let action = |aim| move |(title, edits)| Action { title, aim, edits, files: Vec::new() };
        let begun = begun::offer(view, finding).filter(|_| mends.is_empty());
        all.extend(mends.into_iter().map(action(Aim::Mend(nth))));
        all.extend(begun.map(action(Aim::Begin(nth))));
        let may = allow::offer(view, finding, "a reason").is_some_and(|(_, edits)| bench.harmless(&edits));
        let leave = allow::offer(view, finding, "").filter(|_| may);
        all.extend(leave.map(action(Aim::Allow(nth))));
    }
    let twin = twin::offer(view, at).filter(|(_, edits)| bench.harmless(edits));
    all.extend(twin.map(|(title, edits)| Action { title, aim: Aim::Rewrite, edits, files: Vec::new() }));
    let menu = split::split(view, at).filter(|split| bench.harmless_with(&split.edits, &split.files));
    all.extend(menu.map(|split| Action {
        title: "Split into a menu and its dishes".to_owned(),
        aim: Aim::Rewrite,
        edits: split.edits,
        files: split.files,
    }));
    all
}
