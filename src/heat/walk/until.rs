//! One food in a phase that ends when it is there.

use super::alone::Alone;
use super::visit::{Visit, worse};
use super::{Length, Reach};
use crate::cook::Purpose;
use crate::heat::band::Band;
use crate::heat::conduction::field::Field;
use crate::heat::conduction::history::Ending;
use crate::heat::conduction::material::Material;
use crate::heat::conduction::phase::{End, Goal, Until};
use crate::heat::conduction::shape::Form;
use crate::heat::food::Food;
use crate::heat::lines::{LINES, LineRun, USUAL, across, reaches};
use crate::heat::surroundings::Surroundings;

/// Nearer than this to a temperature that it waits for, a food is there, K.
const THERE_K: f64 = 0.01;
/// A line that never gets there is followed for so many times the usual length.
const TOO_LONG: f64 = 3.0;

impl Visit<'_> {
    /// A phase that ends when the food is there.
    pub(super) fn until(&self, until: Until, takes: Option<Band>) -> Result<Alone, String> {
        let end = End { duration_s: None, until: Some(until) };
        let forms = self.forms()?;
        let each = forms.iter().zip(&self.food.fields).enumerate();
        let runs = each.map(|(nth, (form, field))| self.run(nth, *form, field, end));
        let mut runs = runs.collect::<Result<Vec<_>, _>>()?;
        let there: Vec<bool> = runs.iter().map(|run| run.ending() == Ending::Reached).collect();
        let all = there.iter().all(|there| *there);
        let usual_s = runs[USUAL].length_s();
        let (length, reach, alone_s) = if let Ending::OutOfReach { limit_c } = runs[USUAL].ending() {
            let possible = there.contains(&true);
            let reach = Reach::Short { limit_c, possible };
            // Whoever wrote how long it takes has seen it get there.
            let Some(seen) = takes.filter(|_| possible) else {
                let fields = runs.iter().map(|run| run.field().clone()).collect();
                let length = Length { band: Band::exact(usual_s), predicted: false };
                return Ok(Alone { fields, runs, length, reach, alone_s: None });
            };
            (Length { band: seen, predicted: false }, reach, None)
        } else {
            let lengths: Vec<f64> = runs.iter().map(LineRun::length_s).collect();
            let (low, high) = if all {
                reaches(&lengths)
            } else {
                // A cold line that never gets there would last for ever; how long people wait is not for heat to say.
                let reached =
                    lengths.iter().zip(&there).filter(|(_, there)| **there).map(|(length, _)| *length);
                reached.fold((usual_s, TOO_LONG * usual_s), |(low, high), s| (low.min(s), high.max(s)))
            };
            let mut band = Band::new(low.max(0.0), usual_s, high);
            let alone_s = Some(band);
            if let Some(takes) = takes {
                // What the writer has seen narrows what may happen.
                let inside = |seconds: f64| seconds.clamp(takes.low, takes.high);
                let high = if all { inside(band.high) } else { takes.high };
                band = Band::new(inside(band.low), inside(band.typical), high);
            }
            (Length { band, predicted: true }, Reach::Sure, alone_s)
        };
        // Where it does not come, the food goes on towards what surrounds it for as long as anybody waits.
        for (nth, run) in runs.iter_mut().enumerate().filter(|(nth, _)| !there[*nth]) {
            let waits = End { duration_s: Some(length.band.high.max(1.0)), until: None };
            *run = self.run(nth, forms[nth], &self.food.fields[nth], waits)?;
        }
        let fields = self.left_at_target(&forms, &runs, &there, until)?;
        if takes.is_some() && there[USUAL] {
            // The usual curve is stretched to what the writer has seen. The bounds are not: hurried up, a cold line would
            // be above food that comes late but in time.
            let usual = runs.remove(USUAL);
            runs.insert(USUAL, usual.lasting(length.band.typical));
        }
        Ok(Alone { fields, runs, length, reach, alone_s })
    }

    /// What a phase leaves behind that ends at a temperature. However it got there, the food is at that temperature; the
    /// bounds tell how the rest of it may differ. A food that came in cold takes longer, so that its outside comes closer
    /// to what surrounds it: all four of cold or warm before and cold or warm surroundings have to be seen.
    fn left_at_target(
        &self,
        forms: &[Form],
        runs: &[LineRun],
        there: &[bool],
        until: Until,
    ) -> Result<Vec<Field>, String> {
        let food = self.food;
        let own = runs.iter().zip(there).map(|(run, there)| match there {
            true => run.field().clone(),
            false => raised(run, &food.material, until),
        });
        let own: Vec<Field> = own.collect();
        let mut seen = own.clone();
        for nth in 0..own.len() {
            let other = across(nth);
            if other == nth {
                continue;
            }
            let side = LINES[nth].side;
            seen[nth] = worse(side, &seen[nth], &own[other]);
            let (before, crossed) = (&food.fields[nth], &food.fields[other]);
            if before != crossed {
                let end = End { duration_s: None, until: Some(until) };
                let run = self.run(nth, forms[nth], crossed, end)?;
                if run.ending() == Ending::Reached {
                    seen[nth] = worse(side, &seen[nth], run.field());
                    seen[other] = worse(LINES[other].side, &seen[other], run.field());
                }
            }
        }
        if runs.iter().any(|run| run.length_s() == 0.0) && runs.iter().any(|run| run.length_s() > 0.0) {
            for (nth, field) in seen.iter_mut().enumerate() {
                *field = worse(LINES[nth].side, field, &just_there(&food.fields[nth], &food.material, until));
            }
        }
        Ok(seen)
    }
}

