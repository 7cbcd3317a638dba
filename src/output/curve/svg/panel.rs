//! The panel of one food: axes, phases, curves and limits.

use crate::heat::Sample;
use crate::output::curve::axis::Axis;
use crate::output::curve::chart::Chart;
use crate::output::curve::{Start, words};
use crate::output::drawing::{Anchor, CHARACTERS, Drawing, LINE, MARGIN, WIDTH, width};
use crate::quantity::Scale;

const LEFT: f64 = 64.0;
const RIGHT: f64 = WIDTH - 72.0;
const HEIGHT: f64 = 300.0;
/// Of the strip with the names of the phases.
const STRIP: f64 = 22.0;
const MOST_TICKS: usize = 9;
/// How wide and high the mark of a reading is.
const DOT: f64 = 3.0;

/// Where things are in one panel.
struct Frame<'a> {
    chart: &'a Chart<'a>,
    time: Axis,
    top: f64,
}

impl Frame<'_> {
    fn x(&self, t_s: f64) -> f64 {
        LEFT + self.time.share(t_s) * (RIGHT - LEFT)
    }

    fn y(&self, degrees: f64) -> f64 {
        self.top + (1.0 - self.chart.degrees.share(degrees)) * HEIGHT
    }

    fn bottom(&self) -> f64 {
        self.top + HEIGHT
    }

    fn points<'s>(&'s self, value: impl Fn(&Sample) -> f64 + 's) -> impl Iterator<Item = (f64, f64)> + 's {
        self.chart.samples.iter().map(move |sample| (self.x(sample.t_s), self.y(value(sample))))
    }
}

/// Draws a food from `y` down; gives where its panel ends.
pub fn panel(drawing: &mut Drawing, chart: &Chart, start: Option<Start>, scale: Scale, y: f64) -> f64 {
    let heading = y + 2.0 * LINE;
    let name = format!("{}, predicted", words::shorten(&chart.food.name, 70));
    drawing.text(MARGIN, heading, "food", Anchor::Start, &name);
    let frame = Frame { chart, time: chart.time(MOST_TICKS), top: heading + 12.0 + STRIP };
    axes(drawing, &frame, start, scale);
    let unnamed = phases(drawing, &frame, start);
    let high = frame.points(|sample| sample.core_high_c);
    let low: Vec<_> = frame.points(|sample| sample.core_low_c).collect();
    drawing.polygon("band", high.chain(low.into_iter().rev()));
    let limits = limits(drawing, &frame, scale);
    drawing.polyline("medium", frame.points(|sample| sample.medium_c));
    drawing.polyline("surface", frame.points(|sample| sample.surface_c));
    drawing.polyline("core", frame.points(|sample| sample.core_c));
    for reading in chart.readings(&frame.time, scale) {
        let (x, y) = (frame.x(reading.t_s), frame.y(reading.core_c));
        drawing.rect("core", (x - DOT / 2.0, y - DOT / 2.0), (DOT, DOT));
    }
    let read = words::read(chart.food, start, scale).map(|read| format!("Dots: read by a probe. {read}"));
    let mut y = frame.bottom() + LINE * if start.is_some() { 2.0 } else { 1.0 } + 6.0;
    for list in [unnamed, limits, read.into_iter().collect()] {
        for line in textwrap::wrap(&list.join("; "), CHARACTERS).iter().filter(|line| !line.is_empty()) {
            y += LINE;
            drawing.text(MARGIN, y, "", Anchor::Start, line);
        }
    }
    y
}

