//! What the predicted curves of a cook do to the microbes in each food.
//!
//! Killing is taken from the lowest that the core may be in each phase, on the phase's own clock: what is late into the oven is
//! late out of it. Once something is put on the food, its surface counts as well. Growth is taken along every line of the curve (lowest, usual and
//! highest core, and the surface, which cuts carry their microbes on), and the worst of them counts. A food that is made
//! of others goes on from where the worst of them was; stock that joins it raw starts the killing afresh, juice of a food
//! counts as the food was when it was collected.

use std::collections::BTreeMap;

use super::history::History;
use super::lot::Keeping;
use super::microbes::{Exposure, Sort, exposure, organisms};
use super::stock::{Recognised, keeping, recognise, words_of};
use crate::cook::{Cook, Draw, Item, ItemId, Origin, PhaseId, Structure};
use crate::heat::{Band, Curves, FoodCurve, Sample, Stay};
use crate::tables::microbes::Organism;
use crate::tables::{FoodKind, FoodState};

/// The microbes of one food.
#[derive(Debug, Clone, PartialEq)]
pub struct FoodMicrobes {
    pub item: ItemId,
    /// Those that are looked at in it.
    pub microbes: Vec<Microbe>,
}

/// One organism in one food, predicted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Microbe {
    pub organism: &'static Organism,
    /// `None` where no published figure is good enough.
    pub reduction_log10: Option<f64>,
    /// `None` where a part of what it went through is not predicted.
    pub growth_log10: Option<f64>,
    /// Where it grows most.
    pub grows: Line,
}

/// A line of a curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Line {
    LowestCore,
    UsualCore,
    HighestCore,
    Surface,
}

impl Line {
    /// The one that killing is taken from first.
    const ALL: [Self; 4] = [Self::LowestCore, Self::UsualCore, Self::HighestCore, Self::Surface];

    fn at(self, sample: &Sample) -> f64 {
        match self {
            Self::LowestCore => sample.core_low_c,
            Self::UsualCore => sample.core_c,
            Self::HighestCore => sample.core_high_c,
            Self::Surface => sample.surface_c,
        }
    }
}

/// Two samples further apart, in seconds, have a time between them that nothing is known of.
const GAP_S: f64 = 1.0;

/// For each food that has a curve, in their order; foods too dry for the figures have no microbes.
pub fn microbial(cook: &Cook, curves: &Curves) -> Vec<FoodMicrobes> {
    let of_food = |food: &FoodCurve| {
        let sorts = sorts(cook, food.item);
        let looked_at: Vec<&'static Organism> = organisms(&sorts).collect();
        let mut lives = Lives { cook, curves, sorts: &sorts, organisms: &looked_at, known: BTreeMap::new() };
        let life = lives.until(food, f64::INFINITY);
        let microbe = |(organism, lines): (&&'static Organism, &[Exposure; 4])| {
            let worst = |(_, one): &(Line, &Exposure), (_, other): &(Line, &Exposure)| {
                one.grown_ln.total_cmp(&other.grown_ln)
            };
            let grown = Line::ALL.into_iter().zip(lines).rev().max_by(worst);
            let (grows, grown) = grown.unwrap_or((Line::LowestCore, &lines[0]));
            Microbe {
                organism,
                reduction_log10: life.reduction_log10(lines),
                growth_log10: life.whole.then(|| grown.growth_log10(organism)),
                grows,
            }
        };
        FoodMicrobes {
            item: food.item,
            microbes: looked_at.iter().zip(&life.exposures).map(microbe).collect(),
        }
    };
    curves.foods.iter().map(of_food).collect()
}

/// What a food has been through up to some moment.
#[derive(Debug, Clone)]
struct Life {
    /// For each organism, along each of [`Line::ALL`].
    exposures: Vec<[Exposure; 4]>,
    /// None of it is unknown.
    whole: bool,
    /// Something came to it from outside, and may lie on its surface.
    dressed: bool,
}

impl Life {
    /// Together with another food: the worse of both counts.
    fn join(&mut self, other: &Self) {
        for (one, other) in self.exposures.iter_mut().flatten().zip(other.exposures.iter().flatten()) {
            let both = one.reduction_log10.zip(other.reduction_log10);
            one.reduction_log10 = both.map(|(one, other)| one.min(other));
            one.grown_ln = one.grown_ln.max(other.grown_ln);
        }
        self.whole &= other.whole;
        self.dressed |= other.dressed;
    }

    /// What the coldest point has seen: the core, and the surface as well where something lies on it.
    fn reduction_log10(&self, lines: &[Exposure; 4]) -> Option<f64> {
        let coldest = if self.dressed { lines.as_slice() } else { &lines[..1] };
        coldest.iter().filter_map(|exposure| exposure.reduction_log10).min_by(f64::total_cmp)
    }

