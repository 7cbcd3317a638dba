//! A menu to one plan for all its dishes.

use super::{Dish, Meal, blame};
use crate::cook::{Cook, KitId};
use crate::findings::Finding;
use crate::text::Spanned;
use crate::timing::Options;
use crate::timing::clock::Minute;
use crate::timing::kitchen::Kitchen;
use crate::timing::lines::{Effort, Strategy};
use crate::timing::network::Serving;
use crate::timing::outlook::{Outlook, outlook};
use crate::timing::plan::{self, Alone, alone, serving_lines, timeline};
use crate::timing::progress::{self, Progress};
use crate::timing::sets::{FAR, Set};
use crate::timing::solution::{self, Basis, Solution};
use crate::timing::timeline::{OnTime, Timeline, Window, Windows};

/// The plan of a menu.
#[derive(Debug)]
pub struct Planned {
    /// All dishes together.
    pub whole: Timeline,
    /// The part of each dish in it, and what is to be said of the dish even if it were the only one.
    pub dishes: Vec<(Timeline, Vec<Finding>)>,
    /// What is to be said of the dishes together.
    pub findings: Vec<Finding>,
}

/// Plans the dishes of a menu as one kitchen. They have one crew and one clock; `options` are those of each.
pub fn plan_menu(title: &Spanned<String>, dishes: &[Dish<'_>], options: &[Options]) -> Planned {
    let mut findings = Vec::new();
    let cooks: Vec<&Cook> = dishes.iter().map(|dish| dish.cook).collect();
    let said = options.first().map(|first| first.progress.clone()).unwrap_or_default();
    let progress = progress::split(title, &cooks, &said).unwrap_or_else(|finding| {
        findings.push(*finding);
        vec![Progress::default(); dishes.len()]
    });
    let of_dish = |n: usize, progress: &Progress| {
        alone(dishes[n].cook, dishes[n].ledger, &Options { progress: progress.clone(), ..options[n].clone() })
    };
    let mut each: Vec<Alone> = progress.iter().enumerate().map(|(n, said)| of_dish(n, said)).collect();
    if let Some(now) = known_now(&each, &progress) {
        for (n, said) in progress.iter().enumerate() {
            if each[n].built.past.as_ref().is_some_and(|past| past.now != now) {
                each[n] = of_dish(n, &Progress { now_at: Some(now), ..said.clone() });
            }
        }
    }
    findings.extend(progress::one_now(title, each.iter().filter_map(|dish| dish.built.past.as_ref())));
    let all: Vec<usize> = (0..dishes.len()).collect();
    let meal = Meal::of(dishes, &each, &all);
    let worst = each.iter().map(|dish| dish.solution.on_time).max_by_key(|on_time| rank(*on_time));
    let worst = worst.unwrap_or(OnTime::NotProved);
    let failing = |n: &usize| each[*n].solution.on_time != OnTime::Always;
    let mut late: Vec<usize> = all.iter().copied().filter(failing).collect();
    let mut on_time = if findings.is_empty() { worst } else { OnTime::NotProved };
    // What is known of one alone is known of it among others only where that was looked at.
    let mut others = if dishes.len() == 1 { on_time } else { OnTime::NotProved };
    let mut together = None;
    if dishes.len() > 1 && findings.is_empty() && !each.iter().any(|dish| dish.doubted) {
        let found = solve(&meal, worst);
        on_time = found.on_time;
        if on_time != OnTime::Always && worst == OnTime::Always {
            let blamed = blame::blame(title, dishes, &each, &meal, on_time);
            findings.push(blamed.finding);
            late = blamed.dishes;
        }
        if on_time == OnTime::Always || punctual(&meal, &late) {
            others = OnTime::Always;
        }
        spread(&found, &meal, &mut each);
        together = Some(found);
    }
    let outlook = if options.iter().any(|own| own.outlook) {
        outlook_of(&meal, together.as_ref(), dishes, &each)
    } else {
        Outlook::default()
    };
    let windows: Vec<Vec<Option<(Window, Window)>>> =
        each.iter().map(|dish| plan::windows(&dish.built, &dish.solution)).collect();
    let lit = lighting(&meal.kitchen, &windows);
    let line = |n: usize| {
        let (dish, own) = (&each[n], dishes[n].cook);
        let because = plan::because(&findings).or(plan::because(&dish.findings));
        let because = because.map(|finding| finding.message.render(own.scale)).unwrap_or_default();
        let judged = |_| if late.contains(&n) { dish.solution.on_time } else { others };
        let servings = serving_lines(own, &dish.built, &windows[n], judged, &because);
        let lights = |kit: KitId| lit[meal.kitchen.kit_of(n, kit)] == Some(n);
        timeline(own, &dish.built, &dish.solution, &windows[n], servings, lights)
            .with(outlook.of(&own.title.value))
    };
    let lines: Vec<Timeline> = all.iter().map(|&n| line(n)).collect();
    let whole = whole(title, on_time, &lines).with(outlook);
    let own = each.into_iter().map(|dish| dish.findings);
    Planned { whole, dishes: lines.into_iter().zip(own).collect(), findings }
}

/// How to play a menu so that it is always on time, where that is proved, and the number of each dish's first
/// step in it.
pub fn menu_strategy(dishes: &[Dish<'_>], options: &[Options]) -> Option<(Strategy, Vec<usize>)> {
    let each: Vec<Alone> =
        dishes.iter().zip(options).map(|(dish, own)| alone(dish.cook, dish.ledger, own)).collect();
    let all: Vec<usize> = (0..dishes.len()).collect();
    let meal = Meal::of(dishes, &each, &all);
    let Some(Basis::Lines(way)) = solution::several(&meal.network).basis else { return None };
    Some((way.strategy()?, meal.dishes.iter().map(|&(_, first)| first).collect()))
}

/// Where now is for all dishes, if anything is said of what has happened in one.
fn known_now(each: &[Alone], progress: &[Progress]) -> Option<Minute> {
    let told = each.iter().zip(progress).filter(|(_, said)| said.tells());
    told.filter_map(|(dish, _)| Some(dish.built.past.as_ref()?.now)).max()
}

/// How the plan of all dishes may go on.
fn outlook_of(meal: &Meal<'_>, found: Option<&Solution>, dishes: &[Dish<'_>], each: &[Alone]) -> Outlook {
    match (found, each) {
        (Some(found), _) => outlook(&meal.network, found, &|n| {
            let (nth, phase) = meal.phase_of(n);
            let dish = meal.dishes[nth].0;
            plan::named(dishes[dish].cook, &each[dish].built, phase.0 as usize)
        }),
        (None, [only]) if !only.doubted => {
            outlook(&only.built.network, &only.solution, &|n| plan::named(dishes[0].cook, &only.built, n))
        }
        _ => Outlook::default(),
    }
}

/// Whether all other dishes are always on time if these are served whenever they are ready.
fn punctual(meal: &Meal<'_>, late: &[usize]) -> bool {
    let mut network = meal.network.clone();
    for (n, step) in network.steps.iter_mut().enumerate() {
        let (nth, _) = meal.phase_of(n);
        if step.serving.is_some() && late.contains(&meal.dishes[nth].0) {
            step.serving = Some(Serving::Within { first: -FAR, last: FAR });
        }
    }
    solution::always(&network, Effort::SHORT)
}

/// Worse is more: what is never on time outweighs what is not proved.
fn rank(on_time: OnTime) -> u8 {
    match on_time {
        OnTime::Always => 0,
        OnTime::IfLucky => 1,
        OnTime::NotProved => 2,
        OnTime::Never => 3,
    }
}

fn solve(meal: &Meal<'_>, worst: OnTime) -> Solution {
    let found = solution::several(&meal.network);
    // What one dish cannot do alone it cannot do among others.
    let on_time =
        if worst == OnTime::Never || found.on_time == OnTime::Always { worst } else { found.on_time };
    let promised = matches!(on_time, OnTime::Always | OnTime::IfLucky);
    let kind = if promised { Windows::Bounds } else { Windows::OneWay };
    Solution { on_time, kind, ..found }
}

/// Gives each dish its part of what was found for all.
fn spread(found: &Solution, meal: &Meal<'_>, each: &mut [Alone]) {
    for &(n, first) in &meal.dishes {
        let dish = &mut each[n];
        let count = dish.built.network.steps.len();
        let windows: Vec<_> = found.windows.get(first..first + count).unwrap_or_default().to_vec();
        let start = windows.iter().map(|(start, _)| *start).min_by_key(|start| start.earliest);
        let start = start.filter(|_| found.on_time == OnTime::Always);
        // Windows of a plan that is not on time promise nothing for any dish of it.
        let on_time = match found.on_time {
            OnTime::Always => OnTime::Always,
            all => [all, dish.solution.on_time].into_iter().max_by_key(|one| rank(*one)).unwrap_or(all),
        };
        dish.solution =
            Solution { on_time, start, windows, kind: found.kind, order_open: found.order_open, basis: None };
    }
}

/// For each piece of kit the dish that it is switched on for: the first that wants a setting of it.
fn lighting(kitchen: &Kitchen<'_>, windows: &[Vec<Option<(Window, Window)>>]) -> Vec<Option<usize>> {
    let first = |kit: usize| {
        let users = kitchen
            .set(kit)
            .filter_map(|(user, _)| Some((windows[user.dish][user.phase]?.0.earliest, user.dish)));
        users.min().map(|(_, dish)| dish)
    };
    (0..kitchen.kit.len()).map(first).collect()
}

/// One plan of all dishes, in the order of the clock.
fn whole(title: &Spanned<String>, on_time: OnTime, lines: &[Timeline]) -> Timeline {
    let starts = lines.iter().filter_map(|line| line.start);
    let all_start = lines.iter().all(|line| line.start.is_some());
    let mut whole = Timeline {
        title: title.value.clone(),
        clock: lines.first().map(|line| line.clock).unwrap_or_default(),
        start: starts.min_by_key(|start| start.earliest).filter(|_| all_start),
        on_time,
        windows: lines.iter().map(|line| line.windows).max().unwrap_or(Windows::OneWay),
        order_open: lines.iter().any(|line| line.order_open),
        hands_judged: lines.iter().all(|line| line.hands_judged),
        servings: Vec::new(),
        phases: Vec::new(),
        jobs: Vec::new(),
        now: lines.iter().find_map(|line| line.now),
        branches: Vec::new(),
        overruns: Vec::new(),
        too_many: None,
        asleep: Vec::new(),
    };
    for line in lines {
        whole.servings.extend(line.servings.iter().cloned());
        whole.phases.extend(line.phases.iter().cloned());
        whole.jobs.extend(line.jobs.iter().cloned());
    }
    whole.servings.sort_by_key(|serving| serving.promised.map(|promised| promised.earliest));
    // One crew: what one dish sees of the night the others see too.
    let nights = lines.iter().flat_map(|line| line.asleep.iter().copied()).collect();
    whole.asleep = Set::of(nights).intervals().to_vec();
    whole.jobs.sort_by_key(|job| (job.at.earliest, job.at.latest));
    whole
}
