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
    /// `45 s`, `9 min 30 s`, `8 h 30 min`, `2 days 3 h`: whole minutes from ten minutes up. Up to two
    /// days cooks count in hours.
    pub fn show(self) -> String {
        let seconds = self.seconds().abs();
        // Longer than any cook, and past what whole seconds can hold.
        if !seconds.is_finite() || seconds > 1e12 {
            return "for ever".into();
        }
        let whole = if seconds < 600.0 { seconds.round() } else { (seconds / 60.0).round() * 60.0 } as u64;
        let days = if whole < 2 * 86_400 { 0 } else { whole / 86_400 };
        let rest = whole - days * 86_400;
        let parts = [(days, "days"), (rest / 3600, "h"), (rest % 3600 / 60, "min"), (rest % 60, "s")];
        let said: Vec<String> =
            parts.iter().filter(|(n, _)| *n > 0).map(|(n, unit)| format!("{n} {unit}")).collect();
        match (said.is_empty(), self.seconds() < 0.0) {
            (true, _) => "0 min".into(),
            (false, true) => format!("-{}", said.join(" ")),
            (false, false) => said.join(" "),
        }
    }
}

impl Mass {
    /// `20 mg`, `2.5 g`, `850 g`, `3.2 kg`: grams below a kilogram, milligrams below a tenth of a gram.
    pub fn show(self) -> String {
        let kg = self.kg();
        match kg.abs() {
            m if m > 0.0 && m < 0.000_1 => format!("{} mg", plain_number(kg * 1e6, 1)),
            m if m < 0.01 => format!("{} g", plain_number(kg * 1000.0, 1)),
            m if m < 0.9995 => format!("{} g", plain_number(kg * 1000.0, 0)),
            _ => format!("{} kg", plain_number(kg, 2)),
        }
    }
}

impl Volume {
    /// `2.5 ml`, `120 ml`, `1.5 l`: millilitres below a litre.
    pub fn show(self) -> String {
        let litres = self.cubic_metres() * 1000.0;
        match litres.abs() {
            v if v < 0.01 => format!("{} ml", plain_number(litres * 1000.0, 1)),
            v if v < 0.9995 => format!("{} ml", plain_number(litres * 1000.0, 0)),
            _ => format!("{} l", plain_number(litres, 2)),
        }
    }
}

impl Length {
    /// `6 mm`, `4.5 cm`, `1.6 m`.
    pub fn show(self) -> String {
        let metres = self.metres();
        match metres.abs() {
            l if l < 0.009_95 => format!("{} mm", plain_number(metres * 1000.0, 1)),
            l if l < 0.999_5 => format!("{} cm", plain_number(metres * 100.0, 1)),
            _ => format!("{} m", plain_number(metres, 2)),
        }
    }
}

impl Share {
    /// `8 %`.
    pub fn show(self) -> String {
        format!("{} %", plain_number(self.fraction() * 100.0, 2))
    }
}
