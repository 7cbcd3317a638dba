//! The curves as a picture that stands alone: on a page, on paper, or read aloud.

mod panel;

use super::A_PROBE_DECIDES;
use super::chart::Chart;
use super::shown::nothing;
use super::{Shown, Start, words};
use crate::output::drawing::{Anchor, Drawing, LINE, MARGIN, page, paragraph};
use crate::quantity::Scale;

/// What is told apart by colour is told apart by kind of line as well, so that grey paper and every eye
/// will do.
const STYLE: &str = "
.dwell-curve text{font:12px sans-serif;fill:#1c1c1c}
.dwell-curve .title{font-size:17px;font-weight:bold}
.dwell-curve .food{font-size:14px;font-weight:bold}
.dwell-curve .caution{font-weight:bold}
.dwell-curve .paper{fill:#fff}
.dwell-curve .phase{fill:#f2f2ef;stroke:#8a8a8a}
.dwell-curve .grid{stroke:#dcdcdc}
.dwell-curve .edge{stroke:#b0b0b0}
.dwell-curve .axis{stroke:#1c1c1c}
.dwell-curve .line{fill:none;stroke-linejoin:round;stroke-linecap:round}
.dwell-curve .band{fill:#2a6db0;fill-opacity:.22;stroke:#2a6db0;stroke-width:.7;stroke-opacity:.7}
.dwell-curve .core{stroke:#0b3c6f;stroke-width:2.6}
.dwell-curve .surface{stroke:#44617f;stroke-width:1.8;stroke-dasharray:.1 4}
.dwell-curve .medium{stroke:#b0460a;stroke-width:1.8;stroke-dasharray:9 5}
.dwell-curve .limit{stroke:#1c1c1c;stroke-width:1.2;stroke-dasharray:14 4 2 4}
@media (prefers-color-scheme:dark){
.dwell-curve text{fill:#ececec}
.dwell-curve .paper{fill:#16181b}
.dwell-curve .phase{fill:#25282c;stroke:#7c7c7c}
.dwell-curve .grid{stroke:#33373c}
.dwell-curve .edge{stroke:#565b61}
.dwell-curve .axis{stroke:#ececec}
.dwell-curve .band{fill:#7db4ec;stroke:#7db4ec}
.dwell-curve .core{stroke:#b9d9fb}
.dwell-curve .surface{stroke:#9db7d3}
.dwell-curve .medium{stroke:#f5a05f}
.dwell-curve .limit{stroke:#ececec}
}
";

/// A panel for each food of each cook, with the words that belong to it, below what has to be said first.
pub fn svg(title: &str, cooks: &[Shown<'_>], cautions: &[String], scale: Scale) -> String {
    let mut drawing = Drawing::default();
    let mut told = cautions.to_vec();
    let mut y = MARGIN + LINE;
    drawing.text(MARGIN, y, "title", Anchor::Start, &words::shorten(title, 80));
    y = paragraph(&mut drawing, y + 4.0, "", "Predicted temperatures.");
    for caution in cautions {
        y = paragraph(&mut drawing, y + 4.0, "caution", caution);
    }
    let mut any = false;
    for shown in cooks {
        if cooks.len() > 1 {
            y += 2.0 * LINE;
            drawing.text(MARGIN, y, "title", Anchor::Start, &words::shorten(shown.title, 80));
            told.push(format!("{}.", shown.heading()));
        }
        let said = told.len();
        y = cook(&mut drawing, &mut told, shown, scale, y);
        any |= told.len() > said;
    }
    if any {
        y = panel::key(&mut drawing, y);
    }
    y = paragraph(&mut drawing, y, "", A_PROBE_DECIDES);
    told.push(A_PROBE_DECIDES.to_owned());
    page("dwell-curve", STYLE, &format!("{title}: predicted temperatures"), &told.join(" "), &drawing, y)
}

/// One cook from `y` down; gives where it ends.
fn cook(drawing: &mut Drawing, told: &mut Vec<String>, shown: &Shown<'_>, scale: Scale, mut y: f64) -> f64 {
    let &Shown { curves, limits, start, .. } = shown;
    for said in shown.introduction() {
        y = paragraph(drawing, y, "", &said);
    }
    for food in &curves.foods {
        match Chart::new(curves, food, limits, scale) {
            Some(chart) => {
                y = panel::panel(drawing, &chart, start, scale, y);
                told.extend(sentences(&chart, start, scale));
            }
            None => y = paragraph(drawing, y, "", &nothing(food)),
        }
        if !food.assumed.is_empty() {
            let assumed = format!("Assumed for {}: {}", food.name, food.assumed.join("; "));
            y = paragraph(drawing, y + 4.0, "", &assumed);
        }
    }
    for food in &curves.unpredicted {
        let why = words::unpredicted(food, curves);
        y = paragraph(drawing, y, "", &format!("No curve for {why}"));
    }
    y
}

/// What the picture shows, for those who cannot see it.
fn sentences(chart: &Chart, start: Option<Start>, scale: Scale) -> Vec<String> {
    let phases = chart.stretches.iter().map(|stretch| words::stretch(stretch, start, scale));
    let limits = chart.limits.iter().map(|limit| format!("{}.", words::limit(limit, chart, scale)));
    std::iter::once(format!("{}, predicted:", chart.food.name)).chain(phases).chain(limits).collect()
}
