//! What a phase waits for, and what is looked at when it ends.

use super::super::builder::Builder;
use super::super::stock::ph;
use super::super::units::Ranged;
use crate::cook::{Check, Test};
use crate::findings::{Code, Finding};
use crate::say;
use crate::syntax::{Bound, Checked, Clause, Measure, Test as TypedTest};
use crate::text::{Span, Spanned};

pub(super) fn test(builder: &mut Builder<'_>, typed: &TypedTest, span: Span) -> Option<Spanned<Test>> {
    match typed {
        TypedTest::Spoken(text) => {
            let text = builder.text(*text);
            Some(Spanned::new(Test::Spoken(text.value), text.span))
        }
        TypedTest::Figure { what, measure } => {
            let test = match what {
                Checked::Core => Test::Core(builder.units.temperature(measure)?.0),
                Checked::Surface => Test::Surface(builder.units.temperature(measure)?.0),
                Checked::Ph => Test::Ph(ph(builder, measure)?),
                Checked::Weight | Checked::Salt => {
                    builder.report(Finding::new(
                        Code::LineUnreadable,
                        span,
                        say!["A phase cannot wait for a weight or for salt."],
                        say!["Say how long you have seen it take, `takes 3 weeks to 5 weeks`, and check it at the end: `expect weight 60 % to 65 %`."],
                    ));
                    return None;
                }
            };
            Some(Spanned::new(test, measure.span))
        }
    }
}

/// `core 84 °C` alone.
pub(super) fn two_readings(builder: &mut Builder<'_>, clause: &Clause, what: Checked) {
    let typed = builder.text(clause.span).value;
    let remedy = match what {
        Checked::Core | Checked::Surface | Checked::Ph => say![format!(
            "If the phase ends then, write `until {typed}`; if it is looked at when the phase ends, `expect {typed}`."
        )],
        Checked::Weight | Checked::Salt => {
            say![format!("If it is looked at when the phase ends, write `expect {typed}`.")]
        }
    };
    builder.report(Finding::new(
        Code::ClauseOutOfPlace,
        clause.span,
        say![format!("`{typed}` alone does not say whether the phase waits for it.")],
        remedy,
    ));
}

pub(super) fn check(
    builder: &mut Builder<'_>,
    what: Checked,
    measure: &Measure,
    bound: Option<Bound>,
) -> Option<Check> {
    fn ends<T>(range: Ranged<T>, bound: Option<Bound>) -> (Option<T>, Option<T>)
    where
        T: Copy,
    {
        match (bound, range.high) {
            (Some(Bound::OrMore), _) => (Some(range.low), None),
            (Some(Bound::OrLess), _) => (None, Some(range.low)),
            (None, high) => (Some(range.low), Some(high.unwrap_or(range.low))),
        }
    }
    Some(match what {
        Checked::Core | Checked::Surface => {
            let (low, high) = ends(builder.units.temperature_range(measure)?, bound);
            if what == Checked::Core { Check::Core { low, high } } else { Check::Surface { low, high } }
        }
        Checked::Weight | Checked::Salt => {
            let range = builder.units.share_range(measure)?;
            let (low, high) = ends(range, bound);
            let low = low.unwrap_or(crate::quantity::Share::ZERO);
            let high = high.unwrap_or(crate::quantity::Share::from_fraction(1.0));
            if what == Checked::Weight { Check::Weight { low, high } } else { Check::Salt { low, high } }
        }
        Checked::Ph => {
            let range = builder.units.number_range(measure, &[])?;
            let (low, high) = ends(range, bound);
            Check::Ph { low: low.unwrap_or(0.0), high: high.unwrap_or(14.0) }
        }
    })
}
