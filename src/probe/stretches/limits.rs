//! Where a stretch ends, as the core shows it.

use super::Kind;
use super::blocks::Block;
use crate::cook::Test;
use crate::quantity::Temperature;
use crate::tables::{Demand, RuleSet};

/// Food this far above what it was is cold no longer, °C, and below it hot no longer, whatever the rules. Common practice,
/// no source; only where the log itself does not show better.
const WARM_C: f64 = 40.0;
/// So far below its hottest a core still stands, K.
const STANDS_K: f64 = 0.5;
/// A core that is never warm has fallen for good once it is so much below its hottest, K.
const FALLEN_K: f64 = 10.0;

/// What counts as hot and as cold.
pub struct Limits {
    hot_c: f64,
    cold_c: f64,
}

impl Limits {
    /// The lowest that some set lets hot food be, and the coldest that some set wants cold food to be.
    pub fn of(rules: &[&RuleSet]) -> Self {
        let general = || rules.iter().flat_map(|set| &set.rules).filter(|rule| rule.foods.is_empty());
        let hot = general().filter_map(|rule| match &rule.demand {
            Demand::HotHold { min, after: None } => Some(min.lowest().celsius()),
            _ => None,
        });
        let cold = general().filter_map(|rule| match &rule.demand {
            Demand::ColdHold { max } => Some(max.highest().celsius()),
            _ => None,
        });
        // Sets without such a rule: the figures that most have.
        Self {
            hot_c: hot.min_by(f64::total_cmp).unwrap_or(60.0),
            cold_c: cold.min_by(f64::total_cmp).unwrap_or(5.0),
        }
    }

    /// It is as cold, or as hot, as it was to become: then it may be over sooner than was planned.
    pub fn arrived(&self, block: &Block, points: &[(f64, f64)]) -> bool {
        match block.kind {
            Kind::Cool => points.last().is_some_and(|(_, c)| *c <= self.cold_c),
            Kind::Heat | Kind::Reheat { .. } => wanted_core(block)
                .zip(hottest(points))
                .is_some_and(|(core, (_, hottest_c))| hottest_c >= core.celsius() - 1e-9),
            Kind::Thaw | Kind::HotHold | Kind::ColdHold => false,
        }
    }

    /// Where a block ends and the next begins, and how that shows. `None`: it does not show.
    pub fn end(&self, block: &Block, next: &Block, rest: &[(f64, f64)]) -> Option<(f64, &'static str)> {
        let last_of = |points: &[(f64, f64)], holds: &dyn Fn(f64) -> bool| {
            points.iter().rev().find(|(_, c)| holds(*c)).map(|(t, _)| *t)
        };
        match (block.kind, next.kind) {
            (from, Kind::HotHold) if from.is_hot() => {
                let hot = hot_part(rest);
                let reached = wanted_core(block).and_then(|core| {
                    let reaches = hot.iter().find(|(_, c)| *c >= core.celsius() - 1e-9);
                    reaches.map(|(t, _)| (*t, "until the core reached what the phase waits for"))
                });
                reached.or_else(|| Some((hottest(hot)?.0, "until the core was hottest")))
            }
            (Kind::HotHold, Kind::Cool | Kind::ColdHold) => {
                let hot = hot_part(rest);
                let at = last_of(hot, &|c| c >= self.hot_c)
                    .or_else(|| last_of(hot, &|c| c >= hottest(hot).map_or(c, |top| top.1) - STANDS_K));
                at.map(|at| (at, "until the core was last as hot as a hot hold has to be"))
            }
            (from, Kind::Cool | Kind::ColdHold) if from.is_hot() => {
                let hot = hot_part(rest);
                let top = hottest(hot)?.1;
                Some((last_of(hot, &|c| c >= top - STANDS_K)?, "until the core began to fall for good"))
            }
            (Kind::Cool, Kind::ColdHold) => {
                let cold = rest.iter().find(|(_, c)| *c <= self.cold_c);
                cold.map(|(t, _)| (*t, "until the core was as cold as a cold hold has to be"))
            }
            (from, to) if !from.is_hot() && to.is_hot() => {
                // Past what is still falling it is cold, and then warm.
                let falls = rest.iter().position(|(_, c)| *c <= self.cold_c).unwrap_or(0);
                let cold = &rest[falls..];
                let warm = cold.iter().position(|(_, c)| *c >= WARM_C)?;
                let cold = &cold[..warm];
                let least = cold.iter().map(|(_, c)| *c).min_by(f64::total_cmp)?;
                let at = last_of(cold, &|c| c <= self.cold_c)
                    .or_else(|| last_of(cold, &|c| c <= least + STANDS_K));
                at.map(|at| (at, "until the core began to rise for good"))
            }
            _ => None,
        }
    }
}

/// What the last phase waits for.
fn wanted_core(block: &Block) -> Option<Temperature> {
    let (_, phase) = block.phases.last()?;
    phase.until.iter().flat_map(|until| &until.tests).find_map(|test| match test.value {
        Test::Core(core) => Some(core),
        _ => None,
    })
}

fn hottest(points: &[(f64, f64)]) -> Option<(f64, f64)> {
    points.iter().copied().max_by(|one, other| one.1.total_cmp(&other.1))
}

/// Up to where the core has fallen for good.
fn hot_part(points: &[(f64, f64)]) -> &[(f64, f64)] {
    let mut top = f64::NEG_INFINITY;
    let fallen = points.iter().position(|(_, c)| {
        top = top.max(*c);
        *c < WARM_C.min(top - FALLEN_K)
    });
    &points[..fallen.unwrap_or(points.len())]
}
