//! Every food through the phases, in the order of the file.

mod alone;
mod instants;
mod starts;
mod unfollowed;
mod until;
mod visit;

use std::collections::BTreeMap;

use alone::{Alone, longer};
use instants::{exit_core, instants};
use visit::Visit;

use super::band::Band;
use super::conduction::air;
use super::conduction::field::Field;
use super::conduction::material::Material;
use super::curves::Unpredicted;
use super::envelope::Instant;
use super::following::LeftKit;
use super::food::Food;
use super::lines::{Detail, Line};
use super::readings::Trial;
use super::stop::{self, Stop};
use crate::cook::{Cook, ItemId, Phase, PhaseId, Purpose};
use crate::ledger::Ledger;

/// Phases that temperatures are followed through; a cook has a handful.
const MOST_PHASES: u32 = 200;

/// A food as it came out of a phase; `Err` says why no more can be predicted of it.
type Known = Result<Food, String>;

/// What came of one food in one phase.
pub struct Run {
    pub item: ItemId,
    pub phase: PhaseId,
    pub instants: Vec<Instant>,
    /// What follows in a wait for which the cook chooses a longer time than the middle, for which the curve is drawn.
    pub tail: Vec<Instant>,
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

/// The first `phases` of the cook; of a `trial`, along the usual line alone.
pub fn walk(
    cook: &Cook,
    ledger: &Ledger,
    trial: Option<&Trial<'_>>,
    lines: &[Line],
    detail: Detail,
    phases: usize,
) -> Walked {
    let elevation_m = cook.elevation.as_ref().map_or(0.0, |elevation| elevation.value.metres());
    let pressure_pa = air::pressure_at_elevation_pa(elevation_m).unwrap_or(air::SEA_LEVEL_PA);
    let mut walker = Walker { cook, ledger, pressure_pa, trial, lines, detail, foods: BTreeMap::new() };
    let mut walked =
        Walked { runs: Vec::new(), lengths: Vec::new(), unpredicted: Vec::new(), assumed: BTreeMap::new() };
    for (id, phase) in cook.phases().take(phases) {
        walker.phase(id, phase, &mut walked);
    }
    walked
}

fn too_long() -> String {
    format!("temperatures are followed through the first {MOST_PHASES} phases of a cook")
}

/// No food in a kitchen is hotter, °C.
const HOTTEST_C: f64 = 350.0;
/// Food that is at least so wet cannot be hotter than water boils, as long as any of it is left in the middle.
const MOIST: f64 = 0.2;

struct Walker<'c> {
    cook: &'c Cook,
    ledger: &'c Ledger,
    pressure_pa: f64,
    trial: Option<&'c Trial<'c>>,
    lines: &'c [Line],
    detail: Detail,
    foods: BTreeMap<(ItemId, PhaseId), Known>,
}

impl Walker<'_> {
    fn phase(&mut self, id: PhaseId, phase: &Phase, walked: &mut Walked) {
        let mut present = self.present(id, phase);
        if id.0 >= MOST_PHASES {
            present.iter_mut().for_each(|(_, known)| *known = Err(too_long()));
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
            match self.alone(food, around, id, phase) {
                Ok(alone) => {
                    length = Some(longer(length, alone.length));
                    ends.push((*item, alone));
                }
                Err(because) => *known = Err(because),
            }
        }
        let written = match self.stop(id, phase) {
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
                match Visit::new(self, food, around).lasting(length.band) {
                    Ok(longer) => alone = Alone { reach, alone_s, ..longer },
                    Err(_) => continue,
                }
            }
            let most_c = self.hottest(food);
            let at_most = Field::uniform(&food.material, most_c);
            alone.fields = alone.fields.iter().map(|field| field.least(&at_most)).collect();
            let around = ready.iter().find(|(ready, _)| *ready == item).map(|(_, around)| around);
            // Cold storage may go on for days, and nothing happens in it any more.
            let ends = !matches!(phase.purpose, Purpose::ColdHold | Purpose::Freeze);
            let longest = stop::chosen(phase).filter(|_| ends && self.detail != Detail::Trial);
            let tail = match around.zip(longest) {
                Some((around, chosen)) => self.tail(food, around, &alone.fields, chosen, most_c),
                None => Vec::new(),
            };
            walked.runs.push(Run {
                item,
                phase: id,
                instants: instants(&alone, length.band, most_c, self.most_instants(), self.detail),
                tail,
                exit_core_c: exit_core(&alone, &food.material),
                reach: alone.reach,
                alone_s: alone.alone_s,
            });
            food.fields = alone.fields;
            if let Some((_, around)) = ready.iter().find(|(ready, _)| *ready == item) {
                food.dried_s += length.band.typical * around.dries();
            }
            food.kits.values_mut().for_each(|left| left.away_s = left.away_s.plus(length.band));
            if let (Some(place), true) = (phase.place, phase.setting.is_some())
                && let Some((_, around)) = ready.iter().find(|(ready, _)| *ready == item)
            {
                let (set_c, at_c) = (around.medium_c, around.medium_after(length.band));
                let left = LeftKit { phase: id, set_c, at_c, away_s: Band::exact(0.0) };
                food.kits.insert(place.value, left);
            }
            walked.assumed.insert(item, food.assumed.clone());
            let seen = matches!(stop::stop(phase), Stop::Heat { takes: Some(_), .. });
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

    /// What ends a phase.
    fn stop(&self, id: PhaseId, phase: &Phase) -> Stop {
        match (stop::stop(phase), self.trial) {
            (Stop::Lasts(band), Some(trial)) => Stop::Lasts(trial.lasts(band, id)),
            (stop, _) => stop,
        }
    }

    fn unpredicted(&self, item: ItemId, phase: PhaseId, because: String) -> Unpredicted {
        Unpredicted { item, name: self.cook.item(item).name.clone(), phase, because }
    }

    /// Where water boils, °C.
    fn boiling_c(&self) -> f64 {
        air::boiling_point_c(self.pressure_pa).unwrap_or(100.0)
    }

    /// The hottest that the food can be inside, °C.
    fn hottest(&self, food: &Food) -> f64 {
        match &food.material {
            Material::Food { food, .. } if food.composition().water > MOIST => self.boiling_c(),
            _ => HOTTEST_C,
        }
    }
}
