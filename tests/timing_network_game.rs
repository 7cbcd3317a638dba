//! Small networks of every kind against a game played minute by minute: several lines, joins and partings, order
//! clauses, looks, guests, sleep, hands, room and settings. Every verdict must be the game's, and whatever is always on
//! time is played, with the order of things fixed beforehand or left open.

mod common;

use common::dice::Dice;
use common::minutes::{Game, Kitchen, fault, shown};
use dwell::timing::OnTime;
use dwell::timing::lines::{Effort, Outcome, Pace, settle, strategy_of};
use dwell::timing::network::{Ahead, Apart, Lasts, Link, Network, Point, Room, Serving, Step};
use dwell::timing::sets::{FAR, Set};

/// Dinner is at about this minute.
const SERVE: i64 = 12;

fn work(dice: &mut Dice) -> Step {
    let low = dice.roll(1, 3);
    let lasts = match dice.roll(0, 4) {
        0 => Lasts::Fixed(low),
        1 => {
            let low = low - dice.roll(0, 1);
            Lasts::Chosen { low, high: low + dice.roll(1, 4) }
        }
        _ => {
            let looks = dice.one_in(6).then_some(2);
            Lasts::Nature { low, high: low + dice.roll(1, 2), looks }
        }
    };
    let mut step = Step::new(lasts);
    step.needs.busy = match dice.roll(0, 5) {
        0 => FAR,
        1 | 2 => 1,
        _ => 0,
    };
    step.needs.awake_from = dice.one_in(8).then_some(low);
    step.needs.look_in = dice.one_in(10).then_some(2);
    step.needs.at_end = dice.one_in(8);
    step.needs.before = dice.one_in(10).then(|| Ahead { least: 1, most: 1 + dice.roll(0, 3) });
    if dice.one_in(12) {
        step.start_in = Set::from(dice.roll(2, 9));
    }
    if dice.one_in(12) {
        step.end_in = Set::up_to(dice.roll(7, 14));
    }
    step
}

fn meal(dice: &mut Dice, guests: bool) -> Step {
    let mut meal = Step::new(Lasts::Fixed(0));
    meal.needs.busy = dice.roll(0, 1);
    let first = SERVE + dice.roll(-1, 1);
    let late = dice.roll(0, 3);
    meal.serving = Some(match guests {
        true => Serving::Guests { first, last: first + dice.roll(0, 2), late },
        false => Serving::Within { first, last: first + late },
    });
    meal
}

