//! Which part of a log belongs to which phases: by what is said, else by how the core runs.

mod blocks;
mod limits;

use blocks::{Block, before_the_log, blocks, ends_before, told};
use limits::Limits;

use super::Logged;
use super::readings::Readings;
use crate::cook::{Cook, ItemId, PhaseId, Purpose};
use crate::findings::{Code, Finding};
use crate::quantity::Duration;
use crate::say;
use crate::tables::{Aim, RuleSet};

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

impl Stretch {
    /// How long it is.
    pub fn lasts(&self) -> Duration {
        Duration::from_seconds(self.end_s - self.start_s)
    }
}

pub(super) struct Found {
    pub stretches: Vec<Stretch>,
    pub missing: Vec<String>,
    /// The log ends early.
    pub early: Option<Finding>,
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
