//! Which part of a log belongs to which phases: by what is said, else by how the core runs.

use super::readings::Readings;
use super::{Logged, line};
use crate::cook::{Cook, ItemId, Phase, PhaseId, Purpose, Test};
use crate::findings::{Code, Finding};
use crate::quantity::{Duration, Temperature};
use crate::say;
use crate::tables::{Aim, Demand, RuleSet};

/// What a stretch of a log is judged as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Thaw,
    Heat,
    HotHold,
    Cool,
    ColdHold,
    /// `held`: before a hot hold.
    Reheat {
        held: bool,
    },
}

impl Kind {
    pub(super) fn of(purpose: Purpose) -> Option<Self> {
        match purpose {
            Purpose::Thaw => Some(Self::Thaw),
            Purpose::Cook => Some(Self::Heat),
            Purpose::HotHold => Some(Self::HotHold),
            Purpose::Cool => Some(Self::Cool),
            Purpose::ColdHold => Some(Self::ColdHold),
            Purpose::Reheat => Some(Self::Reheat { held: false }),
            _ => None,
        }
    }

    pub(super) fn aims(self) -> &'static [Aim] {
        match self {
            Self::Thaw => &[Aim::Thaw],
            Self::Heat => &[Aim::Cook, Aim::ComeUp],
            Self::HotHold => &[Aim::HotHold],
            Self::Cool => &[Aim::Cool],
            Self::ColdHold => &[Aim::ColdHold],
            Self::Reheat { held: true } => &[Aim::ReheatToHold],
            Self::Reheat { held: false } => &[Aim::ReheatNow],
        }
    }

    pub fn words(self) -> &'static str {
        match self {
            Self::Thaw => "thawing",
            Self::Heat => "cooking",
            Self::HotHold => "hot hold",
            Self::Cool => "cooling",
            Self::ColdHold => "cold hold",
            Self::Reheat { .. } => "reheating",
        }
    }

    fn is_hot(self) -> bool {
        matches!(self, Self::Heat | Self::HotHold | Self::Reheat { .. })
    }
}

/// A part of the log and what it was taken for.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    pub kind: Kind,
    /// "smoke, set-crust".
    pub phases: String,
    /// The one that findings point to.
    pub(super) last: PhaseId,
    pub start_s: f64,
    pub end_s: f64,
    /// How its end was found, in a cook's words.
    pub because: &'static str,
    /// The log ends before it does.
    pub cut_off: bool,
}

pub(super) struct Found {
    pub stretches: Vec<Stretch>,
    pub missing: Vec<String>,
    /// The log ends early.
    pub early: Option<Finding>,
}

/// Phases in a row that are judged as one.
struct Block<'c> {
    kind: Kind,
    /// Those that a temperature judges.
    phases: Vec<(PhaseId, &'c Phase)>,
    /// The others until the next block starts.
    after: Vec<PhaseId>,
}

impl Block<'_> {
    fn names(&self) -> String {
        let names: Vec<&str> = self.phases.iter().map(|(_, phase)| phase.name.as_str()).collect();
        names.join(", ")
    }

    fn last(&self) -> PhaseId {
        self.phases[self.phases.len() - 1].0
    }
}

pub(super) fn find(cook: &Cook, item: ItemId, rules: &[&RuleSet], logged: &Logged<'_>) -> Found {
    let readings = Readings::core(logged.log);
    let points = readings.points();
    let (Some(first), Some(last)) = (points.first(), points.last()) else {
        return Found { stretches: Vec::new(), missing: Vec::new(), early: None };
    };
    let blocks = blocks(cook, item, logged.only);
    let over = |block: &&Block| logged.only.is_none() && before_the_log(block, logged, first.0);
    let over = blocks.iter().take_while(over).count();
    let limits = Limits::of(rules);
    let missing = blocks[..over].iter().map(Block::names).collect();
    let mut found = Found { stretches: Vec::new(), missing, early: None };
    let blocks = &blocks[over..];
    let mut start_s = first.0;
    let mut lost = false;
    for (nth, block) in blocks.iter().enumerate() {
        let told = told(block, logged);
        if lost {
            // Only what is said can bring the log and the cook together again.
            if let Some(end_s) = told {
                (start_s, lost) = (end_s, false);
            }
            found.missing.push(block.names());
            continue;
        }
        let next = blocks.get(nth + 1);
        let (end_s, because) = match (told, next) {
            (Some(end_s), _) => (end_s, "as you said"),
            (None, None) => (f64::INFINITY, "until the log ends"),
            (None, Some(next)) => {
                let rest = &points[points.partition_point(|(t, _)| *t < start_s)..];
                limits.end(block, next, rest).unwrap_or((f64::INFINITY, "until the log ends"))
            }
        };
        lost = end_s >= last.0 && next.is_some();
        let cut_off = (lost && told.is_none_or(|end_s| end_s > last.0))
            || (next.is_none()
                && logged.only.is_none()
                && ends_before(block, logged, last.0)
                && !limits.arrived(block, &points[points.partition_point(|(t, _)| *t < start_s)..]));
        found.stretches.push(Stretch {
            kind: block.kind,
            phases: block.names(),
            last: block.last(),
            start_s,
            end_s: end_s.min(last.0),
            because,
            cut_off,
        });
        start_s = end_s;
    }
    let cut_off = found.stretches.iter().find(|stretch| stretch.cut_off);
    found.early = cut_off.filter(|_| logged.only.is_none()).map(|stretch| {
        Finding::new(
            Code::LogEndsEarly,
            logged.end,
            say![format!(
                "The log ends in `{}`, before that is over; what came later is not judged.",
                stretch.phases
            )],
            say![
                "Go on measuring to the end. If a phase ended earlier, say so: `--done \"NAME=6 h 5 min\"`."
            ],
        )
    });
    found
}