/// Two or three lines, some of which part or come together; of a small one at most two.
fn draw(dice: &mut Dice, small: bool) -> Network {
    let mut network =
        Network { people: (!dice.one_in(5)).then(|| dice.roll(1, 2) as u32), ..Network::default() };
    let lines = if !small && dice.one_in(3) { 3 } else { 2 };
    let guests = dice.one_in(5);
    let mut ends = Vec::new();
    let mut line_of = Vec::new();
    for line in 0..lines {
        for n in 0..dice.roll(1, if small { 2 } else { 5 - lines }) {
            let mut step = work(dice);
            if n > 0 {
                step.follows = vec![network.steps.len() - 1];
            }
            network.steps.push(step);
            line_of.push(line as usize);
        }
        ends.push(network.steps.len() - 1);
    }
    if dice.one_in(4) {
        // A part of the first line goes another way.
        let from = ends[0];
        let mut part = work(dice);
        part.follows = vec![from];
        network.steps.push(part);
        line_of.push(0);
        ends.push(network.steps.len() - 1);
    }
    if dice.one_in(3) {
        // Two of the lines become one.
        let (a, b) = (ends.remove(0), ends.remove(0));
        for n in [a, b] {
            if let Lasts::Nature { low, .. } = network.steps[n].lasts
                && !dice.one_in(3)
            {
                network.steps[n].lasts = Lasts::Chosen { low, high: low + 3 };
            }
        }
        let mut both = work(dice);
        both.follows = vec![a, b];
        network.steps.push(both);
        line_of.push(0);
        ends.insert(0, network.steps.len() - 1);
    }
    for (n, &end) in ends.iter().enumerate() {
        // What nobody waits for is done some time that day.
        if n > 0 && dice.one_in(6) {
            network.steps[end].end_in = Set::range(dice.roll(2, 6), SERVE + 2);
            continue;
        }
        let mut meal = meal(dice, guests && n == 0);
        meal.follows = vec![end];
        network.steps.push(meal);
        line_of.push(n);
    }
    let last = network.steps.len() as i64 - 1;
    while dice.one_in(3) {
        let point = |dice: &mut Dice| Point { step: dice.roll(0, last) as usize, end: dice.one_in(2) };
        let (low, high) = match dice.roll(0, 3) {
            0 => (-1, 1),
            1 => (dice.roll(-2, 1), dice.roll(1, 4)),
            _ => (0, FAR),
        };
        let link = Link { from: point(dice), to: point(dice), low, high };
        if line_of[link.from.step] != line_of[link.to.step] {
            network.links.push(link);
        }
    }
    kit(dice, &line_of, &mut network);
    // Guests who come while people sleep are not played out by the solver; `timing_menu_game` has them.
    if !dice.one_in(3) && network.parties().is_empty() {
        let from = dice.roll(2, 9);
        let mut asleep = vec![(from, from + dice.roll(0, 3))];
        if dice.one_in(4) {
            asleep.push((from + 5, from + 5 + dice.roll(0, 1)));
        }
        network.absent = Set::of(asleep);
    }
    network
}

/// One oven with two settings and so much room.
fn kit(dice: &mut Dice, line_of: &[usize], network: &mut Network) {
    let mut oven = Vec::new();
    for (n, step) in network.steps.iter().enumerate() {
        if step.serving.is_none() && step.lasts.low() > 0 && dice.one_in(2) {
            oven.push((n, dice.one_in(3), dice.roll(1, 2)));
        }
    }
    let (heats, cools) = (dice.roll(0, 2), dice.roll(0, 2));
    for (nth, &(a, hot, _)) in oven.iter().enumerate() {
        for &(b, other_hot, _) in &oven[nth + 1..] {
            if line_of[a] != line_of[b] && hot != other_hot {
                let gaps = if hot { [cools, heats] } else { [heats, cools] };
                network.apart.push(Apart { steps: [a, b], gaps, kit: 0 });
            }
        }
    }
    if dice.one_in(2) {
        let takes = oven.iter().map(|&(n, _, room)| (n, room)).collect();
        network.rooms.push(Room { limit: dice.roll(2, 3), takes, kit: 0 });
    }
}

/// The minutes between which everything happens: no food can begin sooner than all that it goes through lasts at most.
fn span(network: &Network) -> (i64, i64) {
    let mut begins = vec![SERVE + 9; network.steps.len()];
    for (n, step) in network.steps.iter().enumerate().rev() {
        if let Some(Serving::Within { first, .. } | Serving::Guests { first, .. }) = step.serving {
            begins[n] = begins[n].min(first);
        }
        let ends = step.end_in.first().filter(|first| *first > -FAR).unwrap_or(FAR);
        begins[n] = begins[n].min(ends) - step.lasts.high();
        for &before in &step.follows {
            begins[before] = begins[before].min(begins[n]);
        }
    }
    (begins.into_iter().min().unwrap_or(0), SERVE + 9)
}

#[derive(Debug, Default)]
struct Tally {
    always: usize,
    open: usize,
    lucky: usize,
    never: usize,
    not_proved: Vec<usize>,
}

fn agrees(seed: u64, rounds: usize, small: bool) -> Tally {
    agree(seed, rounds, |dice| {
        let network = draw(dice, small);
        let span = span(&network);
        (network, span)
    })
}

