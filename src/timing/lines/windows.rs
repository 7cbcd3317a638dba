//! The windows of a network that is proved, or hoped for.

use super::{Model, Outcome};
use crate::timing::clock::Minute;
use crate::timing::needs::LONGEST;
use crate::timing::stnu::Bound;
use crate::timing::timeline::Window;

impl Model<'_> {
    /// The windows of a proof. The start of the whole is tried at both its ends: every minute between
    /// two that win wins too, for all the bounds are convex.
    pub(super) fn proved(&mut self) -> Option<Outcome> {
        let count = self.stnu.nodes;
        let windows = self.stnu.controllable()?.windows(count)?;
        let first = self.nodes.iter().map(|node| node[0]).min_by_key(|&node| windows[node])?;
        let (low, high) = windows[first];
        let at = |minute: Minute| Bound { from: 0, to: first, low: minute, high: minute };
        let low = self.nearest(low, high, &at)?;
        let high = -self.nearest(-high, -low, &|minute| at(-minute))?;
        self.stnu.bounds.push(Bound { from: 0, to: first, low, high });
        let windows = self.stnu.controllable()?.windows(count)?;
        let start = self.window(windows[first]);
        Some(Outcome::Proved(start, self.step_windows(&windows)))
    }

    /// The first minute from `low` on at which the bound holds, if there is one up to `high`.
    fn nearest(&self, low: Minute, high: Minute, bound: &dyn Fn(Minute) -> Bound) -> Option<Minute> {
        let holds = |minute: Minute| {
            let mut tried = self.stnu.clone();
            tried.bounds.push(bound(minute));
            tried.controllable().is_some()
        };
        // A bound nobody set leaves the start open; nothing is gained by going back for ever.
        let low = low.max(high - 14 * 24 * 60);
        if holds(low) {
            return Some(low);
        }
        let (mut fails, mut wins) =
            (low, (low..=high).step_by(5).chain([high]).find(|&minute| holds(minute))?);
        while wins - fails > 1 {
            let middle = fails + (wins - fails) / 2;
            if holds(middle) { wins = middle } else { fails = middle }
        }
        Some(wins)
    }

    pub(super) fn hopeful_windows(&self) -> Option<Vec<(Window, Window)>> {
        Some(self.step_windows(&self.stnu.hopeful()?))
    }

    fn step_windows(&self, windows: &[(Minute, Minute)]) -> Vec<(Window, Window)> {
        let of = |node: usize| self.window(windows[node]);
        self.nodes.iter().map(|&[start, end]| (of(start), of(end))).collect()
    }

    fn window(&self, (earliest, latest): (Minute, Minute)) -> Window {
        let latest = latest.min(earliest + LONGEST);
        Window { earliest: earliest + self.zero, latest: latest + self.zero }
    }
}
