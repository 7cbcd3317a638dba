//! Lines that open a block.

use pest::iterators::Pair;

use super::draw::part;
use super::measure::measure;
use super::order::when;
use super::words::{text_of, words_or_text, words_span};
use super::{Base, Rule};
use crate::syntax::tree::HeadKind;

pub fn head(rule: Rule, pair: Pair<'_, Rule>, base: Base) -> Option<HeadKind> {
    let mut inner = pair.into_inner();
    Some(match rule {
        Rule::edition_head => HeadKind::Edition { number: base.span(&inner.next()?) },
        Rule::cook_head => HeadKind::Cook { title: text_of(inner.next()?, base) },
        Rule::menu_head => HeadKind::Menu { title: text_of(inner.next()?, base) },
        Rule::kit_from => HeadKind::KitFrom { file: text_of(inner.next()?, base) },
        Rule::kit_head => {
            HeadKind::Kit { name: base.span(&inner.next()?), class: words_span(&inner.next()?, base) }
        }
        Rule::food_head => {
            let name = base.span(&inner.next()?);
            let kind = inner.next()?;
            let quoted = kind.as_rule() == Rule::text;
            HeadKind::Food { name, kind: words_or_text(kind, base), quoted }
        }
        Rule::ingredient_head => {
            let name = base.span(&inner.next()?);
            let (mut amount, mut words, mut text) = (None, None, None);
            for part in inner {
                match part.as_rule() {
                    Rule::measure => amount = Some(measure(part, base)),
                    Rule::words => words = Some(words_span(&part, base)),
                    _ => text = Some(text_of(part, base)),
                }
            }
            HeadKind::Ingredient { name, amount, words, text }
        }
        Rule::phase_head => {
            let name = base.span(&inner.next()?);
            HeadKind::Phase { name, purpose: inner.next().map(|pair| words_span(&pair, base)) }
        }
        Rule::serve_head => HeadKind::Serve { parts: inner.filter_map(|pair| part(pair, base)).collect() },
        Rule::serve_menu => HeadKind::ServeMenu { when: when(inner.next()?, base) },
        Rule::crew_head => HeadKind::Crew,
        Rule::dish_head => HeadKind::Dish {
            file: text_of(inner.next()?, base),
            serves: inner.next().map(|pair| measure(pair, base)),
        },
        _ => return None,
    })
}
