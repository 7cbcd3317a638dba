//! Amounts and bare numbers.

use super::{Ranged, Units};
use crate::cook::Amount;
use crate::findings::Code;
use crate::quantity::{Dimension, Length, Mass, Volume, find_unit, plain_number};
use crate::say;
use crate::syntax::{Figure, Measure};
use crate::text::Span;

impl Units<'_> {
    pub fn volume_or_mass(&mut self, measure: &Measure) -> Option<Amount> {
        let amount = self.amount(measure)?;
        match amount {
            Amount::Mass(_) | Amount::Volume(_) => Some(amount),
            _ => {
                self.report(
                    Code::UnitMismatch,
                    measure.span,
                    say!["This needs a weight or a volume."],
                    say!["Write it like `12 kg` or `60 l`."],
                );
                None
            }
        }
    }

    /// A bare number: `shelves 3`, `serves 16`, `pH 4.6`. The word after it, where one may stand, is
    /// for the caller to look at.
    pub fn number_range(&mut self, measure: &Measure, words: &[&str]) -> Option<Ranged<f64>> {
        let low = self.bare(measure.low(), words, measure.span)?;
        let high = match measure.high() {
            [] => None,
            figures => Some(self.bare(figures, words, measure.span)?),
        };
        if high.is_some_and(|high| high < low) {
            self.backwards(measure);
            return None;
        }
        Some(Ranged { low, high })
    }

    fn bare(&mut self, figures: &[Figure], words: &[&str], span: Span) -> Option<f64> {
        let figure = self.single(figures, Dimension::Share, span)?;
        if let Some(unit) = figure.unit {
            let word = self.slice(unit);
            if !words.iter().any(|allowed| allowed.eq_ignore_ascii_case(word)) {
                self.report(
                    Code::UnitMismatch,
                    figure.span,
                    say![format!("This needs a number alone, without `{word}`.")],
                    say![format!("Write `{}`.", plain_number(figure.value, 3))],
                );
                return None;
            }
        }
        if !figure.value.is_finite() || figure.value < 0.0 || figure.value > 1e6 {
            self.impossible(figure.span, "no kitchen deals in such a number");
            return None;
        }
        Some(figure.value)
    }

    /// An amount of something: a weight, a volume, a length, or a count of the word after it.
    pub fn amount(&mut self, measure: &Measure) -> Option<Amount> {
        self.no_range(measure)?;
        let figures = measure.low();
        let first = figures.first()?;
        let known = figures.last().and_then(|figure| self.unit_word(figure)).and_then(find_unit);
        let Some(unit) = known else {
            let figure = self.single(figures, Dimension::Mass, measure.span)?;
            if !(figure.value > 0.0 && figure.value <= 1e6) {
                self.impossible(figure.span, "an amount is more than zero");
                return None;
            }
            let word = figure.unit.map_or("", |unit| self.slice(unit)).to_string();
            return Some(Amount::Count { number: figure.value, word });
        };
        if !matches!(unit.dimension, Dimension::Mass | Dimension::Volume | Dimension::Length) {
            self.report(
                Code::UnitMismatch,
                first.span,
                say![format!(
                    "`{}` is {}, not an amount of something.",
                    self.slice(first.span),
                    unit.dimension.in_words()
                )],
                say!["Write a weight, a volume, a length or a number: `40 g`, `250 ml`, `2 m`, `65`."],
            );
            return None;
        }
        let value = self.linear(figures, None, unit.dimension, measure.span)?;
        if value <= 0.0 || value > 1e5 {
            self.impossible(measure.span, "an amount is more than zero, and less than a lorry load");
            return None;
        }
        let written = self.written(figures);
        Some(match unit.dimension {
            Dimension::Mass => Amount::Mass(Mass::from_kg(value).written_in(written)),
            Dimension::Volume => Amount::Volume(Volume::from_cubic_metres(value)),
            _ => Amount::Length(Length::from_metres(value).written_in(written)),
        })
    }
}
