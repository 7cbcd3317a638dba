//! A food as it stands between two phases, with the history it carries.

use super::declared::{Heat, Times};
use super::need::{MOST_HEATS, Need, add};
use super::report::About;
use super::stock::{keeping, raw_structure};
use super::trail::Trails;
use crate::cook::{ItemId, PhaseId, Purpose, Structure};
use crate::quantity::{Duration, Temperature};
use crate::tables::{FoodKind, FoodState, Species};

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

/// What heat does to the time that a food was neither hot nor cold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Clock {
    /// The whole of it is hot by the end, for certain: the time starts afresh.
    Restarts,
    /// Perhaps it is: the time before may still count.
    Perhaps,
    /// It may be, but too little is declared for it to be taken for granted: the time before counts on, and
    /// what comes of it is in doubt.
    Doubtful,
    /// It cannot be: the time before counts on.
    RunsOn,
}

/// More kills owed at once, or more phases to name, is no real cook, and a long file costs no more than
/// its length.
const MOST_NEEDS: usize = 16;
const MOST_NAMED: usize = 8;

/// One food, with what is known of it from declared figures.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lot {
    pub keeping: Keeping,
    pub needs: Vec<Need>,
    /// Salt, acid and time stand in for heat: not judged yet.
    pub hurdles: bool,
    /// It was cured, and there is salt or curing salt in it.
    pub cured: bool,
    pub salted: bool,
    /// It is oil; and there are plants in the oil that have seen no acid.
    pub oil: bool,
    pub under_oil: bool,
    /// Raw milk or cream in it that has not been heated.
    pub raw_milk: Option<ItemId>,
    /// It was cooked, cooled and heated up again, here first.
    pub reheated: Option<PhaseId>,
    /// A line of its history could not be read.
    pub unsure: bool,
    pub cooked: bool,
    pub bought_cooked: bool,
    /// There is a plant of the pantry list in it: grain, pulse, vegetable.
    pub plant: bool,
    /// Some of it was bought cooked and is no milk or cheese, or was meat, egg, grain or pulse and has been
    /// cooked here: no word makes it keep.
    pub past_words: bool,
    /// It was cooked here into food that needs control: it may still go into a dough, but calling it bread
    /// does not make it keep.
    pub cooked_wet: bool,
    /// Stock in it whose words nobody recognises.
    pub unrecognised: Option<ItemId>,
    /// It comes out of a freezer, or was bought frozen.
    pub frozen: bool,
    /// It is in a sealed bag.
    pub bagged: bool,
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
    /// In which phases, or waiting for them, and for how long at most.
    pub out_in: Vec<(PhaseId, Duration)>,
    pub out_told: bool,
    /// Kept hot or cold for so long as nothing says: no setting, and no check.
    pub unsaid: Duration,
    /// Heat that may have started the time afresh has come between, and was too little to rely on.
    pub out_in_doubt: bool,
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
    /// Where it and its parents have been.
    pub trails: Trails,
    /// The phase that cools it after the heat, as long as the prediction has not been asked.
    pub cooling_began: Option<About>,
}

impl Lot {
    pub(super) fn new(keeping: Keeping) -> Self {
        Self {
            keeping,
            needs: Vec::new(),
            hurdles: false,
            cured: false,
            salted: false,
            oil: false,
            under_oil: false,
            raw_milk: None,
            reheated: None,
            unsure: false,
            cooked: false,
            bought_cooked: false,
            plant: false,
            past_words: false,
            cooked_wet: false,
            unrecognised: None,
            frozen: false,
            bagged: false,
            cooked_by: None,
            leftover: false,
            cold: true,
            warming: Vec::new(),
            out: Times::default(),
            out_perhaps: Duration::ZERO,
            out_in: Vec::new(),
            out_told: false,
            unsaid: Duration::ZERO,
            out_in_doubt: false,
            unproved: Times::default(),
            began_warm: false,
            last: None,
            cooling: Times::default(),
            stored: Times::default(),
            ph: None,
            trails: Trails::default(),
            cooling_began: None,
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
        self.cured |= other.cured;
        self.salted |= other.salted;
        self.raw_milk = self.raw_milk.or(other.raw_milk);
        self.reheated = self.reheated.or(other.reheated);
        self.unsure |= other.unsure;
        self.cooked |= other.cooked;
        self.bought_cooked &= other.bought_cooked;
        self.plant |= other.plant;
        self.past_words |= other.past_words;
        self.cooked_wet |= other.cooked_wet;
        // A cover is lost with a new one, and a name is none.
        self.bagged |= other.bagged;
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
            self.out_in_doubt = other.out_in_doubt;
        }
        self.began_warm |= other.began_warm;
        self.last = None;
        self.out = worse(self.out, other.out);
        self.out_perhaps = self.out_perhaps.max(other.out_perhaps);
        self.unproved = worse(self.unproved, other.unproved);
        self.unsaid = self.unsaid.max(other.unsaid);
        self.cooling = worse(self.cooling, other.cooling);
        self.stored = worse(self.stored, other.stored);
        self.ph = None;
        self.trails.take_in(other.trails);
        self.cooling_began = self.cooling_began.or(other.cooling_began);
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
        self.out_in.push((phase, times.longest));
    }

