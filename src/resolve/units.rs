//! Figures become quantities: every clause has a type, and a figure that does not fit is reported
//! with what to write instead.

use crate::cook::Amount;
use crate::findings::{Code, Finding, Text};
use crate::quantity::{
    Dimension, Duration, Factor, KitchenMeasures, Length, Mass, Scale, Share, Temperature,
    TemperatureDifference, UNITS, Unit, Volume, Written, find_unit, plain_number,
};
use crate::say;
use crate::syntax::{Figure, Measure};
use crate::text::Span;

/// Coldest and warmest temperature that a figure in a kitchen can mean.
const COLDEST_C: f64 = -90.0;
const WARMEST_C: f64 = 500.0;

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

    // ------------------------------------------------------------------------------ temperatures

    /// Does `measure` have a unit of this kind?
    pub fn is(&self, measure: &Measure, dimension: Dimension) -> bool {
        let figures = measure.low().iter().chain(measure.high());
        figures
            .filter_map(|figure| find_unit(self.slice(figure.unit?)))
            .any(|unit| unit.dimension == dimension)
    }

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

    // ---------------------------------------------------------------------------- linear figures

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
    fn linear(
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

    // --------------------------------------------------------------------------------- shared bits

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
