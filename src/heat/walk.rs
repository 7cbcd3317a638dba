//! Every food through the phases, in the order of the file.

use std::collections::BTreeMap;

use super::band::Band;
use super::conduction::air;
use super::conduction::field::Field;
use super::conduction::history::Ending;
use super::conduction::material::Material;
use super::conduction::phase::{End, Goal, Place, Until};
use super::conduction::shape::Form;
use super::curves::Unpredicted;
use super::envelope::Instant;
use super::food::Food;
use super::lines::{COARSE_K, LINES, Line, LineRun, Side, USUAL, across, phase_heat, reaches};
use super::mix::{Share, mix};
use super::readings::Narrowed;
use super::stop::{Stop, stop};
use super::surroundings::{Surroundings, surroundings};
use crate::cook::{Cook, ItemId, Medium, Phase, PhaseId};
use crate::ledger::Ledger;

/// Instants of a phase, at most; more than a plot or a table has use for.
const MOST_INSTANTS: usize = 240;
/// Instants of a food in a whole cook, at most, but for [`FEWEST_INSTANTS`] in each phase.
const MOST_IN_ALL: usize = 10_000;
const FEWEST_INSTANTS: usize = 8;
/// Phases that temperatures are followed through; a cook has a handful.
const MOST_PHASES: u32 = 200;
/// Looks taken at what a phase of uncertain length may leave behind: at its shortest, at its longest, and between.
const LOOKS: u32 = 4;
/// Nothing is looked at more closely than this, s.
const CLOSEST_S: f64 = 30.0;
/// Nearer than this to a temperature that it waits for, a food is there, K.
const THERE_K: f64 = 0.01;
/// A line that never gets there is followed for so many times the usual length.
const TOO_LONG: f64 = 3.0;

/// A food as it came out of a phase; `Err` says why no more can be predicted of it.
type Known = Result<Food, String>;

/// What came of one food in one phase.
pub struct Run {
    pub item: ItemId,
    pub phase: PhaseId,
    pub instants: Vec<Instant>,
    /// The core as the phase ends, °C.
    pub exit_core_c: Band,
    pub reach: Reach,
    /// How long it takes to the temperature that ends the phase, s, whatever the file says.
    pub alone_s: Option<Band>,
}

/// Whether the temperature that ends a phase comes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reach {
    Sure,
    /// The food usually gets no further than this, °C; `possible` where it may all the same.
    Short {
        limit_c: f64,
        possible: bool,
    },
}

/// What the walk found.
pub struct Walked {
    pub runs: Vec<Run>,
    /// Seconds, for each phase in the order of the file.
    pub lengths: Vec<Length>,
    pub unpredicted: Vec<Unpredicted>,
    pub assumed: BTreeMap<ItemId, Vec<String>>,
}

/// How long a phase lasts, in seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Length {
    pub band: Band,
    /// Read off the prediction.
    pub predicted: bool,
}

/// `narrowed` where readings have told more of the surface than the tables do.
pub fn walk(cook: &Cook, ledger: &Ledger, narrowed: Option<&Narrowed>, lines: &[Line]) -> Walked {
    let elevation_m = cook.elevation.as_ref().map_or(0.0, |elevation| elevation.value.metres());
    let pressure_pa = air::pressure_at_elevation_pa(elevation_m).unwrap_or(air::SEA_LEVEL_PA);
    let mut walker = Walker { cook, ledger, pressure_pa, narrowed, lines, foods: BTreeMap::new() };
    let mut walked =
        Walked { runs: Vec::new(), lengths: Vec::new(), unpredicted: Vec::new(), assumed: BTreeMap::new() };
    for (id, phase) in cook.phases() {
        walker.phase(id, phase, &mut walked);
    }
    walked
}

/// No food in a kitchen is hotter, °C.
const HOTTEST_C: f64 = 350.0;
/// Food that is at least so wet cannot be hotter than water boils, as long as any of it is left in the middle.
const MOIST: f64 = 0.2;

