//! The plan as a picture in letters: a line for each phase, time from left to right, the night dotted.

use unicode_width::UnicodeWidthStr;

use super::page::{Page, WIDTH};
use crate::output::clean;
use crate::timing::{Minute, PhaseLine, Timeline};

/// Columns for the names.
const NAMES: usize = 18;
/// Minutes that a column may stand for.
const STEPS: [Minute; 9] = [5, 10, 15, 20, 30, 60, 120, 240, 480];
/// Minutes between two times on the scale.
const TICKS: [Minute; 8] = [30, 60, 120, 180, 240, 360, 720, 1440];
/// The room that a time takes on the scale.
const TICK_ROOM: Minute = 6;

const SURE: char = '█';
const PERHAPS: char = '▒';
const NIGHT: char = '·';

pub(super) fn draw(page: &mut Page, timeline: &Timeline) {
    let timed = || timeline.phases.iter().filter_map(|phase| Some((phase, phase.start?, phase.end?)));
    let Some(first) = timed().map(|(_, start, _)| start.earliest).min() else { return };
    let last = timed().map(|(_, start, end)| end.latest.max(start.latest + 1)).max().unwrap_or(first + 1);
    let room = (WIDTH - NAMES - 4) as Minute;
    let Some(step) = STEPS.into_iter().find(|step| (last - first) / step + 2 <= room) else { return };
    // On the hour as it stands on the wall, so that the scale can be read.
    let from = first - (timeline.clock.wall(first)).rem_euclid(step);
    let columns = (last - from + step - 1) / step;
    page.heading("At a glance");
    let night = if timeline.asleep.is_empty() { "" } else { "; · nobody is awake" };
    page.line(2, &format!("█ it is going on, ▒ it may be{night}"));
    scale(page, timeline, from, step, columns);
    let mut dish = "";
    for (phase, ..) in timed() {
        if timeline.is_menu() && phase.cook != dish {
            dish = &phase.cook;
            page.out.push_str(&format!("  {}\n", clean::line(dish)));
        }
        row(page, timeline, phase, from, step, columns);
    }
}

/// The times along the top.
fn scale(page: &mut Page, timeline: &Timeline, from: Minute, step: Minute, columns: Minute) {
    let tick = TICKS.into_iter().find(|tick| tick / step >= TICK_ROOM).unwrap_or(TICKS[TICKS.len() - 1]);
    let mut line = " ".repeat(NAMES + 4);
    for column in 0..columns {
        let minute = from + column * step;
        let at = NAMES + 4 + column as usize;
        if timeline.clock.wall(minute).rem_euclid(tick) == 0 && line.len() <= at && at + 5 <= WIDTH {
            line.push_str(&" ".repeat(at - line.len()));
            line.push_str(&timeline.clock.time_of_day(minute));
            line.push(' ');
        }
    }
    page.out.push_str(line.trim_end());
    page.out.push('\n');
}

fn row(page: &mut Page, timeline: &Timeline, phase: &PhaseLine, from: Minute, step: Minute, columns: Minute) {
    let (Some(start), Some(end)) = (phase.start, phase.end) else { return };
    let end_of = |minute: Minute, least: Minute| minute.max(least + 1);
    let cell = |column: Minute| {
        let (left, right) = (from + column * step, from + (column + 1) * step);
        // A column that is touched shows it: what is short would be lost otherwise.
        let touches = |a: Minute, b: Minute| a < right && left < b;
        let asleep = || timeline.asleep.iter().any(|&(a, b)| a <= left && right <= b + 1);
        if start.latest < end.earliest && touches(start.latest, end.earliest) {
            SURE
        } else if touches(start.earliest, end_of(end.latest, start.latest)) {
            PERHAPS
        } else if asleep() {
            NIGHT
        } else {
            ' '
        }
    };
    let cells: String = (0..columns).map(cell).collect();
    let name = clean::line(&phase.name);
    let mut short = String::new();
    for letter in name.chars() {
        if short.width() + 1 > NAMES {
            break;
        }
        short.push(letter);
    }
    let pad = " ".repeat((NAMES + 2).saturating_sub(short.width()));
    page.out.push_str(format!("  {short}{pad}{cells}").trim_end());
    page.out.push('\n');
}
