//! The timeline of a file: of its one cook, or of all dishes of a menu together.

use super::timeline::{Above, NoCalendar};
use super::{cautions, clean, escape, timeline};
use crate::compile::Compiled;
use crate::cook::Document;
use crate::heat::Heeded;
use crate::timing::Timeline;

/// For people.
pub fn text(file: &Compiled) -> String {
    plan(file).map_or_else(String::new, |plan| timeline::text(plan, file.scale))
}

/// For tools, in the format "dwell.timeline/1".
pub fn json(file: &Compiled) -> String {
    plan(file).map_or_else(String::new, |plan| escape::json(&timeline::json(plan, file.scale)))
}

/// As a picture; `notes` stand above it.
pub fn svg(file: &Compiled, notes: &[String]) -> String {
    let above: Vec<String> = cautions::of_errors(file).into_iter().chain(notes.iter().cloned()).collect();
    plan(file).map_or_else(String::new, |plan| timeline::svg(plan, &above))
}

/// As a calendar; `notes` stand in each of its events.
///
/// # Errors
/// [`NoCalendar`] where the plan has no date, or no phase that can be timed.
pub fn ics(file: &Compiled, notes: Vec<String>) -> Result<String, NoCalendar> {
    let plan = plan(file).ok_or(NoCalendar::NothingTimed)?;
    timeline::ics(plan, file.scale, &Above { caution: cautions::of_errors(file), notes })
}

/// The plan of the cook, or the one of all dishes of the menu.
pub(super) fn plan(file: &Compiled) -> Option<&Timeline> {
    file.meal().or_else(|| file.cooks().first().and_then(|worked| worked.timeline))
}

/// What stands above a plan that readings had a part in.
pub fn readings(file: &Compiled, started: bool) -> Vec<String> {
    let cooks = file.cooks();
    let foods = cooks.iter().flat_map(|worked| &worked.curves.foods).filter(|food| !food.readings.is_empty());
    let heeded = foods.map(|food| {
        let readings = match food.readings.len() {
            1 => "1 reading".to_owned(),
            more => format!("{more} readings"),
        };
        let name = clean::line(&food.name);
        match food.heeded {
            Heeded::Followed => format!("Sharpened by {readings} of `{name}`."),
            Heeded::TooSoon => {
                format!("Not sharpened: {readings} of `{name}`, whose core has changed too little yet.")
            }
            Heeded::Rejected => format!("Not sharpened: {readings} of `{name}` did not fit the file."),
        }
    });
    let own = "The plan is for its own start, not for the one that was given with `--started`: what it says of being \
               on time is not about the cook that is going on. `dwell curve` counts from the start that was given.";
    heeded.chain(started.then(|| own.to_owned())).collect()
}

/// What the menu is called, where the file is one.
pub fn menu_title(file: &Compiled) -> Option<&str> {
    match &file.document {
        Some(Document::Menu(menu)) => Some(&menu.title.value),
        _ => None,
    }
}
