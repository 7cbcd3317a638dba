//! One food in the surroundings of one phase, run along each of its lines.

use std::cell::RefCell;

use super::Walker;
use crate::cook::Medium;
use crate::heat::conduction::field::Field;
use crate::heat::conduction::phase::{End, PhaseHeat};
use crate::heat::conduction::shape::Form;
use crate::heat::conduction::solve::Accuracy;
use crate::heat::food::Food;
use crate::heat::lines::{LINES, LineRun, Side, accuracy, phase_heat};
use crate::heat::surroundings::Surroundings;

pub(super) struct Visit<'v> {
    walker: &'v Walker<'v>,
    pub food: &'v Food,
    pub around: &'v Surroundings,
    /// Where nothing is uncertain several lines are one, and one run does for them.
    made: RefCell<Vec<(Asked, LineRun)>>,
}

/// All that decides how a food goes on.
#[derive(PartialEq)]
struct Asked {
    form: Form,
    accuracy: Accuracy,
    phase: PhaseHeat,
    sooner_s: Vec<f64>,
    field: Field,
}

impl<'v> Visit<'v> {
    pub fn new(walker: &'v Walker<'_>, food: &'v Food, around: &'v Surroundings) -> Self {
        Self { walker, food, around, made: RefCell::default() }
    }

    /// The form that the food has along each line that is walked.
    pub fn forms(&self) -> Result<Vec<Form>, String> {
        // A pot of anything that lies in hot liquid is stirred or moves by itself.
        let stirred = self.around.medium == Medium::Liquid && self.food.piece.is_depth;
        let name = &self.walker.cook.item(self.food.item).name;
        let mut forms = self.food.forms(name, stirred, self.walker.trial)?;
        forms.truncate(self.walker.lines.len());
        Ok(forms)
    }

    /// One line, starting from `field`.
    pub fn run(&self, nth: usize, form: Form, field: &Field, end: End) -> Result<LineRun, String> {
        self.run_with_sooner(nth, form, field, end, &[])
    }

    /// One line, starting from `field`, with what would be in the food at earlier ends: see [`LineRun::new`].
    pub fn run_with_sooner(
        &self,
        nth: usize,
        form: Form,
        field: &Field,
        end: End,
        sooner_s: &[f64],
    ) -> Result<LineRun, String> {
        let (Walker { pressure_pa, detail, .. }, Food { dried_s, material, .. }) = (self.walker, self.food);
        let side = LINES[nth].side;
        let phase =
            phase_heat(side, self.around, *dried_s, *pressure_pa, end).map_err(|error| error.to_string())?;
        let (accuracy, sooner_s, field) = (accuracy(side, *detail), sooner_s.to_vec(), field.clone());
        let asked = Asked { form, accuracy, phase, sooner_s, field };
        let mut made = self.made.borrow_mut();
        if let Some((_, run)) = made.iter().find(|(known, _)| *known == asked) {
            return Ok(run.clone());
        }
        let run = LineRun::new(form, material, &asked.field, &asked.phase, accuracy, &asked.sooner_s)
            .map_err(|error| error.to_string())?;
        made.push((asked, run.clone()));
        Ok(run)
    }
}

/// Layer by layer the heat that counts on one side.
pub(super) fn worse(side: Side, one: &Field, other: &Field) -> Field {
    match side {
        Side::Usual => one.clone(),
        Side::Cold => one.least(other),
        Side::Warm => one.most(other),
    }
}
