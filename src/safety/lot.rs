//! A food as it stands between two phases, with the history it carries.

use super::declared::{Heat, Times};
use super::stock::{Recognised, keeping, raw_structure, recognise, words_of};
use crate::cook::{Cook, Item, ItemId, Origin, PhaseId, Purpose, Stock, Structure};
use crate::quantity::{Duration, Temperature};
use crate::tables::{FoodKind, FoodState, Species};
use crate::text::Span;

/// How a food keeps, the least demanding first; a mixture is as demanding as its worst part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Keeping {
    /// Keeps in a cupboard: bread, fat, salt.
    Dry,
    /// Raw dough: it keeps once it is baked.
    Dough,
    /// A raw plant, or stock that nobody describes: it needs control once it is cooked.
    RawPlant,
    /// Needs temperature or time control. What is in doubt is here.
    Controlled,
}

/// A kill that a raw food still owes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Need {
    pub item: ItemId,
    pub species: Species,
    pub structure: Structure,
    /// The heat that it has had in this run of phases.
    pub heats: Vec<(PhaseId, Heat)>,
    /// How cold it was kept in a freezer, and for how long at least.
    pub freezes: Vec<(Temperature, Duration)>,
    /// Where it went, raw, into food that nothing has to be done to.
    pub met: Option<(PhaseId, Span, ItemId)>,
}

impl Need {
    pub fn is_plant(&self) -> bool {
        matches!(self.species, Species::Vegetable | Species::Grain | Species::Other | Species::Dairy)
    }

    /// Nothing has been done about it.
    pub fn untouched(&self) -> bool {
        self.heats.is_empty()
    }
}

/// More heat than this in one run, or more kills owed at once, is no real cook: the oldest are taken
/// together, so that a long file costs no more than its length.
const MOST_HEATS: usize = 12;
const MOST_NEEDS: usize = 16;
const MOST_NAMED: usize = 8;

/// Adds the heat of a phase.
fn add(heats: &mut Vec<(PhaseId, Heat)>, phase: PhaseId, heat: Heat) {
    if heats.len() >= MOST_HEATS {
        let (_, first) = heats.remove(0);
        if let Some((_, second)) = heats.first_mut() {
            // As much heat as the two can have given: what is taken together is never a fault by that.
            second.sure = first.sure.into_iter().chain(second.sure).reduce(Temperature::max);
            second.most = first.most.zip(second.most).map(|(one, other)| one.max(other));
            second.surface = first.surface.into_iter().chain(second.surface).reduce(Temperature::max);
            second.longest = first.longest + second.longest;
            second.shortest = first.shortest + second.shortest;
        }
    }
    heats.push((phase, heat));
}

/// One food, with what is known of it from declared figures.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lot {
    pub keeping: Keeping,
    pub needs: Vec<Need>,
    /// Salt, acid and time stand in for heat: not judged yet.
    pub hurdles: bool,
    /// A line of its history could not be read.
    pub unsure: bool,
    pub cooked: bool,
    pub bought_cooked: bool,
    /// Some of it was bought cooked and is no milk or cheese: a word does not make it keep.
    pub ready: bool,
    /// Stock in it whose words nobody recognises.
    pub unrecognised: Option<ItemId>,
    /// It comes out of a freezer, or was bought frozen.
    pub frozen: bool,
    /// The cooking rule that a whole roast rests on.
    pub cooked_by: Option<String>,
    /// It was cooked, and has been cold since.
    pub leftover: bool,
    /// It comes out of the cold, and has had this heat since.
    pub cold: bool,
    pub warming: Vec<(PhaseId, Heat)>,
    /// Neither hot nor cold for so long, since it began or was last heated.
    pub out: Times,
    /// What may be more: heat that is not proved has come between, or a checkpoint says it was hot.
    pub out_perhaps: Duration,
    pub out_in: Vec<PhaseId>,
    pub out_told: bool,
    /// Cured or fermented outside the cold for so long: whether that keeps it is not judged.
    pub unproved: Times,
    /// It came from the shop neither hot nor cold.
    pub began_warm: bool,
    /// The phase it was in last.
    pub last: Option<PhaseId>,
    /// Cooling for so long since it was last hot.
    pub cooling: Times,
    /// In the cold for so long since it was made.
    pub stored: Times,
    pub ph: Option<f64>,
}

