//! Canonical layout, as edits of the lines that change.

use super::View;
use crate::findings::Edit;
use crate::syntax;
use crate::text::Span;

/// What lays the whole text out, in the order of the lines.
pub fn format(view: &View<'_>) -> Vec<Edit> {
    let (tree, text) = (view.tree, view.text());
    let lines = tree.lines.iter().zip(syntax::laid_out(tree, text));
    let changed = lines.filter_map(|(line, laid_out)| {
        let whole = tree.whole(line);
        let new = laid_out.map_or(String::new(), |line| line + "\n");
        let span = Span::new(view.file, whole.start, whole.end);
        (text.get(whole)? != new).then_some(Edit { span, text: new })
    });
    changed.collect()
}

/// The part of it in the lines that `range` touches. One that ends where a line starts does not touch that line.
pub fn format_range(view: &View<'_>, range: Span) -> Vec<Edit> {
    let mut edits = format(view);
    edits.retain(|edit| {
        let begins_in = edit.span.start < range.end || edit.span.start == range.start;
        begins_in && range.start < edit.span.end
    });
    edits
}