struct Walker<'c> {
    cook: &'c Cook,
    ledger: &'c Ledger,
    pressure_pa: f64,
    narrowed: Option<&'c Narrowed>,
    lines: &'c [Line],
    foods: BTreeMap<(ItemId, PhaseId), Known>,
}

impl Walker<'_> {
    fn phase(&mut self, id: PhaseId, phase: &Phase, walked: &mut Walked) {
        let mut present = self.present(id, phase);
        if id.0 >= MOST_PHASES {
            let because =
                format!("temperatures are followed through the first {MOST_PHASES} phases of a cook");
            present.iter_mut().for_each(|(_, known)| *known = Err(because.clone()));
        }
        let mut ready = Vec::new();
        for (item, known) in &mut present {
            if let Ok(food) = known {
                match self.ready(food, id, phase) {
                    Ok(around) => ready.push((*item, around)),
                    Err(because) => *known = Err(because),
                }
            }
        }
        let mut length: Option<Length> = None;
        let mut ends = Vec::new();
        // First each food by itself: a phase with several foods lasts until all are done.
        for (item, known) in &mut present {
            let Ok(food) = known else { continue };
            let Some((_, around)) = ready.iter().find(|(ready, _)| ready == item) else { continue };
            match self.alone(food, around, phase) {
                Ok(alone) => {
                    length = Some(longer(length, alone.length));
                    ends.push((*item, alone));
                }
                Err(because) => *known = Err(because),
            }
        }
        let written = match stop(phase) {
            Stop::Lasts(band) | Stop::Heat { takes: Some(band), .. } => band,
            _ => Band::exact(0.0),
        };
        let length = length.unwrap_or(Length { band: written, predicted: false });
        walked.lengths.push(length);
        let several = ends.len() > 1;
        for (item, mut alone) in ends {
            let Some((_, Ok(food))) = present.iter_mut().find(|(other, _)| *other == item) else { continue };
            if several && alone.length.band != length.band {
                let Some((_, around)) = ready.iter().find(|(ready, _)| *ready == item) else { continue };
                let (reach, alone_s) = (alone.reach, alone.alone_s);
                match self.lasting(food, around, length.band) {
                    Ok(longer) => alone = Alone { reach, alone_s, ..longer },
                    Err(_) => continue,
                }
            }
            let most_c = self.hottest(food);
            let at_most = Field::uniform(&food.material, most_c);
            alone.fields = alone.fields.iter().map(|field| field.least(&at_most)).collect();
            walked.runs.push(Run {
                item,
                phase: id,
                instants: instants(&alone, length.band, most_c, self.most_instants()),
                exit_core_c: exit_core(&alone, &food.material),
                reach: alone.reach,
                alone_s: alone.alone_s,
            });
            food.fields = alone.fields;
            if ready.iter().any(|(ready, around)| *ready == item && around.dries()) {
                food.dried_s += length.band.typical;
            }
            let around = ready.iter().find(|(ready, _)| *ready == item).map(|(_, around)| around);
            let set = around.filter(|_| phase.setting.is_some()).map(|around| around.medium_c);
            food.place = phase.place.as_ref().map(|place| (place.value, set));
            walked.assumed.insert(item, food.assumed.clone());
            let seen = matches!(stop(phase), Stop::Heat { takes: Some(_), .. });
            if let Reach::Short { limit_c, possible } = alone.reach
                && !(possible && seen)
            {
                let because = format!("it gets no further than {limit_c:.0} °C in `{}`", phase.name);
                walked.unpredicted.push(self.unpredicted(item, id, because.clone()));
                self.foods.insert((item, id), Err(because));
            }
        }
        for (item, known) in present {
            if let Err(because) = &known
                && !walked.unpredicted.iter().any(|other| other.item == item)
            {
                walked.unpredicted.push(self.unpredicted(item, id, because.clone()));
            }
            let known = known.or_else(|because| self.found_at(item, phase).ok_or(because));
            self.foods.entry((item, id)).or_insert(known);
        }
    }

    fn unpredicted(&self, item: ItemId, phase: PhaseId, because: String) -> Unpredicted {
        Unpredicted { item, name: self.cook.item(item).name.clone(), phase, because }
    }

    /// The hottest that the food can be inside, °C.
    fn hottest(&self, food: &Food) -> f64 {
        match &food.material {
            Material::Food { food, .. } if food.composition().water > MOIST => {
                air::boiling_point_c(self.pressure_pa).unwrap_or(100.0)
            }
            _ => HOTTEST_C,
        }
    }

    /// A food that could not be followed, but comes out of the phase at a temperature that the file names.
    fn found_at(&self, item: ItemId, phase: &Phase) -> Option<Food> {
        let Stop::Heat { core: true, target_c, .. } = stop(phase) else { return None };
        let mut food = Food::at(item, self.cook.item(item), target_c).ok()?;
        food.piece.take(&phase.shape);
        Some(food)
    }

    /// The foods of a phase as it starts, mixed where it makes one of them.
    fn present(&self, id: PhaseId, phase: &Phase) -> Vec<(ItemId, Known)> {
        let account = self.ledger.phase(id);
        let placed: Vec<(ItemId, Known)> = phase
            .placings
            .iter()
            .map(|placing| (placing.item, self.find(placing.item, placing.before)))
            .collect();
        let Some(becomes) = &phase.becomes else { return placed };
        let kg_of = |item: ItemId| {
            let placed = account.placed.iter().chain(account.drawn.iter().filter(|drawn| drawn.joins));
            placed
                .filter(|drawn| drawn.item == item)
                .filter_map(|drawn| drawn.weight)
                .map(|w| w.mass.kg())
                .sum::<f64>()
        };
        let used = phase.uses.iter().map(|draw| draw.item);
        let mut foods = Vec::new();
        let mut stock_kg = 0.0;
        for (item, known) in placed {
            match known {
                Ok(food) => foods.push((food, kg_of(item))),
                Err(because) => return vec![(becomes.item, Err(because))],
            }
        }
        for item in used {
            match self
                .find(item, phase.uses.iter().find(|draw| draw.item == item).and_then(|draw| draw.before))
            {
                Ok(food) => foods.push((food, kg_of(item))),
                Err(_) => stock_kg += kg_of(item),
            }
        }
        let known = match foods.as_slice() {
            // Only another name.
            [(food, _)] if stock_kg == 0.0 => {
                let kind = self.cook.item(becomes.item).kind.as_ref();
                let state = kind.map_or(food.state, |kind| kind.value.state);
                Ok(Food { item: becomes.item, state, ..food.clone() })
            }
            _ => {
                let shares: Vec<Share<'_>> = foods.iter().map(|(food, kg)| Share { food, kg: *kg }).collect();
                mix(self.cook, becomes.item, &shares, stock_kg)
            }
        };
        vec![(becomes.item, known)]
    }

    fn find(&self, item: ItemId, before: Option<PhaseId>) -> Known {
        match before.and_then(|before| self.foods.get(&(item, before))) {
            Some(known) => known.clone(),
            None => Food::bought(item, self.cook.item(item)),
        }
    }

    /// Gives the food the shape that it has in this phase, and says what lies around it.
    fn ready(&self, food: &mut Food, id: PhaseId, phase: &Phase) -> Result<Surroundings, String> {
        let shape = &phase.shape;
        food.piece.take(shape);
        // Cut up, pulled or trayed up, nothing stays where it was.
        if shape.pieces.is_some() || shape.depth.is_some() {
            food.fields = food.fields.iter().map(Field::mixed).collect();
        }
        let account = self.ledger.phase(id).foods.iter().find(|account| account.item == food.item);
        if let Some(account) = account {
            let kg = account.start.map(|start| start.mass.kg());
            let count = account.pieces.as_ref().map(|(count, _)| *count).or(food.piece.count).unwrap_or(1.0);
            food.piece_kg = kg.map(|kg| kg / count.max(1.0));
        }
        let before = match (food.place, &phase.place) {
            (Some((kit, set_c)), Some(place)) if kit == place.value => set_c,
            _ => None,
        };
        let around =
            surroundings(self.cook, phase, &food.piece.covers, food.state, self.pressure_pa, before)?;
        let around = match self.narrowed {
            Some(narrowed) => around.narrowed(narrowed),
            None => around,
        };
        for assumed in &around.assumed {
            if !food.assumed.contains(assumed) {
                food.assumed.push(assumed.clone());
            }
        }
        Ok(around)
    }

    /// One food in one phase, as if it were alone in it.
    fn alone(&self, food: &Food, around: &Surroundings, phase: &Phase) -> Result<Alone, String> {
        match stop(phase) {
            Stop::Unknown => Err(format!("nothing says how long `{}` lasts", phase.name)),
            Stop::Lasts(band) => self.lasting(food, around, band),
            Stop::Heat { core, target_c, takes } => self.until(food, around, core, target_c, takes),
        }
    }

    fn most_instants(&self) -> usize {
        (MOST_IN_ALL / self.cook.phases.len().max(1)).clamp(FEWEST_INSTANTS, MOST_INSTANTS)
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
        let forms = food.forms(&self.cook.item(food.item).name, stirred)?;
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
            .and_then(|phase| LineRun::new(form, &food.material, field, &phase, LINES[nth].side))
            .map_err(|error| error.to_string())
    }

    /// A phase of known length. Along a line that may be shorter or longer it leaves the least (or the most) heat that
    /// any of its lengths does.
    fn lasting(&self, food: &Food, around: &Surroundings, band: Band) -> Result<Alone, String> {
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
            for (nth, field) in fields.iter_mut().enumerate() {
                for look in 0..LOOKS - 1 {
                    let seconds = band.at(f64::from(look) / f64::from(LOOKS - 1));
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

    /// A phase that ends when the food is there.
    fn until(
        &self,
        food: &Food,
        around: &Surroundings,
        core: bool,
        target_c: f64,
        takes: Option<Band>,
    ) -> Result<Alone, String> {
        let now_c = food.core_c();
        // A food that is there already, as after a phase that ended at the same figure, waits for nothing.
        let there = (now_c - target_c).abs() < THERE_K;
        let from_below = if there { around.medium_c.typical > target_c } else { now_c < target_c };
        let goal = if from_below { Goal::AtLeast } else { Goal::AtMost };
        let place = if core { Place::Core } else { Place::Surface };
        let until = Until { place, goal, target_c };
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
        Ok(seen)
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
struct Alone {
    /// Along each line; empty where the phase has no length.
    runs: Vec<LineRun>,
    fields: Vec<Field>,
    length: Length,
    reach: Reach,
    alone_s: Option<Band>,
}

fn longer(one: Option<Length>, other: Length) -> Length {
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

fn instants(alone: &Alone, length: Band, most_c: f64, most: usize) -> Vec<Instant> {
    let Some(usual) = alone.runs.first() else { return Vec::new() };
    let step_s = (length.high / most as f64).max(CLOSEST_S);
    let mut taus: Vec<f64> =
        (0..).map(|nth| f64::from(nth) * step_s).take_while(|tau| *tau < length.high).collect();
    taus.extend([length.typical, length.high]);
    taus.sort_by(f64::total_cmp);
    taus.dedup();
    let instant = |tau_s: f64| {
        let (medium_c, surface_c, core_c) = usual.at(tau_s);
        let core_c = core_c.min(most_c);
        let cores: Vec<f64> = alone.runs.iter().map(|run| run.core(tau_s).min(most_c)).collect();
        let (low_c, high_c) = reaches(&cores);
        Instant { tau_s, medium_c, surface_c, core_c, low_c: low_c - COARSE_K, high_c: high_c + COARSE_K }
    };
    taus.into_iter().map(instant).collect()
}

fn exit_core(alone: &Alone, material: &Material) -> Band {
    let core = |field: &Field| {
        field.layers().first().map_or(f64::NAN, |layer| material.temperature_c(layer.enthalpy_j_m3))
    };
    let cores: Vec<f64> = alone.fields.iter().map(core).collect();
    let (low, high) = reaches(&cores);
    Band::new(low, cores.first().copied().unwrap_or(f64::NAN), high)
}
