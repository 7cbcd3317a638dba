//! Weights and lengths, which remember the units they were written in.
//!
//! A cook who writes pounds reads pounds on every list. The value is SI all the same, and two
//! quantities are compared by it alone; the units matter for show and nothing else.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// The units that a weight or a length was written in, and is shown in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Written {
    #[default]
    Metric,
    /// Ounces and pounds, inches and feet.
    Customary,
}

macro_rules! written_quantity {
    ($(#[$doc:meta])* $name:ident, $make:ident, $read:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, Default)]
        pub struct $name {
            si: f64,
            written: Written,
        }

        impl $name {
            pub const ZERO: Self = Self { si: 0.0, written: Written::Metric };

            pub const fn $make(value: f64) -> Self {
                Self { si: value, written: Written::Metric }
            }

            pub const fn $read(self) -> f64 {
                self.si
            }

            pub const fn written(self) -> Written {
                self.written
            }

            /// The same, shown in these units.
            pub const fn written_in(self, written: Written) -> Self {
                Self { written, ..self }
            }

            pub fn min(self, other: Self) -> Self {
                if other.si < self.si { other } else { self }
            }

            pub fn max(self, other: Self) -> Self {
                if other.si > self.si { other } else { self }
            }
        }

        impl PartialEq for $name {
            fn eq(&self, other: &Self) -> bool {
                self.si == other.si
            }
        }

        impl PartialOrd for $name {
            fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
                self.si.partial_cmp(&other.si)
            }
        }

        /// A sum is shown as its first part is; nothing, added to, as what is added.
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                let written = if self.si == 0.0 { other.written } else { self.written };
                Self { si: self.si + other.si, written }
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                self + -other
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self { si: -self.si, ..self }
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self { si: self.si * factor, ..self }
            }
        }

        /// How many times one goes into the other.
        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.si / other.si
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
                all.fold(Self::ZERO, Add::add)
            }
        }
    };
}

written_quantity!(
    /// Mass, in kilograms.
    Mass, from_kg, kg
);
written_quantity!(
    /// Length, in metres.
    Length, from_metres, metres
);
