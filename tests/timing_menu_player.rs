//! Larger menus, played: an independent player takes the strategy, draws what nature does, and looks at
//! what comes of it by the text of the menu alone. Nothing may be late, no job and no look asleep, no more
//! hands at work than there are, no kit overfull or at two settings, and none without the time to heat or
//! cool, or without somebody awake to switch it on in time.

mod common;

use common::Memory;
use common::dice::Dice;
use common::kitchen::{Kit, Seen, Use, Who, overfull};
use dwell::compile::{Compiled, Options, compile};
use dwell::cook::Document;
use dwell::timing::lines::{Pace, Strategy};
use dwell::timing::{Dish, OnTime, courses, menu_strategy};

/// Minutes that somebody takes to move food.
const MOVE: i64 = 5;
/// Kit that is switched on by hand stands hot and empty for no longer because of sleep.
const IDLE: i64 = 60;
const KIT: [(&str, &str); 3] = [("oven", "oven"), ("stove", "oven"), ("cabinet", "smoking cabinet")];
const DAY: i64 = 24 * 60;

#[derive(Debug, Clone)]
struct Phase {
    who: Who,
    low: i64,
    high: i64,
    place: &'static str,
    /// Air, and shelves.
    set: Option<(i64, i64)>,
    seen: Seen,
}

#[derive(Debug, Clone)]
struct Course {
    phases: Vec<Phase>,
    /// When it is served, or when its guests may first come; minutes of the day.
    at: i64,
    /// How late it may be, or how long the guests wait.
    late: i64,
    /// How long after the first minute the guests may come, where they decide. Those of one time are one party.
    guests: Option<i64>,
}

#[derive(Debug, Clone)]
struct Case {
    courses: Vec<Course>,
    people: i64,
    kit: [Kit; 3],
    /// Of the menu; minutes of the day.
    serve: i64,
}

fn course(dice: &mut Dice, serve: i64, party: Option<i64>) -> Course {
    let mut phases = Vec::new();
    let phase = |who, low, high, place, set| Phase { who, low, high, place, set, seen: Seen::Not };
    if dice.one_in(2) {
        let low = 5 * dice.roll(2, 4);
        phases.push(phase(Who::Nature, low, low + 5 * dice.roll(1, 3), "bench", None));
    }
    if dice.one_in(6) {
        // Overnight.
        let low = 60 * dice.roll(7, 9);
        let mut smoke = phase(Who::Nature, low, low + 60 * dice.roll(1, 2), "cabinet", Some((110, 1)));
        if dice.one_in(3) {
            smoke.seen = [Seen::Watched, Seen::LookIn(120), Seen::Every(45)][dice.roll(0, 2) as usize];
        }
        phases.push(smoke);
        phases.push(phase(Who::Cook, 60, 12 * 60, "chest", None));
    } else {
        let low = 10 * dice.roll(3, 9);
        let place = if dice.one_in(2) { "oven" } else { "stove" };
        let air = if dice.one_in(3) { 200 } else { 160 };
        let (who, high) =
            if dice.one_in(3) { (Who::Fixed, low) } else { (Who::Nature, low + 10 * dice.roll(1, 4)) };
        let mut roast = phase(who, low, high, place, Some((air, dice.roll(1, 2))));
        if who == Who::Nature && dice.one_in(3) {
            let every = [15, 20, 45][dice.roll(0, 2) as usize];
            roast.seen = [Seen::Watched, Seen::LookIn(every), Seen::Every(every)][dice.roll(0, 2) as usize];
        }
        phases.push(roast);
        let low = 5 * dice.roll(1, 4);
        phases.push(phase(Who::Cook, low, low + 60 * dice.roll(2, 6), "chest", None));
    }
    if dice.one_in(3) {
        let low = 5 * dice.roll(1, 2);
        phases.push(phase(Who::Nature, low, low + 5, "bench", None));
        phases.push(phase(Who::Cook, 5, 60, "bench", None));
    }
    let at = serve + if dice.one_in(5) { 15 * dice.roll(-2, 4) } else { 0 };
    let own = dice.one_in(10).then(|| 10 * dice.roll(1, 3));
    let guests = party.filter(|_| dice.one_in(2)).or(own);
    Course { phases, at, late: 15 * dice.roll(1, 3), guests }
}

