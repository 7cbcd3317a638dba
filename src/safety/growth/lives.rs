//! How far each organism grows in each food, phase by phase along the usual prediction.
//!
//! Each phase is taken on its own clock, as the rules take it, and as long as it may last by the cook's choice. Heat that
//! kills a millionfold ends a count where heat undoes the growth.

use std::collections::BTreeMap;

use super::super::control::declared_ph;
use super::super::history::History;
use super::super::lot::Keeping;
use super::super::microbes::{Exposure, Sort, exposure, organisms};
use super::super::microbial::{Line, sorts, ways};
use super::super::stock::{keeping, raw_structure};
use crate::cook::{Cook, Item, ItemId, Origin, Phase, PhaseId, Purpose};
use crate::heat::{Curves, FoodCurve, Stay};
use crate::tables::microbes::{Counts, GrowthLimit, Microbes, Organism, Survives};
use crate::tables::{FoodState, Species};

/// A reduction by this many powers of ten leaves nothing of what has grown: what 2 min at 70 °C do to *Listeria*.
const CLEARED_LOG10: f64 = 6.0;
/// More acid food than this is not what the figures were measured in.
const MEASURED_FROM_PH: f64 = 5.5;
/// The lines that are counted. How far off the prediction may be is left to its own ±.
const LINES: [Line; 2] = [Line::UsualCore, Line::Surface];

/// The most that an organism has grown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Most {
    pub log10: f64,
    /// Where most of it is.
    pub phase: PhaseId,
    pub along: Line,
}

/// Growth that is counted together, in natural logarithms.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Tally {
    ln: f64,
    /// The phase with the most of it, and how much.
    mostly: Option<(PhaseId, f64)>,
}

impl Tally {
    fn add(&mut self, phase: PhaseId, ln: f64) {
        self.ln += ln;
        if ln > 0.0 && self.mostly.is_none_or(|(_, most)| ln > most) {
            self.mostly = Some((phase, ln));
        }
    }

    fn worse(self, other: Self) -> Self {
        if other.ln > self.ln { other } else { self }
    }
}

/// One organism in one food, up to now.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Count {
    /// Since the last heat that undoes it, along each of [`LINES`].
    now: [Tally; 2],
    /// The most that was ever counted in food that had been cooked.
    peak: [Tally; 2],
    killed_log10: f64,
}

/// What a food has been through up to some moment.
#[derive(Debug, Clone)]
struct Life {
    counts: BTreeMap<&'static str, Count>,
    /// It has been cooked, here or before it was bought.
    cooked: bool,
    /// Salt, acid or a culture: the figures do not hold.
    otherwise: bool,
}

pub struct Lives<'c> {
    cook: &'c Cook,
    curves: &'c Curves,
    /// By the phase whose start it is known up to.
    known: BTreeMap<(ItemId, u64), Life>,
}

impl<'c> Lives<'c> {
    pub fn new(cook: &'c Cook, curves: &'c Curves) -> Self {
        Self { cook, curves, known: BTreeMap::new() }
    }

    /// Every organism that has a limit, with the most of it that the limit is about.
    pub fn most(&mut self, food: &FoodCurve) -> Vec<(&'static Organism, &'static GrowthLimit, Most)> {
        let sorts = sorts(self.cook, food.item);
        let life = self.until(food, f64::INFINITY);
        if life.otherwise {
            return Vec::new();
        }
        let as_eaten = self.is_eaten_so(food);
        let most = |organism: &'static Organism| {
            let count = life.counts.get(organism.name.as_str())?;
            let limit = organism.limit.as_ref()?;
            let tallies = match limit.counts {
                Counts::Always => count.now,
                Counts::AfterHeat if life.cooked => count.peak,
                Counts::AfterHeat | Counts::WhenEaten if as_eaten => count.now,
                Counts::AfterHeat | Counts::WhenEaten => return None,
            };
            let lines =
                LINES.into_iter().zip(tallies).filter(|(line, _)| counts_along(organism, &sorts, *line));
            let (along, tally) = lines.max_by(|one, other| one.1.ln.total_cmp(&other.1.ln))?;
            let whole = Exposure { reduction_log10: None, grown_ln: tally.ln };
            let (phase, _) = tally.mostly?;
            Some((organism, limit, Most { log10: whole.growth_log10(organism), phase, along }))
        };
        organisms(&sorts).filter_map(most).collect()
    }

    /// Nothing heats it or turns it into another food after what is predicted of it.
    fn is_eaten_so(&self, food: &FoodCurve) -> bool {
        let last = food.stays.iter().map(|stay| stay.phase).max();
        !self.cook.phases().any(|(id, phase)| {
            let heats = matches!(phase.purpose, Purpose::Cook | Purpose::Reheat);
            (last.is_none_or(|last| id > last) && heats || phase.becomes.is_some()) && holds(phase, food.item)
        })
    }

    /// Of the phases that start before `until_s`.
    fn until(&mut self, food: &FoodCurve, until_s: f64) -> Life {
        let key = (food.item, until_s.to_bits());
        if let Some(known) = self.known.get(&key) {
            return known.clone();
        }
        let sorts = sorts(self.cook, food.item);
        let mut life = self.bought(food.item);
        for stay in &food.stays {
            let Some(times) = self.curves.phases.iter().find(|times| times.phase == stay.phase) else {
                continue;
            };
            if times.start_s < until_s {
                self.joining(&mut life, food.item, stay.phase, times.start_s);
                add(self.cook, &mut life, food.item, &sorts, stay);
            }
        }
        self.known.insert(key, life.clone());
        life
    }

    fn bought(&self, item: ItemId) -> Life {
        let item_id = item;
        let item = self.cook.item(item);
        let bought = matches!(item.origin, Origin::Food(_) | Origin::Ingredient(_));
        let ready = |kind: &crate::tables::FoodKind| raw_structure(kind).is_none();
        let kind = item.kind.as_ref().map(|kind| &*kind.value);
        let soured = self.cook.phases.iter().any(|phase| {
            let cultured = matches!(phase.purpose, Purpose::Cure | Purpose::Ferment);
            holds(phase, item_id) && (cultured || declared_ph(phase).is_some_and(|ph| ph < MEASURED_FROM_PH))
        });
        Life {
            counts: BTreeMap::new(),
            cooked: bought && kind.is_some_and(ready),
            otherwise: soured
                || is_sour(item)
                || kind.is_some_and(|kind| Microbes::built_in().not_in(&kind.name)),
        }
    }

    /// What comes together with `item` as `phase` starts.
    fn joining(&mut self, life: &mut Life, item: ItemId, phase: PhaseId, start_s: f64) {
        let phase = self.cook.phase(phase);
        let made = phase.becomes.as_ref().is_some_and(|becomes| becomes.item == item);
        let placed = phase.placings.iter().map(|placing| placing.item).filter(|_| made);
        let others: Vec<ItemId> = placed.chain(phase.uses.iter().map(|draw| draw.item)).collect();
        for other in others.into_iter().filter(|other| *other != item) {
            let Some(food) = self.curves.foods.iter().find(|food| food.item == other) else {
                life.otherwise |= made && self.bought(other).otherwise;
                continue;
            };
            let other = self.until(food, start_s);
            life.cooked |= other.cooked;
            life.otherwise |= other.otherwise;
            for (name, theirs) in other.counts {
                life.counts.entry(name).and_modify(|ours| *ours = ours.with(&theirs)).or_insert(theirs);
            }
        }
    }
}

