//! Clauses of shape and state, wherever they stand.

use super::super::builder::Builder;
use crate::cook::{Amount, Cover, Form, Pieces, ShapeClauses};
use crate::findings::{Code, Finding};
use crate::quantity::Dimension;
use crate::say;
use crate::syntax::{Checked, Clause, ClauseKind as K, Measure};
use crate::text::Spanned;

/// Reads a clause of shape or state into `shape`; `false` if it is not one.
pub fn shape(builder: &mut Builder<'_>, clause: &Clause, shape: &mut ShapeClauses) -> bool {
    match &clause.kind {
        K::Amount { measure, of, each } => amount(builder, clause, measure, of.as_ref(), *each, shape),
        K::Thickness(measure) => {
            if let Some((length, tolerance)) = builder.units.through(measure) {
                if shape.thickness.is_none() {
                    shape.thickness_tolerance = tolerance;
                }
                builder.set(
                    &mut shape.thickness,
                    Some(Spanned::new(length, clause.span)),
                    clause,
                    "the thickness",
                );
            }
        }
        K::Depth(measure) => {
            let value = builder.units.through(measure).map(|(length, _)| Spanned::new(length, clause.span));
            builder.set(&mut shape.depth, value, clause, "the depth");
        }
        K::Shape(name) => {
            let typed = builder.units.slice(*name);
            let form = Form::find(typed);
            if form.is_none() {
                builder.report(Finding::new(
                    Code::NameUnknown,
                    *name,
                    say![format!("`{typed}` is not a shape that is known.")],
                    say!["Write `shape slab`, `shape cylinder` or `shape ball`."],
                ));
            }
            let value = form.map(|form| Spanned::new(form, clause.span));
            builder.set(&mut shape.form, value, clause, "the shape");
        }
        K::Structure(structure) => {
            builder.set(
                &mut shape.structure,
                Some(Spanned::new(*structure, clause.span)),
                clause,
                "the state",
            );
        }
        K::Check { what: Checked::Salt, measure, bound: None, expect: false } => {
            let value = builder.units.share(measure).map(|share| Spanned::new(share, clause.span));
            builder.set(&mut shape.salt, value, clause, "the salt");
        }
        K::Check { what: Checked::Ph, measure, bound: None, expect: false } => {
            let value = ph(builder, measure).map(|value| Spanned::new(value, clause.span));
            builder.set(&mut shape.ph, value, clause, "the pH");
        }
        K::Cover { kind, stuff } => {
            let stuff = stuff.map(|span| builder.text(span));
            shape.covers.push(Cover { kind: *kind, stuff, span: clause.span });
        }
        _ => return false,
    }
    true
}

/// A pH from 0 to 14.
pub fn ph(builder: &mut Builder<'_>, measure: &Measure) -> Option<f64> {
    let value = builder.units.number_range(measure, &[])?.low;
    if value > 14.0 {
        builder.units.impossible(measure.span, "pH runs from 0 to 14");
        return None;
    }
    Some(value)
}

/// `6 kg`, `2 pieces of 3.2 kg`; a temperature alone is asked what it is of.
fn amount(
    builder: &mut Builder<'_>,
    clause: &Clause,
    measure: &Measure,
    of: Option<&Measure>,
    each: bool,
    shape: &mut ShapeClauses,
) {
    if of.is_none() && builder.units.is(measure, Dimension::Temperature) {
        builder.temperature_of_what(clause, measure);
        return;
    }
    let Some(first) = builder.units.amount(measure) else { return };
    let Some(of) = of else {
        match first {
            Amount::Mass(_) | Amount::Volume(_) if !each => {
                builder.set(&mut shape.amount, Some(Spanned::new(first, clause.span)), clause, "the amount");
            }
            _ => {
                let typed = builder.text(measure.span).value;
                builder.report(Finding::new(
                    Code::UnitMismatch,
                    clause.span,
                    say![format!("`{typed}` alone does not say how heavy it is.")],
                    say![format!(
                        "Write the weight of one with it: `{typed} of 75 g`, or the weight of all: `2.5 kg`."
                    )],
                ));
            }
        }
        return;
    };
    let Amount::Count { number, word } = first else {
        builder.report(Finding::new(
            Code::UnitMismatch,
            measure.span,
            say!["Before `of` stands how many there are."],
            say!["Write `2 pieces of 3.2 kg`."],
        ));
        return;
    };
    let Some(each) = builder.units.volume_or_mass(of) else { return };
    let pieces = Pieces { count: number, word, each, span: clause.span };
    builder.set(&mut shape.pieces, Some(pieces), clause, "the pieces");
}
