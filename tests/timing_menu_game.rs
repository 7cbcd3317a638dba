//! Small menus against a game played minute by minute: two or three dishes, one oven with one setting at
//! a time and so much room, one or two people, sleep, one party of guests. Slow, crude, and written without a look at how the
//! solver works. What the solver says must be so; where it says "not proved" the game's answer is counted.

mod common;

use std::collections::HashMap;

use common::dice::Dice;
use dwell::timing::OnTime;
use dwell::timing::lines::{Outcome, settle};
use dwell::timing::network::{Apart, Lasts, Network, Room, Serving, Step};
use dwell::timing::sets::{FAR, Set};

/// Minutes that the oven takes from the cool to the hot setting, and back.
const HEATS: i64 = 1;
const COOLS: i64 = 2;

#[derive(Debug, Clone, Copy)]
struct Phase {
    lasts: Lasts,
    /// Hands for the whole of it; else for its first minute or not at all.
    hands: i64,
    /// In the oven: hot or not, and the room it takes.
    oven: Option<(bool, i64)>,
}

#[derive(Debug, Clone)]
struct Case {
    /// The phases of each dish; it is served when the last ends, by somebody, in one minute.
    dishes: Vec<Vec<Phase>>,
    people: usize,
    /// The oven holds so much.
    room: i64,
    asleep: Option<(i64, i64)>,
    serve: (i64, i64),
    /// Which dishes are for guests who come when they like, within so long from the first minute of serving on,
    /// and then wait as long as the others.
    guests: (Vec<bool>, i64),
}

fn case(dice: &mut Dice) -> Case {
    let count = if dice.one_in(3) { 3 } else { 2 };
    let dishes = (0..count).map(|_| {
        let mut dish = Vec::new();
        if dice.one_in(2) {
            let lasts = Lasts::Fixed(dice.roll(1, 2));
            dish.push(Phase { lasts, hands: FAR, oven: None });
        }
        let low = dice.roll(1, 3);
        let lasts = match dice.roll(0, 3) {
            0 => Lasts::Fixed(low),
            _ => Lasts::Nature { low, high: low + dice.roll(1, 2), looks: None },
        };
        let oven = (!dice.one_in(4)).then(|| (dice.one_in(3), dice.roll(1, 2)));
        dish.push(Phase { lasts, hands: dice.roll(0, 1), oven });
        if !dice.one_in(4) {
            let low = dice.roll(1, 2);
            let lasts = Lasts::Chosen { low, high: low + dice.roll(1, 6) };
            dish.push(Phase { lasts, hands: dice.roll(0, 1), oven: None });
        }
        dish
    });
    let dishes: Vec<_> = dishes.collect();
    let from = dice.roll(10, 16);
    let awaited = dice.one_in(2);
    let guests = (dishes.iter().map(|_| awaited && !dice.one_in(3)).collect(), dice.roll(1, 4));
    Case {
        dishes,
        people: dice.roll(1, 2) as usize,
        room: dice.roll(2, 3),
        asleep: dice.one_in(2).then(|| (from, from + dice.roll(1, 4))),
        serve: (20, 20 + dice.roll(0, 3)),
        guests,
    }
}

impl Case {
    fn network(&self) -> Network {
        let mut network = Network { people: Some(self.people as u32), ..Network::default() };
        if let Some((from, to)) = self.asleep {
            network.absent = Set::range(from, to - 1);
        }
        let mut oven = Vec::new();
        for (line, dish) in self.dishes.iter().enumerate() {
            for (n, phase) in dish.iter().enumerate() {
                let mut step = Step::new(phase.lasts);
                step.needs.busy = phase.hands;
                if n > 0 {
                    step.follows = vec![network.steps.len() - 1];
                }
                oven.extend(phase.oven.map(|(hot, room)| (line, network.steps.len(), hot, room)));
                network.steps.push(step);
            }
            let mut meal = Step::new(Lasts::Fixed(0));
            meal.needs.busy = 1;
            meal.follows = vec![network.steps.len() - 1];
            let (first, last) = self.serve;
            meal.serving = Some(match self.guests.0[line] {
                false => Serving::Within { first, last },
                true => Serving::Guests { first, last: first + self.guests.1, late: last - first },
            });
            network.steps.push(meal);
        }
        for (n, &(line, a, hot, _)) in oven.iter().enumerate() {
            for &(other, b, other_hot, _) in &oven[n + 1..] {
                if line != other && hot != other_hot {
                    let gaps = if hot { [COOLS, HEATS] } else { [HEATS, COOLS] };
                    network.apart.push(Apart { steps: [a, b], gaps, kit: 0 });
                }
            }
        }
        let takes = oven.iter().map(|&(_, step, _, room)| (step, room)).collect();
        network.rooms.push(Room { limit: self.room, takes, kit: 0 });
        network
    }
}