impl Count {
    /// Mixed with other food: the worse of both counts.
    fn with(self, other: &Self) -> Self {
        Self {
            now: [self.now[0].worse(other.now[0]), self.now[1].worse(other.now[1])],
            peak: [self.peak[0].worse(other.peak[0]), self.peak[1].worse(other.peak[1])],
            killed_log10: self.killed_log10.min(other.killed_log10),
        }
    }
}

/// One phase. What grows before its hottest moment is there to be killed, what grows after it is not.
fn add(cook: &Cook, life: &mut Life, item: ItemId, sorts: &[Sort], stay: &Stay) {
    let lasts_s = if stay.alone_s.is_some() { stay.lasts_s.typical } else { stay.lasts_s.high };
    let core = stay.along(lasts_s, 1.0, |instant| instant.core_c);
    let surface = stay.along(lasts_s, 1.0, |instant| instant.surface_c);
    let Some(hottest) = (0..core.len()).max_by(|one, other| core[*one].1.total_cmp(&core[*other].1)) else {
        return;
    };
    let lines = [&core, &surface];
    let looked_at: Vec<&'static Organism> =
        organisms(sorts).filter(|organism| organism.limit.is_some()).collect();
    let raw_plant =
        cook.item(item).kind.as_ref().is_some_and(|kind| keeping(&kind.value) == Keeping::RawPlant);
    for organism in &looked_at {
        let count = life.counts.entry(organism.name.as_str()).or_default();
        // What lives on a whole raw vegetable does not spoil it in a cupboard.
        if !raw_plant || life.cooked {
            for (tally, line) in count.now.iter_mut().zip(lines) {
                tally.add(stay.phase, grown(organism, sorts, &line[..=hottest]));
            }
        }
        let killed = ways(stay)
            .into_iter()
            .filter_map(|way| exposure(organism, sorts, &History::from_celsius(way).ok()?).reduction_log10);
        count.killed_log10 += killed.min_by(f64::total_cmp).unwrap_or(0.0);
        if count.killed_log10 >= CLEARED_LOG10 {
            life.cooked = true;
            count.killed_log10 = 0.0;
            if organism.survives != Some(Survives::Toxin) {
                count.now = Default::default();
            }
        }
    }
    for organism in &looked_at {
        let count = life.counts.entry(organism.name.as_str()).or_default();
        if !raw_plant || life.cooked {
            for ((tally, peak), line) in count.now.iter_mut().zip(&mut count.peak).zip(lines) {
                tally.add(stay.phase, grown(organism, sorts, &line[hottest..]));
                if life.cooked {
                    *peak = peak.worse(*tally);
                }
            }
        }
    }
}

fn grown(organism: &Organism, sorts: &[Sort], points: &[(f64, f64)]) -> f64 {
    let history = History::from_celsius(points.iter().copied()).ok();
    history.map_or(0.0, |history| exposure(organism, sorts, &history).grown_ln)
}

/// In whole, untouched muscle they live on the outside; spores are taken to be anywhere.
fn counts_along(organism: &Organism, sorts: &[Sort], line: Line) -> bool {
    let muscle = |sort: &Sort| {
        sort.state == FoodState::Intact
            && !matches!(sort.species, Species::Egg | Species::Dairy | Species::Vegetable | Species::Grain)
    };
    line == Line::Surface || organism.survives == Some(Survives::Spores) || !sorts.iter().all(muscle)
}

fn holds(phase: &Phase, item: ItemId) -> bool {
    phase.placings.iter().any(|placing| placing.item == item)
        || phase.becomes.as_ref().is_some_and(|becomes| becomes.item == item)
}

fn is_sour(item: &Item) -> bool {
    let (Origin::Food(stock) | Origin::Ingredient(stock)) = &item.origin else { return false };
    stock.shape.ph.as_ref().is_some_and(|ph| ph.value < MEASURED_FROM_PH)
}
