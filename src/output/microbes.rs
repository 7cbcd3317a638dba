//! What is predicted of microbes, for people and for tools.

use schemars::JsonSchema;
use serde::Serialize;

use super::layout::paragraph;
use super::measure::thousandth;
use crate::quantity::plain_number;
use crate::safety::{Line, Microbe};
use crate::tables::microbes::Survives;

/// More than this is not told apart.
const MOST_LOG10: f64 = 6.0;

/// One organism in one food, predicted to about 1 either way. Growth is never taken back by a later reduction.
#[derive(Debug, Serialize, JsonSchema)]
pub struct MicrobeJson {
    organism: &'static str,
    /// From the lowest that the core may be; null where no published figure is good enough.
    reduction_log10: Option<f64>,
    /// As many times more as if heat killed none; null where a part of the curve is not known.
    growth_log10: Option<f64>,
    /// The temperature of the samples along which it grows most.
    growth_along: &'static str,
    /// What stays whatever heat does: "spores", "toxin", or null.
    survives: Option<&'static str>,
}

/// For tools.
pub fn json(microbe: &Microbe) -> MicrobeJson {
    let figure = |value: f64| value.is_finite().then(|| thousandth(value));
    MicrobeJson {
        organism: &microbe.organism.name,
        reduction_log10: microbe.reduction_log10.and_then(figure),
        growth_log10: microbe.growth_log10.and_then(figure),
        growth_along: match microbe.grows {
            Line::LowestCore => "core_low_c",
            Line::UsualCore => "core_c",
            Line::HighestCore => "core_high_c",
            Line::Surface => "surface_c",
        },
        survives: microbe.organism.survives.map(|survives| match survives {
            Survives::Spores => "spores",
            Survives::Toxin => "toxin",
        }),
    }
}

/// A line for each organism, for a page that people read.
pub fn text(page: &mut String, microbes: &[Microbe]) {
    if microbes.is_empty() {
        paragraph(
            page,
            0,
            0,
            "Microbes: not predicted. The figures do not hold for so dry a food, or none is known.",
        );
        return;
    }
    page.push_str("Microbes, predicted, in powers of ten (1 is tenfold, 2 a hundredfold), ±1:\n");
    for microbe in microbes {
        paragraph(page, 2, 4, &format!("- {}", line(microbe)));
    }
}

/// "Salmonella: killed at least 6; grown 2.0 in the core."
fn line(microbe: &Microbe) -> String {
    let killed = match microbe.reduction_log10 {
        Some(log10) => log10_words(log10),
        None => "not predicted".into(),
    };
    let grown = match microbe.growth_log10 {
        Some(log10) => {
            let place = if microbe.grows == Line::Surface { "on the surface" } else { "in the core" };
            format!("{} {place}", log10_words(log10))
        }
        None => "not known, a part of its history is not predicted".into(),
    };
    let survives = match microbe.organism.survives {
        Some(Survives::Spores) => " Its spores live through any cook.",
        Some(Survives::Toxin) => " Its toxin stays, however hot.",
        None => "",
    };
    format!("{}: killed {killed}; grown {grown}.{survives}", microbe.organism.name)
}

/// `2.0`, `at least 6`, `less than 0.1`.
fn log10_words(log10: f64) -> String {
    if log10 > MOST_LOG10 {
        format!("at least {MOST_LOG10}")
    } else if log10 < 0.1 {
        "less than 0.1".into()
    } else {
        plain_number(log10, 1)
    }
}
