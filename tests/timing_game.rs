//! One food line against a game played minute by minute: slow, crude, and written without a look at
//! how the solver works. Verdict and every winning start must agree.

mod common;

use std::collections::HashMap;

use common::dice::Dice;
use dwell::timing::chain;
use dwell::timing::network::{Ahead, Lasts, Needs, Network, Serving, Step};
use dwell::timing::sets::{FAR, Set};

/// Starts are compared from here to there.
const FIRST: i64 = -30;
const LAST: i64 = 60;

#[derive(Clone, Copy, PartialEq, Eq, Hash)]
enum Goal {
    /// Nobody is ever needed while away.
    Hard,
    /// And every outcome is on time.
    Always,
    /// And one outcome is on time, on a way that is hard.
    Lucky,
}

struct Game<'a> {
    network: &'a Network,
    /// The guests' first and last minute.
    party: Option<(i64, i64)>,
    seen: HashMap<(usize, i64, i64, Option<i64>, Goal), bool>,
}

impl Game<'_> {
    fn absent(&self, minute: i64) -> bool {
        self.network.absent.contains(minute)
    }

    fn wins_from(&mut self, start: i64, goal: Goal) -> bool {
        let Some((first, last)) = self.party else {
            return self.begin(0, start, None, goal);
        };
        let mut states: Vec<Option<i64>> = (first..=last.min(start)).map(Some).collect();
        if start < last {
            states.push(None);
        }
        match goal {
            Goal::Lucky => {
                self.wins_from(start, Goal::Hard) && states.into_iter().any(|s| self.begin(0, start, s, goal))
            }
            _ => states.into_iter().all(|state| self.begin(0, start, state, goal)),
        }
    }

    /// Step `k` starts now.
    fn begin(&mut self, k: usize, now: i64, came: Option<i64>, goal: Goal) -> bool {
        let Some(step) = self.network.steps.get(k) else { return true };
        if goal != Goal::Hard && !step.start_in.contains(now) {
            return false;
        }
        let late = match step.serving {
            None => false,
            Some(Serving::Within { first, last }) => now < first || now > last,
            Some(Serving::Guests { late, .. }) => came.is_none_or(|g| now > g + late),
        };
        // However late dinner is, nobody is served before coming.
        if came.is_none() && matches!(step.serving, Some(Serving::Guests { .. })) {
            return false;
        }
        if late && goal != Goal::Hard {
            return false;
        }
        if step.serving.is_some() && (now..now + step.needs.busy).any(|minute| self.absent(minute)) {
            return false;
        }
        // Somebody switches the kit on.
        if let Some(ahead) = step.needs.before
            && (now - ahead.most..=now - ahead.least).all(|minute| self.absent(minute))
        {
            return false;
        }
        self.go_on(k, now, now, came, goal)
    }

    /// Step `k`, under way since `since`, at the minute `now`: does it end?
    fn go_on(&mut self, k: usize, since: i64, now: i64, came: Option<i64>, goal: Goal) -> bool {
        let key = (k, since, now, came, goal);
        if let Some(&known) = self.seen.get(&key) {
            return known;
        }
        let elapsed = now - since;
        let won = match self.network.steps[k].lasts {
            Lasts::Fixed(length) => {
                if elapsed == length {
                    self.end(k, now, came, goal)
                } else {
                    self.pass(k, since, now, came, goal)
                }
            }
            Lasts::Chosen { low, high } => {
                (elapsed >= low && self.end(k, now, came, goal))
                    || (elapsed < high && self.pass(k, since, now, came, goal))
            }
            Lasts::Nature { low, high, looks } => {
                let may_end =
                    elapsed >= low && looks.is_none_or(|every| elapsed % every == 0 || elapsed == high);
                let may_last = elapsed < high;
                match goal {
                    Goal::Lucky => {
                        let hard = (!may_end || self.end(k, now, came, Goal::Hard))
                            && (!may_last || self.pass(k, since, now, came, Goal::Hard));
                        hard && ((may_end && self.end(k, now, came, goal))
                            || (may_last && self.pass(k, since, now, came, goal)))
                    }
                    _ => {
                        (!may_end || self.end(k, now, came, goal))
                            && (!may_last || self.pass(k, since, now, came, goal))
                    }
                }
            }
        };
        self.seen.insert(key, won);
        won
    }

    fn end(&mut self, k: usize, now: i64, came: Option<i64>, goal: Goal) -> bool {
        let step = &self.network.steps[k];
        if step.needs.at_end && self.absent(now) {
            return false;
        }
        if goal != Goal::Hard && !step.end_in.contains(now) {
            return false;
        }
        self.begin(k + 1, now, came, goal)
    }

    /// The minute passes with the step still going on.
    fn pass(&mut self, k: usize, since: i64, now: i64, came: Option<i64>, goal: Goal) -> bool {
        let needs = self.network.steps[k].needs;
        let elapsed = now - since;
        let wanted = elapsed < needs.busy
            || needs.awake_from.is_some_and(|from| elapsed >= from)
            || needs.look_in.is_some_and(|every| elapsed > 0 && elapsed % every == 0);
        if wanted && self.absent(now) {
            return false;
        }
        let next = now + 1;
        match self.party {
            Some((first, last)) if came.is_none() && next >= first && next <= last => {
                let come = |game: &mut Self, goal| game.go_on(k, since, next, Some(next), goal);
                let stay = |game: &mut Self, goal| game.go_on(k, since, next, None, goal);
                let all = |game: &mut Self, goal| come(game, goal) && (next == last || stay(game, goal));
                match goal {
                    Goal::Lucky => {
                        all(self, Goal::Hard) && (come(self, goal) || (next < last && stay(self, goal)))
                    }
                    _ => all(self, goal),
                }
            }
            _ => self.go_on(k, since, next, came, goal),
        }
    }
}

