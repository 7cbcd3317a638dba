//! Lines gathered into blocks.

use crate::findings::{Code, Finding};
use crate::say;
use crate::syntax::{Clause, Head, HeadKind, LineKind, Tree};
use crate::text::Span;

/// A head and the clauses below it.
#[derive(Debug)]
pub struct Block<'t> {
    pub head: &'t Head,
    pub clauses: Vec<&'t Clause>,
    /// From the head to the last clause.
    pub span: Span,
    /// One of its lines had no effect.
    pub damaged: bool,
}

/// The blocks of a file, and what only a bad line tells.
#[derive(Debug, Default)]
pub struct Blocks<'t> {
    pub blocks: Vec<Block<'t>>,
    /// Words of lines without effect. A name among them may have been meant to be declared there, so
    /// that it is unknown elsewhere only follows.
    pub bad_lines: Vec<Span>,
    /// A line that would have opened a block could not be read.
    pub block_lost: bool,
    /// Kit of another file could not be read.
    pub kit_lost: bool,
}

/// Gathers blocks; lines before the first one are reported.
pub fn gather<'t>(tree: &'t Tree, text: &str, findings: &mut Vec<Finding>) -> Blocks<'t> {
    let mut found = Blocks::default();
    // `None` before the first block; `Some(false)` below a head that could not be read.
    let mut open: Option<bool> = None;
    let mut reported = false;
    for line in &tree.lines {
        match &line.kind {
            LineKind::Blank => {}
            LineKind::Bad { block, name } => {
                found.bad_lines.push(line.span);
                found.kit_lost |= block.zip(*name).is_some_and(|(block, name)| {
                    text[block.range()].eq_ignore_ascii_case("kit")
                        && text[name.range()].eq_ignore_ascii_case("from")
                });
                // What cannot be read before the first block was most likely meant to open it.
                if block.is_some() || found.blocks.iter().all(|block| is_edition(block.head)) {
                    found.block_lost = true;
                    open = Some(false);
                } else if let (Some(true), Some(block)) = (open, found.blocks.last_mut()) {
                    block.damaged = true;
                    block.span = block.span.to(line.span);
                }
            }
            LineKind::Read { .. } => {
                let clauses = tree.clauses_of(line);
                if let Some(head) = tree.head_of(line) {
                    if is_edition(head) && !found.blocks.is_empty() {
                        findings.push(Finding::new(
                            Code::ClauseOutOfPlace,
                            head.span,
                            say!["The edition of the language is not said here."],
                            say!["Move this line to the very top of the file."],
                        ));
                    }
                    open = Some(true);
                    found.blocks.push(Block { head, clauses: Vec::new(), span: head.span, damaged: false });
                }
                match (open, found.blocks.last_mut()) {
                    (Some(true), Some(block)) => {
                        if let Some(last) = clauses.last() {
                            block.span = block.span.to(last.span);
                        }
                        block.clauses.extend(clauses);
                    }
                    (Some(false), _) => found.bad_lines.push(line.span),
                    _ if !reported => {
                        reported = true;
                        findings.push(Finding::new(
                            Code::LineOutsideBlock,
                            clauses.first().map_or(line.span, |clause| clause.span),
                            say!["This stands before any block, so nothing tells what it is about."],
                            say!["Start with `cook \"Title\"`, and put the facts about it below."],
                        ));
                    }
                    _ => {}
                }
            }
        }
    }
    found
}

fn is_edition(head: &Head) -> bool {
    matches!(head.kind, HeadKind::Edition { .. })
}

/// What a block is called, for messages.
pub fn block_word(head: &HeadKind) -> &'static str {
    match head {
        HeadKind::Edition { .. } => "dwell",
        HeadKind::Cook { .. } => "cook",
        HeadKind::Menu { .. } => "menu",
        HeadKind::KitFrom { .. } | HeadKind::Kit { .. } => "kit",
        HeadKind::Food { .. } => "food",
        HeadKind::Ingredient { .. } => "ingredient",
        HeadKind::Phase { .. } => "phase",
        HeadKind::Serve { .. } | HeadKind::ServeMenu { .. } => "serve",
        HeadKind::Crew => "crew",
        HeadKind::Dish { .. } => "dish",
    }
}
