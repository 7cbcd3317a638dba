//! What the clock on the wall shows so many seconds after the start of the cook.

use crate::output::timeline::day_name;
use crate::timing::{Clock, Minute, Timeline, Window};

/// Further from the start than any cook goes, in seconds. Beyond it a clock time says nothing.
const FAR_S: f64 = 1e9;

/// When the clock says that a cook starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Start {
    clock: Clock,
    window: Window,
    /// Not the plan's, but the one that was.
    given: bool,
}

impl Start {
    /// `None` where the timeline times nothing.
    pub fn of(timeline: &Timeline) -> Option<Self> {
        timeline.start.map(|window| Self { clock: timeline.clock, window, given: false })
    }

    /// When the cook really started.
    pub fn given(clock: Clock, minute: Minute) -> Self {
        Self { clock, window: Window { earliest: minute, latest: minute }, given: true }
    }

    /// `18:30`, `t_s` seconds after the earliest start.
    pub(super) fn time_of_day(self, t_s: f64) -> String {
        let minutes = (t_s.clamp(-FAR_S, FAR_S) / 60.0).round() as Minute;
        self.clock.time_of_day(self.window.earliest + minutes)
    }

    /// Which start the clock times belong to.
    pub(super) fn said(self) -> String {
        if self.given {
            let day = day_name(&self.clock, self.clock.day(self.window.earliest));
            return format!(
                "Clock times are for the start that was given, {}, {day}, and no waiting. The plan of \
                 `dwell timeline` does not move to it.",
                self.time_of_day(0.0)
            );
        }
        let earliest = if self.window.earliest == self.window.latest { "a" } else { "the earliest" };
        let day = day_name(&self.clock, self.clock.day(self.window.earliest));
        let at = self.time_of_day(0.0);
        format!(
            "Clock times are for {earliest} start at {at}, {day}, and no waiting. `dwell timeline` has the plan."
        )
    }
}
