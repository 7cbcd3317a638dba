//! A food that is named and not declared, begun: what it is stands in the table, how much of it only the cook knows.

use super::places::before;
use super::trial::Offer;
use crate::editor::View;
use crate::editor::pieces::{Sort, Space, pieces};
use crate::findings::{Code, Finding};
use crate::syntax::HeadKind;
use crate::tables::Tables;

/// For a name that nobody declares and that is also that of a kind of food. What a slip of it may have been comes first.
pub fn offer(view: &View<'_>, unknown: &Finding) -> Option<Offer> {
    if unknown.code != Code::NameUnknown {
        return None;
    }
    let stock = Sort::Name { space: Space::Stock, declares: false };
    let is_stock =
        |span| pieces(view.tree, view.text()).iter().any(|piece| piece.span == span && piece.sort == stock);
    let name = view.text().get(unknown.span.range()).filter(|_| is_stock(unknown.span))?;
    let kind = Tables::built_in().foods.find(name)?;
    let later = |head: &HeadKind| matches!(head, HeadKind::Phase { .. } | HeadKind::Serve { .. });
    let edits = before(view, &format!("food {name} is {}", kind.name), later)?;
    Some((format!("Declare `{name}` as a food; how much of it is for you to write"), edits))
}
