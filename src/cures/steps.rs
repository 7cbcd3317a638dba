//! Figures that one would write in a kitchen, from one on.

use crate::quantity::{Duration, Length, Scale, Temperature, Written};

/// No ladder is longer than this.
const MOST: usize = 60;
const MINUTE: i64 = 1;
const HOUR: i64 = 60;
const DAY: i64 = 24 * HOUR;

/// Whole degrees from `from` on, `step` by `step`, as far as `last`.
pub fn degrees(from: Temperature, last: Temperature, scale: Scale, step: u32) -> Vec<Temperature> {
    let read = |at: Temperature| match scale {
        Scale::Celsius => at.celsius(),
        Scale::Fahrenheit => at.fahrenheit(),
    };
    let make = |degrees: f64| match scale {
        Scale::Celsius => Temperature::from_celsius(degrees),
        Scale::Fahrenheit => Temperature::from_fahrenheit(degrees),
    };
    let step = f64::from(step);
    let way = if last < from { -1.0 } else { 1.0 };
    // The next whole step, away from what is written; a hair is no step.
    let first = ((way * read(from) + 1e-6) / step).floor() * step + step;
    let count = ((way * read(last) - first) / step + 1e-6).floor() as i64 + 1;
    (0..count.clamp(0, MOST as i64)).map(|n| make(way * (first + n as f64 * step))).collect()
}

/// A step of this size is worth writing at about this length.
fn stride(minutes: i64) -> i64 {
    match minutes {
        m if m < HOUR => 5 * MINUTE,
        m if m < 3 * HOUR => 15 * MINUTE,
        m if m < 12 * HOUR => 30 * MINUTE,
        m if m < 2 * DAY => HOUR,
        _ => DAY,
    }
}

pub fn longer(from: Duration) -> Vec<Duration> {
    let mut all = Vec::new();
    let mut at = from.minutes().floor() as i64;
    while all.len() < MOST && at < 14 * DAY {
        let step = stride(at);
        at = (at / step + 1) * step;
        all.push(Duration::from_minutes(at as f64));
    }
    all
}

pub fn shorter(from: Duration) -> Vec<Duration> {
    let mut all = Vec::new();
    let mut at = from.minutes().ceil() as i64;
    while all.len() < MOST {
        let step = stride(at - 1);
        at = (at - 1).div_euclid(step) * step;
        if at <= 0 {
            break;
        }
        all.push(Duration::from_minutes(at as f64));
    }
    all
}

/// Half centimetres (half inches) down to what still is a layer; whole ones while it is deep.
pub fn shallower(from: Length) -> Vec<Length> {
    let customary = from.written() == Written::Customary;
    let (unit_m, deep, least) = if customary { (0.0254, 4.0, 1.0) } else { (0.01, 10.0, 2.0) };
    let mut all = Vec::new();
    let mut at = from.metres() / unit_m;
    while all.len() < MOST {
        let step = if at > deep + 1e-6 { 1.0 } else { 0.5 };
        at = ((at - 1e-6) / step).floor() * step;
        if at < least {
            break;
        }
        all.push(Length::from_metres(at * unit_m).written_in(from.written()));
    }
    all
}

#[cfg(test)]
mod tests {
    use super::{degrees, longer, shallower, shorter};
    use crate::quantity::{Duration, Length, Scale, Temperature, Written};

    #[test]
    fn degrees_go_up_and_down_by_whole_steps() {
        let c = Temperature::from_celsius;
        let shown = |all: Vec<Temperature>, scale| -> Vec<String> {
            all.into_iter().map(|at| at.show(scale)).collect()
        };
        let up = degrees(c(48.5), c(51.0), Scale::Celsius, 1);
        assert_eq!(shown(up, Scale::Celsius), ["49 °C", "50 °C", "51 °C"]);
        let by_five = degrees(c(140.0), c(152.0), Scale::Celsius, 5);
        assert_eq!(shown(by_five, Scale::Celsius), ["145 °C", "150 °C"]);
        let down = degrees(c(1.0), c(-2.0), Scale::Celsius, 1);
        assert_eq!(shown(down, Scale::Celsius), ["0 °C", "-1 °C", "-2 °C"]);
        let f = Temperature::from_fahrenheit;
        let fahrenheit = degrees(f(130.0), f(140.0), Scale::Fahrenheit, 5);
        assert_eq!(shown(fahrenheit, Scale::Fahrenheit), ["135 °F", "140 °F"]);
        assert!(degrees(c(5.0), c(5.0), Scale::Celsius, 1).is_empty());
    }

    #[test]
    fn times_are_round() {
        let shown = |all: &[Duration]| -> Vec<String> { all.iter().map(|time| time.show()).collect() };
        let more = longer(Duration::from_minutes(48.0));
        assert_eq!(shown(&more[..4]), ["50 min", "55 min", "1 h", "1 h 15 min"]);
        let less = shorter(Duration::from_hours(3.5));
        assert_eq!(shown(&less[..3]), ["3 h", "2 h 45 min", "2 h 30 min"]);
        let days = shorter(Duration::from_hours(9.0 * 24.0));
        assert_eq!(shown(&days[..2]), ["8 days", "7 days"]);
        assert!(shorter(Duration::from_minutes(5.0)).is_empty());
    }

    #[test]
    fn layers_are_in_halves_once_they_are_shallow() {
        let shown = |all: Vec<Length>| -> Vec<String> { all.into_iter().map(Length::show).collect() };
        let pot = shown(shallower(Length::from_metres(0.115)));
        assert_eq!(pot[..4], ["11 cm", "10 cm", "9.5 cm", "9 cm"]);
        assert_eq!(pot.last().map(String::as_str), Some("2 cm"));
        let inches = Length::from_metres(3.0 * 0.0254).written_in(Written::Customary);
        assert_eq!(shown(shallower(inches)), ["2.5 in", "2 in", "1.5 in", "1 in"]);
    }
}