fn blocks<'c>(cook: &'c Cook, item: ItemId, only: Option<PhaseId>) -> Vec<Block<'c>> {
    let phases = line::phases(cook, &line::of(cook, item));
    let mut blocks: Vec<Block> = Vec::new();
    for (id, phase) in phases {
        match (Kind::of(phase.purpose), blocks.last_mut()) {
            (Some(kind), Some(last)) if last.kind == kind && only.is_none() => {
                last.phases.push((id, phase));
                last.after.clear();
            }
            (Some(kind), _) => blocks.push(Block { kind, phases: vec![(id, phase)], after: Vec::new() }),
            (None, Some(last)) => last.after.push(id),
            (None, None) => {}
        }
    }
    let held: Vec<bool> =
        (0..blocks.len()).map(|n| blocks.get(n + 1).is_some_and(|next| next.kind == Kind::HotHold)).collect();
    for (block, held) in blocks.iter_mut().zip(held) {
        if let Kind::Reheat { held: before } = &mut block.kind {
            *before = held;
        }
    }
    if let Some(only) = only {
        blocks.retain(|block| block.phases.iter().any(|(id, _)| *id == only));
    }
    blocks
}

fn planned(
    logged: &Logged<'_>,
    phase: PhaseId,
    end: impl Fn(&crate::heat::PhaseTimes) -> f64,
) -> Option<f64> {
    let times = logged.planned.iter().find(|times| times.phase == phase)?;
    Some(logged.cook_starts_s? + end(times)).filter(|end_s| end_s.is_finite())
}

fn before_the_log(block: &Block, logged: &Logged<'_>, first_s: f64) -> bool {
    planned(logged, block.last(), |times| times.end_latest_s).is_some_and(|end_s| end_s < first_s)
}

fn ends_before(block: &Block, logged: &Logged<'_>, last_s: f64) -> bool {
    planned(logged, block.last(), |times| times.end_earliest_s).is_some_and(|end_s| end_s > last_s)
}

/// The last moment at which somebody said that it, or what follows before the next block, was done.
fn told(block: &Block, logged: &Logged<'_>) -> Option<f64> {
    let ends = |id: &PhaseId| logged.done.iter().find(|(phase, _)| phase == id).map(|(_, end_s)| *end_s);
    block.after.iter().rev().find_map(ends).or_else(|| ends(&block.last()))
}

/// Food this far above what it was is cold no longer, °C, and below it hot no longer, whatever the rules. Common practice,
/// no source; only where the log itself does not show better.
const WARM_C: f64 = 40.0;
/// So far below its hottest a core still stands, K.
const STANDS_K: f64 = 0.5;
/// A core that is never warm has fallen for good once it is so much below its hottest, K.
const FALLEN_K: f64 = 10.0;

/// What counts as hot and as cold.
struct Limits {
    hot_c: f64,
    cold_c: f64,
}

impl Limits {
    /// The lowest that some set lets hot food be, and the coldest that some set wants cold food to be.
    fn of(rules: &[&RuleSet]) -> Self {
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
    fn arrived(&self, block: &Block, points: &[(f64, f64)]) -> bool {
        match block.kind {
            Kind::Cool => points.last().is_some_and(|(_, c)| *c <= self.cold_c),
            Kind::Heat | Kind::Reheat { .. } => wanted_core(block)
                .zip(hottest(points))
                .is_some_and(|(core, (_, hottest_c))| hottest_c >= core.celsius() - 1e-9),
            Kind::Thaw | Kind::HotHold | Kind::ColdHold => false,
        }
    }

    /// Where a block ends and the next begins, and how that shows. `None`: it does not show.
    fn end(&self, block: &Block, next: &Block, rest: &[(f64, f64)]) -> Option<(f64, &'static str)> {
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

/// How long a stretch is.
impl Stretch {
    pub fn lasts(&self) -> Duration {
        Duration::from_seconds(self.end_s - self.start_s)
    }
}