impl Lot {
    fn new(keeping: Keeping) -> Self {
        Self {
            keeping,
            needs: Vec::new(),
            hurdles: false,
            unsure: false,
            cooked: false,
            bought_cooked: false,
            ready: false,
            unrecognised: None,
            frozen: false,
            cooked_by: None,
            leftover: false,
            cold: true,
            warming: Vec::new(),
            out: Times::default(),
            out_perhaps: Duration::ZERO,
            out_in: Vec::new(),
            out_told: false,
            unproved: Times::default(),
            began_warm: false,
            last: None,
            cooling: Times::default(),
            stored: Times::default(),
            ph: None,
        }
    }

    /// Raw animal food that has had no heat.
    pub fn is_raw(&self) -> bool {
        self.needs.iter().any(|need| !need.is_plant() && need.untouched())
    }

    /// Nothing more has to be done to it before it is eaten.
    pub fn is_ready(&self) -> bool {
        !self.is_raw() && (self.cooked || self.keeping == Keeping::Controlled)
    }

    /// Stock as it comes from the store.
    pub fn bought(cook: &Cook, id: ItemId) -> Self {
        let item = cook.item(id);
        match &item.origin {
            Origin::Food(stock) | Origin::Ingredient(stock) => Self::from_stock(id, item, stock),
            Origin::OnTap => Self::new(Keeping::Dry),
            // Used before it was made: a finding has said so.
            Origin::Made(_) | Origin::Collected { .. } => {
                Self { unsure: true, ..Self::new(Keeping::Controlled) }
            }
        }
    }

    fn from_stock(id: ItemId, item: &Item, stock: &Stock) -> Self {
        let ingredient = matches!(item.origin, Origin::Ingredient(_));
        let kind = item.kind.as_ref().map(|kind| kind.value.clone());
        let recognised = kind.map(Recognised::Kind).or_else(|| recognise(words_of(item, stock)));
        let kind = match recognised {
            Some(Recognised::Kind(kind)) => kind,
            Some(Recognised::Pantry) if said_cooked(stock) => {
                return Self {
                    cooked: true,
                    bought_cooked: true,
                    leftover: true,
                    ready: true,
                    ..Self::new(Keeping::Controlled)
                };
            }
            Some(Recognised::Pantry) => return Self::new(Keeping::RawPlant),
            None if ingredient => {
                return Self { unrecognised: Some(id), ..Self::new(Keeping::RawPlant) };
            }
            None => return Self::new(Keeping::Controlled),
        };
        let words = stock.description.to_lowercase();
        let cooked = said_cooked(stock);
        let mut lot = Self::new(keeping(&kind));
        lot.ph = stock.shape.ph.as_ref().map(|ph| ph.value);
        if let Some(structure) = raw_structure(&kind).filter(|_| !cooked) {
            let structure = stock.shape.structure.as_ref().map_or(structure, |said| said.value);
            lot.needs.push(Need {
                item: id,
                species: kind.species,
                structure,
                heats: Vec::new(),
                freezes: Vec::new(),
                met: None,
            });
        } else {
            lot.cooked = lot.keeping == Keeping::Controlled;
            lot.bought_cooked = lot.cooked;
            lot.leftover = lot.cooked;
            lot.ready = lot.cooked && kind.species != Species::Dairy;
        }
        let below_zero = |at: Temperature| at < Temperature::from_celsius(0.0);
        lot.frozen = stock.frozen.is_some()
            || words.contains("frozen")
            || stock.starts_at.as_ref().is_some_and(|starts| below_zero(starts.value));
        lot
    }

    /// What several foods are together: the worst of the parents.
    pub fn mixed(lots: Vec<Lot>) -> Self {
        let mut lots = lots.into_iter();
        let Some(mut all) = lots.next() else { return Self::new(Keeping::RawPlant) };
        for lot in lots {
            all.take_in(lot);
        }
        all
    }

    /// `other` is mixed in.
    pub fn take_in(&mut self, other: Lot) {
        // What is wet keeps worse than what is dry, and dough with butter in it is still dough.
        self.keeping = self.keeping.max(other.keeping);
        other.needs.into_iter().for_each(|need| self.owe(need));
        self.hurdles |= other.hurdles;
        self.unsure |= other.unsure;
        self.cooked |= other.cooked;
        self.bought_cooked &= other.bought_cooked;
        self.ready |= other.ready;
        self.unrecognised = self.unrecognised.or(other.unrecognised);
        self.frozen |= other.frozen;
        self.cooked_by = None;
        self.leftover |= other.leftover;
        // Something cold in something hot: how warm the two are is not declared.
        self.cold &= other.cold;
        other.warming.into_iter().for_each(|(phase, heat)| add(&mut self.warming, phase, heat));
        if other.out.longest > self.out.longest {
            self.out_in = other.out_in;
            self.out_told = other.out_told;
        }
        self.began_warm |= other.began_warm;
        self.last = None;
        self.out = worse(self.out, other.out);
        self.out_perhaps = self.out_perhaps.max(other.out_perhaps);
        self.unproved = worse(self.unproved, other.unproved);
        self.cooling = worse(self.cooling, other.cooling);
        self.stored = worse(self.stored, other.stored);
        self.ph = None;
    }

