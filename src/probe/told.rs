//! Figures and moments of a log, in words.

use crate::findings::Text;
use crate::log::Log;
use crate::quantity::{Duration, TemperatureDifference};
use crate::safety::history::{Figure, Margin, Measured};
use crate::say;

/// `07:40 +01:00 on 12 December`, or `2 h 30 min after the start`.
pub(super) fn moment(log: &Log, at: Duration) -> Text {
    let wall = log.began.and_then(|began| {
        let after = chrono::TimeDelta::try_milliseconds((at.seconds() * 1000.0) as i64)?;
        began.checked_add_signed(after)
    });
    match wall {
        Some(wall) => say![wall.format("%H:%M on %-d %B (UTC%:z)").to_string()],
        None => say![at, " after the start"],
    }
}

/// "reached 61 °C, asked 63 °C, 2 °C missing".
pub(super) fn figures(measured: &Measured) -> Text {
    let figure = |figure| match figure {
        Figure::Temperature(t) => say![t],
        Figure::Time(t) => say![t],
    };
    let (room, missing) = match measured.margin {
        Margin::Temperature(k) if k.kelvin() < 0.0 => {
            (say![TemperatureDifference::from_kelvin(-k.kelvin())], true)
        }
        Margin::Temperature(k) => (say![k], false),
        Margin::Time(t) if t.seconds() < 0.0 => (say![Duration::from_seconds(-t.seconds())], true),
        Margin::Time(t) => (say![t], false),
    };
    say!["measured "]
        .followed_by(figure(measured.reached))
        .followed_by(say![", the limit is "])
        .followed_by(figure(measured.required))
        .followed_by(say![", margin "])
        .followed_by(room)
        .followed_by(say![if missing { " on the wrong side" } else { "" }])
}
