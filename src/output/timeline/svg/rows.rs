//! A row for each phase: its name and times, and below them its bar.

use super::scale::{RIGHT, Scale};
use crate::output::curve::words::shorten;
use crate::output::drawing::{Anchor, Drawing, LINE, MARGIN, width};
use crate::output::timeline::words;
use crate::timing::{PhaseLine, Timeline, Window};

/// How high a bar is.
pub const BAR: f64 = 9.0;
const ROW: f64 = LINE + BAR + 8.0;
/// The least that shows of what lasts a moment.
const LEAST: f64 = 3.0;
/// Characters of a name that is not cut.
const NAME: usize = 58;
const KIT: usize = 30;

/// Draws the clock and all rows from `y` down; gives where they end.
pub fn draw(drawing: &mut Drawing, plan: &Timeline, scale: &Scale, phases: &[&PhaseLine], y: f64) -> f64 {
    let top = scale.draw(drawing, y + 4.0);
    let dishes = if plan.is_menu() { phases.chunk_by(|a, b| a.cook == b.cook).count() } else { 0 };
    let bottom = top + phases.len() as f64 * ROW + dishes as f64 * (LINE + 6.0) + 4.0;
    for &(from, to) in &plan.asleep {
        let (left, right) = (scale.x(from), scale.x(to + 1));
        drawing.rect("night", (left, top), (right - left, bottom - top));
    }
    scale.grid(drawing, top, bottom);
    let mut y = top;
    for dish in phases.chunk_by(|a, b| a.cook == b.cook) {
        if plan.is_menu() {
            y += LINE + 6.0;
            drawing.text(MARGIN, y, "dish", Anchor::Start, &shorten(&dish[0].cook, 80));
        }
        for phase in dish {
            row(drawing, plan, scale, phase, y);
            y += ROW;
        }
    }
    bottom
}

fn row(drawing: &mut Drawing, plan: &Timeline, scale: &Scale, phase: &PhaseLine, y: f64) {
    let (Some(start), Some(end)) = (phase.start, phase.end) else { return };
    let last = end.latest.max(start.latest);
    let (left, right) = (scale.x(start.earliest), scale.x(last));
    let right = right.max(left + LEAST).min(RIGHT);
    let left = left.min(right - LEAST);
    let whole = Window { earliest: start.earliest, latest: last };
    let time = |minute| plan.clock.time_of_day(minute);
    let times = if whole.earliest == whole.latest {
        time(last)
    } else {
        format!("{} to {}", time(whole.earliest), time(last))
    };
    let label = format!("{}, {times}", named(phase));
    // Above its bar, and to the left of it where it would run over the edge.
    let (x, anchor) =
        if left + width(&label) <= RIGHT { (left, Anchor::Start) } else { (RIGHT, Anchor::End) };
    drawing.text(x, y + LINE - 4.0, "", anchor, &label);
    let bar = y + LINE;
    striped(drawing, left, right, bar);
    if start.latest < end.earliest {
        let (from, to) = (scale.x(start.latest), scale.x(end.earliest));
        drawing.rect("sure", (from, bar), ((to - from).max(LEAST.min(right - from)), BAR));
    }
    let of_it = |job: &&crate::timing::JobLine| job.cook == phase.cook && job.phase == phase.name;
    for job in plan.jobs.iter().filter(of_it).filter(|job| job.hands > 0) {
        hands(drawing, scale.x(job.at.earliest), bar + BAR);
    }
}

/// A bar of stripes in a frame, on white paper and on the night alike.
pub fn striped(drawing: &mut Drawing, left: f64, right: f64, y: f64) {
    drawing.line("perhaps", (left, y + BAR / 2.0), (right, y + BAR / 2.0));
    drawing.rect("frame", (left, y), (right - left, BAR));
}

/// A mark on the lower edge of a bar.
pub fn hands(drawing: &mut Drawing, x: f64, y: f64) {
    drawing.polygon("hands", [(x - 4.0, y + 6.0), (x + 4.0, y + 6.0), (x, y - 1.0)].into_iter());
}

/// "smoke: cabinet".
fn named(phase: &PhaseLine) -> String {
    let kit = phase.kit.as_ref().map_or_else(String::new, |kit| format!(": {}", shorten(kit, KIT)));
    format!("{}{kit}", shorten(&phase.name, NAME))
}

/// "smoke: cabinet, 22:30 to 04:55 (Saturday)": from the first minute it may start to the last it may end.
pub fn told(plan: &Timeline, phase: &PhaseLine) -> String {
    let name = words::named(&phase.cook, &named(phase), plan.is_menu());
    let (Some(start), Some(end)) = (phase.start, phase.end) else { return name };
    let whole = Window { earliest: start.earliest, latest: end.latest.max(start.latest) };
    format!("{name}, {}", words::times(&plan.clock, whole))
}
