//! Larger menus, played: an independent player takes the strategy, draws what nature does, and looks at
//! what comes of it by the text of the menu alone. Nothing may be late, no job asleep, no more hands at
//! work than there are, no kit overfull or at two settings, and none without the time to heat or cool.

mod common;

use common::Memory;
use common::dice::Dice;
use dwell::compile::{Options, compile};
use dwell::timing::lines::{Pace, Strategy};
use dwell::timing::{Dish, OnTime, menu_strategy};

/// Minutes that somebody takes to move food.
const MOVE: i64 = 5;
const HEATS: i64 = 15;
const COOLS: i64 = 30;
const SHELVES: i64 = 3;

#[derive(Debug, Clone, Copy, PartialEq)]
enum Who {
    Fixed,
    Cook,
    Nature,
}

#[derive(Debug, Clone)]
struct Phase {
    who: Who,
    low: i64,
    high: i64,
    place: &'static str,
    /// Air, and shelves.
    set: Option<(i64, i64)>,
}

#[derive(Debug, Clone)]
struct Course {
    phases: Vec<Phase>,
    /// Minutes after 18:30 in which it may be served; or, with guests, in which they may come, and how long
    /// they wait.
    late: i64,
    guests: Option<i64>,
}

#[derive(Debug, Clone)]
struct Case {
    courses: Vec<Course>,
    people: i64,
}

fn course(dice: &mut Dice) -> Course {
    let mut phases = Vec::new();
    let phase = |who, low, high, place, set| Phase { who, low, high, place, set };
    if dice.one_in(2) {
        let low = 5 * dice.roll(2, 4);
        phases.push(phase(Who::Nature, low, low + 5 * dice.roll(1, 3), "bench", None));
    }
    if dice.one_in(6) {
        // Overnight.
        let low = 60 * dice.roll(7, 9);
        phases.push(phase(Who::Nature, low, low + 60 * dice.roll(1, 2), "cabinet", Some((110, 1))));
        phases.push(phase(Who::Cook, 60, 12 * 60, "chest", None));
    } else {
        let low = 10 * dice.roll(3, 9);
        let place = if dice.one_in(2) { "oven" } else { "stove" };
        let air = if dice.one_in(3) { 200 } else { 160 };
        let (who, high) =
            if dice.one_in(3) { (Who::Fixed, low) } else { (Who::Nature, low + 10 * dice.roll(1, 4)) };
        phases.push(phase(who, low, high, place, Some((air, dice.roll(1, 2)))));
        let low = 5 * dice.roll(1, 4);
        phases.push(phase(Who::Cook, low, low + 60 * dice.roll(2, 6), "chest", None));
    }
    if dice.one_in(3) {
        let low = 5 * dice.roll(1, 2);
        phases.push(phase(Who::Nature, low, low + 5, "bench", None));
        phases.push(phase(Who::Cook, 5, 60, "bench", None));
    }
    let guests = dice.one_in(8).then(|| 10 * dice.roll(1, 3));
    Course { phases, late: 15 * dice.roll(1, 3), guests }
}

impl Case {
    fn draw(dice: &mut Dice) -> Self {
        let courses = (0..dice.roll(3, 9)).map(|_| course(dice)).collect();
        Self { courses, people: dice.roll(2, 3) }
    }

    fn files(&self) -> Vec<(String, String)> {
        let mut menu = format!(
            "menu \"Regatta supper\"\n  rules us-food-code\ncrew\n  {} people\n  asleep 23:00 to 06:30\n",
            self.people
        );
        let mut files = Vec::new();
        for (n, course) in self.courses.iter().enumerate() {
            menu += &format!("dish \"dish-{n}.dwell\"\n");
            let mut text = format!(
                "cook \"Dish {n}\"\n  rules us-food-code\nkit bench is bench\nkit chest is insulated box\n"
            );
            for kit in ["oven is oven", "stove is oven", "cabinet is smoking cabinet"] {
                text += &format!(
                    "kit {kit}\n  preheat {HEATS} min\n  cools down {COOLS} min\n  shelves {SHELVES}\n  programmable\n"
                );
            }
            text += "food roots is potato\n  2 kg\n  thickness 4 cm\n";
            for (nth, phase) in course.phases.iter().enumerate() {
                let purpose = match (phase.place, phase.who, phase.set) {
                    ("bench", Who::Nature, _) => "prep",
                    (_, _, Some(_)) => "cook",
                    _ => "rest",
                };
                text += &format!("phase step-{nth} is {purpose}\n  roots in {}\n", phase.place);
                if let Some((air, shelves)) = phase.set {
                    text += &format!("  air {air} °C\n  fills {shelves} shelves\n");
                }
                let (low, high) = (phase.low, phase.high);
                text += &match phase.who {
                    Who::Fixed => format!("  for {low} min\n"),
                    Who::Cook => format!("  for {low} min to {high} min\n"),
                    Who::Nature => format!("  takes {low} min to {high} min\n"),
                };
            }
            let late = course.late;
            text += &match course.guests {
                None => format!("serve roots\n  at 2026-12-12 18:30 in UTC, up to {late} min late\n"),
                Some(come) => format!(
                    "serve roots\n  guests between 2026-12-12 18:30 and 2026-12-12 {}:{:02} in UTC, up to {late} min late\n",
                    18 + (30 + come) / 60,
                    (30 + come) % 60
                ),
            };
            files.push((format!("dish-{n}.dwell"), text));
        }
        files.insert(0, ("menu.dwell".into(), menu));
        files
    }
}

