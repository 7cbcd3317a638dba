//! Limits, points of a chart, and how far a figure can be trusted.

use serde::Deserialize;

use crate::quantity::{Duration, Temperature, plain_number};

/// A limit as it is published, in each scale its publisher prints.
///
/// Publishers round: the Food Code's 135 °F is 57.2 °C, printed as 57 °C. Both figures are theirs, so
/// one that satisfies either satisfies the limit, and nobody is refused for using the scale they own.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    pub c: Option<f64>,
    pub f: Option<f64>,
}

/// What conversion between scales may cost in the last digits.
const ROUNDING_K: f64 = 1e-6;

impl Limit {
    fn figures(self) -> impl Iterator<Item = Temperature> {
        self.c.map(Temperature::from_celsius).into_iter().chain(self.f.map(Temperature::from_fahrenheit))
    }

    /// The lowest temperature that counts as this much.
    pub fn lowest(self) -> Temperature {
        self.figures().fold(Temperature::from_kelvin(f64::INFINITY), Temperature::min)
    }

    /// The highest temperature that counts as no more than this.
    pub fn highest(self) -> Temperature {
        self.figures().fold(Temperature::from_kelvin(f64::NEG_INFINITY), Temperature::max)
    }

    /// `strict`: the figure itself is not enough.
    pub fn at_least(self, temperature: Temperature, strict: bool) -> bool {
        let beyond = temperature.kelvin() - self.lowest().kelvin();
        if strict { beyond > ROUNDING_K } else { beyond >= -ROUNDING_K }
    }

    pub fn at_most(self, temperature: Temperature, strict: bool) -> bool {
        let beyond = self.highest().kelvin() - temperature.kelvin();
        if strict { beyond > ROUNDING_K } else { beyond >= -ROUNDING_K }
    }
}

/// As published: `57 °C (135 °F)`.
impl std::fmt::Display for Limit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match (self.c, self.f) {
            (Some(c), Some(fahrenheit)) => write!(f, "{c} °C ({fahrenheit} °F)"),
            (Some(c), None) => write!(f, "{c} °C"),
            (None, Some(fahrenheit)) => write!(f, "{fahrenheit} °F"),
            (None, None) => Ok(()),
        }
    }
}

/// A temperature, and how long the coldest part has to stay there. No time means that reaching it is enough.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Point {
    /// The row's own id, where a rule is a chart.
    pub id: Option<String>,
    pub c: Option<f64>,
    pub f: Option<f64>,
    pub hold_s: f64,
    /// The time for 1 % fat, for 2 %, and so on, where it hangs on that; `hold_s` is the longest of them.
    #[serde(default)]
    pub by_fat_s: Vec<f64>,
    /// The food has to rest for this long afterwards.
    #[serde(default)]
    pub rest_s: f64,
    /// Where it differs from the rule's.
    pub status: Option<Status>,
}

impl Point {
    pub fn limit(&self) -> Limit {
        Limit { c: self.c, f: self.f }
    }

    /// Whatever the fat.
    pub fn hold(&self) -> Duration {
        Duration::from_seconds(self.hold_s)
    }

    /// For food with this much fat. Between two columns the next fatter one counts; above the last, and where the
    /// fat is not known, the longest.
    pub fn hold_for(&self, fat_percent: Option<f64>) -> Duration {
        let column = fat_percent.map(|fat| (fat.ceil() - 1.0).max(0.0) as usize);
        let printed = column.and_then(|column| self.by_fat_s.get(column));
        printed.map_or(self.hold(), |s| Duration::from_seconds(*s))
    }

    /// The moment it is reached is enough.
    pub fn at_once(&self) -> bool {
        self.hold_s == 0.0 && self.rest_s == 0.0
    }
}

/// As published: `63 °C (145 °F) for 15 s`.
impl std::fmt::Display for Point {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.limit())?;
        match self.by_fat_s.first() {
            Some(leanest) if self.hold_s > 0.0 => {
                write!(f, " for {} to {}, by fat", printed(*leanest), printed(self.hold_s))?;
            }
            None if self.hold_s > 0.0 => write!(f, " for {}", self.hold().show())?,
            _ => {}
        }
        if self.rest_s > 0.0 {
            write!(f, ", then {} of rest", Duration::from_seconds(self.rest_s).show())?;
        }
        Ok(())
    }
}

/// In minutes and tenths, as the charts by fat print it: nothing is rounded down.
fn printed(seconds: f64) -> String {
    if seconds < 60.0 {
        format!("{} s", plain_number(seconds, 1))
    } else {
        format!("{} min", plain_number(seconds / 60.0, 1))
    }
}

/// How far a figure can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Status {
    /// Read on the legal or agency text, or on one that adopts it.
    Verified,
    /// Read on a page that quotes it.
    Secondary,
    /// Arithmetic on a verified figure.
    Computed,
    Memory,
}

impl Status {
    pub fn word(self) -> &'static str {
        match self {
            Self::Verified => "verified",
            Self::Secondary => "secondary",
            Self::Computed => "computed",
            Self::Memory => "memory",
        }
    }
}
