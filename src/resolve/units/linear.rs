//! Figures that scale from zero: lengths of time, lengths and shares.

use super::{Ranged, Units, unit_after};
use crate::findings::Code;
use crate::quantity::{Dimension, Duration, Factor, KitchenMeasures, Length, Share, Volume};
use crate::say;
use crate::syntax::{Figure, Measure};
use crate::text::Span;

/// Nothing in a kitchen is thicker, m. Common practice, no source.
const THICKEST_M: f64 = 1.0;

impl Units<'_> {
    pub fn duration(&mut self, measure: &Measure) -> Option<Duration> {
        let range = self.duration_range(measure)?;
        self.no_range(measure)?;
        Some(range.low)
    }

    /// `1 h 30 min to 2 h`; zero is allowed only as a low end.
    pub fn duration_range(&mut self, measure: &Measure) -> Option<Ranged<Duration>> {
        let range = self.linear_range(measure, Dimension::Duration)?;
        if range.high.unwrap_or(range.low) <= 0.0 {
            self.impossible(measure.span, "it takes no time at all");
            return None;
        }
        if range.high.unwrap_or(range.low) > 400.0 * 86_400.0 {
            self.impossible(measure.span, "it is longer than a year");
            return None;
        }
        Some(Ranged { low: Duration::from_seconds(range.low), high: range.high.map(Duration::from_seconds) })
    }

    /// A length greater than zero, with its tolerance.
    pub fn length(&mut self, measure: &Measure) -> Option<(Length, Option<Length>)> {
        let value = self.positive(measure, Dimension::Length)?;
        let tolerance = match measure.tolerance() {
            [] => None,
            figures => self.linear(figures, None, Dimension::Length, measure.span),
        };
        if tolerance.is_some_and(|tolerance| !(0.0..value).contains(&tolerance)) {
            self.impossible(measure.span, "it may be off by as much as it measures, or more");
            return None;
        }
        let length = |metres| Length::from_metres(metres).written_in(self.written(measure.low()));
        Some((length(value), tolerance.map(length)))
    }

    /// How thick food is, or how deep it lies.
    pub fn through(&mut self, measure: &Measure) -> Option<(Length, Option<Length>)> {
        let length = self.length(measure)?;
        if length.0.metres() > THICKEST_M {
            self.impossible(measure.span, "no food in a kitchen is that thick or lies that deep");
            return None;
        }
        Some(length)
    }

    /// A share from 0 to 100 %.
    pub fn share(&mut self, measure: &Measure) -> Option<Share> {
        let range = self.share_range(measure)?;
        self.no_range(measure)?;
        Some(range.low)
    }

    pub fn share_range(&mut self, measure: &Measure) -> Option<Ranged<Share>> {
        let range = self.linear_range(measure, Dimension::Share)?;
        if range.low < 0.0 || range.high.unwrap_or(range.low) > 1.0 {
            self.impossible(measure.span, "a share lies between 0 % and 100 %");
            return None;
        }
        Some(Ranged { low: Share::from_fraction(range.low), high: range.high.map(Share::from_fraction) })
    }

    fn positive(&mut self, measure: &Measure, dimension: Dimension) -> Option<f64> {
        self.no_range(measure)?;
        let value = self.linear(measure.low(), None, dimension, measure.span)?;
        if value <= 0.0 || value > 1e4 {
            self.impossible(
                measure.span,
                "it has to be more than nothing, and of a size that fits a kitchen",
            );
            return None;
        }
        Some(value)
    }

    fn linear_range(&mut self, measure: &Measure, dimension: Dimension) -> Option<Ranged<f64>> {
        let low = self.linear(measure.low(), unit_after(measure), dimension, measure.span)?;
        let high = match measure.high() {
            [] => None,
            figures => Some(self.linear(figures, None, dimension, measure.span)?),
        };
        if low < 0.0 {
            self.impossible(measure.span, "it cannot be less than nothing");
            return None;
        }
        if high.is_some_and(|high| high < low) {
            self.backwards(measure);
            return None;
        }
        Some(Ranged { low, high })
    }

    /// The sum of figures in one dimension (`1 h 30 min`), in SI.
    pub(super) fn linear(
        &mut self,
        figures: &[Figure],
        lent: Option<Span>,
        dimension: Dimension,
        span: Span,
    ) -> Option<f64> {
        if figures.len() > 1 && figures[0].unit.is_none() {
            self.spaced(figures);
            return None;
        }
        let mut total = 0.0;
        for figure in figures {
            let (unit, word) = self.unit_of(figure, lent, dimension)?;
            let factor = match unit.factor {
                Factor::Times(factor) => factor,
                Factor::Kitchen { us, imperial, metric } => {
                    self.kitchen_factor(figure, word, us, imperial, metric)?
                }
                Factor::Celsius | Factor::Fahrenheit => return None,
            };
            let value = figure.value * factor;
            if !value.is_finite() {
                self.impossible(span, "the figure is beyond all measure");
                return None;
            }
            total += value;
        }
        Some(total)
    }

    fn kitchen_factor(
        &mut self,
        figure: &Figure,
        word: &str,
        us: f64,
        imperial: f64,
        metric: Option<f64>,
    ) -> Option<f64> {
        let chosen = match self.measures {
            Some(KitchenMeasures::Us) => Some(us),
            Some(KitchenMeasures::Imperial) => Some(imperial),
            Some(KitchenMeasures::Metric) => metric,
            None => None,
        };
        if chosen.is_some() {
            return chosen;
        }
        let shown = |factor: f64| Volume::from_cubic_metres(figure.value * factor).show();
        let mut readings = format!("{} in US measures, {} in imperial", shown(us), shown(imperial));
        if let Some(metric) = metric {
            readings.push_str(&format!(", {} in metric", shown(metric)));
        }
        let message = if self.measures.is_some() {
            say![format!("A metric kitchen has no `{word}`.")]
        } else {
            say![format!("`{}` is {readings}.", self.slice(figure.span))]
        };
        let remedy = if self.measures.is_some() {
            say![format!("Write it in ml or l ({readings}).")]
        } else {
            say![
                "Say which you mean in the `cook` block, `measures us`, `measures imperial` or `measures metric`, or write it in ml."
            ]
        };
        self.report(Code::MeasuresUnsaid, figure.span, message, remedy);
        None
    }
}
