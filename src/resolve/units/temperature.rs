//! Temperatures, their twins and their differences.

use super::{Ranged, Units, rounded, unit_after};
use crate::findings::Code;
use crate::quantity::{Dimension, Factor, Scale, Temperature, TemperatureDifference, find_unit};
use crate::say;
use crate::syntax::{Figure, Measure};
use crate::text::Span;

/// Coldest and warmest temperature that a figure in a kitchen can mean.
const COLDEST_C: f64 = -90.0;
const WARMEST_C: f64 = 500.0;

impl Units<'_> {
    /// The scale that a temperature is typed in.
    pub fn typed_scale(&self, measure: &Measure) -> Scale {
        let figure = measure.low().first();
        match figure.and_then(|figure| find_unit(self.slice(figure.unit?))).map(|unit| unit.factor) {
            Some(Factor::Fahrenheit) => Scale::Fahrenheit,
            _ => Scale::Celsius,
        }
    }

    /// A temperature with its tolerance; a range is refused.
    pub fn temperature(&mut self, measure: &Measure) -> Option<(Temperature, Option<TemperatureDifference>)> {
        let range = self.temperature_range(measure)?;
        let tolerance = self.tolerance(measure);
        if let Some(high) = range.high {
            let half = (high - range.low) * 0.5;
            self.report(
                Code::RangeMisplaced,
                measure.span,
                say!["A setting is one temperature, not a range."],
                say!["Write the middle and how far it swings: `", range.low + half, " ± ", half, "`."],
            );
            return None;
        }
        Some((range.low, tolerance))
    }

    /// `60 °C to 72 °C`, with twins compared.
    pub fn temperature_range(&mut self, measure: &Measure) -> Option<Ranged<Temperature>> {
        let low = self.temperature_figure(measure.low(), unit_after(measure), measure.span)?;
        let high = match measure.high() {
            [] => None,
            figures => Some(self.temperature_figure(figures, None, measure.span)?),
        };
        self.check_twin(low, measure.low(), measure.twin(), measure.span);
        if let Some(high) = high {
            self.check_twin(high, measure.high(), measure.twin_high(), measure.span);
            if high < low {
                self.backwards(measure);
                return None;
            }
        }
        Some(Ranged { low, high })
    }

    fn temperature_figure(
        &mut self,
        figures: &[Figure],
        lent: Option<Span>,
        span: Span,
    ) -> Option<Temperature> {
        let figure = self.single(figures, Dimension::Temperature, span)?;
        let (unit, _) = self.unit_of(figure, lent, Dimension::Temperature)?;
        let temperature = match unit.factor {
            Factor::Fahrenheit => {
                self.fahrenheit_seen += 1;
                Temperature::from_fahrenheit(figure.value)
            }
            _ => {
                self.celsius_seen += 1;
                Temperature::from_celsius(figure.value)
            }
        };
        if !(COLDEST_C..=WARMEST_C).contains(&temperature.celsius()) {
            self.impossible(figure.span, "no kitchen and no food reaches that temperature");
            return None;
        }
        Some(temperature)
    }

    /// `± 3 °C`: a difference, so 3 °C of it are 5.4 °F.
    pub fn tolerance(&mut self, measure: &Measure) -> Option<TemperatureDifference> {
        match measure.tolerance() {
            [] => None,
            figures => self.difference(figures, measure.span),
        }
    }

    pub fn difference(&mut self, figures: &[Figure], span: Span) -> Option<TemperatureDifference> {
        let figure = self.single(figures, Dimension::Temperature, span)?;
        let (unit, _) = self.unit_of(figure, None, Dimension::Temperature)?;
        if !(0.0..=200.0).contains(&figure.value) {
            self.impossible(figure.span, "a swing is zero or more, and far less than the setting");
            return None;
        }
        Some(match unit.factor {
            Factor::Fahrenheit => TemperatureDifference::from_fahrenheit_degrees(figure.value),
            _ => TemperatureDifference::from_kelvin(figure.value),
        })
    }

    fn check_twin(&mut self, said: Temperature, figures: &[Figure], twin: &[Figure], span: Span) {
        let (Some(first), Some(second)) = (figures.last(), twin.first()) else { return };
        let Some(other) = self.temperature_figure(twin, None, span) else { return };
        // The twin says it again; it does not count twice for the writer's scale.
        match self.unit_word(second).and_then(find_unit).map(|unit| unit.factor) {
            Some(Factor::Fahrenheit) => self.fahrenheit_seen = self.fahrenheit_seen.saturating_sub(1),
            _ => self.celsius_seen = self.celsius_seen.saturating_sub(1),
        }
        // Rounding to the nearest 5 °F moves a figure by 2.5 °F at the most.
        if (said - other).fahrenheit_degrees().abs() <= 2.5 + 1e-9 {
            return;
        }
        let in_fahrenheit =
            matches!(self.unit_word(second).and_then(find_unit).map(|u| u.factor), Some(Factor::Fahrenheit));
        let (right, back) = if in_fahrenheit {
            (rounded(said.fahrenheit(), "°F"), rounded(other.celsius(), "°C"))
        } else {
            (rounded(said.celsius(), "°C"), rounded(other.fahrenheit(), "°F"))
        };
        let (first_text, second_text) = (self.slice(first.span), self.slice(second.span));
        self.report(
            Code::TwinDisagrees,
            first.span.to(second.span),
            say![format!("{first_text} and {second_text} are not the same temperature.")],
            say![format!("Write `{first_text} ({right})` or `{back} ({second_text})`, whichever you mean.")],
        );
    }
}
