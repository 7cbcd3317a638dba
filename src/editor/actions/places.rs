//! Places in a text at which something is written.

use crate::editor::View;
use crate::findings::Edit;
use crate::syntax::{Clause, Head, HeadKind, Line};
use crate::text::Span;

/// The line that a place lies in.
pub fn line<'v>(view: &View<'v>, at: Span) -> Option<&'v Line> {
    let next = view.tree.lines.partition_point(|line| line.span.start <= at.start);
    view.tree.lines.get(next.checked_sub(1)?)
}

/// The clause that a place lies in.
pub fn clause<'v>(view: &View<'v>, at: Span) -> Option<&'v Clause> {
    let clauses = view.tree.clauses_of(line(view, at)?);
    clauses.iter().find(|clause| clause.span.start <= at.start && at.start < clause.span.end)
}

/// What a line says, without blanks around it and its comment.
pub fn said(view: &View<'_>, line: &Line) -> Span {
    let end = line.comment.map_or(line.span.end, |comment| comment.start);
    let (start, end) = (line.span.start as usize, end as usize);
    let text = view.text().get(start..end).unwrap_or("");
    let start = start + text.len() - text.trim_start().len();
    Span::new(view.file, start, start + text.trim().len())
}

pub fn replaced(span: Span, text: &str) -> Vec<Edit> {
    vec![Edit { span, text: text.to_owned() }]
}

/// A fact on a line of its own, below this one.
pub fn below(view: &View<'_>, line: &Line, fact: &str) -> Vec<Edit> {
    let end = line.span.end as usize;
    replaced(Span::new(view.file, end, end), &format!("{}  {fact}", newline(view, line)))
}

/// A block of one line before the first one of these.
pub fn before(view: &View<'_>, block: &str, is_later: impl Fn(&HeadKind) -> bool) -> Option<Vec<Edit>> {
    let head = |line: &Line| view.tree.head_of(line).is_some_and(|head| is_later(&head.kind));
    let line = view.tree.lines.iter().find(|line| head(line))?;
    let (start, end) = (line.span.start as usize, newline(view, line));
    Some(replaced(Span::new(view.file, start, start), &format!("{block}{end}{end}")))
}

/// A fact taken away, with the comma that parts it from its neighbour, or with its line where it stands alone.
pub fn without(view: &View<'_>, line: &Line, fact: Span) -> Vec<Edit> {
    if said(view, line) == fact {
        let whole = view.tree.whole(line);
        return replaced(Span::new(view.file, whole.start, whole.end), "");
    }
    let text = view.text();
    let (mut start, mut end) = (fact.start as usize, fact.end as usize);
    let left = text[..start].trim_end_matches([' ', '\t']);
    let right = text[end..].trim_start_matches([' ', '\t']);
    if left.ends_with(',') {
        start = left.len() - 1;
    } else if let Some(right) = right.strip_prefix(',') {
        end = text.len() - right.trim_start_matches([' ', '\t']).len();
    }
    replaced(Span::new(view.file, start, end), "")
}

/// The head that opens the block of a place, and its line.
pub fn block<'v>(view: &View<'v>, at: Span) -> Option<(&'v Head, &'v Line)> {
    let before = view.tree.lines.iter().take_while(|line| line.span.start <= at.start);
    before.filter_map(|line| Some((view.tree.head_of(line)?, line))).last()
}

fn newline(view: &View<'_>, line: &Line) -> &'static str {
    let ended = view.text().get(line.span.end as usize..line.next as usize);
    if ended == Some("\r\n") { "\r\n" } else { "\n" }
}