    /// One more kill is owed.
    fn owe(&mut self, need: Need) {
        let alike = |other: &Need| other.species == need.species && other.structure == need.structure;
        let same = |other: &Need| alike(other) && other.item == need.item && other.heats == need.heats;
        let crowded = self.needs.len() >= MOST_NEEDS;
        if !self.needs.iter().any(|other| same(other) || (crowded && alike(other))) {
            self.needs.push(need);
        }
    }

    /// It stands in the room for a phase.
    pub fn left_out(&mut self, phase: PhaseId, times: Times) {
        self.out = self.out + times;
        if self.out_in.len() >= MOST_NAMED {
            self.out_in.remove(0);
        }
        self.out_in.push(phase);
    }

    /// What `use` without `becomes` passes on: rawness, not substance.
    pub fn touch(&mut self, other: &Lot) {
        other.needs.iter().filter(|need| !need.is_plant()).for_each(|need| self.owe(need.clone()));
        self.hurdles |= other.hurdles;
        self.unsure |= other.unsure;
        self.unrecognised = self.unrecognised.or(other.unrecognised);
    }

    fn has_flesh(&self) -> bool {
        self.needs.iter().any(|need| !need.is_plant() && need.species != Species::Egg)
    }

    /// The writer says what it now is, or what has been done to the muscle.
    pub fn named(&mut self, kind: &FoodKind) {
        match kind.state {
            // A word makes bread of dough, but it does not make meat or cooked beans keep.
            FoodState::Dough | FoodState::Baked | FoodState::Fat if !self.has_flesh() && !self.ready => {
                self.keeping = keeping(kind);
            }
            _ => self.keeping = self.keeping.max(keeping(kind)),
        }
        if let Some(structure) = raw_structure(kind) {
            self.restructured(structure);
        }
    }

    pub fn restructured(&mut self, structure: Structure) {
        self.cooked_by = None;
        for need in &mut self.needs {
            // Nothing makes a whole muscle of mince.
            if structure != Structure::Intact {
                need.structure = structure;
            }
        }
    }

    /// It is heated. `through` where the whole of it is hot by the end, for certain: its clocks start
    /// afresh. Otherwise the time before may still count.
    pub fn heated(&mut self, phase: PhaseId, purpose: Purpose, heat: Heat, through: bool) {
        for need in &mut self.needs {
            add(&mut need.heats, phase, heat);
        }
        if matches!(purpose, Purpose::Cook | Purpose::Reheat) {
            add(&mut self.warming, phase, heat);
            self.out_perhaps = if through { Duration::ZERO } else { self.out_perhaps + self.out.longest };
            self.began_warm &= !through;
            if through {
                self.unproved = Times::default();
            }
            self.frozen = false;
            self.out = Times::default();
            self.out_in.clear();
            self.cooling = Times::default();
            self.keeping = match self.keeping {
                Keeping::Dough => Keeping::Dry,
                Keeping::RawPlant => Keeping::Controlled,
                other => other,
            };
        }
        if purpose == Purpose::Cook {
            self.cooked = true;
            self.stored = Times::default();
        }
    }

    /// It was cooked, or bought hot, and nothing has cooled it since.
    pub fn comes_hot(&self) -> bool {
        !self.unsure && self.cooked && !(self.cold && self.warming.is_empty())
    }

    /// Kept in a freezer that gets no warmer than this.
    pub fn frozen_at(&mut self, warmest: Temperature, at_least: Duration) {
        self.needs.iter_mut().filter(|need| need.freezes.len() < MOST_HEATS).for_each(|need| {
            need.freezes.push((warmest, at_least));
        });
    }

    pub fn chilled(&mut self) {
        self.leftover |= self.cooked;
        self.cold = true;
        self.warming.clear();
    }
}

fn said_cooked(stock: &Stock) -> bool {
    let words = stock.description.to_lowercase();
    stock.cooked.is_some() || ["cooked", "pasteuris", "pasteuriz"].iter().any(|word| words.contains(word))
}

fn worse(one: Times, other: Times) -> Times {
    Times {
        shortest: one.shortest.max(other.shortest),
        planned: one.planned.max(other.planned),
        longest: one.longest.max(other.longest),
    }
}
