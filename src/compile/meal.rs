//! What a menu decides for its dishes: who cooks, and when people eat.

use crate::cook::{Crew, Dish, Menu, Service, When};
use crate::findings::{Code, Finding};
use crate::text::Spanned;
use crate::{say, timing};

/// The menu's crew becomes that of every dish. Where the menu says no crew or no time, its dishes
/// have to agree on theirs: one kitchen has one crew, and a meal one time.
pub fn share(menu: &mut Menu) -> Vec<Finding> {
    let mut findings = Vec::new();
    match &menu.crew {
        Some(crew) => menu.dishes.iter_mut().for_each(|dish| dish.cook.crew = Some(crew.clone())),
        None => {
            findings.extend(disagree(menu, "who cooks", "write `crew` in the menu.", |dish| {
                dish.cook.crew.as_ref().map(hours)
            }));
            // Who cooks one dish cooks them all.
            let crew = menu.dishes.iter().find_map(|dish| dish.cook.crew.clone());
            if let Some(crew) = crew.filter(|_| findings.is_empty()) {
                menu.dishes.iter_mut().for_each(|dish| dish.cook.crew = Some(crew.clone()));
            }
        }
    }
    let courses: Vec<_> = menu.dishes.iter().map(|dish| dish.at).collect();
    findings.extend(timing::zones(menu.serve, &courses));
    if menu.serve.is_none() {
        let cure = "write `serve at 18:30` in the menu. A course of its own has its time behind its dish: \
                    `dish \"soup.dwell\", at 19:15`.";
        findings.extend(disagree(menu, "when people eat", cure, |dish| match dish.at {
            Some(_) => None,
            None => written(dish).map(|at| at.value),
        }));
    }
    findings
}

/// When each dish is served: by the command line, as the menu says of it or of the whole meal, or by its own
/// file, with the first day and zone that anything says.
pub fn times(menu: &Menu, asked: &timing::Options) -> (Vec<timing::Options>, Vec<Finding>) {
    let files: Vec<Spanned<When>> = menu.dishes.iter().filter_map(written).collect();
    let own = |dish: &Dish| dish.at.or_else(|| written(dish).filter(|_| menu.serve.is_none()));
    let dishes: Vec<Option<Spanned<When>>> = menu.dishes.iter().map(own).collect();
    timing::courses(asked, menu.serve, &dishes, &files)
}

/// The first serving that a dish's file has a time for.
fn written(dish: &Dish) -> Option<Spanned<When>> {
    dish.cook.phases.iter().find_map(|phase| match phase.service.as_ref()? {
        Service::At { at, .. } => Some(*at),
        Service::Throughout { from, .. } | Service::Guests { from, .. } => Some(*from),
        Service::Unsaid => None,
    })
}

/// The people and their hours, wherever they are written.
fn hours(crew: &Crew) -> impl PartialEq + use<> {
    let times = |all: &[crate::text::Spanned<_>]| all.iter().map(|hours| hours.value).collect::<Vec<_>>();
    (crew.people, times(&crew.asleep), times(&crew.away))
}

fn disagree<T: PartialEq>(
    menu: &Menu,
    what: &str,
    cure: &str,
    of: impl Fn(&Dish) -> Option<T>,
) -> Option<Finding> {
    let said: Vec<_> = menu.dishes.iter().filter_map(|dish| Some((dish, of(dish)?))).collect();
    let ((first, theirs), others) = said.split_first()?;
    let (other, _) = others.iter().find(|(_, value)| value != theirs)?;
    Some(
        Finding::new(
            Code::DishesDisagree,
            other.span,
            say![format!("The dishes of this menu do not agree on {what}.")],
            say![format!("Say it for the whole meal: {cure}")],
        )
        .also(first.span, say!["This one says something else."]),
    )
}
