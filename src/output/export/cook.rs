//! A cook and a menu.

use schemars::JsonSchema;
use serde::Serialize;

use super::amounts::Amount;
use super::when::{Crew, When};
use super::{Place, kit, phase, stock};
use crate::compile::CompiledCook;
use crate::cook;
use crate::output::timeline::{self, TimelineJson};
use crate::quantity::Scale;
use crate::safety;
use crate::text::{Sources, Spanned};

#[derive(Serialize, JsonSchema)]
pub(super) struct Cook {
    title: String,
    about: Option<String>,
    by: Option<String>,
    adapted_from: Option<String>,
    serves: Option<Serves>,
    /// The rule set that the writer names.
    rules: Option<String>,
    vulnerable_guests: bool,
    elevation_m: Option<f64>,
    crew: Option<Crew>,
    kit: Vec<kit::Kit>,
    items: Vec<stock::Item>,
    /// In the order of the file.
    phases: Vec<phase::Phase>,
    notes: Vec<String>,
    allows: Vec<Allow>,
    /// Which rules were judged on what is declared. What is not judged has not passed.
    judged: Vec<Judged>,
    /// As `dwell timeline --format json` gives it; null where a line was not understood.
    timeline: Option<TimelineJson>,
    place: Place,
}

/// One rule, judged in one phase for one food.
#[derive(Serialize, JsonSchema)]
struct Judged {
    rule: String,
    set: String,
    verdict: Verdict,
    phase: Option<String>,
    food: Option<String>,
    why: String,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum Verdict {
    Met,
    Broken,
    NotJudged,
}

#[derive(Serialize, JsonSchema)]
struct Serves {
    people: u32,
    each: Option<Amount>,
}

/// A finding that the writer silences.
#[derive(Serialize, JsonSchema)]
struct Allow {
    code: String,
    because: String,
    phase: Option<String>,
    place: Place,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Menu {
    title: String,
    rules: Option<String>,
    serve: Option<When>,
    /// For each of the dishes the time that the menu has for it alone, where it is a course of its own.
    courses: Vec<Option<When>>,
    kit: Vec<kit::Kit>,
    crew: Option<Crew>,
    place: Place,
}

impl Cook {
    pub(super) fn new(sources: &Sources, compiled: &CompiledCook<'_>, scale: Scale) -> Self {
        let CompiledCook { cook, ledger, judged, timeline, .. } = *compiled;
        Self {
            title: cook.title.value.clone(),
            about: words(&cook.about),
            by: words(&cook.by),
            adapted_from: words(&cook.adapted_from),
            serves: cook.serves.as_ref().map(|serves| Serves {
                people: serves.people,
                each: serves.each.as_ref().map(|each| (&each.value).into()),
            }),
            rules: words(&cook.rules),
            vulnerable_guests: cook.vulnerable_guests.is_some(),
            elevation_m: cook.elevation.map(|elevation| elevation.value.metres()),
            crew: cook.crew.as_ref().map(Crew::from),
            kit: kit::all(sources, &cook.kit),
            items: cook.items.iter().map(|item| stock::Item::new(sources, cook, item)).collect(),
            phases: cook
                .phases
                .iter()
                .enumerate()
                .map(|(n, phase)| phase::Phase::new(sources, cook, phase, ledger.phases.get(n)))
                .collect(),
            notes: cook.notes.iter().map(|note| note.value.clone()).collect(),
            allows: cook
                .allows
                .iter()
                .map(|allow| Allow {
                    code: allow.code.value.name().to_owned(),
                    because: allow.because.clone(),
                    phase: allow.phase.map(|phase| cook.phase(phase).name.clone()),
                    place: Place::new(sources, allow.span),
                })
                .collect(),
            judged: judged.iter().map(|judged| Judged::new(judged, scale)).collect(),
            timeline: timeline.map(|timeline| timeline::json(timeline, scale)),
            place: Place::new(sources, cook.title.span),
        }
    }
}

impl Judged {
    fn new(judged: &safety::Judged, scale: Scale) -> Self {
        Self {
            rule: judged.rule.clone(),
            set: judged.set.clone(),
            verdict: match judged.verdict {
                safety::Verdict::Met => Verdict::Met,
                safety::Verdict::Broken => Verdict::Broken,
                safety::Verdict::NotJudged => Verdict::NotJudged,
            },
            phase: judged.phase.clone(),
            food: judged.food.clone(),
            why: judged.why.render(scale),
        }
    }
}

impl Menu {
    pub(super) fn new(sources: &Sources, menu: &cook::Menu) -> Self {
        Self {
            title: menu.title.value.clone(),
            rules: words(&menu.rules),
            serve: menu.serve.as_ref().map(|serve| (&serve.value).into()),
            courses: menu.dishes.iter().map(|dish| Some((&dish.at?.value).into())).collect(),
            kit: kit::all(sources, &menu.kit),
            crew: menu.crew.as_ref().map(Crew::from),
            place: Place::new(sources, menu.title.span),
        }
    }
}

fn words(text: &Option<Spanned<String>>) -> Option<String> {
    text.as_ref().map(|text| text.value.clone())
}
