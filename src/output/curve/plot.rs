//! A curve drawn with letters, for a terminal without colour, 80 columns wide.

use unicode_width::UnicodeWidthStr;

use super::axis::Axis;
use super::chart::Chart;
use super::start::Start;
use super::words;
use crate::heat::Sample;
use crate::output::clean;
use crate::quantity::Scale;

const WIDTH: usize = 80;
/// Columns before the plot, for the figures of the axis.
const LEFT: usize = 8;
/// Columns after it, for the letters of the limits.
const RIGHT: usize = 4;
const COLUMNS: usize = WIDTH - LEFT - RIGHT;
/// About so many rows.
const ROWS: usize = 24;
const MOST_TICKS: usize = 8;

/// What the letters of the plot mean.
pub const CORE: char = '*';
pub const BAND: char = ':';
pub const MEDIUM: char = '-';
pub const LIMIT: char = '.';
pub const READING: char = 'o';

/// The plot with its axes and the phases beneath, line by line.
pub fn plot(chart: &Chart, start: Option<Start>, scale: Scale) -> String {
    let time = chart.time(MOST_TICKS);
    let steps = chart.degrees.ticks.len().saturating_sub(1).max(1);
    let rows = steps * (ROWS / steps).max(1) + 1;
    let mut grid = Grid { cells: vec![[' '; COLUMNS]; rows], time: &time, degrees: &chart.degrees };
    grid.band(&chart.samples);
    for limit in chart.limits.iter().filter(|limit| limit.drawn) {
        let row = grid.row(limit.shown);
        grid.cells[row].fill(LIMIT);
    }
    grid.line(&chart.samples, MEDIUM, '|', |sample| sample.medium_c);
    grid.line(&chart.samples, CORE, CORE, |sample| sample.core_c);
    for reading in chart.readings(&time, scale) {
        let (row, column) = (grid.row(reading.core_c), column(&time, reading.t_s));
        grid.cells[row][column] = READING;
    }

    let mut page = format!("{:>w$}\n", words::degree_sign(scale), w = LEFT - 2);
    for (row, cells) in grid.cells.iter().enumerate() {
        let tick = chart.degrees.ticks.iter().find(|tick| grid.row(**tick) == row);
        let head = match tick {
            Some(tick) => format!("{:>w$} ┤", Axis::degree_label(*tick), w = LEFT - 2),
            None => format!("{:>w$} │", "", w = LEFT - 2),
        };
        let limits = chart.limits.iter().enumerate();
        let here = limits.filter(|(_, limit)| limit.drawn && grid.row(limit.shown) == row);
        let letters: String = here.map(|(n, _)| words::letter(n)).take(RIGHT - 1).collect();
        let cells: String = cells.iter().collect();
        page.push_str(format!("{head}{cells} {letters}").trim_end());
        page.push('\n');
    }
    page.push_str(&foot(chart, &time, start));
    page
}

/// The axis of time and the phases along it.
fn foot(chart: &Chart, time: &Axis, start: Option<Start>) -> String {
    let mut axis: Vec<char> = vec!['─'; COLUMNS];
    let (mut hours, mut clock) = (Line::default(), Line::default());
    clock.put(0, if start.is_some() { "clock" } else { "" });
    for tick in &time.ticks {
        let column = column(time, *tick);
        axis[column] = '┬';
        hours.put(LEFT + column, &time.time_label(*tick));
        if let Some(start) = start {
            clock.put(LEFT + column, &start.time_of_day(*tick));
        }
    }
    let axis: String = axis.iter().collect();
    let rows = [format!("{:w$}└{axis}", "", w = LEFT - 1), hours.0, clock.0, phases(chart, time).0];
    rows.iter().filter(|row| !row.is_empty()).map(|row| format!("{}\n", row.trim_end())).collect()
}

/// The stretch of each phase, with its number, and its name where there is room for it.
fn phases(chart: &Chart, time: &Axis) -> Line {
    let mut line = Line::default();
    line.put(0, "phase");
    for (n, stretch) in chart.stretches.iter().enumerate() {
        let (from, to) = (column(time, stretch.phase.start_s), column(time, stretch.phase.end_s));
        line.put(LEFT + from, "|");
        let room = (to - from.min(to)).saturating_sub(1);
        let number = (n + 1).to_string();
        let named = format!("{number} {}", clean::line(&stretch.phase.name));
        if let Some(text) = [named, number].into_iter().find(|text| text.width() <= room) {
            line.put(LEFT + from + 1, &text);
        }
        if n + 1 == chart.stretches.len() {
            line.put(LEFT + to, "|");
        }
    }
    line
}

fn column(time: &Axis, t_s: f64) -> usize {
    (time.share(t_s) * (COLUMNS - 1) as f64).round() as usize
}

/// One line of labels; what would run into another or over the edge is moved left or left out.
#[derive(Default)]
struct Line(String);

impl Line {
    fn put(&mut self, column: usize, text: &str) {
        let column = column.min(WIDTH.saturating_sub(text.width()));
        let used = self.0.width();
        // A mark may stand right behind a label; two labels need a blank between them.
        let apart = usize::from(used > 0 && text.width() > 1 && !self.0.ends_with('|'));
        if used + apart <= column {
            self.0.push_str(&" ".repeat(column - used));
            self.0.push_str(text);
        }
    }
}

struct Grid<'a> {
    /// Rows from the top.
    cells: Vec<[char; COLUMNS]>,
    time: &'a Axis,
    degrees: &'a Axis,
}

impl Grid<'_> {
    fn row(&self, degrees: f64) -> usize {
        ((1.0 - self.degrees.share(degrees)) * (self.cells.len() - 1) as f64).round() as usize
    }

    /// A line through a value of each sample, without gaps where it is steep.
    fn line(&mut self, samples: &[Sample], flat: char, steep: char, value: impl Fn(&Sample) -> f64) {
        let mut before = None;
        for (column, sample) in self.walk(samples) {
            let row = self.row(value(&sample));
            for between in before.map_or(row..row, |last: usize| last.min(row) + 1..last.max(row)) {
                self.cells[between][column] = steep;
            }
            self.cells[row][column] = flat;
            before = Some(row);
        }
    }

    fn band(&mut self, samples: &[Sample]) {
        for (column, sample) in self.walk(samples) {
            for row in self.row(sample.core_high_c)..=self.row(sample.core_low_c) {
                self.cells[row][column] = BAND;
            }
        }
    }

    /// The samples with their columns, and one for each column that lies between two of them.
    fn walk(&self, samples: &[Sample]) -> Vec<(usize, Sample)> {
        let mut walked: Vec<(usize, Sample)> = Vec::new();
        for sample in samples {
            let here = column(self.time, sample.t_s);
            if let Some((last, before)) = walked.last().copied() {
                for between in last + 1..here {
                    let share = (between - last) as f64 / (here - last) as f64;
                    walked.push((between, blend(&before, sample, share)));
                }
            }
            walked.push((here, *sample));
        }
        walked
    }
}

/// A sample `share` of the way from one to another.
fn blend(from: &Sample, to: &Sample, share: f64) -> Sample {
    let at = |a: f64, b: f64| a + (b - a) * share;
    Sample {
        t_s: at(from.t_s, to.t_s),
        phase: from.phase,
        medium_c: at(from.medium_c, to.medium_c),
        surface_c: at(from.surface_c, to.surface_c),
        core_c: at(from.core_c, to.core_c),
        core_low_c: at(from.core_low_c, to.core_low_c),
        core_high_c: at(from.core_high_c, to.core_high_c),
    }
}
