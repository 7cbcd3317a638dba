//! Figures of a file in other units.

use super::View;
use crate::quantity::{
    Dimension, Duration, Factor, KitchenMeasures, Scale, Temperature, TemperatureDifference, UNITS, Unit,
    find_unit, plain_number,
};
use crate::syntax::{ClauseKind, Figure, Measure};
use crate::text::Span;

/// Whose cups and spoons the file means.
pub fn kitchen(view: &View<'_>) -> Option<KitchenMeasures> {
    let said = view.tree.clauses.iter().find_map(|clause| match clause.kind {
        ClauseKind::Measures(name) => Some(name),
        _ => None,
    })?;
    KitchenMeasures::find(view.text().get(said.range())?)
}

/// The temperatures of a measure in the scale that they are not written in, as one reads them: `140 °F to 162 °F`,
/// `230 °F ± 9 °F`. `None` where it is none, or cannot be read.
pub fn other_scale(view: &View<'_>, measure: &Measure, is_difference: bool) -> Option<String> {
    let lent = measure.high().last().and_then(|figure| figure.unit);
    let mut said = degrees(view, measure.low(), lent, is_difference)?;
    if !measure.high().is_empty() {
        said = format!("{said} to {}", degrees(view, measure.high(), None, is_difference)?);
    }
    if !measure.tolerance().is_empty() {
        said = format!("{said} ± {}", degrees(view, measure.tolerance(), None, true)?);
    }
    Some(said)
}

fn degrees(view: &View<'_>, figures: &[Figure], lent: Option<Span>, is_difference: bool) -> Option<String> {
    let [figure] = figures else { return None };
    let unit = unit_of(view, figure.unit.or(lent)?)?;
    let (celsius, other) = match unit.factor {
        Factor::Celsius => (true, Scale::Fahrenheit),
        Factor::Fahrenheit => (false, Scale::Celsius),
        _ => return None,
    };
    if !figure.value.is_finite() || figure.value.abs() > 1e4 {
        return None;
    }
    Some(match (is_difference, celsius) {
        (true, true) => TemperatureDifference::from_kelvin(figure.value).show(other),
        (true, false) => TemperatureDifference::from_fahrenheit_degrees(figure.value).show(other),
        (false, true) => Temperature::from_celsius(figure.value).show(other),
        (false, false) => Temperature::from_fahrenheit(figure.value).show(other),
    })
}

fn unit_of(view: &View<'_>, word: Span) -> Option<&'static Unit> {
    find_unit(view.text().get(word.range())?)
}

/// A measure in other units, each in full: `3200 g`, `about 7.05 lb`. Empty where it has no other.
pub fn other_units(view: &View<'_>, measure: &Measure) -> Vec<String> {
    let lent = measure.high().last().and_then(|figure| figure.unit);
    let measures = kitchen(view);
    let Some((dimension, low)) = linear(view, measure.low(), lent, measures) else { return Vec::new() };
    let high = match measure.high() {
        [] => None,
        figures => match linear(view, figures, None, measures) {
            Some((other, high)) if other == dimension => Some(high),
            _ => return Vec::new(),
        },
    };
    if dimension == Dimension::Duration {
        return lengths_of_time(low, high, view.text().get(measure.span.range()).unwrap_or(""));
    }
    let figures = || measure.low().iter().chain(measure.high());
    let written: Vec<&str> =
        figures().filter_map(|figure| unit_of(view, figure.unit.or(lent)?)).map(|unit| unit.name).collect();
    let others = UNITS.iter().filter(|unit| unit.dimension == dimension && !written.contains(&unit.name));
    others.filter_map(|unit| in_unit(unit, factor(unit, measures)?, low, high)).collect()
}

/// The sum of figures of one kind, in SI.
fn linear(
    view: &View<'_>,
    figures: &[Figure],
    lent: Option<Span>,
    measures: Option<KitchenMeasures>,
) -> Option<(Dimension, f64)> {
    let mut sum: Option<(Dimension, f64)> = None;
    for figure in figures {
        let unit = unit_of(view, figure.unit.or(lent)?)?;
        let value = figure.value * factor(unit, measures)?;
        let (dimension, before) = sum.unwrap_or((unit.dimension, 0.0));
        if dimension != unit.dimension {
            return None;
        }
        sum = Some((dimension, before + value));
    }
    sum.filter(|(_, value)| value.is_finite())
}

fn factor(unit: &Unit, measures: Option<KitchenMeasures>) -> Option<f64> {
    match (unit.factor, measures) {
        (Factor::Times(factor), _) if unit.dimension != Dimension::Share => Some(factor),
        (Factor::Kitchen { us, .. }, Some(KitchenMeasures::Us)) => Some(us),
        (Factor::Kitchen { imperial, .. }, Some(KitchenMeasures::Imperial)) => Some(imperial),
        (Factor::Kitchen { metric, .. }, Some(KitchenMeasures::Metric)) => metric,
        _ => None,
    }
}

/// A figure that nobody would use (0.02 lb of salt, 3,200,000 mg of meat) is left out.
fn in_unit(unit: &Unit, factor: f64, low: f64, high: Option<f64>) -> Option<String> {
    let least = match unit.name {
        "m" | "ft" => 1.0,
        "kg" | "l" => 0.1,
        _ => 0.05,
    };
    let fits = |value: f64| (least..10_000.0).contains(&value);
    let (low, high) = (low / factor, high.map(|high| high / factor));
    if !fits(low.max(high.unwrap_or(low))) || matches!(unit.name, "mg" | "cl" | "dl") {
        return None;
    }
    let (low_said, low_exact) = three_figures(low);
    let range = high.map(three_figures);
    let exact = low_exact && range.as_ref().is_none_or(|(_, exact)| *exact);
    let about = if exact { "" } else { "about " };
    let to = range.map_or(String::new(), |(high, _)| format!(" to {high}"));
    Some(format!("{about}{low_said}{to} {}", unit.name))
}

/// Three figures that count, and whether that is all there is.
fn three_figures(value: f64) -> (String, bool) {
    let digits = if value == 0.0 { 0 } else { value.abs().log10().floor() as i32 };
    let places = (2 - digits).clamp(0, 4) as usize;
    let said = plain_number(value, places);
    let exact = said.parse::<f64>().is_ok_and(|shown| (shown - value).abs() <= 1e-9 * value.abs().max(1.0));
    (said, exact)
}

/// In days, hours and minutes, and in one unit alone, as far as it is not typed so.
fn lengths_of_time(low: f64, high: Option<f64>, typed: &str) -> Vec<String> {
    let both = |show: &dyn Fn(f64) -> String| match high {
        Some(high) => format!("{} to {}", show(low), show(high)),
        None => show(low),
    };
    let longest = high.unwrap_or(low);
    let alone = match longest {
        long if long > 2.0 * 86_400.0 => Some(("h", 3600.0)),
        long if (3600.0..36_000.0).contains(&long) => Some(("min", 60.0)),
        _ => None,
    };
    let shown = both(&|seconds| Duration::from_seconds(seconds).show());
    let alone =
        alone.map(|(unit, factor)| both(&|seconds| format!("{} {unit}", plain_number(seconds / factor, 1))));
    [shown].into_iter().chain(alone).filter(|said| said != typed).collect()
}
