//! What is shown of one cook, and how it is introduced.

use super::Start;
use crate::heat::{Curves, FoodCurve};
use crate::safety::{FoodMicrobes, Microbe};

/// The curves of a cook with all that is shown beside them.
#[derive(Debug, Clone, Copy)]
pub struct Shown<'c> {
    pub title: &'c str,
    pub curves: &'c Curves,
    /// Of all foods of the cook, or none.
    pub microbes: &'c [FoodMicrobes],
    /// Names and °C.
    pub limits: &'c [(String, f64)],
    /// Gives clock times.
    pub start: Option<Start>,
}

impl<'c> Shown<'c> {
    /// Those of each food, in the order of the curves.
    pub fn microbes_by_food(&self) -> impl Iterator<Item = &'c [Microbe]> {
        let Shown { curves, microbes, .. } = *self;
        curves.foods.iter().map(move |food| super::microbes_of(food, microbes))
    }

    pub(super) fn heading(&self) -> String {
        format!("{}: predicted temperatures", self.title)
    }

    /// What stands before the first curve.
    pub(super) fn introduction(&self) -> Vec<String> {
        let none = self.curves.foods.is_empty();
        let none = none.then(|| "No food of this cook has a predicted temperature.".to_owned());
        self.start.map(Start::said).into_iter().chain(none).collect()
    }
}

/// In place of a curve that cannot be drawn.
pub(super) fn nothing(food: &FoodCurve) -> String {
    format!("{}: nothing was predicted.", food.name)
}
