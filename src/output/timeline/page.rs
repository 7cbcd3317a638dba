//! A page for people: columns, wrapping, and the words for times and days.

use unicode_width::UnicodeWidthStr;

use super::words;
use crate::quantity::weekday_name;
use crate::timing::{Clock, Minute, Wall};

/// The width that the text keeps to.
pub(super) const WIDTH: usize = 80;
/// Where the text of a line begins, after its window.
const INDENT: usize = 18;

/// Lines that keep to a width, and times by the clock of the cook.
pub(super) struct Page {
    pub(super) out: String,
    pub(super) clock: Clock,
}

impl Page {
    /// A paragraph from column `indent` on, wrapped.
    pub(super) fn line(&mut self, indent: usize, text: &str) {
        self.hanging(&" ".repeat(indent), indent, text);
    }

    /// A first line with something before it, and the rest beneath its text.
    pub(super) fn hanging(&mut self, head: &str, indent: usize, text: &str) {
        let mut line = format!("{head:<indent$}");
        let mut used = line.width();
        let mut fresh = true;
        for word in text.split_whitespace() {
            if !fresh && used + 1 + word.width() > WIDTH {
                self.out.push_str(line.trim_end());
                self.out.push('\n');
                line = " ".repeat(indent);
                used = indent;
                fresh = true;
            }
            if !fresh {
                line.push(' ');
                used += 1;
            }
            line.push_str(word);
            used += word.width();
            fresh = false;
        }
        self.out.push_str(line.trim_end());
        self.out.push('\n');
    }

    pub(super) fn heading(&mut self, text: &str) {
        self.out.push('\n');
        self.line(0, text);
    }

    /// The name of the day, where it is not the one before.
    pub(super) fn day(&mut self, last: &mut Option<Wall>, minute: Minute) {
        let day = self.clock.day(minute);
        if *last != Some(day) {
            *last = Some(day);
            self.line(2, &words::day_heading(&self.clock, minute));
        }
    }

    /// A window and what goes with it; a window too wide for its column has a line to itself.
    pub(super) fn entry(&mut self, times: &str, text: &str) {
        let head = format!("  {times}");
        if head.len() + 2 > INDENT + 2 {
            self.line(2, times);
            self.line(INDENT + 2, text);
        } else {
            self.hanging(&head, INDENT + 2, text);
        }
    }
}

/// "Friday 11 December 2026", "Friday", "the day before".
pub(in crate::output) fn day_name(clock: &Clock, day: Wall) -> String {
    if let Some(date) = clock.date_of(day) {
        return date.format("%A %-d %B %Y").to_string();
    }
    if let Some(weekday) = clock.weekday_of(day).filter(|_| (-6..=6).contains(&day)) {
        return weekday_name(weekday).into();
    }
    match day {
        0 => "on the day".into(),
        -1 => "the day before".into(),
        1 => "the day after".into(),
        before if before < 0 => format!("{} days before", -before),
        after => format!("{after} days after"),
    }
}
