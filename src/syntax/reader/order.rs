//! Times, and the order of things.

use pest::iterators::{Pair, Pairs};

use super::measure::measure;
use super::{Base, Rule};
use crate::cook::Edge;
use crate::syntax::tree::{ClauseKind, MomentWords, Nearness, WhenWords};

pub fn order(mut inner: Pairs<'_, Rule>, base: Base) -> Option<ClauseKind> {
    let edge = edge(inner.next()?.as_str());
    let mut next = inner.next()?;
    let mut at_least = false;
    if next.as_rule() == Rule::at_least {
        at_least = true;
        next = inner.next()?;
    }
    let nearness = match next.as_rule() {
        Rule::order_word => {
            let nearness = match next.as_str().as_bytes()[0].to_ascii_lowercase() {
                b'w' => Nearness::When,
                b'a' => Nearness::After,
                _ => Nearness::NoLater,
            };
            next = inner.next()?;
            nearness
        }
        Rule::measure => {
            let by = measure(next, base);
            let before = inner.next()?.as_str().as_bytes()[0].eq_ignore_ascii_case(&b'b');
            next = inner.next()?;
            if before { Nearness::Before { by, at_least } } else { Nearness::AfterBy { by, at_least } }
        }
        Rule::on_day => Nearness::OnDay,
        _ => Nearness::When,
    };
    let moment = match next.as_rule() {
        Rule::moment => {
            let span = base.span(&next);
            let mut parts = next.into_inner();
            let first = parts.next()?;
            match first.as_rule() {
                Rule::serving => MomentWords::Serving(span),
                _ => MomentWords::Phase { name: base.span(&first), edge: self::edge(parts.next()?.as_str()) },
            }
        }
        _ => MomentWords::When(when(next, base)),
    };
    Some(ClauseKind::Order { edge, nearness, moment })
}

fn edge(word: &str) -> Edge {
    if word.as_bytes()[0].eq_ignore_ascii_case(&b's') { Edge::Start } else { Edge::End }
}

pub fn when(pair: Pair<'_, Rule>, base: Base) -> WhenWords {
    let mut found = WhenWords { span: base.span(&pair), weekday: None, date: None, clock: None, zone: None };
    for part in pair.into_inner() {
        let span = Some(base.span(&part));
        match part.as_rule() {
            Rule::weekday => found.weekday = span,
            Rule::date => found.date = span,
            Rule::clock => found.clock = span,
            _ => found.zone = span,
        }
    }
    found
}
