//! A temperature in the other scale too.

use super::places::{clause, replaced};
use super::trial::Offer;
use crate::editor::View;
use crate::quantity::{Scale, Temperature, find_unit};
use crate::syntax::{ClauseKind, Figure, Measure, Test};
use crate::text::Span;

/// For the temperature under the cursor, where it has no twin yet.
pub fn offer(view: &View<'_>, at: Span) -> Option<Offer> {
    let measures = temperatures(&clause(view, at)?.kind);
    let here = |measure: &&Measure| measure.span.start <= at.end && at.start <= measure.span.end;
    let measure = measures.into_iter().find(here)?;
    let (low, high) = (measure.low().last()?, measure.high().last());
    if !measure.twin().is_empty() {
        return None;
    }
    // `60 to 65 °C` has its scale at its end.
    let unit = |figure: &Figure| figure.unit.or(high.and_then(|high| high.unit));
    let in_other = |figure: &Figure| other(figure.value, view.text().get(unit(figure)?.range())?);
    let twin = match high {
        None => in_other(low)?,
        Some(high) => format!("{} to {}", in_other(low)?, in_other(high)?),
    };
    let last = high.unwrap_or(low);
    let end = unit(last)?.end as usize;
    let twin = format!(" ({twin})");
    let title = format!("Write{twin} beside it");
    Some((title, replaced(Span::new(view.file, end, end), &twin)))
}

/// Clauses hold temperatures in these places; whether one is a temperature its unit says.
fn temperatures(kind: &ClauseKind) -> Vec<&Measure> {
    use ClauseKind as K;
    match kind {
        K::Setting { measure, .. } | K::Room(measure) | K::StartsAt(measure) | K::Check { measure, .. } => {
            vec![measure]
        }
        K::AtCoreDo { core, .. } => vec![core],
        K::Until(tests) => tests
            .iter()
            .filter_map(|test| match test {
                Test::Figure { measure, .. } => Some(measure),
                Test::Spoken(_) => None,
            })
            .collect(),
        _ => Vec::new(),
    }
}

/// The same temperature in the other scale, to a whole degree.
fn other(value: f64, unit: &str) -> Option<String> {
    let scale = |unit: &str| {
        Some(match find_unit(unit)?.name {
            "°C" => Scale::Celsius,
            "°F" => Scale::Fahrenheit,
            _ => return None,
        })
    };
    Some(match scale(unit)? {
        Scale::Celsius => format!("{} °F", Temperature::from_celsius(value).fahrenheit().round()),
        Scale::Fahrenheit => format!("{} °C", Temperature::from_fahrenheit(value).celsius().round()),
    })
}
