//! One food in one phase: how long it takes, and the heat in it as it leaves.

use super::instants::instants;
use super::until::goal;
use super::visit::{Visit, worse};
use super::{Length, Reach, Walker};
use crate::cook::{Phase, PhaseId};
use crate::heat::band::Band;
use crate::heat::conduction::field::Field;
use crate::heat::conduction::phase::{End, Place, Until};
use crate::heat::envelope::Instant;
use crate::heat::food::Food;
use crate::heat::lines::{LINES, LineRun, Side, USUAL};
use crate::heat::stop::Stop;
use crate::heat::surroundings::Surroundings;

/// Looks taken at what a phase of uncertain length may leave behind: at its shortest, at its longest, and between
/// where it may be longer by more than [`SHORT_S`].
const LOOKS: u32 = 4;
/// Nothing turns round in the middle of a food in so short a time, s.
const SHORT_S: f64 = 900.0;

/// A food in a phase, by itself.
pub(super) struct Alone {
    /// Along each line; empty where the phase has no length.
    pub runs: Vec<LineRun>,
    pub fields: Vec<Field>,
    pub length: Length,
    pub reach: Reach,
    /// How long it takes to the temperature that ends the phase, s, whatever the file says.
    pub alone_s: Option<Band>,
}

impl Walker<'_> {
    /// One food in one phase, as if it were alone in it.
    pub(super) fn alone(
        &self,
        food: &Food,
        around: &Surroundings,
        id: PhaseId,
        phase: &Phase,
    ) -> Result<Alone, String> {
        if phase.in_turn && !around.room {
            return Err(format!(
                "the pieces go through `{}` one after another, and how long each waits, and where, is not known",
                phase.name
            ));
        }
        let visit = Visit::new(self, food, around);
        match self.stop(id, phase) {
            Stop::Unknown => Err(format!("nothing says how long `{}` lasts", phase.name)),
            Stop::Lasts(band) => visit.lasting(band),
            Stop::Heat { core, target_c, takes } => {
                let place = if core { Place::Core } else { Place::Surface };
                let goal = goal(food, around, phase.purpose, target_c);
                visit.until(Until { place, goal, target_c }, takes)
            }
        }
    }

    /// The further course of a phase for which the cook may choose a longer time than the middle. By then the kit has
    /// come to its setting.
    pub(super) fn tail(
        &self,
        food: &Food,
        around: &Surroundings,
        fields: &[Field],
        chosen: Band,
        most_c: f64,
    ) -> Vec<Instant> {
        let more_s = chosen.high - chosen.typical;
        if more_s <= 0.0 {
            return Vec::new();
        }
        let mut later = food.clone();
        later.fields = fields.to_vec();
        let around = Surroundings { coming_from: None, ..around.clone() };
        let visit = Visit::new(self, &later, &around);
        let Ok(alone) = visit.lasting(Band::exact(more_s)) else { return Vec::new() };
        let further = instants(&alone, alone.length.band, most_c, self.most_instants(), self.detail);
        further.into_iter().map(|at| Instant { tau_s: chosen.typical + at.tau_s, ..at }).collect()
    }
}

impl Visit<'_> {
    /// A phase of known length. Along a line that may be shorter or longer it leaves the least (or the most) heat that
    /// any of its lengths does.
    pub(super) fn lasting(&self, band: Band) -> Result<Alone, String> {
        let length = Length { band, predicted: false };
        if band.high <= 0.0 {
            let fields = self.food.fields.clone();
            return Ok(Alone { runs: Vec::new(), fields, length, reach: Reach::Sure, alone_s: None });
        }
        let sooner_s = sooner_s(band);
        let (at_once, later) = sooner_s.split_at(sooner_s.partition_point(|seconds| *seconds <= 0.0));
        let forms = self.forms()?;
        let mut runs = Vec::with_capacity(forms.len());
        let mut fields = Vec::with_capacity(forms.len());
        for (nth, form) in forms.into_iter().enumerate() {
            let (before, side) = (&self.food.fields[nth], LINES[nth].side);
            // Nobody asks what the usual run leaves at other times than the usual.
            let (seconds, looks) =
                if nth == USUAL { (band.typical.max(1.0), &[][..]) } else { (band.high, later) };
            let end = End { duration_s: Some(seconds), until: None };
            let run = self.run_with_sooner(nth, form, before, end, looks)?;
            let start = Some(before).filter(|_| side != Side::Usual && !at_once.is_empty());
            let seen = start.into_iter().chain(run.sooner());
            fields.push(seen.fold(run.field().clone(), |field, other| worse(side, &field, other)));
            runs.push(run);
        }
        Ok(Alone { runs, fields, length, reach: Reach::Sure, alone_s: None })
    }
}

/// The moments before the longest at which a phase of uncertain length is looked at, s, rising.
fn sooner_s(band: Band) -> Vec<f64> {
    if band.low >= band.high {
        return Vec::new();
    }
    let looks = if band.high - band.low > SHORT_S { LOOKS } else { 2 };
    (0..looks - 1).map(|look| band.at(f64::from(look) / f64::from(looks - 1))).collect()
}

pub(super) fn longer(one: Option<Length>, other: Length) -> Length {
    let Some(one) = one else { return other };
    Length {
        band: Band::new(
            one.band.low.max(other.band.low),
            one.band.typical.max(other.band.typical),
            one.band.high.max(other.band.high),
        ),
        predicted: one.predicted || other.predicted,
    }
}
