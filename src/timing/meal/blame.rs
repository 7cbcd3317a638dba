//! Why dishes that are each on time alone are not on time together: which, over what, and when; and what
//! would cure it, tried before it is offered.

use super::{Dish, Meal, Obstacle};
use crate::cook::{PhaseId, Setting};
use crate::findings::{Code, Finding, Text};
use crate::say;
use crate::text::Spanned;
use crate::timing::clock::Minute;
use crate::timing::cures::{self, Cure};
use crate::timing::lines::Effort;
use crate::timing::network::Network;
use crate::timing::plan::Alone;
use crate::timing::solution::Purse;
use crate::timing::timeline::{OnTime, Window};

/// What is said, and of which dishes.
pub(super) struct Blamed {
    pub(super) finding: Finding,
    pub(super) dishes: Vec<usize>,
}

/// The finding for dishes that are not always on time together.
pub(super) fn blame(
    title: &Spanned<String>,
    dishes: &[Dish<'_>],
    alone: &[Alone],
    meal: &Meal<'_>,
    on_time: OnTime,
) -> Blamed {
    let clash = clash(dishes, alone, &Purse::of(&meal.network));
    let part = Meal::of(dishes, alone, &clash);
    let code = match on_time {
        OnTime::IfLucky => Code::OnTimeIfLucky,
        OnTime::Never => Code::NeverOnTime,
        _ => Code::TimingNotProved,
    };
    let names: Vec<String> = clash.iter().map(|&n| format!("`{}`", dishes[n].cook.title.value)).collect();
    let names = listed(&names);
    let mut message = say![match code {
        Code::NeverOnTime => format!("{names} can never all be on time: "),
        Code::OnTimeIfLucky => format!("{names} are all on time only with luck: "),
        _ => format!("That {names} are always on time together cannot be proved: "),
    }];
    let steps = explain(&mut message, &part, alone);
    let remedy = remedy(dishes, alone, &part, meal);
    let mut finding = Finding::new(code, title.span, message, remedy);
    for &step in &steps {
        let (nth, id) = part.phase_of(step);
        let phase = part.cook(nth).phase(id);
        finding = finding.also(phase.name_span, say![format!("`{}` is in it", phase.name)]);
    }
    Blamed { finding, dishes: clash }
}

/// "`A`, `B` and `C`".
fn listed(names: &[String]) -> String {
    match names.split_last() {
        Some((last, others)) if !others.is_empty() => format!("{} and {last}", others.join(", ")),
        _ => names.concat(),
    }
}

/// As few dishes as are not always on time together: two where there are such, else what is left when
/// as many as can be are left out, first half of them at once, then fewer. As long as the purse lasts.
fn clash(dishes: &[Dish<'_>], alone: &[Alone], purse: &Purse) -> Vec<usize> {
    let fails = |which: &[usize]| {
        let asked = !purse.is_spent();
        asked && !purse.always(&Meal::of(dishes, alone, which).network, Effort::SHORT)
    };
    for n in 0..dishes.len() {
        if let Some(other) = (n + 1..dishes.len()).find(|&other| fails(&[n, other])) {
            return vec![n, other];
        }
    }
    let mut left: Vec<usize> = (0..dishes.len()).collect();
    let mut many = left.len().div_ceil(2);
    loop {
        let mut end = left.len();
        while end > 0 {
            let begin = end.saturating_sub(many);
            let without = [&left[..begin], &left[end..]].concat();
            if without.len() > 1 && fails(&without) {
                left = without;
            }
            end = begin;
        }
        if many == 1 {
            return left;
        }
        many = many.div_ceil(2);
    }
}

/// Says over what they clash, and gives the steps that want it at once.
fn explain(message: &mut Text, part: &Meal<'_>, alone: &[Alone]) -> Vec<usize> {
    let purse = Purse::of(&part.network);
    let works = |network: &Network| purse.always(network, Effort::SHORT);
    let obstacles = part.obstacles();
    let alone_in_the_way = obstacles.iter().find(|&&one| works(&part.without(&[one])));
    let obstacle = match alone_in_the_way {
        Some(obstacle) => *obstacle,
        None => {
            let needed = needed(part, obstacles, works);
            let Some(&worst) = needed.first() else {
                message.push("their times do not fit each other.");
                return Vec::new();
            };
            let all: Vec<String> = needed.iter().map(|&one| named(part, one)).collect();
            message.push(format!("{} are in the way together; ", listed(&all)));
            worst
        }
    };
    match obstacle {
        Obstacle::Settings(kit) => {
            let pair = part.network.apart.iter().position(|apart| apart.kit == kit);
            let cured = |n: &usize| {
                let mut network = part.network.clone();
                network.apart.remove(*n);
                part.network.apart[*n].kit == kit && works(&network)
            };
            let pair = (0..part.network.apart.len()).find(cured).or(pair).unwrap_or(0);
            let steps = part.network.apart[pair].steps.to_vec();
            message.push(format!("both want `{}` at once, at two settings: ", part.kitchen.name(kit)));
            tell(message, part, alone, &steps, true);
            steps
        }
        Obstacle::Room(kit) => {
            let takes = part.network.rooms.iter().filter(|room| room.kit == kit).flat_map(|room| &room.takes);
            let steps = one_each(part, takes.map(|take| take.0).collect());
            message
                .push(format!("together they want more room in `{}` than it has: ", part.kitchen.name(kit)));
            tell(message, part, alone, &steps, false);
            steps
        }
        Obstacle::Hands => {
            let people = part.network.people.unwrap_or(0);
            let hands = if people == 1 { "1 person has".to_owned() } else { format!("{people} people have") };
            message.push(format!("together they want more hands at once than {hands}: "));
            let busy = |n: &usize| part.network.steps[*n].needs.busy > 0;
            let steps = crowd(part, alone, (0..part.network.steps.len()).filter(busy).collect());
            tell(message, part, alone, &steps, false);
            steps
        }
        Obstacle::Sleep => {
            message.push("waiting for each other brings something into sleep.");
            Vec::new()
        }
    }
}

/// As few obstacles as have to be out of the way at once; none if that does not help.
fn needed(part: &Meal<'_>, all: Vec<Obstacle>, works: impl Fn(&Network) -> bool) -> Vec<Obstacle> {
    if !works(&part.without(&all)) {
        return Vec::new();
    }
    let mut left = all;
    for obstacle in left.clone().into_iter().rev() {
        let fewer: Vec<Obstacle> = left.iter().copied().filter(|&one| one != obstacle).collect();
        if works(&part.without(&fewer)) {
            left = fewer;
        }
    }
    left
}

fn named(part: &Meal<'_>, obstacle: Obstacle) -> String {
    match obstacle {
        Obstacle::Settings(kit) => format!("the settings of `{}`", part.kitchen.name(kit)),
        Obstacle::Room(kit) => format!("the room in `{}`", part.kitchen.name(kit)),
        Obstacle::Hands => "hands".to_owned(),
        Obstacle::Sleep => "sleep".to_owned(),
    }
}

/// "`roast` at air 160 °C between 15:00 and 18:00, and `crisp` at air 220 °C between 17:00 and 18:15."
fn tell(message: &mut Text, part: &Meal<'_>, alone: &[Alone], steps: &[usize], settings: bool) {
    for (n, &step) in steps.iter().enumerate() {
        let (nth, id) = part.phase_of(step);
        let phase = part.cook(nth).phase(id);
        if n > 0 {
            message.push(if n + 1 == steps.len() { ", and " } else { ", " });
        }
        message.push(format!("`{}` of `{}`", phase.name, part.cook(nth).title.value));
        if let Some(Setting { medium, temperature, .. }) = phase.setting.filter(|_| settings) {
            message.push(format!(" at {} ", medium.word()));
            message.push(temperature);
        }
        if let Some(Window { earliest, latest }) = span(part, alone, step) {
            let clock = alone[part.dishes[nth].0].built.times.clock;
            let (first, last) = (clock.time_of_day(earliest), clock.time_of_day(latest));
            message.push(if first == last {
                format!(" at {first}")
            } else {
                format!(" between {first} and {last}")
            });
        }
    }
    message.push(".");
}

/// From the earliest start to the latest end that a step has while its dish is alone.
fn span(part: &Meal<'_>, alone: &[Alone], step: usize) -> Option<Window> {
    let (nth, PhaseId(phase)) = part.phase_of(step);
    let (start, end) = alone[part.dishes[nth].0].solution.windows.get(phase as usize)?;
    Some(Window { earliest: start.earliest, latest: end.latest })
}

/// Of each dish the last of these steps.
fn one_each(part: &Meal<'_>, steps: Vec<usize>) -> Vec<usize> {
    let last = |nth: usize| steps.iter().copied().filter(|&step| part.phase_of(step).0 == nth).max();
    (0..part.dishes.len()).filter_map(last).collect()
}

/// Of each dish the step that is nearest to a moment at which most dishes have one.
fn crowd(part: &Meal<'_>, alone: &[Alone], steps: Vec<usize>) -> Vec<usize> {
    let begin = |step: usize| span(part, alone, step).map(|span| span.earliest);
    let far = |step: usize, moment: Minute| begin(step).map_or(Minute::MAX, |at| (at - moment).abs());
    let nearest = |moment: Minute| -> Vec<usize> {
        let of = |nth: usize| {
            let own = steps.iter().copied().filter(|&step| part.phase_of(step).0 == nth);
            own.min_by_key(|&step| (far(step, moment), std::cmp::Reverse(step)))
        };
        (0..part.dishes.len()).filter_map(of).collect()
    };
    let moments = steps.iter().filter_map(|&step| begin(step));
    let spread = |chosen: &Vec<usize>, moment| chosen.iter().map(|&step| far(step, moment)).max();
    let best = moments
        .map(|moment| (nearest(moment), moment))
        .min_by_key(|(chosen, moment)| spread(chosen, *moment));
    best.map(|(chosen, _)| chosen).unwrap_or_default()
}

/// What to change, tried on the dishes that clash and then on all.
fn remedy(dishes: &[Dish<'_>], alone: &[Alone], part: &Meal<'_>, meal: &Meal<'_>) -> Text {
    let purses = [Purse::of(&part.network), Purse::of(&meal.network)];
    let first = |which: usize| meal.dishes[which].1;
    let whole = |cure: &Cure| {
        let shifted = cure.shifted(|step| {
            let (nth, PhaseId(phase)) = part.phase_of(step);
            first(part.dishes[nth].0) + phase as usize
        });
        purses[1].always(&shifted.applied(&meal.network), Effort::LONG)
    };
    let mut found: Vec<Cure> = cures::cures(&part.network, &purses[0]);
    found.retain(whole);
    found.truncate(cures::OFFERED);
    if found.is_empty() {
        let mut text = match purses.iter().any(Purse::is_spent) {
            false => say![
                "Nothing that was tried by itself cures it: other lengths for one phase, one dish up to 2 h \
                 late, one person more, or the whole meal sooner or later. "
            ],
            true => say!["There are too many changes to try them all, and none that was tried cures it. "],
        };
        text.push(
            "Give waits more room (`for up to 1 h`), use other kit for one of them, or take a dish off the menu.",
        );
        return text;
    }
    let mut text = match found.len() {
        1 => say!["This was tried and cures it: "],
        _ => say!["Any one of these was tried and cures it: "],
    };
    for (n, cure) in found.iter().enumerate() {
        if n > 0 {
            text.push("; or ");
        }
        let (nth, local) = match cure.step {
            Some(step) => {
                let (nth, PhaseId(phase)) = part.phase_of(step);
                (nth, cure.shifted(|_| phase as usize))
            }
            // Everything moves with what is served first.
            None => (first_served(part, alone), *cure),
        };
        let which = part.dishes[nth].0;
        cures::offer(&mut text, dishes[which].cook, &alone[which].built, &local);
        if cure.step.is_some() {
            text.push(format!(" of `{}`", dishes[which].cook.title.value));
        }
    }
    text.push(".");
    text
}

/// Which of the dishes is served first.
fn first_served(part: &Meal<'_>, alone: &[Alone]) -> usize {
    let served = |nth: &usize| {
        let times = &alone[part.dishes[*nth].0].built.times;
        times.servings.iter().flatten().map(|serving| serving.0).next().unwrap_or(Minute::MAX)
    };
    (0..part.dishes.len()).min_by_key(served).unwrap_or(0)
}
