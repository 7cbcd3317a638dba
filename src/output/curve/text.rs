//! The curves for a terminal.

use super::A_PROBE_DECIDES;
use super::chart::Chart;
use super::plot::{BAND, CORE, LIMIT, MEDIUM, READING, plot};
use super::shown::nothing;
use super::{Shown, Start, has, words};
use crate::heat::{Curves, FoodCurve, PhaseTimes};
use crate::output::layout::paragraph;
use crate::output::microbes;
use crate::quantity::Scale;

/// A plot of each food, what it predicts phase by phase, and what it rests on.
pub fn text(shown: &Shown<'_>, scale: Scale) -> String {
    let &Shown { curves, limits, start, microbes, .. } = shown;
    let mut page = String::new();
    paragraph(&mut page, 0, 0, &shown.heading());
    for said in shown.introduction() {
        paragraph(&mut page, 0, 0, &said);
    }
    for food in &curves.foods {
        page.push('\n');
        match Chart::new(curves, food, limits, scale) {
            Some(chart) => {
                section(&mut page, &chart, start, scale);
                page.push('\n');
                microbes::text(&mut page, super::microbes_of(food, microbes));
            }
            None => paragraph(&mut page, 0, 0, &nothing(food)),
        }
        assumed(&mut page, food);
    }
    other_phases(&mut page, curves, start);
    without_curve(&mut page, curves);
    page.push('\n');
    paragraph(&mut page, 0, 0, A_PROBE_DECIDES);
    page
}

fn section(page: &mut String, chart: &Chart, start: Option<Start>, scale: Scale) {
    paragraph(page, 0, 0, &format!("{}, predicted", chart.food.name));
    page.push('\n');
    page.push_str(&plot(chart, start, scale));
    page.push('\n');
    let key = format!("{CORE} core, the slowest point    {BAND} the core may be anywhere here");
    page.push_str(&format!("  {key}\n  {MEDIUM} around it: air, water or contact\n"));
    if let Some(read) = words::read(chart.food, start, scale) {
        page.push_str(&format!("  {READING} what the probe read\n"));
        paragraph(page, 2, 4, &read);
    }
    for (n, limit) in chart.limits.iter().enumerate() {
        let mark = if limit.drawn { format!("{LIMIT} {}", words::letter(n)) } else { "limit".into() };
        paragraph(page, 2, 6, &format!("{mark} {}", words::limit(limit, chart, scale)));
    }
    page.push_str("\nPhase by phase, predicted, in time since the start:\n");
    for (n, stretch) in chart.stretches.iter().enumerate() {
        paragraph(page, 2, 4, &format!("{} {}", n + 1, words::stretch(stretch, start, scale)));
    }
    if let Some(why) = words::why_ranges(chart, scale) {
        paragraph(page, 0, 0, &why);
    }
}

fn assumed(page: &mut String, food: &FoodCurve) {
    if food.assumed.is_empty() {
        return;
    }
    page.push_str("\nAssumed, because the file does not say it:\n");
    for what in &food.assumed {
        paragraph(page, 2, 4, &format!("- {what}"));
    }
}

/// Phases that no curve goes through.
fn other_phases(page: &mut String, curves: &Curves, start: Option<Start>) {
    let drawn = || curves.foods.iter().flat_map(|food| &food.samples);
    // What takes no time ends as it begins.
    let lasts = |phase: &&PhaseTimes| phase.most_s > 0.0;
    let mut others = curves.phases.iter().filter(lasts).filter(|phase| !has(drawn(), phase.phase)).peekable();
    if others.peek().is_none() {
        return;
    }
    page.push_str("\nPhases of which no temperature is predicted:\n");
    for phase in others {
        paragraph(page, 2, 4, &format!("- {}", words::times(phase, false, start)));
    }
}

fn without_curve(page: &mut String, curves: &Curves) {
    if curves.unpredicted.is_empty() {
        return;
    }
    page.push_str("\nFoods without a curve:\n");
    for food in &curves.unpredicted {
        paragraph(page, 2, 4, &format!("- {}", words::unpredicted(food, curves)));
    }
}
