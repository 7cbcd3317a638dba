//! Sentences made of words and typed figures, rendered late.

use std::borrow::Cow;

use crate::quantity::{Duration, Length, Mass, Scale, Share, Temperature, TemperatureDifference, Volume};

/// A part of a sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    Words(Cow<'static, str>),
    Temperature(Temperature),
    Difference(TemperatureDifference),
    Duration(Duration),
    Mass(Mass),
    Volume(Volume),
    Length(Length),
    Share(Share),
}

/// A sentence. Build one with [`say!`](crate::say); what a cook types stands in backticks.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Text(Vec<Piece>);

impl Text {
    pub fn new(pieces: Vec<Piece>) -> Self {
        Self(pieces)
    }

    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub fn push(&mut self, piece: impl Into<Piece>) {
        self.0.push(piece.into());
    }

    /// This sentence, and then another.
    pub fn followed_by(mut self, other: Text) -> Self {
        self.0.extend(other.0);
        self
    }

    /// The sentence, with temperatures in the reader's scale.
    pub fn render(&self, scale: Scale) -> String {
        self.0
            .iter()
            .map(|piece| match piece {
                Piece::Words(words) => words.to_string(),
                Piece::Temperature(t) => t.show(scale),
                Piece::Difference(d) => d.show(scale),
                Piece::Duration(d) => d.show(),
                Piece::Mass(m) => m.show(),
                Piece::Volume(v) => v.show(),
                Piece::Length(l) => l.show(),
                Piece::Share(s) => s.show(),
            })
            .collect()
    }
}

macro_rules! piece_from {
    ($($type:ty => $variant:ident),* $(,)?) => {
        $(impl From<$type> for Piece {
            fn from(value: $type) -> Self {
                Self::$variant(value.into())
            }
        })*
    };
}

piece_from! {
    &'static str => Words,
    String => Words,
    Temperature => Temperature,
    TemperatureDifference => Difference,
    Duration => Duration,
    Mass => Mass,
    Volume => Volume,
    Length => Length,
    Share => Share,
}

/// A [`Text`] from words and figures: `say!["The hold is at ", temperature, "."]`.
#[macro_export]
macro_rules! say {
    ($($piece:expr),* $(,)?) => {
        $crate::findings::Text::new(vec![$($crate::findings::Piece::from($piece)),*])
    };
}
