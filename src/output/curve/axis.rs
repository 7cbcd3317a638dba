//! Axes that end, and are marked, at round figures.

use crate::quantity::plain_number;

/// From one value to another, with marks in between.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    pub from: f64,
    pub to: f64,
    /// In rising order; at least one.
    pub ticks: Vec<f64>,
    step: f64,
}

/// An axis of degrees covers at least this many, so that a steady temperature is a line across and not
/// a mountain range of rounding.
const LEAST_DEGREES: f64 = 4.0;
const MOST_DEGREE_STEPS: f64 = 8.0;

/// Nobody counts in minutes beyond this, in seconds.
const LONG_S: f64 = 3.0 * 3600.0;

/// Seconds between two marks: lengths of time that people count in.
const TIME_STEPS: [f64; 12] =
    [60.0, 120.0, 300.0, 600.0, 1800.0, 3600.0, 7200.0, 10_800.0, 14_400.0, 21_600.0, 43_200.0, 86_400.0];

impl Axis {
    /// Degrees of any scale; both ends are marks.
    pub fn degrees(low: f64, high: f64) -> Self {
        let spare = (LEAST_DEGREES - (high - low)).max(0.0) / 2.0;
        let (low, high) = (low - spare, high + spare);
        let rough = (high - low) / MOST_DEGREE_STEPS;
        let tenfold = 10_f64.powf(rough.log10().floor());
        let step = [1.0, 2.0, 5.0].map(|n| n * tenfold).into_iter().find(|step| *step >= rough);
        let step = step.unwrap_or(10.0 * tenfold).max(1.0);
        let (first, last) = ((low / step).floor(), (high / step).ceil());
        Self { from: first * step, to: last * step, ticks: marks(first, last, step), step }
    }

    /// Seconds, as they are, marked at no more than about `most` round lengths of time.
    pub fn time(from_s: f64, to_s: f64, most: usize) -> Self {
        let rough = (to_s - from_s) / most as f64;
        let days = (rough / 86_400.0).ceil() * 86_400.0;
        let step = TIME_STEPS.into_iter().find(|step| *step >= rough).unwrap_or(days);
        let mut ticks = marks((from_s / step).ceil(), (to_s / step).floor(), step);
        if ticks.is_empty() {
            ticks.push(from_s);
        }
        Self { from: from_s, to: to_s, ticks, step }
    }

    /// Where a value lies: 0 at the beginning of the axis and before it, 1 at its end and after it.
    pub fn share(&self, value: f64) -> f64 {
        let share = (value - self.from) / (self.to - self.from);
        // No number, or the one value of an axis without length.
        if share.is_nan() { 0.0 } else { share.clamp(0.0, 1.0) }
    }

    /// `120`.
    pub fn degree_label(tick: f64) -> String {
        plain_number(tick, 0)
    }

    /// `6 h`; `30 min` along a short axis, `20 h 30` where few minutes lie late.
    pub fn time_label(&self, tick_s: f64) -> String {
        let minutes = tick_s / 60.0;
        if self.step >= 3600.0 || (self.to > LONG_S && minutes % 60.0 == 0.0) {
            format!("{} h", plain_number(minutes / 60.0, 1))
        } else if self.to > LONG_S {
            format!("{} h {:02.0}", plain_number((minutes / 60.0).trunc(), 0), (minutes % 60.0).abs())
        } else {
            format!("{} min", plain_number(minutes, 1))
        }
    }
}

/// The multiples of `step` from the `first` to the `last`.
fn marks(first: f64, last: f64, step: f64) -> Vec<f64> {
    (first as i64..=last as i64).map(|n| n as f64 * step).collect()
}

#[cfg(test)]
mod tests {
    use super::Axis;

    #[test]
    fn degrees_end_at_round_figures() {
        assert_eq!(Axis::degrees(3.0, 134.0).ticks, [0.0, 20.0, 40.0, 60.0, 80.0, 100.0, 120.0, 140.0]);
        assert_eq!(Axis::degrees(-21.0, -18.5).ticks, [-22.0, -21.0, -20.0, -19.0, -18.0, -17.0]);
        let steady = Axis::degrees(60.0, 60.0);
        assert_eq!((steady.from, steady.to), (58.0, 62.0));
    }

    #[test]
    fn time_is_marked_in_lengths_that_people_count_in() {
        let labels = |to_s: f64, most| {
            let axis = Axis::time(0.0, to_s, most);
            axis.ticks.iter().map(|tick| axis.time_label(*tick)).collect::<Vec<_>>()
        };
        assert_eq!(labels(180.0, 8), ["0 min", "1 min", "2 min", "3 min"]);
        assert_eq!(labels(36.0 * 3600.0, 8), ["0 h", "6 h", "12 h", "18 h", "24 h", "30 h", "36 h"]);
        assert_eq!(labels(20.0 * 86_400.0, 8).last().unwrap(), "432 h");
        assert_eq!(labels(0.0, 8), ["0 min"]);
        let late = Axis::time(71_700.0, 76_500.0, 4);
        let labels: Vec<String> = late.ticks.iter().map(|tick| late.time_label(*tick)).collect();
        assert_eq!(labels, ["20 h", "20 h 30", "21 h"]);
    }

    #[test]
    fn a_value_off_the_axis_lies_at_its_end() {
        let axis = Axis::time(10.0, 20.0, 8);
        assert_eq!([0.0, 10.0, 15.0, 99.0].map(|value| axis.share(value)), [0.0, 0.0, 0.5, 1.0]);
        assert_eq!(Axis::time(5.0, 5.0, 8).share(5.0), 0.0);
    }
}
