//! The kit table as people and other tools read it.

use serde::Serialize;

use super::{WIDTH, field, share};
use crate::quantity::{Duration, Scale, Temperature, TemperatureDifference, plain_number};
use crate::tables::{ClassRange, FigureSource, Film, KitClass, KitClasses, Unfit, UnfitUse, Unset};

/// As wide as the longest name of a class.
const INDENT: &str = "                     ";

pub(super) fn list(table: &KitClasses, scale: Scale) -> String {
    let mut page = format!("{:20} set or found at\n", "class");
    for class in table.classes() {
        let ranges: Vec<String> = class.ranges.iter().map(|range| shown(range, scale)).collect();
        let first = format!("{:20} ", class.name);
        let options = textwrap::Options::new(WIDTH).initial_indent(&first).subsequent_indent(INDENT);
        page.push_str(textwrap::fill(&ranges.join("; "), options).trim_end());
        page.push('\n');
    }
    page.push('\n');
    page.push_str(&textwrap::fill(
        "A cook's own kit block goes before these. dwell kit CLASS shows one with its sources.",
        WIDTH,
    ));
    page.push('\n');
    page
}

pub(super) fn page(class: &KitClass, scale: Scale) -> String {
    let mut page = format!("{}\n", class.name);
    let mut line = |label: &str, text: &str| field(&mut page, label, text);
    if let Some(base) = &class.base {
        line("class", base);
    }
    if !class.also.is_empty() {
        line("also", &format!("{} (common practice, no source)", class.also.join("; ")));
    }
    let from = |key: &str| {
        let (source, status) = class.source_of(key);
        if status == "practice" { source.to_owned() } else { format!("{source}; {status}") }
    };
    for range in &class.ranges {
        line(range.medium.word(), &format!("{} ({})", between(range, scale), from("ranges")));
    }
    let figures = [
        (
            "swing",
            "swing_k",
            class.swing_k.map(|k| format!("± {}", TemperatureDifference::from_kelvin(k).show(scale))),
        ),
        ("preheat", "preheat_min", class.preheat_min.map(|min| Duration::from_minutes(min).show())),
        ("cools down", "cools_down_min", class.cools_down_min.map(|min| Duration::from_minutes(min).show())),
        ("moisture", "moisture_percent", class.moisture_percent.map(share)),
        (
            "may be",
            "moisture_range_percent",
            class.moisture_range_percent.map(|[low, high]| format!("{} to {}", share(low), share(high))),
        ),
        ("film", "film_w_m2k", class.film_w_m2k.map(|h| format!("{} W/m² K", plain_number(h, 2)))),
        ("heats", "heats_k_min", class.heats_k_min.map(|rate| per_minute(rate, scale))),
        ("cools", "cools_k_min", class.cools_k_min.map(|rate| per_minute(rate, scale))),
    ];
    for (label, key, figure) in figures {
        if let Some(figure) = figure {
            line(label, &format!("{figure} ({})", from(key)));
        }
    }
    // A measured figure goes before those of the class.
    for film in class.films.iter().filter(|_| class.film_w_m2k.is_none()) {
        line("film", &film_in_words(film));
    }
    if let Some(unset) = &class.unset {
        line("unset", &unset_in_words(unset, scale));
    }
    for can in abilities(class) {
        line("", can);
    }
    for unfit in &class.unfit {
        line("not for", &unfit_in_words(unfit));
    }
    page
}

fn abilities(class: &KitClass) -> impl Iterator<Item = &'static str> {
    [
        (!class.holds_food, "A thermometer: food cannot be put in it."),
        (class.cold, "It cools."),
        (class.own_settings, "Every pan on it has a setting of its own."),
        (class.smokes && !class.vented, "It can make smoke; say `vented` where the smoke is led outside."),
    ]
    .into_iter()
    .filter_map(|(holds, words)| holds.then_some(words))
}