fn agree(seed: u64, rounds: usize, mut draw: impl FnMut(&mut Dice) -> (Network, (i64, i64))) -> Tally {
    let mut dice = Dice(seed);
    let mut tally = Tally::default();
    for round in 0..rounds {
        let (network, (first, last)) = draw(&mut dice);
        let truth = Game::new(&network, first, last).verdict();
        let outcome = settle(&network);
        let said = match &outcome {
            Outcome::Proved(_) | Outcome::Played(..) => {
                tally.always += 1;
                tally.open += usize::from(matches!(outcome, Outcome::Played(..)));
                OnTime::Always
            }
            Outcome::IfLucky(_) => OnTime::IfLucky,
            Outcome::Never => OnTime::Never,
            Outcome::Unknown => OnTime::NotProved,
        };
        match said {
            OnTime::IfLucky => tally.lucky += 1,
            OnTime::Never => tally.never += 1,
            OnTime::NotProved => tally.not_proved.push(round),
            OnTime::Always => play_some(&network, &outcome, round, &mut dice),
        }
        assert!(
            said == truth || said == OnTime::NotProved,
            "round {round}: {said:?}, and in the game {truth:?}\n{}",
            shown(&network)
        );
    }
    println!("{tally:?}");
    tally
}

/// Plays what is always on time a few times, and looks at what comes of it.
fn play_some(network: &Network, outcome: &Outcome, round: usize, dice: &mut Dice) {
    let (start, windows, fixed) = match outcome {
        Outcome::Proved(way) => (way.start(), way.windows(), true),
        Outcome::Played(start, windows) => (*start, windows.clone(), false),
        Outcome::IfLucky(_) | Outcome::Never | Outcome::Unknown => return,
    };
    let strategy = strategy_of(network, Effort::WHOLE).expect("what is proved can be played");
    for time in 0..8 {
        let pace = if time % 2 == 0 { Pace::Soonest } else { Pace::Latest };
        let mut play = strategy.play();
        let mut draw = |low: i64, high: i64| match time {
            0 | 1 => low,
            2 | 3 => high,
            _ => dice.roll(low, high),
        };
        let lengths: Vec<i64> = network
            .steps
            .iter()
            .map(|step| match (step.lasts, step.lasts.looks()) {
                (_, Some(looks)) => looks[draw(0, looks.len() as i64 - 1) as usize],
                (lasts, None) => draw(lasts.low(), lasts.high()),
            })
            .collect();
        let mut played = Kitchen::default();
        let mut coming = Vec::new();
        for (n, step) in network.steps.iter().enumerate() {
            if let Some(Serving::Guests { first, last, .. }) = step.serving {
                let at = draw(first, last);
                played.came[n] = Some(at as i16);
                coming.push((at, coming.len()));
            }
        }
        let mut now = -1000;
        loop {
            let going = network.steps.iter().enumerate().filter_map(|(n, step)| {
                let decides = matches!(step.lasts, Lasts::Nature { low, high, .. } if low < high);
                let looks = step.lasts.looks().is_none_or(|looks| looks.len() > 1);
                let start =
                    play.when(n, false).filter(|_| decides && looks && play.when(n, true).is_none())?;
                Some((start + lengths[n], n))
            });
            let ends = going.min();
            let comes = coming.iter().min().copied();
            let next = [ends.map(|end| end.0), comes.map(|come| come.0), play.next(now, pace)];
            let Some(next) = next.into_iter().flatten().min() else { break };
            assert!(next >= now, "round {round}: back in time");
            now = next;
            if let Some((at, n)) = ends.filter(|end| end.0 == now) {
                play.ended(n, at);
            } else if let Some((at, nth)) = comes.filter(|come| come.0 == now) {
                play.came(nth, at);
                coming.retain(|one| one.1 != nth);
            } else {
                play.act(now, pace);
            }
        }
        for (n, window) in windows.iter().enumerate() {
            let when = |end: bool| play.when(n, end).map(|at| at as i16);
            (played.start[n], played.end[n]) = (when(false), when(true));
            if fixed {
                // Its windows are those of one start for all; the strategy knows no such start.
                continue;
            }
            for (at, window) in [(when(false), window.0), (when(true), window.1)] {
                let inside = at.is_some_and(|at| (window.earliest..=window.latest).contains(&i64::from(at)));
                assert!(
                    inside,
                    "round {round}, play {time}: step {n} at {at:?}, not in {window:?}\n{}",
                    shown(network)
                );
            }
        }
        let begun = played.start.iter().flatten().min().map(|at| i64::from(*at));
        let inside = begun.is_some_and(|at| (start.earliest..=start.latest).contains(&at));
        assert!(inside || fixed, "round {round}, play {time}: begins at {begun:?}");
        if let Some(fault) = fault(network, &played) {
            panic!("round {round}, play {time} ({pace:?}): {fault}\n{played:?}\n{}", shown(network));
        }
    }
}

