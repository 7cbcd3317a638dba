//! One way that a cook may go: what is not known exactly, made exact.

use crate::cook::{Cook, ItemId, Phase, PhaseId};
use crate::heat::band::Band;
use crate::heat::surroundings::Surroundings;

/// What is not known of a piece of kit, and is taken to stay what it is for as long as the cook lasts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum OfKit {
    Film,
    Medium,
    Humidity,
}
const OF_KIT: usize = 3;

/// What is not known of a food, under whatever name it goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum OfFood {
    Wetness,
    Drying,
    Thickness,
    Start,
}
const OF_FOOD: usize = 4;

/// Where the share of each uncertain figure stands in a row of them: the table that food is served from, each piece of
/// kit, each food, how long each phase lasts.
#[derive(Debug, Clone)]
pub struct Layout {
    kits: usize,
    foods: usize,
    phases: usize,
    /// By item: the food that it is another name of.
    roots: Vec<usize>,
}

impl Layout {
    pub fn of(cook: &Cook) -> Self {
        let mut roots: Vec<usize> = (0..cook.items.len()).collect();
        for phase in &cook.phases {
            if let (Some(becomes), [only], []) = (&phase.becomes, &phase.placings[..], &phase.uses[..]) {
                roots[becomes.item.0 as usize] = roots[only.item.0 as usize];
            }
        }
        Self { kits: cook.kit.len() + 1, foods: cook.items.len(), phases: cook.phases.len(), roots }
    }

    /// How many shares there are.
    pub fn len(&self) -> usize {
        OF_KIT * self.kits + OF_FOOD * self.foods + self.phases
    }

    /// The same food under two names?
    pub fn kin(&self, one: ItemId, other: ItemId) -> bool {
        self.roots[one.0 as usize] == self.roots[other.0 as usize]
    }

    fn kit(&self, phase: &Phase, figure: OfKit) -> usize {
        phase.place.as_ref().map_or(0, |place| place.value.0 as usize + 1) * OF_KIT + figure as usize
    }

    fn food(&self, item: ItemId, figure: OfFood) -> usize {
        OF_KIT * self.kits + self.roots[item.0 as usize] * OF_FOOD + figure as usize
    }

    fn phase(&self, id: PhaseId) -> usize {
        OF_KIT * self.kits + OF_FOOD * self.foods + id.0 as usize
    }

    /// The places of what a reading of `item` tells of, taken in one of `phases`.
    pub fn told<'l>(
        &'l self,
        item: ItemId,
        phases: impl Iterator<Item = (PhaseId, &'l Phase)> + 'l,
    ) -> impl Iterator<Item = usize> + 'l {
        let food = self.food(item, OfFood::Wetness);
        let around = phases.flat_map(move |(id, phase)| {
            let kit = self.kit(phase, OfKit::Film);
            (kit..kit + OF_KIT).chain([self.phase(id)])
        });
        (food..food + OF_FOOD).chain(around)
    }
}

/// A share for each figure: 0 the least that it may be, 1 the most, none the usual one.
#[derive(Debug, Clone)]
pub struct Trial<'l> {
    pub layout: &'l Layout,
    pub shares: Vec<Option<f64>>,
    /// How many times as thick as written every food is.
    pub thicker: f64,
    /// How much warmer than written everything around the food is, K.
    pub warmer_k: f64,
}

impl<'l> Trial<'l> {
    /// Everything as it usually is.
    pub fn usual(layout: &'l Layout) -> Self {
        Self { layout, shares: vec![None; layout.len()], thicker: 1.0, warmer_k: 0.0 }
    }

    /// What lies around `item` in `phase`.
    pub fn around(&self, around: Surroundings, phase: &Phase, item: ItemId) -> Surroundings {
        let kit = |band: Band, figure| self.exactly(band, self.layout.kit(phase, figure));
        let drying = self.shares[self.layout.food(item, OfFood::Drying)];
        let medium_c = kit(around.medium_c, OfKit::Medium);
        Surroundings {
            medium_c: medium_c.plus(Band::exact(self.warmer_k)),
            film_w_m2k: kit(around.film_w_m2k, OfKit::Film),
            humidity_ratio: kit(around.humidity_ratio, OfKit::Humidity),
            wetness: self.exactly(around.wetness, self.layout.food(item, OfFood::Wetness)),
            ..match drying {
                Some(share) => around.drying_after(share),
                None => around,
            }
        }
    }

    pub fn thickness_m(&self, band: Band, item: ItemId) -> f64 {
        self.thicker * self.exactly(band, self.layout.food(item, OfFood::Thickness)).typical
    }

    /// Where the food starts, as a share of what it may start at.
    pub fn start(&self, item: ItemId) -> Option<f64> {
        self.shares[self.layout.food(item, OfFood::Start)]
    }

    /// How long a phase lasts.
    pub fn lasts(&self, band: Band, id: PhaseId) -> Band {
        self.exactly(band, self.layout.phase(id))
    }

    fn exactly(&self, band: Band, place: usize) -> Band {
        Band::exact(self.shares[place].map_or(band.typical, |share| band.at(share)))
    }
}
