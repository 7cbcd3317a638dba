//! What was predicted, in a cook's words.

use super::super::Verdict;
use super::super::history::{Figure, Margin, Measured, Outcome};
use super::super::report::{About, Report};
use super::{Level, Weighed};
use crate::findings::{Piece, Text};
use crate::quantity::{Duration, Temperature, TemperatureDifference};
use crate::say;
use crate::tables::{Aim, Band, Course, Demand, Limit, Point, Rule};

/// What the history comes to, by the run that counts.
pub fn found(report: &Report, one: &Weighed, aim: Aim, about: About) -> Text {
    let (phase, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let outcome = match one.level() {
        Level::Met | Level::Doubtful => &one.bound,
        Level::Conditional | Level::Open | Level::Broken => &one.usual,
    };
    let met = outcome.verdict == Verdict::Met;
    let Some(measured) = outcome.measured else { return say![format!("no figure is asked of `{food}`")] };
    let reached = shown(&measured, aim);
    match (measured.reached, aim) {
        (Figure::Temperature(_), Aim::HotHold | Aim::ColdHold) => {
            let way = match (aim, met) {
                (Aim::HotHold, true) => "is never colder than",
                (Aim::HotHold, false) => "is as cold as",
                (_, true) => "is never warmer than",
                (_, false) => "is as warm as",
            };
            say![format!("the core of `{food}` {way} "), reached, format!(" in `{phase}`")]
        }
        (Figure::Temperature(_), _) => {
            say![format!("the core of `{food}` gets to "), reached, format!(" in and after `{phase}`")]
        }
        (Figure::Time(_), Aim::Cool) => {
            let way = match stage(one.rule) {
                Some((Some(from), to)) => format!(" from {from} to {to}"),
                Some((None, to)) => format!(" to {to}"),
                None => String::new(),
            };
            say![format!("`{food}` takes "), reached, format!("{way} in and after `{phase}`")]
        }
        (Figure::Time(_), _) if !is_a_hold(&measured) => match band(one.rule) {
            Some(band) => say![format!("the core of `{food}` is {} for ", between(band)), reached],
            None => say![format!("`{food}` takes "), reached, " from the cold to the figure"],
        },
        (Figure::Time(_), _) => match row(outcome) {
            Some(row) => say![format!("the core of `{food}` is at {} or hotter for ", row.limit()), reached],
            None => say![format!("`{food}` comes to "), reached],
        },
    }
}

/// What is asked instead, and by how much it misses that.
pub fn missing(outcome: &Outcome, aim: Aim) -> Text {
    let Some(measured) = outcome.measured else { return say![] };
    let cold = aim == Aim::ColdHold;
    let allowed = matches!(measured.required, Figure::Time(_)) && !is_a_hold(&measured);
    let mut text = match (measured.required, row(outcome), limit(outcome.rule)) {
        (Figure::Temperature(_), Some(row), _) => say![format!("; {row} is asked")],
        (Figure::Temperature(_), None, Some(limit)) if cold => {
            say![format!("; it is to be {}", outcome.rule.at_or_below(limit))]
        }
        (Figure::Temperature(_), None, Some(limit)) => {
            say![format!("; it is to be {}", outcome.rule.at_or_above(limit))]
        }
        (Figure::Temperature(at), None, None) => say!["; ", at, " is asked"],
        (Figure::Time(time), ..) => say!["; ", time, if allowed { " are allowed" } else { " are asked" }],
    };
    match measured.margin {
        Margin::Temperature(by) if by < TemperatureDifference::from_kelvin(0.0) => {
            text.push(", ");
            text.push(TemperatureDifference::from_kelvin(tenths_up(-by.kelvin())));
            text.push(if cold { " too warm" } else { " short" });
        }
        Margin::Time(by) if by < Duration::ZERO => {
            let (Figure::Time(reached), Figure::Time(required)) = (measured.reached, measured.required)
            else {
                return text;
            };
            // Of the figures as they are shown, so that they add up.
            let (by, way) = match allowed {
                true => (whole_up(reached) - required, " too long"),
                false => (required - whole_down(reached), " short"),
            };
            if by < required {
                text.push(", ");
                text.push(by);
                text.push(way);
            }
        }
        _ => {}
    }
    if let Some(why) = outcome.why {
        text.push(format!(" ({why})"));
    }
    text
}

/// Time that is asked for, rather than allowed.
fn is_a_hold(measured: &Measured) -> bool {
    match (measured.reached, measured.required, measured.margin) {
        (Figure::Time(reached), Figure::Time(required), Margin::Time(margin)) => {
            (margin - (reached - required)).seconds().abs() < (margin - (required - reached)).seconds().abs()
                || reached == required
        }
        _ => false,
    }
}

/// Rounded away from what is asked: a miss never reads as if it were none.
fn shown(measured: &Measured, aim: Aim) -> Piece {
    match measured.reached {
        Figure::Temperature(t) => {
            let tenths = 10.0 * t.celsius();
            let rounded = if aim == Aim::ColdHold { (tenths - 1e-6).ceil() } else { (tenths + 1e-6).floor() };
            Temperature::from_celsius(rounded / 10.0).into()
        }
        Figure::Time(time) if is_a_hold(measured) => whole_down(time).into(),
        Figure::Time(time) => whole_up(time).into(),
    }
}

/// Seconds count in what takes less than some minutes only.
fn step_s(time: Duration) -> f64 {
    if time < Duration::from_minutes(10.0) { 1.0 } else { 60.0 }
}

fn whole_down(time: Duration) -> Duration {
    let step = step_s(time);
    Duration::from_seconds(((time.seconds() + 1e-3) / step).floor() * step)
}

fn whole_up(time: Duration) -> Duration {
    let step = step_s(time);
    Duration::from_seconds(((time.seconds() - 1e-3) / step).ceil() * step)
}

fn tenths_up(kelvin: f64) -> f64 {
    (10.0 * kelvin - 1e-6).ceil() / 10.0
}

/// The row of a chart that came nearest.
fn row<'r>(outcome: &Outcome<'r>) -> Option<&'r Point> {
    let points = match &outcome.rule.demand {
        Demand::Cook { points, .. } | Demand::Reheat { points, .. } => points,
        _ => return None,
    };
    points.iter().find(|point| point.id == outcome.row)
}

fn limit(rule: &Rule) -> Option<Limit> {
    match rule.demand {
        Demand::HotHold { min, .. } => Some(min),
        Demand::ColdHold { max } => Some(max),
        _ => None,
    }
}

/// From where to where it has to cool, where it names an end.
pub fn stage(rule: &Rule) -> Option<(Option<Limit>, Limit)> {
    match (&rule.demand, &rule.on_curve) {
        (Demand::Cool { from, to: Some(to), .. }, _) | (_, Some(Course::Fall { from, to, .. })) => {
            Some((*from, *to))
        }
        _ => None,
    }
}

fn band(rule: &Rule) -> Option<&Band> {
    match (&rule.on_curve, &rule.demand) {
        (Some(Course::Between { band, .. }), _) => Some(band),
        (None, Demand::TimeAlone { out, .. }) => Some(out),
        _ => None,
    }
}

fn between(band: &Band) -> String {
    match (band.above, band.below) {
        (Some(above), Some(below)) => format!("between {above} and {below}"),
        (Some(above), None) => format!("above {above}"),
        (None, Some(below)) => format!("below {below}"),
        (None, None) => "out".into(),
    }
}
