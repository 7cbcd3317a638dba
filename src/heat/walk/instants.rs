//! What a run shows: its moments with their bounds, and the core as it ends.

use super::Walker;
use super::alone::Alone;
use crate::heat::band::Band;
use crate::heat::conduction::field::Field;
use crate::heat::conduction::material::Material;
use crate::heat::envelope::Instant;
use crate::heat::lines::{COARSE_K, Detail, reaches};

/// Instants of a phase, at most; more than a plot or a table has use for.
const MOST_INSTANTS: usize = 160;
/// The same where nobody sees the curve, closer together at the start, where it bends: straight lines between so many cut
/// off less of a smooth curve than a coarse run is off.
const MOST_FOR_RULES: usize = 48;
/// Instants of a food in a whole cook, at most, but for [`FEWEST_INSTANTS`] in each phase.
const MOST_IN_ALL: usize = 10_000;
const FEWEST_INSTANTS: usize = 8;
/// Nothing is looked at more closely than this, s.
const CLOSEST_S: f64 = 30.0;

impl Walker<'_> {
    pub(super) fn most_instants(&self) -> usize {
        let most = if self.detail == Detail::Ends { MOST_FOR_RULES } else { MOST_INSTANTS };
        (MOST_IN_ALL / self.cook.phases.len().max(1)).clamp(FEWEST_INSTANTS, most)
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