/// Where a dish is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Place {
    Before,
    /// In this phase for so long.
    In(usize, i64),
    Served,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash)]
struct State {
    now: i64,
    at: Vec<Place>,
    /// When the guests came.
    came: Option<i64>,
    /// For how long the oven has been without each setting; as long as matters.
    left: [Option<i64>; 2],
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Goal {
    /// Every outcome is on time.
    Always,
    /// One is, and no other needs anybody in sleep.
    Lucky,
    /// Nobody is needed in sleep, however late it gets and whatever else goes wrong.
    Hard,
}

struct Game<'c> {
    case: &'c Case,
    known: HashMap<(State, Goal), bool>,
}

impl Game<'_> {
    fn wins(case: &Case, goal: Goal) -> bool {
        let longest: i64 = case.dishes.iter().flatten().map(|phase| phase.lasts.high()).sum();
        let start = State {
            now: case.serve.0 - longest - 8,
            at: vec![Place::Before; case.dishes.len()],
            came: None,
            left: [None; 2],
        };
        Game { case, known: HashMap::new() }.nature(&start, goal)
    }

    /// Nature says whether the guests come now, and which of her phases end.
    fn nature(&mut self, state: &State, goal: Goal) -> bool {
        if let Some(&known) = self.known.get(&(state.clone(), goal)) {
            return known;
        }
        let mut outcomes = vec![Vec::new()];
        for (line, place) in state.at.iter().enumerate() {
            let Place::In(n, lasted) = *place else { continue };
            let Lasts::Nature { low, high, .. } = self.case.dishes[line][n].lasts else { continue };
            if lasted < low {
                continue;
            }
            let ended: Vec<Vec<usize>> =
                outcomes.iter().map(|one| [one.as_slice(), &[line]].concat()).collect();
            if lasted < high { outcomes.extend(ended) } else { outcomes = ended }
        }
        let (first, last) = (self.case.serve.0, self.case.serve.0 + self.case.guests.1);
        let come = State { came: Some(state.now), ..state.clone() };
        let arrivals = match state.came {
            None if state.now == last => vec![&come],
            None if state.now >= first => vec![state, &come],
            _ => vec![state],
        };
        let mut all = arrivals.into_iter().flat_map(|state| outcomes.iter().map(move |ended| (state, ended)));
        let won = match goal {
            Goal::Lucky => {
                self.nature(state, Goal::Hard) && all.any(|(state, ended)| self.cook(state, ended, goal))
            }
            _ => all.all(|(state, ended)| self.cook(state, ended, goal)),
        };
        self.known.insert((state.clone(), goal), won);
        won
    }

    /// The cook ends and begins what may be ended and begun, in every combination.
    fn cook(&mut self, state: &State, ended: &[usize], goal: Goal) -> bool {
        let mut options = vec![Vec::new()];
        for (line, place) in state.at.iter().enumerate() {
            let dish = &self.case.dishes[line];
            let next = |n: usize| if n == dish.len() { Place::Served } else { Place::In(n, 0) };
            let here: Vec<Place> = match *place {
                Place::Before => vec![Place::Before, next(0)],
                Place::Served => vec![Place::Served],
                Place::In(n, lasted) => match dish[n].lasts {
                    Lasts::Nature { .. } if ended.contains(&line) => vec![next(n + 1)],
                    Lasts::Nature { .. } => vec![*place],
                    lasts => {
                        let mut both = Vec::new();
                        if lasted >= lasts.low() {
                            both.push(next(n + 1));
                        }
                        if lasted < lasts.high() {
                            both.push(*place);
                        }
                        both
                    }
                },
            };
            options = options
                .iter()
                .flat_map(|before: &Vec<Place>| here.iter().map(|&one| [before.as_slice(), &[one]].concat()))
                .collect();
        }
        options.into_iter().any(|at| self.minute(state, at, goal))
    }

    /// The minute from now on with the dishes at these places.
    fn minute(&mut self, state: &State, at: Vec<Place>, goal: Goal) -> bool {
        let now = state.now;
        // Once nobody sleeps any more it can only be late, or the food gone before the guests are there.
        if goal == Goal::Hard && self.case.asleep.is_none_or(|(_, morning)| now >= morning) {
            return true;
        }
        let mut hands = 0;
        let mut taken = [0, 0];
        for (line, place) in at.iter().enumerate() {
            match *place {
                Place::Served if state.at[line] != Place::Served => {
                    let (mut first, mut last) = self.case.serve;
                    if self.case.guests.0[line] {
                        // Food that is set out for nobody is not served.
                        let Some(came) = state.came else { return false };
                        (first, last) = (came, came + last - first);
                    }
                    if goal != Goal::Hard && (now < first || now > last) {
                        return false;
                    }
                    hands += 1;
                }
                Place::In(n, lasted) => {
                    let phase = self.case.dishes[line][n];
                    hands += usize::from(lasted < phase.hands);
                    if let Some((hot, room)) = phase.oven {
                        taken[usize::from(hot)] += room;
                    }
                }
                _ => {}
            }
        }
        if hands > 0 && self.case.asleep.is_some_and(|(a, b)| (a..b).contains(&now)) {
            return false;
        }
        if goal == Goal::Hard {
            return self.pass(state, at, taken, goal);
        }
        if hands > self.case.people || taken[0] > 0 && taken[1] > 0 || taken[0] + taken[1] > self.case.room {
            return false;
        }
        for hot in [0, 1] {
            let gap = if hot == 1 { HEATS } else { COOLS };
            if taken[hot] > 0 && state.left[1 - hot].is_some_and(|since| since < gap) {
                return false;
            }
        }
        if at.iter().all(|place| *place == Place::Served) {
            return true;
        }
        now <= self.case.serve.1 + self.case.guests.1 && self.pass(state, at, taken, goal)
    }

    fn pass(&mut self, state: &State, at: Vec<Place>, taken: [i64; 2], goal: Goal) -> bool {
        let at = at.into_iter().map(|place| match place {
            Place::In(n, lasted) => Place::In(n, lasted + 1),
            other => other,
        });
        let left = [0, 1].map(|hot| match (taken[hot] > 0, state.left[hot]) {
            (true, _) => Some(0),
            (false, Some(since)) if since < COOLS.max(HEATS) => Some(since + 1),
            (false, _) => None,
        });
        self.nature(&State { now: state.now + 1, at: at.collect(), came: state.came, left }, goal)
    }
}

