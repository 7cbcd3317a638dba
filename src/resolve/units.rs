//! Figures become quantities: every clause has a type, and a figure that does not fit is reported
//! with what to write instead.

use crate::findings::{Code, Finding, Text};
use crate::quantity::{Dimension, KitchenMeasures, Scale, UNITS, Unit, Written, find_unit, plain_number};
use crate::say;
use crate::syntax::{Figure, Measure};
use crate::text::Span;

mod amount;
mod linear;
mod temperature;

/// Types the figures of one file.
pub struct Units<'t> {
    pub text: &'t str,
    pub measures: Option<KitchenMeasures>,
    pub findings: Vec<Finding>,
    /// Temperatures seen in each scale, to tell which one the writer thinks in.
    celsius_seen: u32,
    fahrenheit_seen: u32,
}

/// A typed figure, or a low and a high one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ranged<T> {
    pub low: T,
    pub high: Option<T>,
}

impl<'t> Units<'t> {
    pub fn new(text: &'t str) -> Self {
        Self { text, measures: None, findings: Vec::new(), celsius_seen: 0, fahrenheit_seen: 0 }
    }

    pub fn slice(&self, span: Span) -> &'t str {
        self.text.get(span.range()).unwrap_or("")
    }

    /// The scale that most temperatures of the file are written in.
    pub fn scale(&self) -> Scale {
        if self.fahrenheit_seen > self.celsius_seen { Scale::Fahrenheit } else { Scale::Celsius }
    }

    pub fn report(&mut self, code: Code, span: Span, message: Text, remedy: Text) {
        self.findings.push(Finding::new(code, span, message, remedy));
    }

    /// Does `measure` have a unit of this kind?
    pub fn is(&self, measure: &Measure, dimension: Dimension) -> bool {
        let figures = measure.low().iter().chain(measure.high());
        figures
            .filter_map(|figure| find_unit(self.slice(figure.unit?)))
            .any(|unit| unit.dimension == dimension)
    }

    /// One figure; several are a number with a blank in it, or two facts.
    fn single<'f>(&mut self, figures: &'f [Figure], wanted: Dimension, span: Span) -> Option<&'f Figure> {
        match figures {
            [figure] if figure.value.is_finite() => Some(figure),
            [figure] => {
                self.impossible(figure.span, "the figure is beyond all measure");
                None
            }
            [first, ..] if first.unit.is_none() => {
                self.spaced(figures);
                None
            }
            _ => {
                self.report(
                    Code::UnitMismatch,
                    span,
                    say!["There are two figures here, and one is needed."],
                    say![format!("Write one, like `{}`.", wanted.example())],
                );
                None
            }
        }
    }

    fn spaced(&mut self, figures: &[Figure]) {
        let (Some(first), Some(last)) = (figures.first(), figures.last()) else { return };
        let span = first.span.to(last.span);
        let typed = self.slice(span);
        let joined: String = figures.iter().map(|figure| self.number_text(figure)).collect();
        let unit = last.unit.map_or(String::new(), |unit| format!(" {}", self.slice(unit)));
        self.report(
            Code::NumberSpaced,
            span,
            say![format!("`{typed}` has a blank inside a number.")],
            say![format!("Write `{joined}{unit}`.")],
        );
    }

    fn number_text(&self, figure: &Figure) -> &'t str {
        let text = self.slice(figure.span);
        let end = figure.unit.map_or(text.len(), |unit| (unit.start - figure.span.start) as usize);
        text.get(..end).unwrap_or(text).trim()
    }

    /// The units that a weight or a length is shown in: those of its first figure.
    fn written(&self, figures: &[Figure]) -> Written {
        let unit = figures.first().and_then(|figure| find_unit(self.unit_word(figure)?));
        unit.map_or(Written::Metric, |unit| unit.written)
    }

    /// `12 x 280 g`, where it stands alone on its line, as it is written here.
    fn times(&self, figure: &Figure, number: &str, word: &str) -> Option<String> {
        let before = self.text.get(..figure.span.range().start)?.rsplit(['\n', '\r']).next()?;
        let after = self.text.get(figure.span.range().end..)?.split(['\n', '\r', ',', '/']).next()?.trim();
        let alone = before.trim().is_empty() && after.starts_with(|c: char| c.is_ascii_digit());
        (word.eq_ignore_ascii_case("x") && alone).then(|| format!("{number} pieces of {after}"))
    }

    fn unit_word(&self, figure: &Figure) -> Option<&'t str> {
        figure.unit.map(|unit| self.slice(unit))
    }

    /// The unit of a figure, its own or the one that a range lends it, if it measures `wanted`.
    fn unit_of(
        &mut self,
        figure: &Figure,
        lent: Option<Span>,
        wanted: Dimension,
    ) -> Option<(&'static Unit, &'t str)> {
        if !figure.value.is_finite() {
            self.impossible(figure.span, "the figure is beyond all measure");
            return None;
        }
        let number = self.number_text(figure);
        let Some(word) = figure.unit.or(lent).map(|span| self.slice(span)) else {
            let remedy = match wanted {
                Dimension::Temperature => say![format!("Write `{number} °C` or `{number} °F`.")],
                Dimension::Duration => say![format!("Write `{number} min` or `{number} h`.")],
                Dimension::Length => say![format!("Write `{number} cm` or `{number} mm`.")],
                Dimension::Share => say![format!("Write `{number} %`.")],
                Dimension::Mass => say![format!("Write `{number} g` or `{number} kg`.")],
                Dimension::Volume => say![format!("Write `{number} ml` or `{number} l`.")],
            };
            self.report(
                Code::UnitMissing,
                figure.span,
                say![format!("`{number}` has no unit, and this needs {}.", wanted.in_words())],
                remedy,
            );
            return None;
        };
        let Some(unit) = find_unit(word) else {
            let degrees = word.starts_with(['°', 'º', '˚']) || word.to_lowercase().starts_with("deg");
            let remedy = if wanted == Dimension::Temperature && degrees {
                say![format!("Say which degrees: `{number} °C` or `{number} °F`.")]
            } else if let Some(pieces) = self.times(figure, number, word) {
                say![format!("Write `{pieces}`.")]
            } else if let Some(near) = nearest_unit(word, wanted) {
                say![format!("Did you mean `{number} {near}`?")]
            } else {
                say![format!("This needs {}, like `{}`.", wanted.in_words(), with_number(number, wanted))]
            };
            self.report(Code::UnitUnknown, figure.span, say![format!("`{word}` is not a unit.")], remedy);
            return None;
        };
        if unit.dimension != wanted {
            let remedy = if wanted == Dimension::Duration && unit.name == "m" {
                say![format!("For minutes write `{number} min`.")]
            } else {
                say![format!("Write {}, like `{}`.", wanted.in_words(), with_number(number, wanted))]
            };
            self.report(
                Code::UnitMismatch,
                figure.span,
                say![format!(
                    "`{}` is {}, and this needs {}.",
                    self.slice(figure.span),
                    unit.dimension.in_words(),
                    wanted.in_words()
                )],
                remedy,
            );
            return None;
        }
        Some((unit, word))
    }

    fn no_range(&mut self, measure: &Measure) -> Option<()> {
        if measure.high().is_empty() {
            return Some(());
        }
        self.report(
            Code::RangeMisplaced,
            measure.span,
            say!["This needs one figure, not a range."],
            say!["Write the figure you will work to."],
        );
        None
    }

    fn backwards(&mut self, measure: &Measure) {
        let ends = |figures: &[Figure]| {
            let (first, last) = (figures.first()?, figures.last()?);
            Some(self.slice(first.span.to(last.span)).to_string())
        };
        let typed = self.slice(measure.span).to_string();
        let turned = ends(measure.high()).zip(ends(measure.low()));
        let remedy = match (turned, unit_after(measure)) {
            (Some((high, low)), Some(unit)) if low.ends_with(|c: char| c.is_ascii_digit()) => {
                say![format!("Write the smaller figure first: `{high} to {low} {}`.", self.slice(unit))]
            }
            (Some((high, low)), _) => say![format!("Write the smaller figure first: `{high} to {low}`.")],
            (None, _) => say!["Write the smaller figure first."],
        };
        self.report(Code::RangeBackwards, measure.span, say![format!("`{typed}` runs backwards.")], remedy);
    }

    pub fn impossible(&mut self, span: Span, why: &str) {
        let typed: String = self.slice(span).chars().take(30).collect();
        self.report(
            Code::FigureImpossible,
            span,
            say![format!("`{typed}` cannot be right: {why}.")],
            say!["Check the figure and its unit."],
        );
    }
}

/// The unit that the high end of a range lends to its low end (`8–14 h`).
fn unit_after(measure: &Measure) -> Option<Span> {
    measure.high().last().and_then(|figure| figure.unit)
}

/// The spelling of a unit of this kind that `word` is most like.
fn nearest_unit(word: &str, wanted: Dimension) -> Option<&'static str> {
    let word = word.to_lowercase();
    let allowed = if word.chars().count() < 5 { 1 } else { 2 };
    UNITS
        .iter()
        .filter(|unit| unit.dimension == wanted)
        .flat_map(|unit| unit.spellings)
        .map(|spelling| (strsim::osa_distance(spelling, &word), *spelling))
        .filter(|(distance, spelling)| *distance <= allowed && spelling.len() > 2)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, spelling)| spelling)
}

fn with_number(number: &str, wanted: Dimension) -> String {
    let unit = match wanted {
        Dimension::Temperature => "°C",
        Dimension::Duration => "min",
        Dimension::Mass => "g",
        Dimension::Volume => "ml",
        Dimension::Length => "cm",
        Dimension::Share => "%",
    };
    format!("{number} {unit}")
}

fn rounded(value: f64, unit: &str) -> String {
    format!("{} {unit}", plain_number(value, 0))
}
