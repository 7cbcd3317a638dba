//! A kill that a raw food still owes, and the heat that it has had towards it.

use super::declared::Heat;
use crate::cook::{ItemId, PhaseId, Structure};
use crate::quantity::{Duration, Temperature};
use crate::tables::{Species, Subject};
use crate::text::Span;

/// A kill that a raw food still owes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Need {
    pub item: ItemId,
    pub species: Species,
    pub structure: Structure,
    /// Its row of the food table.
    pub name: String,
    /// The heat that it has had in this run of phases.
    pub heats: Vec<(PhaseId, Heat)>,
    /// How cold it was kept in a freezer, and for how long at least.
    pub freezes: Vec<(Temperature, Duration)>,
    /// Where it went, raw, into food that nothing has to be done to.
    pub met: Option<(PhaseId, Span, ItemId)>,
}

impl Need {
    pub fn subject(&self) -> Subject<'_> {
        let (species, structure) = (self.species, Some(self.structure));
        Subject { species, structure, name: &self.name, cured: None }
    }

    pub fn is_plant(&self) -> bool {
        matches!(self.species, Species::Vegetable | Species::Grain | Species::Other | Species::Dairy)
    }

    /// Nothing has been done about it.
    pub fn untouched(&self) -> bool {
        self.heats.is_empty()
    }
}

/// More heat than this in one run is no real cook: the oldest are taken together, so that a long file
/// costs no more than its length.
pub(super) const MOST_HEATS: usize = 12;

/// Adds the heat of a phase.
pub(super) fn add(heats: &mut Vec<(PhaseId, Heat)>, phase: PhaseId, heat: Heat) {
    if heats.len() >= MOST_HEATS {
        let (_, first) = heats.remove(0);
        if let Some((_, second)) = heats.first_mut() {
            // As much heat as the two can have given: what is taken together is never a fault by that.
            second.sure = first.sure.into_iter().chain(second.sure).reduce(Temperature::max);
            second.most = first.most.zip(second.most).map(|(one, other)| one.max(other));
            second.surface = first.surface.into_iter().chain(second.surface).reduce(Temperature::max);
            second.longest = first.longest + second.longest;
            second.shortest = first.shortest + second.shortest;
            second.beside |= first.beside;
        }
    }
    heats.push((phase, heat));
}
