//! One food in one phase: how long it takes, and the heat in it as it leaves.

use super::{Length, Reach, Walker};
use crate::cook::{Medium, Phase, PhaseId, Purpose};
use crate::heat::band::Band;
use crate::heat::conduction::field::Field;
use crate::heat::conduction::history::Ending;
use crate::heat::conduction::material::Material;
use crate::heat::conduction::phase::{End, Goal, Place, Until};
use crate::heat::conduction::shape::Form;
use crate::heat::envelope::Instant;
use crate::heat::food::Food;
use crate::heat::lines::{
    COARSE_K, Detail, LINES, LineRun, Side, USUAL, accuracy, across, phase_heat, reaches,
};
use crate::heat::stop::Stop;
use crate::heat::surroundings::Surroundings;

/// Instants of a phase, at most; more than a plot or a table has use for.
const MOST_INSTANTS: usize = 160;
/// The same where nobody sees the curve, closer together at the start, where it bends: straight lines between so many cut
/// off less of a smooth curve than a coarse run is off.
const MOST_FOR_RULES: usize = 48;
/// Instants of a food in a whole cook, at most, but for [`FEWEST_INSTANTS`] in each phase.
const MOST_IN_ALL: usize = 10_000;
const FEWEST_INSTANTS: usize = 8;
/// Looks taken at what a phase of uncertain length may leave behind: at its shortest, at its longest, and between
/// where it may be longer by more than [`SHORT_S`].
const LOOKS: u32 = 4;
/// Nothing turns round in the middle of a food in so short a time, s.
const SHORT_S: f64 = 900.0;
/// Nothing is looked at more closely than this, s.
const CLOSEST_S: f64 = 30.0;
/// Nearer than this to a temperature that it waits for, a food is there, K.
const THERE_K: f64 = 0.01;
/// A line that never gets there is followed for so many times the usual length.
const TOO_LONG: f64 = 3.0;

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
        match self.stop(id, phase) {
            Stop::Unknown => Err(format!("nothing says how long `{}` lasts", phase.name)),
            Stop::Lasts(band) => self.lasting(food, around, band),
            Stop::Heat { core, target_c, takes } => {
                let place = if core { Place::Core } else { Place::Surface };
                let goal = goal(food, around, phase.purpose, target_c);
                self.until(food, around, Until { place, goal, target_c }, takes)
            }
        }
    }

    pub(super) fn most_instants(&self) -> usize {
        let most = if self.detail == Detail::Ends { MOST_FOR_RULES } else { MOST_INSTANTS };
        (MOST_IN_ALL / self.cook.phases.len().max(1)).clamp(FEWEST_INSTANTS, most)
    }

    /// Along each of [`LINES`], and for each the form that the food has.
    fn runs(
        &self,
        food: &Food,
        around: &Surroundings,
        end: impl Fn(usize) -> End,
    ) -> Result<(Vec<Form>, Vec<LineRun>), String> {
        // A pot of anything that lies in hot liquid is stirred or moves by itself.
        let stirred = around.medium == Medium::Liquid && food.piece.is_depth;
        let forms = food.forms(&self.cook.item(food.item).name, stirred, self.trial)?;
        let runs = forms.iter().zip(&food.fields).take(self.lines.len()).enumerate();
        let runs = runs.map(|(nth, (form, field))| self.run(food, around, nth, *form, field, end(nth)));
        let runs = runs.collect::<Result<_, _>>()?;
        Ok((forms, runs))
    }

    /// One line, starting from `field`.
    fn run(
        &self,
        food: &Food,
        around: &Surroundings,
        nth: usize,
        form: Form,
        field: &Field,
        end: End,
    ) -> Result<LineRun, String> {
        phase_heat(LINES[nth].side, around, food.dried_s, self.pressure_pa, end)
            .and_then(|phase| {
                LineRun::new(form, &food.material, field, &phase, accuracy(LINES[nth].side, self.detail))
            })
            .map_err(|error| error.to_string())
    }

    /// A phase of known length. Along a line that may be shorter or longer it leaves the least (or the most) heat that
    /// any of its lengths does.
    pub(super) fn lasting(&self, food: &Food, around: &Surroundings, band: Band) -> Result<Alone, String> {
        let length = Length { band, predicted: false };
        let end = |seconds: f64| End { duration_s: Some(seconds), until: None };
        if band.high <= 0.0 {
            return Ok(Alone {
                runs: Vec::new(),
                fields: food.fields.clone(),
                length,
                reach: Reach::Sure,
                alone_s: None,
            });
        }
        let (forms, long) =
            self.runs(food, around, |nth| end(if nth == USUAL { band.typical.max(1.0) } else { band.high }))?;
        let mut fields: Vec<_> = long.iter().map(|run| run.field().clone()).collect();
        if band.low < band.high {
            let looks = if band.high - band.low > SHORT_S { LOOKS } else { 2 };
            for (nth, field) in fields.iter_mut().enumerate() {
                for look in 0..looks - 1 {
                    let seconds = band.at(f64::from(look) / f64::from(looks - 1));
                    let before = &food.fields[nth];
                    *field = match LINES[nth].side {
                        Side::Usual => break,
                        side if seconds <= 0.0 => worse(side, field, before),
                        side => {
                            let run = self.run(food, around, nth, forms[nth], before, end(seconds))?;
                            worse(side, field, run.field())
                        }
                    };
                }
            }
        }
        Ok(Alone { runs: long, fields, length, reach: Reach::Sure, alone_s: None })
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
        let Ok(alone) = self.lasting(&later, &around, Band::exact(more_s)) else { return Vec::new() };
        let further = instants(&alone, alone.length.band, most_c, self.most_instants(), self.detail);
        further.into_iter().map(|at| Instant { tau_s: chosen.typical + at.tau_s, ..at }).collect()
    }

    /// A phase that ends when the food is there.
    fn until(
        &self,
        food: &Food,
        around: &Surroundings,
        until: Until,
        takes: Option<Band>,
    ) -> Result<Alone, String> {
        let (forms, mut runs) = self.runs(food, around, |_| End { duration_s: None, until: Some(until) })?;
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
            *run = self.run(food, around, nth, forms[nth], &food.fields[nth], waits)?;
        }
        let fields = self.left_at_target(food, around, &forms, &runs, &there, until)?;
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
        food: &Food,
        around: &Surroundings,
        forms: &[Form],
        runs: &[LineRun],
        there: &[bool],
        until: Until,
    ) -> Result<Vec<Field>, String> {
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
                let run = self.run(food, around, nth, forms[nth], crossed, end)?;
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
fn goal(food: &Food, around: &Surroundings, purpose: Purpose, target_c: f64) -> Goal {
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

/// Layer by layer the heat that counts on one side.
fn worse(side: Side, one: &Field, other: &Field) -> Field {
    match side {
        Side::Usual => one.clone(),
        Side::Cold => one.least(other),
        Side::Warm => one.most(other),
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

/// A food in a phase, by itself.
pub(super) struct Alone {
    /// Along each line; empty where the phase has no length.
    pub runs: Vec<LineRun>,
    pub fields: Vec<Field>,
    pub length: Length,
    pub reach: Reach,
    pub alone_s: Option<Band>,
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

pub(super) fn instants(
    alone: &Alone,
    length: Band,
    most_c: f64,
    most: usize,
    detail: Detail,
) -> Vec<Instant> {
    let Some(usual) = alone.runs.first() else { return Vec::new() };
    let mut taus: Vec<f64> = match detail {
        Detail::Ends => {
            let squares = (0..most).map(|nth| length.high * (nth as f64 / most as f64).powi(2));
            squares.filter(|tau| *tau == 0.0 || *tau >= CLOSEST_S).collect()
        }
        Detail::Curves | Detail::Trial => {
            let step_s = (length.high / most as f64).max(CLOSEST_S);
            (0..).map(|nth| f64::from(nth) * step_s).take_while(|tau| *tau < length.high).collect()
        }
    };
    taus.extend([length.typical, length.high]);
    taus.sort_by(f64::total_cmp);
    taus.dedup();
    let instant = |tau_s: f64| {
        let (medium_c, surface_c, core_c) = usual.at(tau_s);
        let core_c = core_c.min(most_c);
        let cores: Vec<f64> = alone.runs.iter().map(|run| run.core(tau_s).min(most_c)).collect();
        let (low_c, high_c) = reaches(&cores);
        let high_c = (high_c + COARSE_K).min(most_c);
        Instant { tau_s, medium_c, surface_c, core_c, low_c: low_c - COARSE_K, high_c }
    };
    taus.into_iter().map(instant).collect()
}

pub(super) fn exit_core(alone: &Alone, material: &Material) -> Band {
    let core = |field: &Field| {
        field.layers().first().map_or(f64::NAN, |layer| material.temperature_c(layer.enthalpy_j_m3))
    };
    let cores: Vec<f64> = alone.fields.iter().map(core).collect();
    let (low, high) = reaches(&cores);
    Band::new(low, cores.first().copied().unwrap_or(f64::NAN), high)
}
