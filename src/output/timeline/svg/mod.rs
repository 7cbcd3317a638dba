//! The plan as a picture that stands alone: the phases of each dish on the clock, from left to right.
//!
//! A bar is whole while a phase goes on whatever happens, and striped while it may; the night is shaded and named.

mod rows;
mod scale;

use super::words;
use crate::output::curve::words::shorten;
use crate::output::drawing::{Anchor, Drawing, LINE, MARGIN, page, paragraph, width};
use crate::timing::{PhaseLine, Timeline};
use scale::Scale;

/// What is told apart by colour is told apart by kind of mark as well, so that grey paper and every eye will do.
const STYLE: &str = "
.dwell-plan text{font:12px sans-serif;fill:#1c1c1c}
.dwell-plan .title{font-size:17px;font-weight:bold}
.dwell-plan .dish,.dwell-plan .caution{font-weight:bold}
.dwell-plan .dish{font-size:14px}
.dwell-plan .paper{fill:#fff}
.dwell-plan .night{fill:#e4e4ea}
.dwell-plan .grid{stroke:#c6c6c6}
.dwell-plan .day{stroke:#5c5c5c}
.dwell-plan .axis{stroke:#1c1c1c}
.dwell-plan .frame{fill:none;stroke:#0b3c6f}
.dwell-plan .sure{fill:#0b3c6f}
.dwell-plan .perhaps{stroke:#0b3c6f;stroke-width:9;stroke-dasharray:2 3}
.dwell-plan .hands{fill:#1c1c1c}
@media (prefers-color-scheme:dark){
.dwell-plan text{fill:#ececec}
.dwell-plan .paper{fill:#16181b}
.dwell-plan .night{fill:#2c3038}
.dwell-plan .grid{stroke:#43484e}
.dwell-plan .day{stroke:#a8adb3}
.dwell-plan .axis{stroke:#ececec}
.dwell-plan .frame{stroke:#b9d9fb}
.dwell-plan .sure{fill:#b9d9fb}
.dwell-plan .perhaps{stroke:#b9d9fb}
.dwell-plan .hands{fill:#ececec}
}
";

/// Rows of one picture on paper.
const ON_A_PAGE: usize = 26;

/// The picture, below what has to be said first.
pub fn svg(plan: &Timeline, above: &[String]) -> String {
    picture(plan, &in_order(plan), above)
}

/// The same in pictures that each go on one page of paper.
pub fn svg_pages(plan: &Timeline) -> Vec<String> {
    in_order(plan).chunks(ON_A_PAGE).map(|phases| picture(plan, phases, &[])).collect()
}

/// What is timed, dish by dish and in the order of the clock.
fn in_order(plan: &Timeline) -> Vec<&PhaseLine> {
    let mut timed: Vec<&PhaseLine> = plan.phases.iter().filter(|phase| Scale::holds(phase)).collect();
    let dish = |phase: &PhaseLine| plan.phases.iter().position(|other| other.cook == phase.cook);
    timed.sort_by_cached_key(|phase| (dish(phase), phase.start.map(|start| start.earliest)));
    timed
}

fn picture(plan: &Timeline, timed: &[&PhaseLine], above: &[String]) -> String {
    let mut drawing = Drawing::default();
    let mut told = above.to_vec();
    let mut y = MARGIN + LINE;
    drawing.text(MARGIN, y, "title", Anchor::Start, &shorten(&plan.title, 80));
    for caution in above {
        y = paragraph(&mut drawing, y + 4.0, "caution", caution);
    }
    let promise = words::promise(plan);
    y = paragraph(&mut drawing, y + 4.0, "", &promise);
    told.push(promise);
    match Scale::of(plan) {
        Some(scale) => y = rows::draw(&mut drawing, plan, &scale, timed, y),
        None => y = paragraph(&mut drawing, y + 4.0, "", "Nothing of it can be timed."),
    }
    told.extend(timed.iter().map(|phase| format!("{}.", rows::told(plan, phase))));
    let open: Vec<String> = plan
        .phases
        .iter()
        .filter(|phase| !Scale::holds(phase))
        .map(|phase| words::named(&phase.cook, &phase.name, plan.is_menu()))
        .collect();
    if !open.is_empty() {
        let open = format!("Not timed: {}.", open.join("; "));
        y = paragraph(&mut drawing, y + 4.0, "", &open);
        told.push(open);
    }
    if !timed.is_empty() {
        y = key(&mut drawing, plan, y);
    }
    page("dwell-plan", STYLE, &format!("{}: the plan", plan.title), &told.join(" "), &drawing, y)
}

/// What the marks mean.
fn key(drawing: &mut Drawing, plan: &Timeline, y: f64) -> f64 {
    let y = y + 2.0 * LINE;
    let mut x = MARGIN;
    let night = (!plan.asleep.is_empty()).then_some(("night", "nobody is awake"));
    let marks = [("sure", "it is going on"), ("perhaps", "it may be"), ("hands", "somebody is needed")];
    for (class, meaning) in marks.into_iter().chain(night) {
        match class {
            "perhaps" => rows::striped(drawing, x, x + 30.0, y - 9.0),
            "hands" => rows::hands(drawing, x + 24.0, y - 4.0),
            _ => drawing.rect(class, (x, y - 9.0), (30.0, rows::BAR)),
        }
        drawing.text(x + 36.0, y, "", Anchor::Start, meaning);
        x += 36.0 + width(meaning) + 14.0;
    }
    y + 6.0
}
