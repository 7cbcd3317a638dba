//! Predictive microbiology: what a temperature over time does to the microbes in a food. Knows one history and what the
//! food is, and no cook.
//!
//! Every figure is a prediction, good to about one log10 either way: tenfold. What the models do not say:
//!
//! - growth is never taken back by later heat: toxins and spores outlast it;
//! - no killing counts below 54.4 °C, and none is known for *B. cereus* and *S. aureus*;
//! - what survives heat grows on without a new wait, and there is always something that survives;
//! - the figures were measured in plain moist food: salt, acid and nitrite slow growth down, dry and fat food protects
//!   from heat.
//!
//! Sources and status of each figure stand in `src/tables/data/microbes.toml`.

mod growing;
mod killing;
mod piece;

pub use growing::{grown_ln, growth_log10, rate_per_h};
pub use killing::reduction_log10;

use super::history::History;
use crate::tables::microbes::{Microbes, Organism};
use crate::tables::{FoodState, Species};

/// What a food is, as far as microbes care.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Sort {
    pub species: Species,
    pub state: FoodState,
}

/// What one organism has been through in a food; adds up over time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exposure {
    /// log10 reduction; `None` where no published figure is good enough.
    pub reduction_log10: Option<f64>,
    /// Growth in natural logarithms, before any wait or ceiling.
    pub grown_ln: f64,
}

impl Exposure {
    /// log10 of how many times more there are: as many as if nothing had been killed.
    pub fn growth_log10(&self, organism: &Organism) -> f64 {
        growth_log10(self.grown_ln, organism.growth.q0, Microbes::built_in().ceiling.log10)
    }
}

/// The organisms to look at in a food, or in a mixture of several. Empty for food too dry for these figures.
pub fn organisms(sorts: &[Sort]) -> impl Iterator<Item = &'static Organism> {
    Microbes::built_in().organisms.iter().filter(move |organism| {
        let applies = |sort: &Sort| organism.applies.iter().any(|of| of.includes(sort.species, sort.state));
        sorts.iter().any(applies)
    })
}

/// What a history does to an organism. In a mixture it is killed as slowly as in the part that protects it best.
pub fn exposure(organism: &Organism, sorts: &[Sort], history: &History) -> Exposure {
    let credit_min_c = Microbes::built_in().credit.min_c;
    let sets = organism.lethality.iter().filter(|set| {
        let fits = |sort: &Sort| set.of.includes(sort.species, sort.state);
        sorts.iter().any(fits)
    });
    Exposure {
        reduction_log10: sets
            .map(|set| reduction_log10(&set.lines, history, credit_min_c))
            .min_by(f64::total_cmp),
        grown_ln: grown_ln(&organism.growth, history),
    }
}