/// `air: 4 to 10 W/m² K, usually 5, and radiation (source; status)`.
fn film_in_words(film: &Film) -> String {
    let Film { medium, low_w_m2k, typical_w_m2k, high_w_m2k, radiates, source, status } = film;
    let figure = |w_m2k: &f64| plain_number(*w_m2k, 2);
    let radiation = if *radiates { ", and radiation" } else { "" };
    format!(
        "{}: {} to {} W/m² K, usually {}{radiation} ({source}; {status})",
        medium.word(),
        figure(low_w_m2k),
        figure(high_w_m2k),
        figure(typical_w_m2k)
    )
}

/// `plate: 20 °C to 260 °C, usually 180 °C (source; status)`.
fn unset_in_words(unset: &Unset, scale: Scale) -> String {
    let Unset { medium, low_c, typical_c, high_c, source, status } = unset;
    let [low, usual, high] =
        [low_c, typical_c, high_c].map(|degrees| Temperature::from_celsius(*degrees).show(scale));
    let from = if status == "practice" { source.clone() } else { format!("{source}; {status}") };
    format!("{}: {low} to {high}, usually {usual} ({from})", medium.word())
}

fn unfit_in_words(unfit: &Unfit) -> String {
    let used_for = match unfit.used_for {
        UnfitUse::Frozen => "frozen food",
        UnfitUse::Cook => "cooking",
        UnfitUse::Reheat => "reheating",
    };
    format!("{used_for}. {} ({}; {})", unfit.because, unfit.source, unfit.status)
}

fn shown(range: &ClassRange, scale: Scale) -> String {
    format!("{} {}", range.medium.word(), between(range, scale))
}

fn between(range: &ClassRange, scale: Scale) -> String {
    let show = |degrees| Temperature::from_celsius(degrees).show(scale);
    format!("{} to {}", show(range.low_c), show(range.high_c))
}

fn per_minute(kelvin: f64, scale: Scale) -> String {
    format!("{} a minute", TemperatureDifference::from_kelvin(kelvin).show(scale))
}

/// A class in the units of every other JSON document: times in seconds.
#[derive(Serialize)]
pub(super) struct ClassRow<'a> {
    name: &'a str,
    also: &'a [String],
    class: &'a str,
    ranges: &'a [ClassRange],
    swing_k: Option<f64>,
    preheat_s: Option<f64>,
    cools_down_s: Option<f64>,
    moisture_percent: Option<f64>,
    moisture_range_percent: Option<[f64; 2]>,
    film_w_m2k: Option<f64>,
    films: &'a [Film],
    unset: Option<&'a Unset>,
    heats_k_min: Option<f64>,
    cools_k_min: Option<f64>,
    holds_food: bool,
    cold: bool,
    smokes: bool,
    vented: bool,
    unfit: &'a [Unfit],
    source: &'a str,
    status: &'a str,
    sources: &'a std::collections::BTreeMap<String, FigureSource>,
}

impl<'a> ClassRow<'a> {
    pub(super) fn of(class: &'a KitClass) -> Self {
        Self {
            name: &class.name,
            also: &class.also,
            class: class.base_name(),
            ranges: &class.ranges,
            swing_k: class.swing_k,
            preheat_s: class.preheat_min.map(|min| min * 60.0),
            cools_down_s: class.cools_down_min.map(|min| min * 60.0),
            moisture_percent: class.moisture_percent,
            moisture_range_percent: class.moisture_range_percent,
            film_w_m2k: class.film_w_m2k,
            films: &class.films,
            unset: class.unset.as_ref(),
            heats_k_min: class.heats_k_min,
            cools_k_min: class.cools_k_min,
            holds_food: class.holds_food,
            cold: class.cold,
            smokes: class.smokes,
            vented: class.vented,
            unfit: &class.unfit,
            source: &class.source,
            status: &class.status,
            sources: &class.sources,
        }
    }
}
