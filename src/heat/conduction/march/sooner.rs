//! What is in a food where a phase of known length is over sooner.
//!
//! A run that ends sooner takes the same steps as a longer one until its own end comes into sight. There it parts from the
//! longer run, and only its last steps are its own: it gives to the last bit what it would by itself.

use super::March;
use crate::heat::conduction::error::HeatError;
use crate::heat::conduction::field::Field;
use crate::heat::conduction::history::History;
use crate::heat::conduction::phase::End;
use crate::heat::conduction::step::Stepper;

/// Earlier ends, and the heat in the food at each that was come to.
#[derive(Debug, Default)]
pub struct Sooner {
    /// Seconds from the start of the phase; the next one last.
    ends_s: Vec<f64>,
    pub fields: Vec<Field>,
}

impl Sooner {
    /// `ends_s` in rising order, all above zero and before the end of the phase.
    pub fn at(ends_s: &[f64]) -> Self {
        Self { ends_s: ends_s.iter().rev().copied().collect(), fields: Vec::with_capacity(ends_s.len()) }
    }

    /// Runs those to their ends that would step otherwise from here on than the `march` does.
    pub(super) fn part(
        &mut self,
        march: &March<'_>,
        stepper: &Stepper,
        corner: Option<(f64, bool)>,
    ) -> Result<(), HeatError> {
        while let Some(&end_s) = self.ends_s.last() {
            let corner_first = corner.is_some_and(|(at_s, _)| at_s < end_s);
            if corner_first || march.fit(march.wanted_s, end_s) == march.fit(march.wanted_s, f64::INFINITY) {
                break;
            }
            self.ends_s.pop();
            self.fields.push(march.ended_at(stepper, end_s)?);
        }
        Ok(())
    }
}

impl March<'_> {
    /// The heat in the food as a phase ends that lasts `end_s`, by the steps from here to there.
    fn ended_at(&self, stepper: &Stepper, end_s: f64) -> Result<Field, HeatError> {
        let mut stepper = stepper.clone();
        let mut history = History::new(self.history.field.clone());
        history.samples.extend(self.history.samples.last());
        let mut march = March { history: &mut history, ..*self };
        march.go_on(&mut stepper, End { duration_s: Some(end_s), until: None }, &mut Sooner::default())?;
        Ok(stepper.field())
    }
}
