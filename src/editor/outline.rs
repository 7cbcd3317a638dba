//! The blocks of a file: what there is in it, and what can be folded away.

use super::View;
use crate::syntax::{Clause, ClauseKind, Head, HeadKind, Line, LineKind};
use crate::text::Span;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Cook,
    Menu,
    Kit,
    Food,
    Ingredient,
    Phase,
    Serving,
    Crew,
    Dish,
    /// What is made or collected in a phase.
    Made,
}

/// A block, or what is made in one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Symbol {
    pub kind: Kind,
    pub name: String,
    /// What it is, where that is said.
    pub detail: String,
    pub span: Span,
    /// The words by which it is known.
    pub named: Span,
    pub within: Vec<Symbol>,
}

/// What can be folded away: a block below its head, or comments below the first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fold {
    /// From the start of the line that stays to the end of the last one.
    pub span: Span,
    pub is_comment: bool,
}

/// The blocks of the file.
pub fn symbols(view: &View<'_>) -> Vec<Symbol> {
    blocks(view.tree.lines.as_slice()).filter_map(|lines| symbol(view, lines)).collect()
}

/// What can be folded away.
pub fn folds(view: &View<'_>) -> Vec<Fold> {
    let several = |lines: &&[Line]| lines.len() > 1;
    let fold =
        |lines: &[Line], is_comment| Fold { span: lines[0].span.to(lines[lines.len() - 1].span), is_comment };
    let below = blocks(&view.tree.lines).filter(several).map(|lines| fold(lines, false));
    let same = |a: &Line, b: &Line| is_remark(a) == is_remark(b);
    let remarks = view.tree.lines.chunk_by(same).filter(|lines| is_remark(&lines[0]));
    let mut all: Vec<Fold> = below.chain(remarks.filter(several).map(|lines| fold(lines, true))).collect();
    all.sort_by_key(|fold| fold.span);
    all
}

/// A line with a comment and nothing else.
fn is_remark(line: &Line) -> bool {
    line.kind == LineKind::Blank && line.comment.is_some()
}

fn opens(line: &Line) -> bool {
    matches!(line.kind, LineKind::Read { head: Some(_), .. } | LineKind::Bad { block: Some(_), .. })
}

/// The lines of each block, without blank ones and remarks at its end.
fn blocks(lines: &[Line]) -> impl Iterator<Item = &[Line]> {
    let runs = lines.chunk_by(|_, next| !opens(next)).filter(|lines| opens(&lines[0]));
    runs.map(|lines| {
        let last = lines.iter().rposition(|line| line.kind != LineKind::Blank).unwrap_or(0);
        &lines[..=last]
    })
}

fn symbol(view: &View<'_>, lines: &[Line]) -> Option<Symbol> {
    let head: &Head = view.tree.head_of(lines.first()?)?;
    let words = |span: Span| view.text()[span.range()].trim_matches(['"', '“', '”']).to_owned();
    let several = |span: Option<Span>| span.map(words).unwrap_or_default();
    let (kind, named, detail) = match &head.kind {
        HeadKind::Edition { .. } => return None,
        HeadKind::Cook { title } => (Kind::Cook, *title, String::new()),
        HeadKind::Menu { title } => (Kind::Menu, *title, String::new()),
        HeadKind::KitFrom { file } => (Kind::Kit, *file, String::new()),
        HeadKind::Kit { name, class } => (Kind::Kit, *name, words(*class)),
        HeadKind::Food { name, kind, .. } => (Kind::Food, *name, words(*kind)),
        HeadKind::Ingredient { name, text, words, .. } => (Kind::Ingredient, *name, several(text.or(*words))),
        HeadKind::Phase { name, purpose } => (Kind::Phase, *name, several(*purpose)),
        HeadKind::Serve { .. } | HeadKind::ServeMenu { .. } => (Kind::Serving, head.span, String::new()),
        HeadKind::Crew => (Kind::Crew, head.span, String::new()),
        HeadKind::Dish { file, .. } => (Kind::Dish, *file, String::new()),
    };
    let made =
        lines.iter().flat_map(|line| view.tree.clauses_of(line)).filter_map(|clause| made(clause, &words));
    Some(Symbol {
        kind,
        name: words(named),
        detail,
        span: lines[0].span.to(lines[lines.len() - 1].span),
        named,
        within: made.collect(),
    })
}

fn made(clause: &Clause, words: &dyn Fn(Span) -> String) -> Option<Symbol> {
    let (ClauseKind::Becomes { name, kind } | ClauseKind::Collect { name, kind, .. }) = clause.kind else {
        return None;
    };
    Some(Symbol {
        kind: Kind::Made,
        name: words(name),
        detail: kind.map(words).unwrap_or_default(),
        span: clause.span,
        named: name,
        within: Vec::new(),
    })
}
