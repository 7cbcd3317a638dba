//! Quantities as people read them. Rounding happens here and nowhere else.

use super::{Duration, Length, Mass, Share, Temperature, TemperatureDifference, Volume};

/// The temperature scale that people see.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Scale {
    #[default]
    Celsius,
    Fahrenheit,
}

/// A number with up to `places` decimals and no trailing zeros.
pub fn plain_number(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let text =
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { text.as_str() };
    if text == "-0" { "0".into() } else { text.into() }
}

impl Temperature {
    /// `110 °C` or `230 °F`, to a tenth.
    pub fn show(self, scale: Scale) -> String {
        match scale {
            Scale::Celsius => format!("{} °C", plain_number(self.celsius(), 1)),
            Scale::Fahrenheit => format!("{} °F", plain_number(self.fahrenheit(), 1)),
        }
    }
}

impl TemperatureDifference {
    /// `3 °C` or `5.4 °F` of difference, to a tenth.
    pub fn show(self, scale: Scale) -> String {
        match scale {
            Scale::Celsius => format!("{} °C", plain_number(self.kelvin(), 1)),
            Scale::Fahrenheit => format!("{} °F", plain_number(self.fahrenheit_degrees(), 1)),
        }
    }
}

impl Duration {
    /// `45 s`, `25 min`, `8 h 30 min`, `2 days 3 h`: whole minutes from ten minutes up.
    pub fn show(self) -> String {
        let seconds = self.seconds();
        if seconds < 0.0 {
            return format!("-{}", (-self).show());
        }
        if !seconds.is_finite() || seconds > 1e12 {
            return "for ever".into();
        }
        let whole = if seconds < 600.0 { seconds.round() } else { (seconds / 60.0).round() * 60.0 } as u64;
        let parts = [
            (whole / 86_400, if whole / 86_400 == 1 { "day" } else { "days" }),
            (whole % 86_400 / 3600, "h"),
            (whole % 3600 / 60, "min"),
            (whole % 60, "s"),
        ];
        // Up to two days cooks count in hours.
        let parts =
            if whole < 2 * 86_400 { [(0, "days"), (whole / 3600, "h"), parts[2], parts[3]] } else { parts };
        let said: Vec<String> =
            parts.iter().filter(|(n, _)| *n > 0).map(|(n, unit)| format!("{n} {unit}")).collect();
        if said.is_empty() { "0 min".into() } else { said.join(" ") }
    }
}

impl Mass {
    /// `850 g`, `3.2 kg`: grams below a kilogram.
    pub fn show(self) -> String {
        let kg = self.kg();
        if kg.abs() < 0.01 {
            format!("{} g", plain_number(kg * 1000.0, 1))
        } else if kg.abs() < 0.9995 {
            format!("{} g", plain_number(kg * 1000.0, 0))
        } else {
            format!("{} kg", plain_number(kg, 2))
        }
    }
}

impl Volume {
    /// `120 ml`, `1.5 l`: millilitres below a litre.
    pub fn show(self) -> String {
        let litres = self.cubic_metres() * 1000.0;
        if litres.abs() < 0.9995 {
            format!("{} ml", plain_number(litres * 1000.0, if litres < 0.01 { 1 } else { 0 }))
        } else {
            format!("{} l", plain_number(litres, 2))
        }
    }
}

impl Length {
    /// `6 mm`, `4.5 cm`, `1.6 m`.
    pub fn show(self) -> String {
        let metres = self.metres();
        if metres.abs() < 0.01 {
            format!("{} mm", plain_number(metres * 1000.0, 1))
        } else if metres.abs() < 1.0 {
            format!("{} cm", plain_number(metres * 100.0, 1))
        } else {
            format!("{} m", plain_number(metres, 2))
        }
    }
}

impl Share {
    /// `8 %`.
    pub fn show(self) -> String {
        format!("{} %", plain_number(self.fraction() * 100.0, 2))
    }
}
