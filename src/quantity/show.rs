//! Quantities as people read them. Rounding happens here and nowhere else.

use super::units::{INCH, POUND};
use super::{Duration, Length, Mass, Share, Temperature, TemperatureDifference, Volume, Written};

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

/// Degrees to a tenth. What is just beside a whole degree is not shown as that degree: it may be on
/// the wrong side of a limit.
fn degrees(value: f64) -> String {
    let beside = (value - value.round()).abs();
    plain_number(value, if (0.005..0.05).contains(&beside) { 2 } else { 1 })
}

impl Temperature {
    /// `110 °C` or `230 °F`, to a tenth.
    pub fn show(self, scale: Scale) -> String {
        match scale {
            Scale::Celsius => format!("{} °C", degrees(self.celsius())),
            Scale::Fahrenheit => format!("{} °F", degrees(self.fahrenheit())),
        }
    }
}

impl TemperatureDifference {
    /// `3 °C` or `5.4 °F` of difference, to a tenth; a difference is never shown as none.
    pub fn show(self, scale: Scale) -> String {
        let (value, unit) = match scale {
            Scale::Celsius => (self.kelvin(), "°C"),
            Scale::Fahrenheit => (self.fahrenheit_degrees(), "°F"),
        };
        match value.abs() {
            none if none < 1e-9 => format!("0 {unit}"),
            little if little < 0.005 => format!("less than 0.01 {unit}"),
            _ => format!("{} {unit}", degrees(value)),
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

/// A figure in the unit that people read it in, with the decimals worth showing.
struct Figure {
    value: f64,
    places: usize,
    unit: &'static str,
}

impl Figure {
    fn new(value: f64, places: usize, unit: &'static str) -> Self {
        Self { value, places, unit }
    }

    fn show(&self) -> String {
        format!("{} {}", plain_number(self.value, self.places), self.unit)
    }

    /// Never less than it is: whoever buys what is shown has enough.
    fn show_enough(&self) -> String {
        let step = 10f64.powi(self.places as i32);
        // The dust of binary fractions is no reason to buy more.
        let up = (self.value * step - self.value.abs().max(1.0) * step * 1e-9).ceil() / step;
        format!("{} {}", plain_number(up, self.places), self.unit)
    }

    /// Never more than it is: whoever takes what is shown finds it there.
    fn show_at_most(&self) -> String {
        let step = 10f64.powi(self.places as i32);
        let down = (self.value * step + self.value.abs().max(1.0) * step * 1e-9).floor() / step;
        format!("{} {}", plain_number(down, self.places), self.unit)
    }

    /// To two figures: what is predicted is not known any closer.
    fn show_roughly(&self) -> String {
        let step = 10f64.powf(self.value.abs().max(1e-6).log10().floor() - 1.0);
        format!("{} {}", plain_number((self.value / step).round() * step, self.places), self.unit)
    }
}

impl Mass {
    /// `20 mg`, `2.5 g`, `850 g`, `3.2 kg`: grams below a kilogram, milligrams below a tenth of a gram.
    /// `10 oz`, `7 lb` where it was written so; what is too little for a kitchen's ounces is in grams.
    pub fn show(self) -> String {
        self.figure().show()
    }

    /// As [`show`](Self::show), rounded up.
    pub fn show_enough(self) -> String {
        self.figure().show_enough()
    }

    /// As [`show`](Self::show), rounded down.
    pub fn show_at_most(self) -> String {
        self.figure().show_at_most()
    }

    /// As [`show`](Self::show), to two figures.
    pub fn show_roughly(self) -> String {
        self.figure().show_roughly()
    }

    fn figure(self) -> Figure {
        let kg = self.kg();
        let pounds = kg / POUND;
        match (self.written(), kg.abs()) {
            (Written::Customary, m) if m >= POUND * 0.999_5 => Figure::new(pounds, 2, "lb"),
            (Written::Customary, m) if m == 0.0 || m >= POUND / 160.0 => {
                Figure::new(pounds * 16.0, if m < POUND * 0.625 { 2 } else { 1 }, "oz")
            }
            (_, m) if m > 0.0 && m < 0.000_1 => Figure::new(kg * 1e6, 1, "mg"),
            (_, m) if m < 0.01 => Figure::new(kg * 1000.0, 1, "g"),
            (_, m) if m < 0.9995 => Figure::new(kg * 1000.0, 0, "g"),
            _ => Figure::new(kg, 2, "kg"),
        }
    }
}

impl Volume {
    /// `2.5 ml`, `120 ml`, `1.5 l`: millilitres below a litre.
    pub fn show(self) -> String {
        self.figure().show()
    }

    /// As [`show`](Self::show), rounded up.
    pub fn show_enough(self) -> String {
        self.figure().show_enough()
    }

    fn figure(self) -> Figure {
        let litres = self.cubic_metres() * 1000.0;
        match litres.abs() {
            v if v < 0.01 => Figure::new(litres * 1000.0, 1, "ml"),
            v if v < 0.9995 => Figure::new(litres * 1000.0, 0, "ml"),
            _ => Figure::new(litres, 2, "l"),
        }
    }
}

impl Length {
    /// `6 mm`, `4.5 cm`, `1.6 m`. `2.5 in`, `12 ft` where it was written so.
    pub fn show(self) -> String {
        self.figure().show()
    }

    /// As [`show`](Self::show), rounded up.
    pub fn show_enough(self) -> String {
        self.figure().show_enough()
    }

    fn figure(self) -> Figure {
        let metres = self.metres();
        let inches = metres / INCH;
        match (self.written(), metres.abs()) {
            (Written::Customary, l) if l < 35.999 * INCH => Figure::new(inches, 2, "in"),
            (Written::Customary, _) => Figure::new(inches / 12.0, 2, "ft"),
            (_, l) if l < 0.009_95 => Figure::new(metres * 1000.0, 1, "mm"),
            (_, l) if l < 0.999_5 => Figure::new(metres * 100.0, 1, "cm"),
            _ => Figure::new(metres, 2, "m"),
        }
    }
}

impl Share {
    /// `8 %`.
    pub fn show(self) -> String {
        format!("{} %", plain_number(self.fraction() * 100.0, 2))
    }
}
