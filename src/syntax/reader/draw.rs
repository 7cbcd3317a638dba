//! Which food or which part of it, and the tests that end a phase.

use pest::iterators::Pair;

use super::measure::measure;
use super::words::{checked, text_of};
use super::{Base, Rule};
use crate::syntax::tree::{Draw, DrawPart, Test};

pub fn test(pair: Pair<'_, Rule>, base: Base) -> Option<Test> {
    let mut inner = pair.into_inner();
    let first = inner.next()?;
    Some(match first.as_rule() {
        Rule::text => Test::Spoken(text_of(first, base)),
        _ => Test::Figure { what: checked(first.as_str())?, measure: measure(inner.next()?, base) },
    })
}

/// `part` and `draw` hold one alternative; a plain measure stands alone.
pub fn part(pair: Pair<'_, Rule>, base: Base) -> Option<Draw> {
    draw(pair, base)
}

pub fn draw(pair: Pair<'_, Rule>, base: Base) -> Option<Draw> {
    draw_of(pair.into_inner().next()?, base)
}

pub fn draw_of(pair: Pair<'_, Rule>, base: Base) -> Option<Draw> {
    let span = base.span(&pair);
    let rule = pair.as_rule();
    if rule == Rule::measure {
        return Some(Draw { span, part: DrawPart::Measure(measure(pair, base)), name: None });
    }
    let mut inner = pair.into_inner();
    let first = inner.next()?;
    let part = match rule {
        Rule::whole_of => DrawPart::All,
        Rule::half_of => DrawPart::Half,
        Rule::rest_of => DrawPart::Rest,
        Rule::amount_of => {
            let name = base.span(&inner.next()?);
            return Some(Draw { span, part: DrawPart::Amount(measure(first, base)), name: Some(name) });
        }
        _ => DrawPart::Plain,
    };
    Some(Draw { span, part, name: Some(base.span(&first)) })
}