    /// Something raw joins it.
    fn start_afresh(&mut self) {
        for exposure in self.exposures.iter_mut().flatten() {
            exposure.reduction_log10 = exposure.reduction_log10.map(|_| 0.0);
        }
    }
}

struct Lives<'c> {
    cook: &'c Cook,
    curves: &'c Curves,
    sorts: &'c [Sort],
    organisms: &'c [&'static Organism],
    /// By the phase whose start it is known up to.
    known: BTreeMap<(ItemId, u64), Life>,
}

impl<'c> Lives<'c> {
    /// Of the phases that start before `until_s`.
    fn until(&mut self, food: &FoodCurve, until_s: f64) -> Life {
        let key = (food.item, until_s.to_bits());
        if let Some(known) = self.known.get(&key) {
            return known.clone();
        }
        let mut life = self.nothing();
        let mut before: Option<Sample> = None;
        for stretch in food.samples.chunk_by(|one, next| one.phase == next.phase) {
            let [first, ..] = stretch else { continue };
            if first.t_s >= until_s {
                break;
            }
            if let Some(before) = before {
                self.between(&mut life, before, *first);
            }
            self.joining(&mut life, food.item, first.phase, first.t_s);
            let stay = food.stays.iter().find(|stay| stay.phase == first.phase);
            self.add(&mut life, stretch, stay);
            before = stretch.last().copied();
        }
        self.known.insert(key, life.clone());
        life
    }

    fn nothing(&self) -> Life {
        let none = |organism: &&'static Organism| {
            let reduction_log10 = (!organism.lethality.is_empty()).then_some(0.0);
            [Exposure { reduction_log10, grown_ln: 0.0 }; 4]
        };
        Life { exposures: self.organisms.iter().map(none).collect(), whole: true, dressed: false }
    }

    /// A time between two phases of which nothing is known: growth as if it went straight, and no killing.
    fn between(&self, life: &mut Life, before: Sample, after: Sample) {
        if after.t_s - before.t_s > GAP_S {
            self.grow(life, &[before, after]);
        } else if before.t_s - after.t_s > GAP_S {
            // Parts of it in two places at once: what one of them saw the other did not.
            life.start_afresh();
        }
    }

    /// One phase, as it is drawn and on its own clock.
    fn add(&self, life: &mut Life, samples: &[Sample], stay: Option<&Stay>) {
        self.grow(life, samples);
        for (nth, line) in Line::ALL.into_iter().enumerate() {
            let ways = match (line, stay) {
                (Line::LowestCore, Some(stay)) => ways(stay),
                _ => vec![samples.iter().map(|sample| (sample.t_s, line.at(sample))).collect()],
            };
            for (organism, exposures) in self.organisms.iter().zip(&mut life.exposures) {
                let killed = ways.iter().filter_map(|way| {
                    let history = History::from_celsius(way.iter().copied()).ok()?;
                    exposure(organism, self.sorts, &history).reduction_log10
                });
                let least = killed.min_by(f64::total_cmp).unwrap_or(0.0);
                let sum = &mut exposures[nth].reduction_log10;
                *sum = sum.map(|so_far| so_far + least);
            }
        }
    }

    fn grow(&self, life: &mut Life, samples: &[Sample]) {
        for (nth, line) in Line::ALL.into_iter().enumerate() {
            let Ok(history) =
                History::from_celsius(samples.iter().map(|sample| (sample.t_s, line.at(sample))))
            else {
                life.whole = false;
                continue;
            };
            for (organism, exposures) in self.organisms.iter().zip(&mut life.exposures) {
                exposures[nth].grown_ln += exposure(organism, self.sorts, &history).grown_ln;
            }
        }
    }

    /// What comes together with `item` as `phase` starts.
    fn joining(&mut self, life: &mut Life, item: ItemId, phase: PhaseId, start_s: f64) {
        let cook = self.cook;
        let phase = cook.phase(phase);
        if phase.becomes.as_ref().is_some_and(|becomes| becomes.item == item) {
            let mut parents = phase.placings.iter();
            if let Some(first) = parents.next() {
                *life = self.of(first.item, start_s);
            }
            parents.for_each(|parent| life.join(&self.of(parent.item, start_s)));
        }
        for Draw { item: drawn, .. } in phase.uses.iter().filter(|draw| draw.item != item) {
            if carries_microbes(cook.item(*drawn)) {
                life.dressed = true;
            }
            if self.curve(*drawn).is_some() {
                life.join(&self.of(*drawn, start_s));
            } else if let Some((from, at_s)) = self.collected_from(*drawn) {
                life.join(&self.of(from, at_s.min(start_s)));
            } else if carries_microbes(cook.item(*drawn)) {
                life.start_afresh();
            }
        }
    }

    /// The food that it ran out of, where that has a curve, and when. It counts as it was then: what becomes of it on its
    /// own is not predicted.
    fn collected_from(&self, item: ItemId) -> Option<(ItemId, f64)> {
        let Origin::Collected { phase, from: Some(from) } = self.cook.item(item).origin else { return None };
        let times = self.curves.phases.iter().find(|times| times.phase == phase)?;
        self.curve(from).map(|_| (from, times.end_s))
    }

    fn of(&mut self, item: ItemId, until_s: f64) -> Life {
        match self.curve(item) {
            Some(food) => self.until(food, until_s),
            None => Life { whole: false, ..self.nothing() },
        }
    }

    fn curve(&self, item: ItemId) -> Option<&'c FoodCurve> {
        self.curves.foods.iter().find(|food| food.item == item)
    }
}