fn axes(drawing: &mut Drawing, frame: &Frame, start: Option<Start>, scale: Scale) {
    drawing.text(LEFT - 8.0, frame.top - 10.0, "", Anchor::End, words::degree_sign(scale));
    for tick in &frame.chart.degrees.ticks {
        let y = frame.y(*tick);
        drawing.line("grid", (LEFT, y), (RIGHT, y));
        drawing.text(LEFT - 8.0, y + 4.0, "", Anchor::End, &Axis::degree_label(*tick));
    }
    let bottom = frame.bottom();
    drawing.text(LEFT - 30.0, bottom + LINE, "", Anchor::End, "time");
    if start.is_some() {
        drawing.text(LEFT - 30.0, bottom + 2.0 * LINE, "", Anchor::End, "clock");
    }
    for tick in &frame.time.ticks {
        let x = frame.x(*tick);
        drawing.line("axis", (x, bottom), (x, bottom + 5.0));
        drawing.text(x, bottom + LINE, "", Anchor::Middle, &frame.time.time_label(*tick));
        if let Some(start) = start {
            drawing.text(x, bottom + 2.0 * LINE, "", Anchor::Middle, &start.time_of_day(*tick));
        }
    }
    drawing.line("axis", (LEFT, frame.top), (LEFT, bottom));
    drawing.line("axis", (LEFT, bottom), (RIGHT, bottom));
}

/// Draws the stretches of the phases; gives the names for which there was no room.
fn phases(drawing: &mut Drawing, frame: &Frame, start: Option<Start>) -> Vec<String> {
    let mut unnamed = Vec::new();
    for (n, stretch) in frame.chart.stretches.iter().enumerate() {
        let (from, to) = (frame.x(stretch.phase.start_s), frame.x(stretch.phase.end_s));
        let room = (to - from).max(0.0);
        drawing.rect("phase", (from, frame.top - STRIP), (room, STRIP));
        drawing.line("edge", (from, frame.top), (from, frame.bottom()));
        let number = (n + 1).to_string();
        let named = format!("{number} {}", stretch.phase.name);
        let label = [&named, &number].into_iter().find(|text| width(text) + 1.0 <= room);
        if let Some(label) = label {
            drawing.text((from + to) / 2.0, frame.top - 7.0, "", Anchor::Middle, label);
        }
        if label != Some(&named) {
            let since = words::moment(stretch.phase.start_s, start);
            unnamed.push(format!("{}, from {since}", words::shorten(&named, 80)));
        }
    }
    unnamed
}

/// Draws the limits, each with its letter and figure beside the plot, where it hides nothing; gives all
/// names with their letters.
fn limits(drawing: &mut Drawing, frame: &Frame, scale: Scale) -> Vec<String> {
    let mut marks = Vec::new();
    let mut names = Vec::new();
    for (n, limit) in frame.chart.limits.iter().enumerate() {
        let letter = words::letter(n);
        names.push(format!("{letter} {}", words::limit(limit, frame.chart, scale)));
        if limit.drawn {
            let y = frame.y(limit.shown);
            drawing.line("limit", (LEFT, y), (RIGHT, y));
            marks.push((y + 4.0, format!("{letter} {}", words::degrees(limit.celsius, scale))));
        }
    }
    marks.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut free = f64::NEG_INFINITY;
    for (y, mark) in marks {
        let y = y.max(free);
        drawing.text(RIGHT + 6.0, y, "", Anchor::Start, &mark);
        free = y + 14.0;
    }
    names
}

/// What the kinds of line mean.
pub fn key(drawing: &mut Drawing, y: f64) -> f64 {
    let meanings = [
        ("core", "core, slowest point"),
        ("band", "core may be in here"),
        ("surface", "surface"),
        ("medium", "air, water or contact"),
        ("limit", "limit"),
    ];
    let y = y + 2.0 * LINE;
    let mut x = MARGIN;
    for (class, meaning) in meanings {
        match class {
            "band" => drawing.rect(class, (x, y - 10.0), (30.0, 12.0)),
            "limit" => drawing.line(class, (x, y - 4.0), (x + 30.0, y - 4.0)),
            _ => drawing.polyline(class, [(x, y - 4.0), (x + 30.0, y - 4.0)].into_iter()),
        }
        drawing.text(x + 36.0, y, "", Anchor::Start, meaning);
        x += 36.0 + width(meaning) + 10.0;
    }
    y + 6.0
}
