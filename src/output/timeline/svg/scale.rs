//! Where a minute stands, and the clock along the top.

use crate::output::drawing::{Anchor, Drawing, LINE, MARGIN, WIDTH, width};
use crate::output::timeline::day_name;
use crate::timing::{Clock, DAY, Minute, PhaseLine, Reading, Timeline, Wall};

pub const LEFT: f64 = MARGIN;
pub const RIGHT: f64 = WIDTH - MARGIN;
/// Minutes between two times on the clock.
const TICKS: [Minute; 12] = [5, 10, 15, 30, 60, 120, 180, 240, 360, 720, 1440, 2880];
const MOST_TICKS: Minute = 12;
/// How much wider the letters of a day come out.
const BOLD: f64 = 1.2;

pub struct Scale {
    clock: Clock,
    from: Minute,
    to: Minute,
    step: Minute,
}

impl Scale {
    /// Whether a phase has its place on the clock.
    pub fn holds(phase: &PhaseLine) -> bool {
        phase.start.is_some() && phase.end.is_some()
    }

    /// Of all phases that are timed; `None` where none is.
    pub fn of(plan: &Timeline) -> Option<Self> {
        let starts = plan.phases.iter().filter_map(|phase| Some(phase.start?.earliest));
        let ends = plan.phases.iter().filter_map(|phase| Some(phase.start?.latest.max(phase.end?.latest)));
        let (first, last) = (starts.min()?, ends.max()?);
        let fits = |step: &Minute| (last - first) / step < MOST_TICKS;
        let step = TICKS.into_iter().find(fits).unwrap_or_else(|| {
            // Longer than anything on the list: whole days.
            ((last - first) / MOST_TICKS / 1440 + 1) * 1440
        });
        // On the hour as it stands on the wall, so that it can be read.
        let from = first - plan.clock.wall(first).rem_euclid(step.min(60));
        Some(Self { clock: plan.clock, from, to: last.max(from + 1), step })
    }

    pub fn x(&self, minute: Minute) -> f64 {
        let share = (minute - self.from) as f64 / (self.to - self.from) as f64;
        LEFT + share.clamp(0.0, 1.0) * (RIGHT - LEFT)
    }

    /// Days and times from `y` down; gives where the rows begin.
    pub fn draw(&self, drawing: &mut Drawing, y: f64) -> f64 {
        let days = self.days();
        // Two levels, so that a short first evening keeps its name beside the day after.
        let levels = days.len().min(2);
        let mut free = [f64::NEG_INFINITY; 2];
        for (minute, day) in days {
            let (x, name) = (self.x(minute), day_name(&self.clock, day));
            let room = BOLD * width(&name);
            let x = x.min(RIGHT - room);
            if let Some(level) = (0..levels).find(|&level| free[level] <= x) {
                drawing.text(x, y + LINE * (level + 1) as f64, "dish", Anchor::Start, &name);
                free[level] = x + room + 10.0;
            }
        }
        let times = y + LINE * (levels + 1) as f64;
        let mut free = f64::NEG_INFINITY;
        for minute in self.ticks() {
            let (x, time) = (self.x(minute), self.clock.time_of_day(minute));
            let half = width(&time) / 2.0;
            let (at, anchor) = match x {
                x if x - half < LEFT => (LEFT, Anchor::Start),
                x if x + half > RIGHT => (RIGHT, Anchor::End),
                x => (x, Anchor::Middle),
            };
            if x - half >= free {
                drawing.text(at, times, "", anchor, &time);
                free = x + half + 4.0;
            }
        }
        times + 6.0
    }

    /// A line down from each time that is marked, and a stronger one where a day begins.
    pub fn grid(&self, drawing: &mut Drawing, top: f64, bottom: f64) {
        for minute in self.ticks() {
            drawing.line("grid", (self.x(minute), top), (self.x(minute), bottom));
        }
        for (minute, _) in self.days().into_iter().skip(1) {
            drawing.line("day", (self.x(minute), top), (self.x(minute), bottom));
        }
        drawing.line("axis", (LEFT, top), (RIGHT, top));
    }

    /// Every full step of the clock on the wall; a time that it jumps over has no mark.
    fn ticks(&self) -> Vec<Minute> {
        let step = self.step;
        let (first, last) = (self.clock.wall(self.from), self.clock.wall(self.to));
        let walls = (first.div_euclid(step)..=last.div_euclid(step)).map(|n| n * step);
        walls
            .filter_map(|wall| match self.clock.read(wall) {
                Reading::One(minute) | Reading::Twice(minute, _) => Some(minute),
                Reading::Skipped(_) => None,
            })
            .filter(|minute| (self.from..=self.to).contains(minute))
            .collect()
    }

    /// The first minute of each day that shows, and the day.
    fn days(&self) -> Vec<(Minute, Wall)> {
        let (first, last) = (self.clock.day(self.from), self.clock.day(self.to));
        let later = (first + 1..=last).map(|day| (self.clock.read(day * DAY).first(), day));
        std::iter::once((self.from, first)).chain(later).collect()
    }
}