/// How nature draws in one play.
#[derive(Debug, Clone, Copy)]
enum Mood {
    Shortest,
    Longest,
    Extremes,
    Anything,
}

fn draw(dice: &mut Dice, mood: Mood, low: i64, high: i64) -> i64 {
    match mood {
        Mood::Shortest => low,
        Mood::Longest => high,
        Mood::Extremes if dice.one_in(2) => low,
        Mood::Extremes => high,
        Mood::Anything => dice.roll(low, high),
    }
}

/// When each phase of each dish started, and when it was served; and when its guests came.
struct Evening {
    starts: Vec<Vec<i64>>,
    came: Vec<Option<i64>>,
}

fn play(
    case: &Case,
    strategy: &Strategy,
    first: &[usize],
    pace: Pace,
    mood: Mood,
    dice: &mut Dice,
) -> Evening {
    let mut play = strategy.play();
    let came: Vec<Option<i64>> = case
        .courses
        .iter()
        .map(|course| course.guests.map(|come| SERVE + draw(dice, mood, 0, come)))
        .collect();
    let mut coming: Vec<(i64, usize)> =
        came.iter().flatten().copied().enumerate().map(|(n, at)| (at, n)).collect();
    let lengths: Vec<Vec<i64>> = case
        .courses
        .iter()
        .map(|course| course.phases.iter().map(|phase| draw(dice, mood, phase.low, phase.high)).collect())
        .collect();
    let mut now = -10 * 24 * 60;
    loop {
        let mut ends = None;
        for (n, course) in case.courses.iter().enumerate() {
            for (nth, phase) in course.phases.iter().enumerate().filter(|(_, phase)| phase.who == Who::Nature)
            {
                let step = first[n] + nth;
                if let (Some(start), None) = (play.when(step, false), play.when(step, true)) {
                    assert!(phase.low < phase.high);
                    let end = (start + lengths[n][nth], step);
                    ends = Some(ends.map_or(end, |other: (i64, usize)| other.min(end)));
                }
            }
        }
        let comes = coming.iter().min().copied();
        let acts = play.next(now, pace);
        let Some(next) = [ends.map(|end| end.0), comes.map(|come| come.0), acts].into_iter().flatten().min()
        else {
            break;
        };
        now = next;
        if let Some((at, step)) = ends.filter(|end| end.0 == now) {
            play.ended(step, at);
        } else if let Some((at, nth)) = comes.filter(|come| come.0 == now) {
            play.came(nth, at);
            coming.retain(|one| one.1 != nth);
        } else {
            play.act(now, pace);
        }
    }
    let when =
        |n: usize, nth: usize| play.when(first[n] + nth, false).expect("everything is done in the end");
    let starts = case.courses.iter().enumerate();
    let starts =
        starts.map(|(n, course)| (0..=course.phases.len()).map(|nth| when(n, nth)).collect()).collect();
    for (n, course) in case.courses.iter().enumerate() {
        for nth in 0..course.phases.len() {
            assert_eq!(
                play.when(first[n] + nth, true),
                play.when(first[n] + nth + 1, false),
                "food is always somewhere"
            );
        }
    }
    Evening { starts, came }
}

/// 18:30 on the axis, which counts from the midnight before.
const SERVE: i64 = 18 * 60 + 30;