fn all_agree(tally: &Tally, at_least: usize) {
    assert!(tally.not_proved.is_empty(), "{tally:?}");
    assert!(tally.always.min(tally.lucky).min(tally.never) >= at_least, "{tally:?}");
}

#[test]
fn small_networks_agree_with_the_game() {
    all_agree(&agrees(0x5eed_0301, 1000, true), 100);
}

#[test]
fn more_small_networks_agree_with_the_game() {
    all_agree(&agrees(0x5eed_0302, 1000, true), 100);
}

#[test]
fn larger_networks_agree_with_the_game() {
    all_agree(&agrees(0x5eed_0303, 60, false), 5);
}

/// The same with everything twice as long, which leaves nature the minutes between.
fn twice(network: &Network) -> Network {
    let mut network = network.clone();
    let long = |minutes: i64| if minutes.abs() >= FAR { minutes } else { 2 * minutes };
    let set =
        |set: &Set| Set::of(set.intervals().iter().map(|&(first, last)| (long(first), long(last))).collect());
    for step in &mut network.steps {
        step.lasts = match step.lasts {
            Lasts::Fixed(length) => Lasts::Fixed(2 * length),
            Lasts::Chosen { low, high } => Lasts::Chosen { low: 2 * low, high: 2 * high },
            Lasts::Nature { low, high, looks } => {
                Lasts::Nature { low: 2 * low, high: 2 * high, looks: looks.map(long) }
            }
        };
        step.needs.busy = long(step.needs.busy);
        step.needs.awake_from = step.needs.awake_from.map(long);
        step.needs.look_in = step.needs.look_in.map(long);
        step.needs.before = step.needs.before.map(|b| Ahead { least: 2 * b.least, most: 2 * b.most });
        (step.start_in, step.end_in) = (set(&step.start_in), set(&step.end_in));
        step.serving = step.serving.map(|serving| match serving {
            Serving::Within { first, last } => Serving::Within { first: 2 * first, last: 2 * last },
            Serving::Guests { first, last, late } => {
                Serving::Guests { first: 2 * first, last: 2 * last, late: 2 * late }
            }
        });
    }
    for link in &mut network.links {
        (link.low, link.high) = (long(link.low), long(link.high));
    }
    network.apart.iter_mut().for_each(|apart| apart.gaps = apart.gaps.map(long));
    let nights = network.absent.intervals().iter().map(|&(first, last)| (2 * first, 2 * last + 1));
    network.absent = Set::of(nights.collect());
    network
}

#[test]
fn networks_of_even_lengths_agree_with_the_game_by_the_minute() {
    let draw = |dice: &mut Dice| {
        let network = draw(dice, true);
        let (first, last) = span(&network);
        (twice(&network), (2 * first, 2 * last))
    };
    all_agree(&agree(0x5eed_0305, 150, draw), 10);
}

/// `cargo test --release --test timing_network_game -- --ignored --nocapture`
#[test]
#[ignore = "minutes long"]
fn thousands_of_networks_agree_with_the_game() {
    let tally = agrees(0x5eed_0304, 5_000, false);
    all_agree(&tally, 500);
    assert!(tally.open > 0, "{tally:?}");
}
