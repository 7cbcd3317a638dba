//! One heap of something, in every measure that is known of it.

use crate::cook::Amount;
use crate::quantity::{Length, Mass, Volume};

/// A mass that is written, or follows from what is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weight {
    pub mass: Mass,
    /// A part of it has no known mass (2 onions) or was measured by volume: say "about".
    pub about: bool,
}

impl Weight {
    pub fn exact(mass: Mass) -> Self {
        Self { mass, about: false }
    }

    pub fn about(mass: Mass) -> Self {
        Self { mass, about: true }
    }

    pub fn times(self, factor: f64) -> Self {
        Self { mass: self.mass * factor, ..self }
    }

    /// `3.5 kg`, `about 3.5 kg`.
    pub fn show(self) -> String {
        if self.about { format!("about {}", self.mass.show()) } else { self.mass.show() }
    }
}

/// The same stuff in every measure that is known of it: `2 pieces of 3.2 kg` is a mass and a count.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stuff {
    pub mass: Option<Weight>,
    pub volume: Option<Volume>,
    pub length: Option<Length>,
    /// How many, and of what, as typed.
    pub count: Option<(f64, String)>,
}

/// A food that pours is reckoned at a kilogram a litre, as water is, and the result is "about".
/// Common practice, no source: stocks, sauces and juices lie within some 5 % of it, oil 8 % below.
const POURED_KG_PER_M3: f64 = 1000.0;

impl Stuff {
    pub fn of(amount: &Amount) -> Self {
        let mut stuff = Self::default();
        match amount {
            Amount::Mass(mass) => stuff.mass = Some(Weight::exact(*mass)),
            Amount::Volume(volume) => stuff.volume = Some(*volume),
            Amount::Length(length) => stuff.length = Some(*length),
            Amount::Count { number, word } => stuff.count = Some((*number, word.clone())),
        }
        stuff
    }

    pub fn times(&self, factor: f64) -> Self {
        Self {
            mass: self.mass.map(|mass| mass.times(factor)),
            volume: self.volume.map(|volume| volume * factor),
            length: self.length.map(|length| length * factor),
            count: self.count.clone().map(|(number, word)| (number * factor, word)),
        }
    }

    /// Its mass, or that of its volume if it pours.
    pub fn weight(&self, pours: bool) -> Option<Weight> {
        self.mass.or_else(|| self.volume.filter(|_| pours).map(poured))
    }

    /// Which share of this heap `amount` is; `None` where nothing relates the two.
    pub fn share(&self, amount: &Amount, pours: bool) -> Option<f64> {
        let share = match amount {
            Amount::Mass(mass) => *mass / self.weight(pours)?.mass,
            Amount::Volume(volume) => match self.volume {
                Some(whole) => *volume / whole,
                None => poured(*volume).mass / self.mass.filter(|_| pours)?.mass,
            },
            Amount::Length(length) => *length / self.length?,
            Amount::Count { number, word } => {
                let (whole, of) = self.count.as_ref()?;
                if !same_word(word, of) {
                    return None;
                }
                number / whole
            }
        };
        (!share.is_nan()).then_some(share)
    }

    /// The measure that says most: mass, then volume, length and count.
    pub fn amount(&self) -> Option<Amount> {
        (self.mass.map(|weight| Amount::Mass(weight.mass)))
            .or(self.volume.map(Amount::Volume))
            .or(self.length.map(Amount::Length))
            .or(self.count.clone().map(|(number, word)| Amount::Count { number, word }))
    }
}

pub(super) fn poured(volume: Volume) -> Weight {
    Weight::about(Mass::from_kg(volume.cubic_metres() * POURED_KG_PER_M3))
}

/// Whether two words count the same: letter case and a final `s` aside; no word fits any.
pub(super) fn same_word(a: &str, b: &str) -> bool {
    let stem = |word: &str| {
        let word = word.to_lowercase();
        word.strip_suffix('s').map_or(word.clone(), str::to_owned)
    };
    a.is_empty() || b.is_empty() || stem(a) == stem(b)
}

/// The sum of weights, of which some may be unknown: what is known, said as "about" if anything is
/// missing; `None` if nothing is known.
pub(super) fn sum(weights: impl Iterator<Item = Option<Weight>>) -> Option<Weight> {
    let mut known = None;
    let mut missing = false;
    for weight in weights {
        match weight {
            Some(weight) => {
                let so_far = known.unwrap_or(Weight::exact(Mass::ZERO));
                known = Some(Weight { mass: so_far.mass + weight.mass, about: so_far.about || weight.about });
            }
            None => missing = true,
        }
    }
    known.map(|sum| Weight { about: sum.about || missing, ..sum })
}
