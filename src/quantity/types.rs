//! One newtype per kind of quantity.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// What a figure measures. A clause accepts exactly one of these.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dimension {
    Temperature,
    Duration,
    Mass,
    Volume,
    Length,
    Share,
}

impl Dimension {
    /// As a cook would say it: "a temperature", "a length of time".
    pub fn in_words(self) -> &'static str {
        match self {
            Self::Temperature => "a temperature",
            Self::Duration => "a length of time",
            Self::Mass => "a weight",
            Self::Volume => "a volume",
            Self::Length => "a length",
            Self::Share => "a percentage",
        }
    }

    /// What one might have typed, to show the form.
    pub fn example(self) -> &'static str {
        match self {
            Self::Temperature => "110 °C",
            Self::Duration => "1 h 30 min",
            Self::Mass => "1.5 kg",
            Self::Volume => "250 ml",
            Self::Length => "5 cm",
            Self::Share => "8 %",
        }
    }
}

macro_rules! linear_quantity {
    ($(#[$doc:meta])* $name:ident, $make:ident, $read:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            pub const ZERO: Self = Self(0.0);

            pub const fn $make(value: f64) -> Self {
                Self(value)
            }

            pub const fn $read(self) -> f64 {
                self.0
            }

            pub fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            pub fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        /// How many times one goes into the other.
        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
                all.fold(Self::ZERO, Add::add)
            }
        }
    };
}

linear_quantity!(
    /// Elapsed time, in seconds.
    Duration, from_seconds, seconds
);
linear_quantity!(
    /// Volume, in cubic metres.
    Volume, from_cubic_metres, cubic_metres
);
linear_quantity!(
    /// A share of a whole: 0.08 is 8 %.
    Share, from_fraction, fraction
);
linear_quantity!(
    /// A temperature difference, in kelvin.
    TemperatureDifference, from_kelvin, kelvin
);

impl Duration {
    pub const fn from_minutes(minutes: f64) -> Self {
        Self::from_seconds(minutes * 60.0)
    }

    pub const fn from_hours(hours: f64) -> Self {
        Self::from_seconds(hours * 3600.0)
    }

    pub const fn minutes(self) -> f64 {
        self.seconds() / 60.0
    }
}

impl TemperatureDifference {
    /// A difference of `degrees` on the Fahrenheit scale: 9 °F of difference are 5 K.
    pub const fn from_fahrenheit_degrees(degrees: f64) -> Self {
        Self::from_kelvin(degrees * 5.0 / 9.0)
    }

    pub const fn fahrenheit_degrees(self) -> f64 {
        self.kelvin() * 9.0 / 5.0
    }
}

/// A temperature, held in kelvin. Not a difference: the two do not add to each other by accident.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Temperature(f64);

impl Temperature {
    /// 0 °C in kelvin, exact by definition (BIPM, The International System of Units, 9th ed. 2019).
    const ICE: f64 = 273.15;

    pub const fn from_kelvin(kelvin: f64) -> Self {
        Self(kelvin)
    }

    pub const fn from_celsius(degrees: f64) -> Self {
        Self(degrees + Self::ICE)
    }

    pub const fn from_fahrenheit(degrees: f64) -> Self {
        Self((degrees - 32.0) * 5.0 / 9.0 + Self::ICE)
    }

    pub const fn kelvin(self) -> f64 {
        self.0
    }

    pub const fn celsius(self) -> f64 {
        self.0 - Self::ICE
    }

    pub const fn fahrenheit(self) -> f64 {
        self.celsius() * 9.0 / 5.0 + 32.0
    }

    pub fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    pub fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }
}

impl Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference::from_kelvin(self.0 - other.0)
    }
}

impl Add<TemperatureDifference> for Temperature {
    type Output = Self;
    fn add(self, difference: TemperatureDifference) -> Self {
        Self(self.0 + difference.kelvin())
    }
}

impl Sub<TemperatureDifference> for Temperature {
    type Output = Self;
    fn sub(self, difference: TemperatureDifference) -> Self {
        Self(self.0 - difference.kelvin())
    }
}

/// A time of day, in minutes after midnight: 0 to 1440 (`24:00` ends a day).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ClockTime(u16);

impl ClockTime {
    /// `None` past `24:00`.
    pub fn new(hour: u32, minute: u32) -> Option<Self> {
        let minutes = hour * 60 + minute;
        (minute < 60 && minutes <= 24 * 60).then_some(Self(minutes as u16))
    }

    pub fn minutes(self) -> u32 {
        u32::from(self.0)
    }
}

impl std::fmt::Display for ClockTime {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:02}:{:02}", self.0 / 60, self.0 % 60)
    }
}
