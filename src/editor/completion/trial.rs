//! An offer is tried before it is made: the compiler reads the block with it.

use super::{At, Offer, View};
use crate::editor::scope::Scope;
use crate::findings::{Code, Stage};
use crate::resolve::{Context, resolve_text};
use crate::syntax::HeadKind;
use crate::tables::Tables;
use crate::text::{FileProblem, Files, Span};

/// The block around a place, with what of the rest of the file decides what it may say.
pub struct Trial<'v> {
    text: &'v str,
    range: std::ops::Range<usize>,
    above: String,
    below: String,
    /// Names that are declared elsewhere.
    names: Vec<(&'v str, &'static str)>,
    /// What is wrong with the form of it as it stands, and without the line that is being written.
    before: Faults,
    without: Faults,
}

/// How many findings say that something cannot be read, or does not belong where it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Faults {
    all: usize,
    misplaced: usize,
}

impl<'v> Trial<'v> {
    pub fn new(view: &View<'v>, at: &At) -> Self {
        let text = view.text();
        let block = at.block.as_ref().map_or(at.line.clone(), |block| block.range.clone());
        // Below the last line of a file stands one that is in no block yet.
        let range = block.start.min(at.line.start)..block.end.max(at.line.end);
        let (mut above, mut below) = (String::new(), String::new());
        for head in &view.tree.heads {
            use HeadKind as H;
            let alone = matches!(head.kind, H::Edition { .. } | H::Cook { .. } | H::Menu { .. } | H::Crew);
            let start = head.span.start as usize;
            if alone && !range.contains(&start) {
                let side = if start < range.start { &mut above } else { &mut below };
                side.push_str(&text[head.span.range()]);
                side.push('\n');
            }
        }
        let scope = Scope::of(view);
        let declared = |span: Span| span.file == view.file && range.contains(&(span.start as usize));
        let store = scope.store(range.start).into_iter().filter(|item| !declared(item.span));
        let kit = scope.kit.iter().filter(|kit| !declared(kit.name.span));
        let store = store.map(|item| (item.name.as_str(), "food"));
        let names = store.chain(kit.map(|kit| (kit.name.value.as_str(), "kit"))).collect();
        let (before, without) = Default::default();
        let trial = Self { text, above, below, names, before, without, range: range.clone() };
        let around = |line: &str| {
            let (start, end) = (&text[range.start..at.line.start], &text[at.line.end..range.end]);
            trial.faults(&[start, line, end].concat())
        };
        let (before, without) = (around(&text[at.line.clone()]), around(""));
        Self { before, without, ..trial }
    }

    /// Would something not read that did before, or stand where it does not belong?
    pub fn refuses(&self, offer: &Offer) -> bool {
        let Self { text, range, before, without, .. } = self;
        let replaced = offer.replace.range();
        let start = &text[range.start.min(replaced.start)..replaced.start];
        let end = &text[replaced.end..range.end.max(replaced.end)];
        let with = self.faults(&[start, &offer.text, end].concat());
        with.all > before.all || with.misplaced > without.misplaced
    }

    /// What is wrong with this block among the others.
    fn faults(&self, block: &str) -> Faults {
        let Self { above, below, names, .. } = self;
        // Only the names that it uses: a long file declares hundreds.
        let used = names.iter().filter(|(name, _)| block.contains(name));
        let used: String = used.map(|(name, word)| declaration(name, word)).collect();
        faults(&[above, &used, block, "\n", below].concat())
    }
}

fn declaration(name: &str, word: &str) -> String {
    format!("{word} {name} is {}\n", if word == "kit" { "oven" } else { "milk" })
}

/// Those about how something is written, not about what it names.
fn faults(text: &str) -> Faults {
    struct Alone;
    impl Files for Alone {
        fn read(&self, _: &str, _: &str) -> Result<(String, Vec<u8>), FileProblem> {
            Err(FileProblem::Missing)
        }
    }
    let context = Context { files: &Alone, tables: Tables::built_in(), rule_sets: &[] };
    let (_, _, findings) = resolve_text(&context, "", text);
    let of_form = || findings.iter().filter(|finding| finding.code.stage() == Stage::Syntax);
    let misplaced = [Code::ClauseOutOfPlace, Code::ClauseTwice, Code::LineOutsideBlock];
    Faults {
        all: of_form().count(),
        misplaced: of_form().filter(|finding| misplaced.contains(&finding.code)).count(),
    }
}