/// What the game says of what was not proved, and how often each verdict was given.
#[derive(Debug, Default)]
struct Tally {
    always: usize,
    lucky: usize,
    never: usize,
    not_proved_but_always: usize,
    not_proved_but_lucky: usize,
    not_proved_but_never: usize,
    /// Of those that are always on time, with two dishes or more that wait for the same guests.
    always_for_guests: usize,
}

impl Tally {
    fn not_proved(&self) -> usize {
        self.not_proved_but_always + self.not_proved_but_lucky + self.not_proved_but_never
    }
}

fn play(seed: u64, rounds: usize) -> Tally {
    let mut dice = Dice(seed);
    let mut tally = Tally::default();
    for round in 0..rounds {
        let case = case(&mut dice);
        let verdict = match settle(&case.network()) {
            Outcome::Proved(_) | Outcome::Played(..) => OnTime::Always,
            Outcome::IfLucky(_) => OnTime::IfLucky,
            Outcome::Never => OnTime::Never,
            Outcome::Unknown => OnTime::NotProved,
        };
        let wins = |goal: Goal| Game::wins(&case, goal);
        let awaited = case.guests.0.iter().filter(|awaits| **awaits).count();
        match verdict {
            OnTime::Always => {
                tally.always += 1;
                tally.always_for_guests += usize::from(awaited > 1);
                assert!(wins(Goal::Always), "round {round}: not always on time\n{case:#?}");
            }
            OnTime::IfLucky => {
                tally.lucky += 1;
                assert!(
                    wins(Goal::Lucky) && !wins(Goal::Always),
                    "round {round}: not a matter of luck\n{case:#?}"
                );
            }
            OnTime::Never => {
                tally.never += 1;
                assert!(!wins(Goal::Lucky), "round {round}: there is a way\n{case:#?}");
            }
            OnTime::NotProved if wins(Goal::Always) => tally.not_proved_but_always += 1,
            OnTime::NotProved if wins(Goal::Lucky) => tally.not_proved_but_lucky += 1,
            OnTime::NotProved => tally.not_proved_but_never += 1,
        }
    }
    println!("{tally:?}");
    tally
}

#[test]
fn small_menus_agree_with_the_game() {
    let tally = play(0x5eed_0101, 300);
    assert!(tally.always > 60 && tally.never > 30 && tally.always_for_guests > 10, "{tally:?}");
    assert_eq!(tally.not_proved(), 0, "{tally:?}");
}

/// `cargo test --release --test timing_menu_game -- --ignored --nocapture`
#[test]
#[ignore = "minutes long"]
fn thousands_of_small_menus_agree_with_the_game() {
    let tally = play(0x5eed_0102, 5000);
    assert!(tally.always > 1000 && tally.never > 500, "{tally:?}");
    assert_eq!(tally.not_proved(), 0, "{tally:?}");
}