/// Whether the food waits to be warm enough or cool enough. What is cooled waits to be cool, even where it may come in
/// colder than that, and what is cooked in something hotter than its end waits to be warm, even where it may come in
/// hotter; else the food tells by its own temperature, and one that is there already, as after a phase that ended at the
/// same figure, by what surrounds it.
pub(super) fn goal(food: &Food, around: &Surroundings, purpose: Purpose, target_c: f64) -> Goal {
    let now_c = food.core_c();
    let from_below = match purpose {
        Purpose::Cool | Purpose::ColdHold | Purpose::Freeze => false,
        Purpose::Cook | Purpose::Reheat if around.medium_c.typical > target_c => true,
        _ if (now_c - target_c).abs() < THERE_K => around.medium_c.typical > target_c,
        _ => now_c < target_c,
    };
    if from_below { Goal::AtLeast } else { Goal::AtMost }
}

/// A food that some may bring in there already and others not: it may also come in just there, and leave again at once.
/// No layer of it is then beyond the one that waits longest, as long as that one is short of it.
fn just_there(before: &Field, material: &Material, until: Until) -> Field {
    let at_target = Field::uniform(material, until.target_c);
    let layers = before.layers();
    let outside_leads = match (layers.first(), layers.last()) {
        (Some(core), Some(outside)) => match until.goal {
            Goal::AtLeast => outside.enthalpy_j_m3 >= core.enthalpy_j_m3,
            Goal::AtMost => outside.enthalpy_j_m3 <= core.enthalpy_j_m3,
        },
        _ => true,
    };
    match until.goal {
        _ if !outside_leads => before.clone(),
        Goal::AtLeast => before.most(&at_target),
        Goal::AtMost => before.least(&at_target),
    }
}

/// What a line that never gets to the target stands for: whoever ends the phase has seen the target, and if heat comes
/// from outside no layer is short of it. Where it comes from inside, the outer layers may well be.
fn raised(run: &LineRun, material: &Material, until: Until) -> Field {
    let at_target = Field::uniform(material, until.target_c);
    let outside_leads = run.last().is_some_and(|last| match until.goal {
        Goal::AtLeast => last.surface_c >= last.core_c,
        Goal::AtMost => last.surface_c <= last.core_c,
    });
    match until.goal {
        _ if !outside_leads => run.field().clone(),
        Goal::AtLeast => run.field().most(&at_target),
        Goal::AtMost => run.field().least(&at_target),
    }
}
