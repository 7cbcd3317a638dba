//! What is written beside the lines of a cook: when each phase is, the other scale, and how warm it is predicted to get.

use std::ops::Range;

use super::View;
use super::figures::other_scale;
use super::forecast::{as_predicted, cores_at_end, plan_of};
use super::scope::Scope;
use crate::cook::Document;
use crate::output::timeline::{reservation, short_dish_times, short_times};
use crate::syntax::Said;
use crate::text::Span;
use crate::timing::{OnTime, Timeline};

/// Which hints somebody wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Wanted {
    pub times: bool,
    pub scale: bool,
    pub core: bool,
}

impl Default for Wanted {
    fn default() -> Self {
        Self { times: true, scale: true, core: true }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum HintKind {
    Times,
    Scale,
    Core,
}

/// Words beside a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hint {
    pub kind: HintKind,
    /// What it stands behind.
    pub after: usize,
    pub text: String,
    /// What it means, in a sentence.
    pub means: String,
}

/// The hints in a stretch of the file, in the order of the text. What is not worked out has none.
pub fn hints(view: &View<'_>, range: Range<usize>, wanted: Wanted) -> Vec<Hint> {
    let mut all = Vec::new();
    if wanted.times {
        all.extend(times(view));
    }
    if wanted.core {
        all.extend(cores(view));
    }
    all.retain(|hint| range.contains(&hint.after) || hint.after == range.end);
    if wanted.scale {
        all.extend(scales(view, &range));
    }
    all.sort_by_key(|hint| (hint.after, hint.kind));
    all
}

/// Beside the first line of a phase, and beside a dish of a menu.
fn times(view: &View<'_>) -> Vec<Hint> {
    let all = view.compiled.cooks();
    let plan = plan_of(view);
    let phases = Scope::of(view).phases().zip(plan.into_iter().flat_map(|plan| &plan.phases));
    let phases = phases.filter_map(|((_, phase), line)| {
        let plan = plan?;
        let times = short_times(&plan.clock, line)?;
        Some(times_of(plan, phase.span, as_predicted(times, &all, line.end.or(line.start))))
    });
    let menu = match &view.compiled.document {
        Some(Document::Menu(menu)) if menu.file == view.file => Some(menu),
        _ => None,
    };
    let plans = all.iter().map(|worked| worked.timeline);
    let dishes = menu.into_iter().flat_map(|menu| &menu.dishes).zip(plans).filter_map(|(dish, plan)| {
        let plan = plan?;
        let served = plan.servings.iter().filter_map(|serving| serving.promised);
        let last = served.chain(plan.start).max_by_key(|window| window.latest);
        Some(times_of(plan, dish.span, as_predicted(short_dish_times(plan)?, &all, last)))
    });
    phases.chain(dishes).collect()
}

/// What is not promised is told apart.
fn times_of(plan: &Timeline, line: Span, times: String) -> Hint {
    let perhaps = if plan.on_time == OnTime::Always { "" } else { "perhaps " };
    let means = format!("When it starts and ends, by the plan. {}", reservation(plan));
    Hint {
        kind: HintKind::Times,
        after: line.end as usize,
        text: format!("{perhaps}{times}"),
        means: means.trim_end().to_owned(),
    }
}

/// Below the last line of a phase.
fn cores(view: &View<'_>) -> Vec<Hint> {
    let all = Scope::of(view).phases().filter_map(|(id, phase)| {
        let cores = cores_at_end(view, id);
        let several = cores.len() > 1;
        let said: Vec<String> =
            cores.into_iter().map(|(food, core)| if several { format!("{food} {core}") } else { core }).collect();
        (!said.is_empty()).then(|| Hint {
            kind: HintKind::Core,
            after: phase.block.end as usize,
            text: format!("core at its end: predicted {}", said.join(", ")),
            means: "The slowest point of the food as the phase ends: predicted, with its bounds. A probe decides.".into(),
        })
    });
    all.collect()
}

/// Behind a temperature that is written in one scale alone.
fn scales(view: &View<'_>, range: &Range<usize>) -> Vec<Hint> {
    let inside = |start: u32, end: u32| (start as usize) < range.end && (end as usize) > range.start;
    let clauses = view.tree.clauses.iter().filter(|clause| inside(clause.span.start, clause.span.end));
    let measures = clauses.flat_map(|clause| clause.kind.parts()).filter_map(|said| match said {
        Said::Measure(measure) => Some((measure, false)),
        Said::Difference(measure) => Some((measure, true)),
        _ => None,
    });
    let alone = measures.filter(|(measure, _)| measure.twin().is_empty() && measure.twin_high().is_empty());
    alone
        .filter_map(|(measure, is_difference)| {
            Some(Hint {
                kind: HintKind::Scale,
                after: measure.span.end as usize,
                text: format!("({})", other_scale(view, measure, is_difference)?),
                means: "The same in the other scale.".into(),
            })
        })
        .collect()
}
