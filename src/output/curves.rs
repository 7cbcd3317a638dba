//! The curves of a file: of its one cook, or of all dishes of a menu, one below the other.

use super::curve::{self, Shown, Start};
use super::{cautions, timelines};
use crate::compile::{Compiled, CompiledCook};
use crate::heat::Curves;
use crate::safety::{self, FoodMicrobes};
use crate::timing::{Clock, Minute};

/// What of a file is drawn.
#[derive(Debug, Clone, Copy, Default)]
pub struct Wanted<'w> {
    /// Only this food, in whatever dish it is.
    pub food: Option<&'w str>,
    /// What is predicted of microbes too.
    pub microbes: bool,
    /// When the cook started, where somebody said it.
    pub started: Option<(Clock, Minute)>,
}

/// The curves of a file, ready to be shown in any form.
#[derive(Debug)]
pub struct Charts<'c> {
    file: &'c Compiled,
    cooks: Vec<Chart<'c>>,
}

/// A cook whose curves are shown, or some of them.
#[derive(Debug)]
struct Chart<'c> {
    title: &'c str,
    curves: Curves,
    microbes: Vec<FoodMicrobes>,
    limits: Vec<(String, f64)>,
    start: Option<Start>,
}

impl<'c> Charts<'c> {
    /// `None` where there is no cook, or no food of the wanted name in any.
    pub fn of(file: &'c Compiled, wanted: Wanted<'_>) -> Option<Self> {
        let given = wanted.started.map(|(clock, minute)| Start::given(clock, minute));
        let chart = |worked: CompiledCook<'c>| {
            let curves = match wanted.food {
                Some(name) => curve::of_food(worked.curves, name)?,
                None => worked.curves.clone(),
            };
            // The lives of foods are followed through all curves, chosen or not.
            let microbes = match wanted.microbes {
                true => safety::microbial(worked.cook, worked.curves),
                false => Vec::new(),
            };
            Some(Chart {
                title: &worked.cook.title.value,
                curves,
                microbes,
                limits: curve::limits_in_force(worked.judged),
                start: given.or_else(|| worked.timeline.and_then(Start::of)),
            })
        };
        let cooks: Vec<_> = file.cooks().into_iter().filter_map(chart).collect();
        (!cooks.is_empty()).then_some(Self { file, cooks })
    }

    fn shown(&self) -> Vec<Shown<'_>> {
        let shown = self.cooks.iter().map(|chart| Shown {
            title: chart.title,
            curves: &chart.curves,
            microbes: &chart.microbes,
            limits: &chart.limits,
            start: chart.start,
        });
        shown.collect()
    }

    fn in_one_table(&self) -> Curves {
        match (timelines::menu_title(self.file), self.cooks.as_slice()) {
            (None, [only]) => only.curves.clone(),
            (_, cooks) => curve::together(cooks.iter().map(|chart| (chart.title, &chart.curves))),
        }
    }

    /// For people.
    pub fn text(&self) -> String {
        let pages: Vec<String> =
            self.shown().iter().map(|shown| curve::text(shown, self.file.scale)).collect();
        pages.join("\n\n")
    }

    /// As a picture.
    pub fn svg(&self) -> String {
        let first = self.cooks.first().map_or("", |chart| chart.title);
        let title = timelines::menu_title(self.file).unwrap_or(first);
        curve::svg(title, &self.shown(), &cautions::of_forecast(self.file), self.file.scale)
    }

    /// As a table.
    pub fn csv(&self) -> String {
        curve::csv(&self.in_one_table())
    }

    /// For tools, in the format "dwell.curve/1".
    pub fn json(&self) -> String {
        let shown = self.shown();
        let microbes: Vec<_> = shown.iter().flat_map(Shown::microbes_by_food).collect();
        curve::json(&self.in_one_table(), &microbes)
    }
}
