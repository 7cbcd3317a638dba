//! Amounts and the clauses of shape.

use schemars::JsonSchema;
use serde::Serialize;

use super::Place;
use crate::cook;
use crate::text::Sources;

/// How much; the key says in which unit.
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
pub(super) enum Amount {
    Mass {
        mass_kg: f64,
    },
    Volume {
        volume_m3: f64,
    },
    Length {
        length_m: f64,
    },
    Count {
        count: f64,
        /// What is counted, as typed: "buns", "vacuum bags".
        word: String,
    },
}

impl From<&cook::Amount> for Amount {
    fn from(amount: &cook::Amount) -> Self {
        match amount {
            cook::Amount::Mass(mass) => Self::Mass { mass_kg: mass.kg() },
            cook::Amount::Volume(volume) => Self::Volume { volume_m3: volume.cubic_metres() },
            cook::Amount::Length(length) => Self::Length { length_m: length.metres() },
            cook::Amount::Count { number, word } => Self::Count { count: *number, word: word.clone() },
        }
    }
}

/// How much of something that is there.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum Part {
    Whole,
    Rest,
    Fraction(f64),
    Amount(Amount),
}

impl From<&cook::Part> for Part {
    fn from(part: &cook::Part) -> Self {
        match part {
            cook::Part::Whole => Self::Whole,
            cook::Part::Rest => Self::Rest,
            cook::Part::Fraction(fraction) => Self::Fraction(*fraction),
            cook::Part::Amount(amount) => Self::Amount(amount.into()),
        }
    }
}

/// Shape and state, as far as they are written.
#[derive(Serialize, JsonSchema)]
pub(super) struct Shape {
    pieces: Option<Pieces>,
    amount: Option<Amount>,
    thickness_m: Option<f64>,
    /// Thicker or thinner by this much.
    thickness_tolerance_m: Option<f64>,
    depth_m: Option<f64>,
    form: Option<Form>,
    structure: Option<Structure>,
    salt_fraction: Option<f64>,
    acidity_ph: Option<f64>,
    covers: Vec<Cover>,
}

#[derive(Serialize, JsonSchema)]
struct Pieces {
    count: f64,
    word: String,
    each: Amount,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum Form {
    Slab,
    Cylinder,
    Ball,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum Structure {
    Intact,
    Ground,
    Tenderised,
    Injected,
}

#[derive(Serialize, JsonSchema)]
struct Cover {
    kind: CoverKind,
    /// What it is made of, as typed.
    stuff: Option<String>,
    place: Place,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum CoverKind {
    Uncovered,
    Covered,
    Wrapped,
    Sealed,
    Bagged,
    VacuumBagged,
}

impl Shape {
    pub(super) fn new(sources: &Sources, shape: &cook::ShapeClauses) -> Self {
        Self {
            pieces: shape.pieces.as_ref().map(|pieces| Pieces {
                count: pieces.count,
                word: pieces.word.clone(),
                each: (&pieces.each).into(),
            }),
            amount: shape.amount.as_ref().map(|amount| (&amount.value).into()),
            thickness_m: shape.thickness.map(|length| length.value.metres()),
            thickness_tolerance_m: shape.thickness_tolerance.map(|length| length.metres()),
            depth_m: shape.depth.map(|length| length.value.metres()),
            form: shape.form.map(|form| match form.value {
                cook::Form::Slab => Form::Slab,
                cook::Form::Cylinder => Form::Cylinder,
                cook::Form::Ball => Form::Ball,
            }),
            structure: shape.structure.map(|structure| match structure.value {
                cook::Structure::Intact => Structure::Intact,
                cook::Structure::Ground => Structure::Ground,
                cook::Structure::Tenderised => Structure::Tenderised,
                cook::Structure::Injected => Structure::Injected,
            }),
            salt_fraction: shape.salt.map(|share| share.value.fraction()),
            acidity_ph: shape.ph.map(|ph| ph.value),
            covers: shape.covers.iter().map(|cover| Cover::new(sources, cover)).collect(),
        }
    }
}

impl Cover {
    fn new(sources: &Sources, cover: &cook::Cover) -> Self {
        Self {
            kind: match cover.kind {
                cook::CoverKind::Uncovered => CoverKind::Uncovered,
                cook::CoverKind::Covered => CoverKind::Covered,
                cook::CoverKind::Wrapped => CoverKind::Wrapped,
                cook::CoverKind::Sealed => CoverKind::Sealed,
                cook::CoverKind::Bagged => CoverKind::Bagged,
                cook::CoverKind::VacuumBagged => CoverKind::VacuumBagged,
            },
            stuff: cover.stuff.as_ref().map(|stuff| stuff.value.clone()),
            place: Place::new(sources, cover.span),
        }
    }
}
