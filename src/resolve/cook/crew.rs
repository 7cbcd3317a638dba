//! The people of a cook or menu.

use super::super::blocks::Block;
use super::super::builder::Builder;
use crate::cook::Crew;
use crate::syntax::ClauseKind as K;
use crate::text::Spanned;

/// The people of a cook or menu.
pub fn crew(builder: &mut Builder<'_>, block: &Block<'_>) -> Crew {
    let mut crew = Crew { span: block.head.span, people: 1, asleep: Vec::new(), away: Vec::new() };
    let mut counted = None;
    for clause in &block.clauses {
        match &clause.kind {
            K::Amount { measure, of: None, each: false } => {
                let count =
                    builder.units.number_range(measure, &["people", "person", "cooks", "cook", "hands"]);
                if let Some(count) = count {
                    if count.high.is_some()
                        || count.low < 1.0
                        || count.low.fract() != 0.0
                        || count.low > 1000.0
                    {
                        builder.units.impossible(measure.span, "it is a whole number of people, one or more");
                        continue;
                    }
                    builder.set(&mut counted, Some(count.low as u32), clause, "how many there are");
                }
            }
            K::Asleep(from, to) | K::Away(from, to) => {
                let Some(hours) = builder.units.clock(*from).zip(builder.units.clock(*to)) else { continue };
                if hours.0 == hours.1 {
                    builder.units.impossible(clause.span, "it begins and ends at the same minute");
                    continue;
                }
                let hours = Spanned::new(hours, clause.span);
                if matches!(clause.kind, K::Asleep(..)) {
                    crew.asleep.push(hours)
                } else {
                    crew.away.push(hours)
                }
            }
            K::Note(text) => {
                let note = builder.text(*text);
                builder.notes.push(note);
            }
            K::Allow { code, because } => builder.allow(clause, *code, *because, block.span, None),
            _ => builder.out_of_place(clause, block),
        }
    }
    crew.people = counted.unwrap_or(1);
    crew
}
