//! The courses of a menu: when each dish is served, counted from the first that is.

use super::Options;
use super::clock::{DAY, Wall};
use super::times::{Base, weekday_missing};
use crate::cook::{Day, When};
use crate::findings::{Code, Finding};
use crate::say;
use crate::text::Spanned;

/// What a run says of each dish that is served at its time: the first of them where and when `asked` has it,
/// the others as far after it on the clock as is written. Weekdays are counted from the day of the meal, or
/// else of the first dish that names one, if only in its file.
pub fn courses(
    asked: &Options,
    meal: Option<Spanned<When>>,
    dishes: &[Option<Spanned<When>>],
    files: &[Spanned<When>],
) -> (Vec<Options>, Vec<Finding>) {
    let mut findings = Vec::new();
    let said = || meal.iter().chain(dishes.iter().flatten());
    // A dish that is alone in naming a day says nothing of the meal.
    let own = said().find_map(|when| when.value.day).filter(|_| meal.is_none());
    let day = meal.and_then(|meal| meal.value.day).or(own);
    let day = day.or(files.iter().find_map(|when| when.value.day));
    let zone = asked.serve.and_then(|when| when.zone);
    let zone = zone.or(said().chain(files).find_map(|when| when.value.zone));
    let base = Base::of(day);
    let wall = |day: Wall, when: When| day * DAY + Wall::from(when.time.minutes());
    let mut above = meal.map(|meal| wall(0, meal.value));
    let mut own: Vec<Option<(Wall, When)>> = Vec::new();
    for at in dishes {
        let Some(at) = at else {
            above = meal.map(|meal| wall(0, meal.value)).or(above);
            own.push(None);
            continue;
        };
        let day_above = above.map_or(0, |above| above.div_euclid(DAY));
        let day = match at.value.day {
            None => Some(above.map_or(0, |above| nearest(above, wall(0, at.value)))),
            Some(Day::Date(date)) => base.days_to(date),
            Some(Day::Weekday(weekday)) => base.next(weekday, day_above),
        };
        if day.is_none() {
            findings.push(weekday_missing(at.span, meal.map_or(at.span, |meal| meal.span), "the meal"));
        }
        let at = (wall(day.unwrap_or(day_above), at.value), at.value);
        above = Some(at.0);
        own.push(Some(at));
    }
    // Who says nothing eats with the others.
    let others = meal.map(|meal| (wall(0, meal.value), meal.value)).or(own.iter().flatten().next().copied());
    let times: Vec<(Wall, When)> = own.into_iter().filter_map(|at| at.or(others)).collect();
    let Some(&(first, at)) = times.iter().min_by_key(|(wall, _)| *wall) else {
        return (vec![asked.clone(); dishes.len()], findings);
    };
    let ahead = (first - Wall::from(at.time.minutes())).div_euclid(DAY);
    let day = day.map(|day| later(day, ahead));
    let day = match (asked.serve.and_then(|serve| serve.day), day) {
        // The next such day from the date of the meal on.
        (Some(Day::Weekday(weekday)), Some(date @ Day::Date(_))) => {
            Some(later(date, Base::of(Some(date)).next(weekday, 0).unwrap_or(0)))
        }
        (asked, day) => asked.or(day),
    };
    let of = |(wall, _): (Wall, When)| {
        let time = asked.serve.map_or(at.time, |serve| serve.time);
        Options { serve: Some(When { day, time, zone }), course: wall - first, ..asked.clone() }
    };
    (times.into_iter().map(of).collect(), findings)
}

/// The day on which this time of day is nearest to a moment: half past midnight comes after eleven at night.
fn nearest(moment: Wall, time: Wall) -> Wall {
    (moment - time + DAY / 2).div_euclid(DAY)
}

fn later(day: Day, ahead: Wall) -> Day {
    match day {
        Day::Date(date) => Day::Date(date.checked_add_signed(chrono::Duration::days(ahead)).unwrap_or(date)),
        Day::Weekday(weekday) => {
            Day::Weekday((0..ahead.rem_euclid(7)).fold(weekday, |weekday, _| weekday.succ()))
        }
    }
}

/// Dishes of one meal that are told in two zones.
pub fn zones(meal: Option<Spanned<When>>, dishes: &[Option<Spanned<When>>]) -> Option<Finding> {
    let mut said = meal.iter().chain(dishes.iter().flatten()).filter(|when| when.value.zone.is_some());
    let first = said.next()?;
    let other = said.find(|when| when.value.zone != first.value.zone)?;
    Some(
        Finding::new(
            Code::DishesDisagree,
            other.span,
            say!["The courses of this menu are told in two zones."],
            say!["Name the zone once, with the time of the meal, and tell all courses in it."],
        )
        .also(first.span, say!["This is the other."]),
    )
}