fn clock(minutes: i64) -> String {
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}

impl Case {
    fn draw(dice: &mut Dice) -> Self {
        let serve = [11 * 60 + 30, 13 * 60, 18 * 60 + 30][dice.roll(0, 2) as usize];
        let party = dice.one_in(3).then(|| 10 * dice.roll(1, 3));
        let courses = (0..dice.roll(3, 9)).map(|_| course(dice, serve, party)).collect();
        let kit =
            [0; 3].map(|_| Kit { heats: 15, cools: 30, shelves: Some(3), programmable: dice.one_in(3) });
        Self { courses, people: dice.roll(2, 3), kit, serve }
    }

    fn files(&self) -> Vec<(String, String)> {
        let mut menu = format!(
            "menu \"Regatta supper\"\n  serve at 2026-12-12 {} in UTC\n  rules us-food-code\ncrew\n  {} people\n  \
             asleep 23:00 to 06:30\n",
            clock(self.serve),
            self.people
        );
        let mut files = Vec::new();
        for (n, course) in self.courses.iter().enumerate() {
            let own =
                if course.at == self.serve { String::new() } else { format!(", at {}", clock(course.at)) };
            menu += &format!("dish \"dish-{n}.dwell\"{own}\n");
            let mut text = format!(
                "cook \"Dish {n}\"\n  rules us-food-code\nkit bench is bench\nkit chest is insulated box\n"
            );
            for ((name, class), kit) in KIT.iter().zip(self.kit) {
                text += &format!("kit {name} is {class}\n{}", kit.clauses());
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
                text += &phase.seen.clause();
                text += &phase.who.clause(phase.low, phase.high);
            }
            // Its own file has another time, which the menu moves.
            let late = course.late;
            text += &match course.guests {
                None => format!("serve roots\n  at 12:00, up to {late} min late\n"),
                Some(come) => {
                    format!("serve roots\n  guests between 12:00 and 12:{come:02}, up to {late} min late\n")
                }
            };
            files.push((format!("dish-{n}.dwell"), text));
        }
        files.insert(0, ("menu.dwell".into(), menu));
        files
    }

