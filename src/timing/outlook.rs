//! How a plan may go on: what follows from what nature does, and until when she may take.

mod branches;
mod overruns;
mod settled;

pub use branches::{Branch, Case, Then};
pub use overruns::{Give, Overrun};

use self::settled::Settled;
use super::clock::Minute;
use super::network::{Behind, Lasts, Network};
use super::solution::Solution;
use super::timeline::OnTime;

/// More phases that nature ends are not looked at one by one.
const MOST_NATURAL: usize = 60;

/// Empty where the plan promises nothing, or nature ends too much.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outlook {
    /// How many phases nature ends, where those are too many to be looked at.
    pub too_many: Option<usize>,
    pub branches: Vec<Branch>,
    /// In the order of the clock.
    pub overruns: Vec<Overrun>,
}

/// A phase by its name, and the dish that it is of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    pub cook: String,
    pub phase: String,
    /// How much of it is behind.
    pub gone: Minute,
}

/// Of a network and the plan that is shown of it; `named` tells what its steps are called.
pub fn outlook(network: &Network, plan: &Solution, named: &dyn Fn(usize) -> Named) -> Outlook {
    let promised = matches!(plan.on_time, OnTime::Always | OnTime::IfLucky);
    let natural = natural(network);
    if !promised || plan.windows.len() != network.steps.len() {
        return Outlook::default();
    }
    if natural.len() > MOST_NATURAL {
        return Outlook { too_many: Some(natural.len()), ..Outlook::default() };
    }
    let settled = Settled::of(network, plan);
    let branches = match &settled {
        Some(settled) if plan.on_time == OnTime::Always => branches::all(settled, &natural, named),
        _ => Vec::new(),
    };
    let mut overruns = overruns::all(network, plan, settled.as_ref(), &natural, named);
    overruns.sort_by_key(|overrun| overrun.longest);
    Outlook { branches, overruns, too_many: None }
}

impl Outlook {
    /// What is of one dish.
    pub fn of(&self, cook: &str) -> Self {
        let mut own = self.clone();
        own.branches.retain(|branch| branch.cook == cook);
        own.overruns.retain(|overrun| overrun.cook == cook);
        own
    }
}

/// The steps that nature will end.
fn natural(network: &Network) -> Vec<usize> {
    let ends = |n: &usize| {
        let step = &network.steps[*n];
        let over = matches!(step.behind, Some(Behind::Over { .. }));
        matches!(step.lasts, Lasts::Nature { low, high, .. } if low < high) && !over
    };
    (0..network.steps.len()).filter(ends).collect()
}
