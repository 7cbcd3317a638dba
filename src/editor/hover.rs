//! What stands under the cursor: a figure in other units, a name, a word of the language.

mod files;
mod names;
mod words;

use super::View;
use super::at::At;
use super::figures::{other_scale, other_units};
use super::scope::Scope;
use crate::syntax::{Figure, Measure, Said};
use crate::text::Span;

/// A few sentences about a stretch of the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hover {
    pub span: Span,
    /// Paragraphs, plain but for backticks around what is typed.
    pub said: Vec<String>,
}

/// What there is to say of the place; `None` where that is nothing.
pub fn hover(view: &View<'_>, offset: usize) -> Option<Hover> {
    let at = At::of(view, offset)?;
    let offset = at.offset;
    let under = |span: Span| span.range().contains(&offset) || span.end as usize == offset;
    let line = view.tree.lines.iter().find(|line| line.span.start as usize == at.line.start)?;
    let head = view.tree.head_of(line);
    let clause = view.tree.clauses_of(line).iter().find(|clause| under(clause.span));
    let said = match (clause, head) {
        (Some(clause), _) => clause.kind.parts(),
        (None, Some(head)) if under(head.span) => head.kind.parts(),
        _ => return None,
    };
    let part = said.into_iter().rfind(|said| span_of(said).is_some_and(under));
    let part = part.and_then(|said| {
        let hover = of_part(view, said)?;
        (!hover.said.is_empty()).then_some(hover)
    });
    part.or_else(|| match (clause, head) {
        (Some(clause), _) => words::clause(view, &at, clause),
        (None, Some(head)) => words::head(view, head),
        _ => None,
    })
}

/// What a figure, a name or a word from a table has to tell.
fn of_part(view: &View<'_>, said: Said<'_>) -> Option<Hover> {
    let span = span_of(&said)?;
    let said = match said {
        Said::Measure(measure) => figures(view, measure, false),
        Said::Difference(measure) => figures(view, measure, true),
        Said::NewKit(name) | Said::Kit(name) => names::kit(view, name)?,
        Said::NewStock(name) | Said::Stock(name) => names::stock(view, name)?,
        Said::NewPhase(name) | Said::Phase(name) => names::phase(view, name)?,
        Said::FoodKind(words) => names::food_kind(view, words)?,
        Said::KitClass(words) => names::kit_class(view, words)?,
        Said::Purpose(word) => words::purpose(view, word)?,
        Said::RuleSet(name) => words::rule_set(view, name)?,
        Said::Code(name) => words::code(view, name)?,
        Said::File(name) => files::of(view, name)?,
        Said::When(_)
        | Said::Clock(_)
        | Said::Edition(_)
        | Said::Allergen(_)
        | Said::Shape(_)
        | Said::KitchenMeasures(_)
        | Said::Text(_) => return None,
    };
    Some(Hover { span, said })
}

fn span_of(said: &Said<'_>) -> Option<Span> {
    Some(match said {
        Said::Measure(measure) | Said::Difference(measure) => measure.span,
        Said::When(when) => when.span,
        Said::Clock(span)
        | Said::Edition(span)
        | Said::NewKit(span)
        | Said::NewStock(span)
        | Said::NewPhase(span)
        | Said::Kit(span)
        | Said::Stock(span)
        | Said::Phase(span)
        | Said::KitClass(span)
        | Said::FoodKind(span)
        | Said::Purpose(span)
        | Said::RuleSet(span)
        | Said::Code(span)
        | Said::Allergen(span)
        | Said::Shape(span)
        | Said::KitchenMeasures(span)
        | Said::Text(span)
        | Said::File(span) => *span,
    })
}

/// The figure in the other scale, or in other units.
fn figures(view: &View<'_>, measure: &Measure, is_difference: bool) -> Vec<String> {
    let whole = |figures: &[Figure]| {
        let (first, last) = (figures.first()?, figures.last()?);
        Some(typed(view, first.span.to(last.span)))
    };
    let Some(low) = whole(measure.low()) else { return Vec::new() };
    let high = whole(measure.high()).map_or(String::new(), |high| format!(" to {high}"));
    let range = format!("{low}{high}");
    if let Some(other) = other_scale(view, measure, is_difference) {
        let tolerance = whole(measure.tolerance()).map_or(String::new(), |by| format!(" ± {by}"));
        let (sign, difference) = if is_difference { ("± ", " of difference") } else { ("", "") };
        return vec![format!("`{sign}{range}{tolerance}` is {other}{difference}.")];
    }
    let others = other_units(view, measure);
    let Some((last, before)) = others.split_last() else { return Vec::new() };
    let list = if before.is_empty() { last.clone() } else { format!("{} or {last}", before.join(", ")) };
    vec![format!("`{range}` is {list}.")]
}

fn typed<'v>(view: &View<'v>, span: Span) -> &'v str {
    view.text().get(span.range()).unwrap_or("").trim()
}