    /// When each party may first and last come, in the order of the menu.
    fn parties(&self) -> Vec<(i64, i64)> {
        let mut all = Vec::new();
        for course in &self.courses {
            let party = course.guests.map(|come| (course.at, course.at + come));
            all.extend(party.filter(|party| !all.contains(party)));
        }
        all
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

fn draw(dice: &mut Dice, mood: Mood, lengths: &[i64]) -> i64 {
    let last = lengths.len() - 1;
    lengths[match mood {
        Mood::Shortest => 0,
        Mood::Longest => last,
        Mood::Extremes if dice.one_in(2) => 0,
        Mood::Extremes => last,
        Mood::Anything => dice.roll(0, last as i64) as usize,
    }]
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
    let parties = case.parties();
    let arrivals: Vec<i64> =
        parties.iter().map(|&(from, to)| draw(dice, mood, &(from..=to).collect::<Vec<_>>())).collect();
    let mut coming: Vec<(i64, usize)> = arrivals.iter().enumerate().map(|(nth, &at)| (at, nth)).collect();
    let lengths: Vec<Vec<i64>> = case
        .courses
        .iter()
        .map(|course| {
            let lengths = |phase: &Phase| draw(dice, mood, &phase.seen.lengths(phase.low, phase.high));
            course.phases.iter().map(lengths).collect()
        })
        .collect();
    let mut now = -10 * DAY;
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
    let came = |course: &Course| {
        let party = (course.at, course.at + course.guests?);
        Some(arrivals[parties.iter().position(|one| *one == party).expect("a party")])
    };
    Evening { starts, came: case.courses.iter().map(came).collect() }
}

/// What may go wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Fault {
    Late,
    Asleep,
    Hands,
    Kit,
    Cold,
}

fn asleep(minute: i64) -> bool {
    !(6 * 60 + 30..23 * 60).contains(&minute.rem_euclid(DAY))
}

/// What is wrong with an evening; nothing where it went as promised. `lit` is when the plan has each piece of
/// kit switched on by hand.
fn fault(case: &Case, evening: &Evening, lit: &[Option<i64>]) -> Option<(Fault, String)> {
    let mut hands: Vec<(i64, i64)> = Vec::new();
    let mut eyes: Vec<(i64, String)> = Vec::new();
    let mut uses: Vec<Use> = Vec::new();
    for (n, course) in case.courses.iter().enumerate() {
        let starts = &evening.starts[n];
        let mut before = "store";
        for (nth, phase) in course.phases.iter().enumerate() {
            let (start, end) = (starts[nth], starts[nth + 1]);
            if !(phase.low..=phase.high).contains(&(end - start)) {
                return Some((Fault::Late, format!("dish {n}, step {nth} lasts {}", end - start)));
            }
            if phase.place == "bench" && phase.who == Who::Nature {
                hands.push((start, end));
            } else if phase.place != before {
                hands.push((start, start + MOVE));
            }
            before = phase.place;
            let looks = phase.seen.awake(phase.low, end - start).into_iter();
            eyes.extend(looks.map(|after| (start + after, format!("dish {n}, step {nth}"))));
            if let Some((air, shelves)) = phase.set {
                let kit = KIT.iter().position(|(name, _)| *name == phase.place).expect("such kit");
                uses.push(Use { kit, start, end, air, shelves });
            }
        }
        let served = starts[course.phases.len()];
        hands.push((served, served + MOVE));
        let from = evening.came[n].unwrap_or(course.at);
        if !(from..=from + course.late).contains(&served) {
            return Some((Fault::Late, format!("dish {n} is served at {served}, not from {from} on")));
        }
    }
    if let Some((at, which)) = eyes.iter().find(|(at, _)| asleep(*at)) {
        return Some((Fault::Asleep, format!("{which} is looked at in sleep, at {at}")));
    }
    for &(start, end) in &hands {
        if (start..end).any(asleep) {
            return Some((Fault::Asleep, format!("work in sleep from {start} to {end}")));
        }
        let at_once = hands.iter().filter(|(from, to)| *from <= start && start < *to).count();
        if at_once as i64 > case.people {
            return Some((Fault::Hands, format!("{at_once} hands at {start}")));
        }
    }
    if let Some(wrong) = overfull(&case.kit, &uses) {
        return Some((Fault::Kit, wrong));
    }
    uses.iter().find_map(|one| {
        let kit = case.kit[one.kit];
        let hot = one.start - kit.heats;
        let by_hand = || (hot - IDLE..=hot).all(asleep);
        if !kit.programmable && by_hand() {
            return Some((Fault::Asleep, format!("nobody switches on kit {} for {}", one.kit, one.start)));
        }
        let lit = lit[one.kit].filter(|_| !kit.programmable)?;
        let wrong = format!("kit {} is switched on at {lit} for {}", one.kit, one.start);
        match asleep(lit) {
            true => Some((Fault::Asleep, wrong)),
            false => (lit > hot).then_some((Fault::Cold, wrong)),
        }
    })
}

/// When the plan has each piece of kit switched on, at the earliest.
fn lighting(compiled: &Compiled) -> Vec<Option<i64>> {
    let jobs = &compiled.meal().expect("a plan").jobs;
    let of = |name: &str| {
        let starts = [format!("Switch on {name}:"), format!("Light {name}:")];
        let is = |text: String| starts.iter().any(|start| text.starts_with(start.as_str()));
        jobs.iter().find(|job| is(job.text.render(compiled.scale))).map(|job| job.at.earliest)
    };
    KIT.iter().map(|(name, _)| of(name)).collect()
}

/// How to play a menu, as the clauses of its dishes have it.
fn strategy(compiled: &Compiled) -> (Strategy, Vec<usize>) {
    let Some(Document::Menu(menu)) = &compiled.document else { panic!("a menu") };
    let at: Vec<_> = menu.dishes.iter().map(|dish| dish.at).collect();
    let (options, _) = courses(&Default::default(), menu.serve, &at, &[]);
    let cooks = compiled.cooks();
    let dishes: Vec<Dish<'_>> = cooks.iter().map(|one| Dish { cook: one.cook, ledger: one.ledger }).collect();
    menu_strategy(&dishes, &options).expect("what is proved can be played")
}

/// What was played, and what it showed.
#[derive(Debug, Default)]
struct Tally {
    drawn: usize,
    not_proved: usize,
    proved: usize,
    /// Of those that were proved: with looks, with guests, with courses of their own, with kit lit by hand.
    with: [usize; 4],
    played: usize,
    /// With the first of each kind.
    faults: Vec<(Fault, usize, String)>,
}

/// Plays until `menus` menus that are always on time were played so often each.
fn plays(seed: u64, menus: usize, times: usize) -> Tally {
    let mut dice = Dice(seed);
    let mut tally = Tally::default();
    while tally.proved < menus {
        tally.drawn += 1;
        let case = Case::draw(&mut dice);
        let files = case.files();
        let named: Vec<(&str, &str)> =
            files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        let compiled = compile(&Memory(&named), named[0].0.into(), named[0].1.into(), &Options::default());
        let said: Vec<_> =
            compiled.findings.iter().map(|finding| finding.message.render(compiled.scale)).collect();
        let Some(meal) = compiled.meal() else { panic!("not understood: {said:#?}\n{files:#?}") };
        if meal.on_time != OnTime::Always {
            tally.not_proved += usize::from(meal.on_time == OnTime::NotProved);
            continue;
        }
        tally.proved += 1;
        let any = |is: &dyn Fn(&Course) -> bool| usize::from(case.courses.iter().any(is));
        tally.with[0] += any(&|one| one.phases.iter().any(|phase| phase.seen != Seen::Not));
        tally.with[1] += any(&|one| one.guests.is_some());
        tally.with[2] += any(&|one| one.at != case.serve);
        tally.with[3] += usize::from(case.kit.iter().any(|kit| !kit.programmable));
        let (strategy, first) = strategy(&compiled);
        let lit = lighting(&compiled);
        for time in 0..times {
            let mood = match time {
                0 | 1 => Mood::Shortest,
                2 | 3 => Mood::Longest,
                _ if time % 4 < 2 => Mood::Extremes,
                _ => Mood::Anything,
            };
            let pace = if time % 2 == 0 { Pace::Soonest } else { Pace::Latest };
            let evening = play(&case, &strategy, &first, pace, mood, &mut dice);
            tally.played += 1;
            if let Some((fault, what)) = fault(&case, &evening, &lit) {
                match tally.faults.iter_mut().find(|known| known.0 == fault) {
                    Some(known) => known.1 += 1,
                    None => {
                        let whole = format!("menu {} ({pace:?}, {mood:?}): {what}\n{files:#?}", tally.drawn);
                        tally.faults.push((fault, 1, whole));
                    }
                }
            }
        }
    }
    println!("{tally:?}");
    assert!(tally.faults.is_empty(), "{:#?}", tally.faults);
    tally
}

#[test]
fn no_play_of_a_menu_that_is_always_on_time_goes_wrong() {
    let tally = plays(0x5eed_0201, 12, 60);
    assert!(tally.with.iter().all(|&count| count > 0), "everything is met: {tally:?}");
}

/// `cargo test --release --test timing_menu_player -- --ignored --nocapture`
#[test]
#[ignore = "minutes long"]
fn a_hundred_thousand_plays_go_well() {
    let tally = plays(0x5eed_0202, 200, 500);
    assert!(tally.played >= 100_000);
}
