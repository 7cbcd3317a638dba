//! What a menu decides for its dishes: who cooks, and when people eat.

use crate::cook::{Crew, Menu, Service, When};
use crate::findings::{Code, Finding};
use crate::{say, timing};

/// The menu's crew becomes that of every dish. Where the menu says no crew or no time, its dishes
/// have to agree on theirs: one kitchen has one crew, and a meal one time.
pub fn share(menu: &mut Menu) -> Vec<Finding> {
    let mut findings = Vec::new();
    match &menu.crew {
        Some(crew) => menu.dishes.iter_mut().for_each(|dish| dish.cook.crew = Some(crew.clone())),
        None => {
            findings.extend(disagree(menu, "who cooks", "crew", |crew, _| crew.map(hours)));
            // Who cooks one dish cooks them all.
            let crew = menu.dishes.iter().find_map(|dish| dish.cook.crew.clone());
            if let Some(crew) = crew.filter(|_| findings.is_empty()) {
                menu.dishes.iter_mut().for_each(|dish| dish.cook.crew = Some(crew.clone()));
            }
        }
    }
    if menu.serve.is_none() {
        findings.extend(disagree(menu, "when people eat", "serve at 18:30", |_, at| at));
    }
    findings
}

/// The time of the meal for all its dishes: that of the command line, of the menu, or of the first dish that
/// says one, with the first day and zone that anything says.
pub fn times(menu: &Menu, asked: &timing::Options) -> timing::Options {
    let servings = menu.dishes.iter().filter_map(|dish| {
        dish.cook.phases.iter().find_map(|phase| phase.service.as_ref().and_then(time_of))
    });
    let said: Vec<When> =
        asked.serve.into_iter().chain(menu.serve.as_ref().map(|serve| serve.value)).chain(servings).collect();
    let mut timing = asked.clone();
    timing.serve = said.first().map(|first| When {
        day: said.iter().find_map(|when| when.day),
        zone: said.iter().find_map(|when| when.zone),
        ..*first
    });
    timing
}

fn time_of(service: &Service) -> Option<When> {
    match service {
        Service::At { at, .. } => Some(at.value),
        Service::Throughout { from, .. } | Service::Guests { from, .. } => Some(from.value),
        Service::Unsaid => None,
    }
}

/// The people and their hours, wherever they are written.
fn hours(crew: &Crew) -> impl PartialEq + use<> {
    let times = |all: &[crate::text::Spanned<_>]| all.iter().map(|hours| hours.value).collect::<Vec<_>>();
    (crew.people, times(&crew.asleep), times(&crew.away))
}

fn disagree<T: PartialEq>(
    menu: &Menu,
    what: &str,
    clause: &str,
    of: impl Fn(Option<&Crew>, Option<When>) -> Option<T>,
) -> Option<Finding> {
    let said = menu.dishes.iter().filter_map(|dish| {
        let serving = dish.cook.phases.iter().find_map(|phase| phase.service.as_ref());
        let at = serving.and_then(time_of);
        Some((dish, of(dish.cook.crew.as_ref(), at)?))
    });
    let said: Vec<_> = said.collect();
    let ((first, theirs), others) = said.split_first()?;
    let (other, _) = others.iter().find(|(_, value)| value != theirs)?;
    Some(
        Finding::new(
            Code::DishesDisagree,
            other.span,
            say![format!("The dishes of this menu do not agree on {what}.")],
            say![format!("Say it for the whole meal: write `{clause}` in the menu.")],
        )
        .also(first.span, say!["This one says something else."]),
    )
}