fn random_chain(dice: &mut Dice, with_guests: bool) -> Network {
    let count = dice.roll(1, 4) as usize;
    let mut steps = Vec::new();
    for _ in 0..count {
        let (low, more) = (dice.roll(0, 7), dice.roll(0, 8));
        let lasts = match dice.roll(0, 4) {
            0 => Lasts::Fixed(low),
            1 | 2 => Lasts::Chosen { low, high: low + more },
            _ => {
                let looks = dice.one_in(3).then(|| dice.roll(2, 4));
                Lasts::Nature { low, high: low + more, looks }
            }
        };
        let mut step = Step::new(lasts);
        step.needs = Needs {
            busy: match dice.roll(0, 5) {
                0 => FAR,
                1 | 2 => dice.roll(1, 3),
                _ => 0,
            },
            awake_from: dice.one_in(6).then_some(low),
            look_in: dice.one_in(5).then(|| dice.roll(2, 5)),
            at_end: dice.one_in(6),
            before: dice.one_in(6).then(|| {
                let least = dice.roll(1, 6);
                Ahead { least, most: least + dice.roll(0, 6) }
            }),
        };
        if dice.one_in(10) {
            step.start_in = Set::from(dice.roll(-10, 25));
        }
        if dice.one_in(10) {
            step.end_in = Set::up_to(dice.roll(15, 50));
        }
        steps.push(step);
    }
    let mut meal = Step::new(Lasts::Fixed(if dice.one_in(3) { dice.roll(1, 5) } else { 0 }));
    meal.needs.busy = dice.roll(0, 2);
    let first = dice.roll(25, 35);
    let late = dice.roll(0, 5);
    meal.serving = Some(if with_guests {
        Serving::Guests { first, last: first + dice.roll(0, 9), late }
    } else {
        Serving::Within { first, last: first + late }
    });
    steps.push(meal);
    if dice.one_in(4) {
        let mut after = Step::new(Lasts::Nature { low: 1, high: 3, looks: None });
        after.needs.busy = 1;
        steps.push(after);
    }
    for (n, step) in steps.iter_mut().enumerate().skip(1) {
        step.follows = vec![n - 1];
    }
    let mut absent = Vec::new();
    let mut at = dice.roll(-60, -40);
    while at < 150 {
        let length = dice.roll(1, 14);
        absent.push((at, at + length - 1));
        at += length + dice.roll(3, 25);
    }
    let absent = if dice.one_in(5) { Set::empty() } else { Set::of(absent) };
    Network { steps, absent, people: Some(1), ..Network::default() }
}

/// Before the first step the cook may wait, and see whether the guests come.
fn waits_for_them(network: &Network, party: Option<(i64, i64)>, sets: &chain::Sets, round: usize) {
    let mut whole = network.clone();
    for step in &mut whole.steps {
        step.follows.iter_mut().for_each(|before| *before += 1);
    }
    whole.steps[0].follows = vec![0];
    whole.steps.insert(0, Step::new(Lasts::Chosen { low: 0, high: LAST - FIRST }));
    let mut game = Game { network: &whole, party, seen: HashMap::new() };
    let won = [Goal::Always, Goal::Lucky].map(|goal| game.wins_from(FIRST, goal));
    // A first step that starts sooner is not looked at here.
    if sets.starts.first().is_none_or(|first| first >= FIRST) {
        assert_eq!([sets.won, sets.won || sets.may_be_won], won, "round {round}\n{network:#?}");
    }
}

fn agrees(network: &Network, round: usize, tally: &mut [usize; 3]) {
    let sets = chain::solve(network).expect("it is one line");
    let party = network.steps.iter().find_map(|step| match step.serving {
        Some(Serving::Guests { first, last, .. }) => Some((first, last)),
        _ => None,
    });
    waits_for_them(network, party, &sets, round);
    let mut game = Game { network, party, seen: HashMap::new() };
    let mut any = [false; 2];
    for start in FIRST..=LAST {
        for (goal, set) in
            [(Goal::Hard, &sets.hard), (Goal::Always, &sets.always), (Goal::Lucky, &sets.lucky)]
        {
            let won = game.wins_from(start, goal);
            let name = match goal {
                Goal::Hard => "hard",
                Goal::Always => "always",
                Goal::Lucky => "lucky",
            };
            assert_eq!(
                set[0].contains(start),
                won,
                "round {round}: a start at {start} is {}{name} in the game\n{network:#?}",
                if won { "" } else { "not " }
            );
            match goal {
                Goal::Always => any[0] |= won,
                Goal::Lucky => any[1] |= won,
                Goal::Hard => {}
            }
        }
    }
    tally[if any[0] {
        0
    } else if any[1] {
        1
    } else {
        2
    }] += 1;
}

#[test]
fn a_line_agrees_with_the_game_on_every_start() {
    let mut dice = Dice(0x5eed_0001);
    let mut tally = [0; 3];
    for round in 0..600 {
        agrees(&random_chain(&mut dice, false), round, &mut tally);
    }
    assert!(tally.iter().all(|&count| count > 50), "every verdict must be met often: {tally:?}");
}

#[test]
fn guests_agree_with_the_game_on_every_start() {
    let mut dice = Dice(0x5eed_0002);
    let mut tally = [0; 3];
    for round in 0..300 {
        agrees(&random_chain(&mut dice, true), round, &mut tally);
    }
    assert!(tally.iter().all(|&count| count > 15), "every verdict must be met often: {tally:?}");
}
