//! A curve in sentences: what the text page lists, and what a picture tells to those who cannot see it.

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use super::chart::{Chart, Limit, Stretch, core_is_vague, end_is_vague, is_vague, shown};
use super::start::Start;
use crate::heat::{Band, Curves, FoodCurve, Heeded, PhaseTimes, Unpredicted};
use crate::quantity::{Duration, Scale, plain_number};

/// `°C`.
pub fn degree_sign(scale: Scale) -> &'static str {
    match scale {
        Scale::Celsius => "°C",
        Scale::Fahrenheit => "°F",
    }
}

/// `6 h (00:30)`.
pub fn moment(t_s: f64, start: Option<Start>) -> String {
    let since = Duration::from_seconds(t_s).show();
    start.map_or_else(|| since.clone(), |start| format!("{since} ({})", start.time_of_day(t_s)))
}

/// `58 °C`: a prediction is worth whole degrees at best.
pub fn degrees(celsius: f64, scale: Scale) -> String {
    format!("{} {}", plain_number(shown(celsius, scale), 0), degree_sign(scale))
}

/// `55 to 61 °C`, rounded outwards.
fn degree_range(low_c: f64, high_c: f64, scale: Scale, between: &str) -> String {
    let low = plain_number((shown(low_c, scale) + 1e-6).floor(), 0);
    let high = plain_number((shown(high_c, scale) - 1e-6).ceil(), 0);
    format!("{low} {between} {high} {}", degree_sign(scale))
}

/// "smoke, from 0 min (18:30) to 6 h (00:30). Core at its end: predicted 58 °C (55 to 61 °C)."
pub fn stretch(stretch: &Stretch, start: Option<Start>, scale: Scale) -> String {
    let Stretch { phase, start_vague, last } = stretch;
    let when = if phase.end_predicted {
        format!("after {}", Duration::from_seconds(phase.end_s).show())
    } else {
        "at its end".into()
    };
    let core = core(Band::new(last.core_low_c, last.core_c, last.core_high_c), scale);
    format!("{} Core {when}: predicted {core}.", times(phase, *start_vague, start))
}

/// "58 °C (55 to 61 °C)", or the bounds alone where they are far apart, of °C.
pub fn core(core: Band, scale: Scale) -> String {
    if is_vague(core) {
        return format!("between {}", degree_range(core.low, core.high, scale, "and"));
    }
    let figure = degrees(core.typical, scale);
    if core.low < core.high {
        format!("{figure} ({})", degree_range(core.low, core.high, scale, "to"))
    } else {
        figure
    }
}

/// "smoke, from 0 min (18:30) to 6 h (00:30)."
pub fn times(phase: &PhaseTimes, start_vague: bool, start: Option<Start>) -> String {
    let about = if start_vague { "about " } else { "" };
    let from = format!("{}, from {about}{}", phase.name, moment(phase.start_s, start));
    let end = moment(phase.end_s, start);
    let earliest = moment(phase.end_earliest_s, start);
    let latest = moment(phase.end_latest_s, start);
    let ends = if phase.end_predicted { "predicted to end" } else { "ends" };
    if end_is_vague(phase) {
        format!("{from}, {ends} between {earliest} and {latest}.")
    } else if earliest == latest && !phase.end_predicted {
        format!("{from} to {end}.")
    } else {
        format!("{from}, {ends} at {end}, between {earliest} and {latest}.")
    }
}

/// Why some figures are only ranges; `None` where none of this chart is.
pub fn why_ranges(chart: &Chart, scale: Scale) -> Option<String> {
    let vague = |stretch: &Stretch| end_is_vague(stretch.phase) || core_is_vague(&stretch.last);
    if !chart.stretches.iter().any(vague) {
        return None;
    }
    let wide = match scale {
        Scale::Celsius => "5 °C",
        Scale::Fahrenheit => "9 °F",
    };
    let sources = if chart.food.assumed.is_empty() {
        "the ranges in the file and the swing of the kit"
    } else {
        "the ranges in the file, the swing of the kit and what is assumed below"
    };
    Some(format!(
        "Where only a range stands, it is wider than {wide}, or than a fifth of the time since the start, \
         and one figure would promise too much. It comes from {sources}."
    ))
}

/// "The last reading, after 3 h (21:30): 54 °C. The forecast goes by what was read." `None` where nothing was.
pub fn read(food: &FoodCurve, start: Option<Start>, scale: Scale) -> Option<String> {
    let last = food.readings.last()?;
    let heeded = match food.heeded {
        Heeded::Followed => "The forecast goes by what was read.",
        Heeded::TooSoon => {
            "The core has warmed or cooled too little yet for the readings to tell anything: \
             the forecast is the one without them."
        }
        Heeded::Rejected => "The readings do not fit the file: the forecast is the one without them.",
    };
    Some(format!(
        "The last reading, after {}: {}. {heeded}",
        moment(last.t_s, start),
        degrees(last.core_c, scale)
    ))
}

/// The letter that stands for a limit in a plot, by its place in the list.
pub fn letter(limit: usize) -> char {
    char::from(b'A' + (limit % 26) as u8)
}

/// "lowest hot hold, FDA Food Code: 57 °C", and whether it is out of the picture.
pub fn limit(limit: &Limit, chart: &Chart, scale: Scale) -> String {
    let place = match limit.drawn {
        true => "",
        false if limit.shown > chart.degrees.to => " (above this plot)",
        false => " (below this plot)",
    };
    format!("{}: {}{place}", limit.name, degrees(limit.celsius, scale))
}

/// "beans, from simmer on: …"
pub fn unpredicted(food: &Unpredicted, curves: &Curves) -> String {
    let phase = curves.phases.iter().find(|phase| phase.phase == food.phase);
    let from = phase.map_or_else(String::new, |phase| format!(", from {} on", phase.name));
    format!("{}{from}: {}", food.name, food.because)
}

/// The text where it takes no more than so many columns, else as much of it as does.
pub fn shorten(text: &str, columns: usize) -> String {
    if text.width() <= columns {
        return text.to_owned();
    }
    let mut used = 1;
    let fits = |c: &char| {
        used += c.width().unwrap_or(0);
        used <= columns
    };
    let mut short: String = text.chars().take_while(fits).collect();
    short.push('…');
    short
}