/// What a food is, and what it is made of.
pub fn sorts(cook: &Cook, item: ItemId) -> Vec<Sort> {
    sorts_of(cook, item, &mut Vec::new())
}

fn sorts_of(cook: &Cook, item: ItemId, seen: &mut Vec<ItemId>) -> Vec<Sort> {
    if seen.contains(&item) {
        return Vec::new();
    }
    seen.push(item);
    let mut sorts: Vec<Sort> = cook
        .item(item)
        .kind
        .iter()
        .flat_map(|kind| {
            let sort = Sort { species: kind.value.species, state: kind.value.state };
            [Some(sort), opened(cook, item).map(|state| Sort { state, ..sort })].into_iter().flatten()
        })
        .collect();
    match &cook.item(item).origin {
        Origin::Made(phase) => {
            let phase = cook.phase(*phase);
            let placed = phase.placings.iter().map(|placing| placing.item);
            for parent in placed.chain(phase.uses.iter().map(|draw| draw.item)) {
                sorts.extend(sorts_of(cook, parent, seen));
            }
        }
        Origin::Collected { from: Some(from), .. } => sorts.extend(sorts_of(cook, *from, seen)),
        Origin::Food(_) | Origin::Ingredient(_) | Origin::Collected { .. } | Origin::OnTap => {}
    }
    sorts
}

/// The state that the file gives it, where its surface has come inside.
pub fn opened(cook: &Cook, item: ItemId) -> Option<FoodState> {
    let bought = match &cook.item(item).origin {
        Origin::Food(stock) | Origin::Ingredient(stock) => stock.shape.structure.as_ref(),
        _ => None,
    };
    let placed = cook.phases.iter().filter(|phase| phase.placings.iter().any(|placing| placing.item == item));
    let structure = bought.into_iter().chain(placed.filter_map(|phase| phase.shape.structure.as_ref()));
    structure.last().and_then(|structure| match structure.value {
        Structure::Ground => Some(FoodState::Ground),
        Structure::Tenderised => Some(FoodState::Tenderised),
        Structure::Injected => Some(FoodState::Injected),
        Structure::Intact => None,
    })
}

/// It is no salt, sugar, oil or paper. In doubt it does.
fn carries_microbes(item: &Item) -> bool {
    let dry = |kind: &FoodKind| keeping(kind) == Keeping::Dry;
    match (&item.kind, &item.origin) {
        (_, Origin::OnTap) => false,
        (Some(kind), _) => !dry(&kind.value),
        (None, Origin::Food(stock) | Origin::Ingredient(stock)) => match recognise(words_of(item, stock)) {
            Some(Recognised::Pantry) => false,
            Some(Recognised::Kind(kind)) => !dry(&kind),
            Some(Recognised::Plant) | None => true,
        },
        (None, Origin::Made(_) | Origin::Collected { .. }) => true,
    }
}

/// The ways that the core may go in one phase, of which one kills least: s from its start, and °C.
///
/// A phase that ends at a temperature lasts the longer the colder it goes. Any other may be cold and short at once.
pub(super) fn ways(stay: &Stay) -> Vec<Vec<(f64, f64)>> {
    let Band { low, typical, high } = stay.lasts_s;
    match stay.alone_s {
        Some(_) => vec![
            stay.along(high, 1.0, |instant| instant.low_c),
            stay.along(typical, 1.0, |instant| instant.core_c),
            stay.along(low, 1.0, |instant| instant.high_c),
        ],
        None => vec![stay.along(low, 1.0, |instant| instant.low_c)],
    }
}
