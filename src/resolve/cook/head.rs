//! The `cook` block: what this file is.

use super::super::blocks::{Block, Blocks};
use super::super::builder::Builder;
use crate::cook::{Amount, Serves};
use crate::findings::{Code, Finding};
use crate::quantity::{KitchenMeasures, Length};
use crate::say;
use crate::syntax::ClauseKind as K;
use crate::text::{Span, Spanned};

/// What the `cook` block says.
#[derive(Default)]
pub(super) struct Facts {
    pub title: Option<Spanned<String>>,
    pub about: Option<Spanned<String>>,
    pub by: Option<Spanned<String>>,
    pub adapted_from: Option<Spanned<String>>,
    pub serves: Option<Serves>,
    pub rules: Option<Spanned<String>>,
    pub vulnerable_guests: Option<Span>,
    pub elevation: Option<Spanned<Length>>,
}

/// Which cups the writer means has to be known before any figure is typed.
pub(super) fn measures(builder: &mut Builder<'_>, blocks: &Blocks<'_>) {
    for block in &blocks.blocks {
        let clauses = block.clauses.iter().filter_map(|clause| match clause.kind {
            K::Measures(name) => Some(name),
            _ => None,
        });
        for name in clauses {
            let typed = builder.units.slice(name);
            builder.units.measures = KitchenMeasures::find(typed);
            if builder.units.measures.is_none() {
                builder.report(Finding::new(
                    Code::NameUnknown,
                    name,
                    say![format!("`{typed}` is not a set of kitchen measures.")],
                    say!["Write `measures us`, `measures imperial` or `measures metric`."],
                ));
            }
        }
    }
}

pub(super) fn cook_block(builder: &mut Builder<'_>, block: &Block<'_>, facts: &mut Facts) {
    for clause in &block.clauses {
        match &clause.kind {
            K::Serves { people, each } => {
                let serves = builder.units.number_range(people, &["people", "guests", "portions"]);
                let Some(serves) = serves else { continue };
                if serves.high.is_some() || serves.low < 1.0 || serves.low.fract() != 0.0 {
                    builder.units.impossible(people.span, "it is a whole number of people, one or more");
                    continue;
                }
                let each = each.as_ref().and_then(|each| {
                    builder.units.amount(each).map(|amount: Amount| Spanned::new(amount, each.span))
                });
                let value = Serves { people: serves.low as u32, each, span: clause.span };
                builder.set(&mut facts.serves, Some(value), clause, "for how many it is");
            }
            K::Rules(name) => {
                let value = rules(builder, *name);
                builder.set(&mut facts.rules, value, clause, "the rules");
            }
            K::About(text) => {
                let value = Some(builder.text(*text));
                builder.set(&mut facts.about, value, clause, "what it is about");
            }
            K::By(text) => {
                let value = Some(builder.text(*text));
                builder.set(&mut facts.by, value, clause, "who wrote it");
            }
            K::AdaptedFrom(text) => {
                let value = Some(builder.text(*text));
                builder.set(&mut facts.adapted_from, value, clause, "where it comes from");
            }
            K::Measures(_) => {}
            K::Elevation(measure) => {
                let value = elevation(builder, measure).map(|height| Spanned::new(height, clause.span));
                builder.set(&mut facts.elevation, value, clause, "the elevation");
            }
            K::VulnerableGuests => {
                builder.set(&mut facts.vulnerable_guests, Some(clause.span), clause, "who it is for");
            }
            K::Note(text) => {
                let note = builder.text(*text);
                builder.notes.push(note);
            }
            K::Allow { code, because } => builder.allow(clause, *code, *because, block.span, None),
            _ => builder.out_of_place(clause, block),
        }
    }
}

fn elevation(builder: &mut Builder<'_>, measure: &crate::syntax::Measure) -> Option<Length> {
    let (height, _) = builder.units.length(measure)?;
    if height.metres() > 6000.0 {
        builder.units.impossible(measure.span, "nobody cooks dinner that high up");
        return None;
    }
    Some(height)
}

/// The name of a rule set that exists.
pub fn rules(builder: &mut Builder<'_>, name: Span) -> Option<Spanned<String>> {
    let typed = builder.units.slice(name).to_lowercase();
    if builder.rule_sets.contains(&typed) {
        return Some(Spanned::new(typed, name));
    }
    let all = builder.rule_sets.join("`, `");
    builder.report(Finding::new(
        Code::RulesUnknown,
        name,
        say![format!("There is no rule set called `{typed}`.")],
        say![format!("Those that are known are `{all}`. `dwell rules` lists them.")],
    ));
    // The writer named a set: none is assumed in its place.
    Some(Spanned::new(typed, name))
}
