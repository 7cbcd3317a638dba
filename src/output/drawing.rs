//! The few marks that a picture is made of, as SVG, and the page that they stand on.

use std::fmt::Write;

use unicode_width::UnicodeWidthStr;

use crate::output::clean;
use crate::output::escape::xml;

pub const WIDTH: f64 = 800.0;
pub const MARGIN: f64 = 16.0;
pub const LINE: f64 = 18.0;
/// Characters of running text that fit across.
pub const CHARACTERS: usize = 112;
/// And of bold text.
const BOLD_CHARACTERS: usize = 96;

/// Which end of a text stands at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    Start,
    Middle,
    End,
}

/// Marks in the order in which they are drawn.
#[derive(Debug, Default)]
pub struct Drawing {
    marks: String,
}

/// About how wide a text of the usual size comes out; a little too much rather than too little.
pub fn width(text: &str) -> f64 {
    clean::line(text).width() as f64 * 6.8
}

impl Drawing {
    pub fn marks(&self) -> &str {
        &self.marks
    }

    pub fn text(&mut self, x: f64, y: f64, class: &str, anchor: Anchor, text: &str) {
        let anchor = match anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
            Anchor::End => " text-anchor=\"end\"",
        };
        let class = if class.is_empty() { String::new() } else { format!(" class=\"{class}\"") };
        self.add(format_args!("<text x=\"{x:.1}\" y=\"{y:.1}\"{class}{anchor}>{}</text>\n", xml(text)));
    }

    pub fn line(&mut self, class: &str, from: (f64, f64), to: (f64, f64)) {
        let ((x1, y1), (x2, y2)) = (from, to);
        self.add(format_args!(
            "<line class=\"{class}\" x1=\"{x1:.1}\" y1=\"{y1:.1}\" x2=\"{x2:.1}\" y2=\"{y2:.1}\"/>\n"
        ));
    }

    pub fn rect(&mut self, class: &str, corner: (f64, f64), size: (f64, f64)) {
        let ((x, y), (width, height)) = (corner, size);
        self.add(format_args!(
            "<rect class=\"{class}\" x=\"{x:.1}\" y=\"{y:.1}\" width=\"{width:.1}\" \
             height=\"{height:.1}\"/>\n"
        ));
    }

    /// A line through points; one point is a dot.
    pub fn polyline(&mut self, class: &str, points: impl Iterator<Item = (f64, f64)>) {
        let mut points = path(points);
        if points.len() == 1 {
            points.push(points[0].clone());
        }
        self.add(format_args!("<polyline class=\"line {class}\" points=\"{}\"/>\n", points.join(" ")));
    }

    pub fn polygon(&mut self, class: &str, points: impl Iterator<Item = (f64, f64)>) {
        self.add(format_args!("<polygon class=\"{class}\" points=\"{}\"/>\n", path(points).join(" ")));
    }

    fn add(&mut self, mark: std::fmt::Arguments<'_>) {
        // Writing to a String cannot fail.
        let _ = self.marks.write_fmt(mark);
    }
}

/// To a tenth, without points that fall together with the one before.
fn path(points: impl Iterator<Item = (f64, f64)>) -> Vec<String> {
    let mut path: Vec<String> = points.map(|(x, y)| format!("{x:.1},{y:.1}")).collect();
    path.dedup();
    path
}

/// Wrapped text from `y` down, bold where it has a class; gives where it ends.
pub fn paragraph(drawing: &mut Drawing, mut y: f64, class: &str, text: &str) -> f64 {
    let fit = if class.is_empty() { CHARACTERS } else { BOLD_CHARACTERS };
    for line in textwrap::wrap(&clean::line(text), fit) {
        y += LINE;
        drawing.text(MARGIN, y, class, Anchor::Start, &line);
    }
    y
}

/// The whole picture, down to `y`; `told` is for those who cannot see it.
pub fn page(class: &str, style: &str, title: &str, told: &str, drawing: &Drawing, y: f64) -> String {
    let height = y + MARGIN;
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"{class}\" role=\"img\" viewBox=\"0 0 {WIDTH} {height:.0}\" \
         width=\"{WIDTH}\" height=\"{height:.0}\">\n<title>{}</title>\n<desc>{}</desc>\n<style>{style}</style>\n\
         <rect class=\"paper\" width=\"{WIDTH}\" height=\"{height:.0}\"/>\n{}</svg>\n",
        xml(title),
        xml(told),
        drawing.marks()
    )
}