/// What is wrong with an evening; nothing where it went as promised.
fn fault(case: &Case, evening: &Evening) -> Option<String> {
    let mut hands: Vec<(i64, i64)> = Vec::new();
    let mut uses: Vec<(&str, i64, i64, i64, i64)> = Vec::new();
    for (n, course) in case.courses.iter().enumerate() {
        let starts = &evening.starts[n];
        let mut before = "store";
        for (nth, phase) in course.phases.iter().enumerate() {
            let (start, end) = (starts[nth], starts[nth + 1]);
            if !(phase.low..=phase.high).contains(&(end - start)) {
                return Some(format!("dish {n}, step {nth} lasts {}", end - start));
            }
            if phase.place == "bench" && phase.who == Who::Nature {
                hands.push((start, end));
            } else if phase.place != before {
                hands.push((start, start + MOVE));
            }
            before = phase.place;
            uses.extend(phase.set.map(|(air, shelves)| (phase.place, start, end, air, shelves)));
        }
        let served = starts[course.phases.len()];
        hands.push((served, served + MOVE));
        let (from, to) = match evening.came[n] {
            Some(came) => (came, came + course.late),
            None => (SERVE, SERVE + course.late),
        };
        if !(from..=to).contains(&served) {
            return Some(format!("dish {n} is served {} after 18:30", served - SERVE));
        }
    }
    for &(start, end) in &hands {
        let night = |day: i64| start < day + 6 * 60 + 30 && end > day - 60;
        if (-3..3).any(|day| night(day * 24 * 60)) {
            return Some(format!("work in sleep from {start} to {end}"));
        }
        let at_once = hands.iter().filter(|(from, to)| *from <= start && start < *to).count();
        if at_once as i64 > case.people {
            return Some(format!("{at_once} hands at {start}"));
        }
    }
    for &(kit, start, end, air, _) in &uses {
        let beside = uses.iter().filter(|other| other.0 == kit);
        let full: i64 =
            beside.clone().filter(|other| other.1 <= start && start < other.2).map(|other| other.4).sum();
        if full > SHELVES {
            return Some(format!("{full} shelves of {kit} at {start}"));
        }
        for other in beside.filter(|other| other.3 != air) {
            if other.1 < end && start < other.2 {
                return Some(format!("{kit} at two settings at {start}"));
            }
            let gap = if air > other.3 { HEATS } else { COOLS };
            if other.2 <= start && start - other.2 < gap {
                return Some(format!("{kit} has {} min to change", start - other.2));
            }
        }
    }
    None
}

/// Plays until `menus` menus that are always on time were played so often each; how many were drawn, and
/// how many plays that made.
fn plays(seed: u64, menus: usize, times: usize) -> [usize; 4] {
    let mut dice = Dice(seed);
    let [mut proved, mut played, mut drawn, mut failed] = [0; 4];
    while proved < menus {
        drawn += 1;
        let case = Case::draw(&mut dice);
        let files = case.files();
        let named: Vec<(&str, &str)> =
            files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        let compiled = compile(&Memory(&named), named[0].0.into(), named[0].1.into(), &Options::default());
        let said: Vec<_> =
            compiled.findings.iter().map(|finding| finding.message.render(compiled.scale)).collect();
        let Some(meal) = compiled.meal() else { panic!("not understood: {said:#?}\n{files:#?}") };
        if meal.on_time != OnTime::Always {
            failed += usize::from(meal.on_time == OnTime::NotProved);
            continue;
        }
        proved += 1;
        let cooks = compiled.cooks();
        let dishes: Vec<Dish<'_>> =
            cooks.iter().map(|one| Dish { cook: one.cook, ledger: one.ledger }).collect();
        let (strategy, first) =
            menu_strategy(&dishes, &Default::default()).expect("what is proved can be played");
        for time in 0..times {
            let mood = match time {
                0 | 1 => Mood::Shortest,
                2 | 3 => Mood::Longest,
                _ if time % 4 < 2 => Mood::Extremes,
                _ => Mood::Anything,
            };
            let pace = if time % 2 == 0 { Pace::Soonest } else { Pace::Latest };
            let evening = play(&case, &strategy, &first, pace, mood, &mut dice);
            played += 1;
            if let Some(fault) = fault(&case, &evening) {
                panic!("menu {drawn}, play {time} ({pace:?}, {mood:?}): {fault}\n{files:#?}");
            }
        }
    }
    println!("{drawn} menus drawn, {proved} always on time, {failed} not proved, {played} plays");
    [drawn, proved, failed, played]
}

#[test]
fn no_play_of_a_menu_that_is_always_on_time_goes_wrong() {
    plays(0x5eed_0201, 8, 60);
}

/// `cargo test --release --test timing_menu_player -- --ignored --nocapture`
#[test]
#[ignore = "minutes long"]
fn a_hundred_thousand_plays_go_well() {
    let [.., played] = plays(0x5eed_0202, 200, 500);
    assert!(played >= 100_000);
}