    /// What `use` without `becomes` passes on: rawness, not substance.
    pub fn touch(&mut self, other: &Lot) {
        other.needs.iter().filter(|need| !need.is_plant()).for_each(|need| self.owe(need.clone()));
        self.hurdles |= other.hurdles;
        self.salted |= other.salted;
        self.raw_milk = self.raw_milk.or(other.raw_milk);
        self.unsure |= other.unsure;
        self.unrecognised = self.unrecognised.or(other.unrecognised);
    }

    /// Fresh garlic, herbs or vegetables: not what is dried.
    pub fn is_plant(&self) -> bool {
        self.plant || self.needs.iter().any(|need| need.species == Species::Vegetable)
    }

    /// What lies in oil, without air and without acid, does not keep in a cupboard.
    pub fn laid_in_oil(&mut self) {
        self.under_oil = true;
        self.keeping = Keeping::Controlled;
    }

    fn has_flesh(&self) -> bool {
        self.needs.iter().any(|need| !need.is_plant() && need.species != Species::Egg)
    }

    fn may_keep(&self) -> bool {
        !self.has_flesh() && !self.past_words
    }

    /// The writer says what it now is, or what has been done to the muscle. `baked` where the phase that
    /// says so heats it.
    pub fn named(&mut self, kind: &FoodKind, baked: bool) {
        let may_be_bread = !self.cooked_wet && (baked || self.keeping != Keeping::Controlled);
        match kind.state {
            // A word makes dough of flour and milk, and bread of dough, before it is baked. It does not make
            // keep what is cooked by then.
            FoodState::Dough if self.may_keep() => self.keeping = keeping(kind),
            FoodState::Baked | FoodState::Fat if self.may_keep() && may_be_bread => {
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

    /// It is heated; `clock` says what becomes of the time that it was neither hot nor cold.
    pub fn heated(&mut self, phase: PhaseId, purpose: Purpose, heat: Heat, clock: Clock) {
        for need in &mut self.needs {
            add(&mut need.heats, phase, heat);
        }
        if matches!(purpose, Purpose::Cook | Purpose::Reheat) {
            add(&mut self.warming, phase, heat);
            match clock {
                Clock::Restarts => {
                    self.out_perhaps = Duration::ZERO;
                    self.began_warm = false;
                    self.unproved = Times::default();
                }
                Clock::Perhaps => self.out_perhaps = self.out_perhaps + self.out.longest,
                Clock::Doubtful => self.out_in_doubt |= self.out.longest > Duration::ZERO,
                Clock::RunsOn => {}
            }
            if matches!(clock, Clock::Restarts | Clock::Perhaps) {
                self.out = Times::default();
                self.unsaid = Duration::ZERO;
                self.out_in.clear();
                self.out_in_doubt = false;
            }
            self.frozen = false;
            self.cooling = Times::default();
            self.keeping = match self.keeping {
                Keeping::Dough => Keeping::Dry,
                Keeping::RawPlant => Keeping::Controlled,
                other => other,
            };
            if self.keeping == Keeping::Controlled {
                self.cooked_wet = true;
                // Scalded milk and a paste of flour owe no kill, and are baked into bread.
                self.past_words |= self.plant || !self.needs.is_empty();
            }
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

fn worse(one: Times, other: Times) -> Times {
    Times {
        shortest: one.shortest.max(other.shortest),
        planned: one.planned.max(other.planned),
        longest: one.longest.max(other.longest),
    }
}
