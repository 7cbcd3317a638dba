//! An independent player for cooks of several food lines. It knows nothing of how a plan is made: it
//! takes the JSON of a plan, keeps every start and end inside the windows that stand there, and plays
//! the cook minute by minute (in steps of five) against everything that nature may do.
//!
//! Where a plan says `always`, there must be a way to play that is never late, never needs anybody
//! asleep, never more hands than there are, and never one oven at two settings, whatever nature does.
//! Where it says `never`, there must be no way at all, even with nature on the cook's side.

mod common;

use std::collections::{BTreeSet, HashMap};

use common::dice::Dice;
use common::kitchen::{Kit, Who};
use dwell::output::timeline::{Stamp, TimelineJson, json};
use dwell::quantity::Scale;
use dwell::timing::{OnTime, Options, plan};

/// One step of the clock, in minutes, where nothing else is said; all lengths are multiples of it, and a move takes just one.
const TICK: i64 = 5;
/// Programmable, so that only the cooling and the heating between foods matter.
const OVEN: Kit = Kit { heats: 10, cools: 20, shelves: None, programmable: true };

#[derive(Debug, Clone)]
struct Phase {
    who: Who,
    low: i64,
    high: i64,
    /// Hands for the whole of it, as for work on the bench; else for the move at its start.
    hands_on: bool,
    /// In the oven, at so many degrees.
    oven: Option<i64>,
}

#[derive(Debug, Clone)]
struct Case {
    lines: [Vec<Phase>; 2],
    people: usize,
    /// In minutes after 12:00.
    asleep: Option<(i64, i64)>,
    /// When dinner is, in minutes after 12:00, and how late it may be.
    serve: (i64, i64),
}

fn case(dice: &mut Dice) -> Case {
    let lines = [0, 1].map(|_| {
        let mut line = Vec::new();
        if dice.one_in(2) {
            let length = TICK * dice.roll(1, 2);
            line.push(Phase { who: Who::Fixed, low: length, high: length, hands_on: true, oven: None });
        }
        let low = TICK * dice.roll(1, 4);
        let high = low + if dice.one_in(3) { 0 } else { TICK * dice.roll(1, 3) };
        let who = if low == high { Who::Fixed } else { Who::Nature };
        let oven = Some(if dice.one_in(2) { 90 } else { 180 });
        line.push(Phase { who, low, high, hands_on: false, oven });
        let (low, more) = (TICK * dice.roll(1, 2), TICK * dice.roll(1, 9));
        line.push(Phase { who: Who::Cook, low, high: low + more, hands_on: false, oven: None });
        line
    });
    let from = TICK * dice.roll(16, 20);
    Case {
        lines,
        people: dice.roll(1, 2) as usize,
        asleep: dice.one_in(2).then(|| (from, from + TICK * dice.roll(2, 6))),
        serve: (180, TICK * dice.roll(0, 2)),
    }
}

fn clock(minutes: i64) -> String {
    let minutes = 12 * 60 + minutes;
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}

impl Case {
    fn text(&self) -> String {
        let mut text = format!("cook \"Two\"\n  rules us-food-code\ncrew\n  {} people\n", self.people);
        if let Some((from, to)) = self.asleep {
            text += &format!("  asleep {} to {}\n", clock(from), clock(to));
        }
        text += &format!(
            "kit oven is oven\n{}kit bench is bench\nfood lamb is lamb leg\n  2 kg\nfood apples is apple\n  1 kg\n",
            OVEN.clauses()
        );
        for (food, line) in ["lamb", "apples"].iter().zip(&self.lines) {
            for (n, phase) in line.iter().enumerate() {
                let purpose = match (phase.hands_on, phase.oven) {
                    (true, _) => "prep",
                    (_, Some(_)) => "cook",
                    _ => "rest",
                };
                let place = if phase.oven.is_some() { "oven" } else { "bench" };
                text += &format!("phase {food}-{n} is {purpose}\n  {food} in {place}\n");
                if let Some(air) = phase.oven {
                    text += &format!("  air {air} °C\n");
                }
                text += &phase.who.clause(phase.low, phase.high);
            }
        }
        let late =
            if self.serve.1 > 0 { format!(", up to {} min late", self.serve.1) } else { String::new() };
        text + &format!("serve lamb and apples\n  at 2026-12-12 {} in UTC{late}\n", clock(self.serve.0))
    }
}

/// Where one line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Place {
    Before,
    /// In this phase since then.
    In(usize, i64),
}

/// The oven as it was last left: its line, setting, and when; the line that is in it may still be.
type Left = [Option<(i64, i64)>; 2];

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct State {
    now: i64,
    at: [Place; 2],
    left: Left,
}

/// From the first to the last minute of each start and end, served last.
type Windows = Vec<[(i64, i64); 2]>;

struct Player<'a> {
    case: &'a Case,
    /// `None`: anything goes, to look for a way that the plan did not see.
    windows: Option<&'a [Windows; 2]>,
    /// Nature helps.
    lucky: bool,
    /// Minutes from one turn to the next.
    tick: i64,
    known: HashMap<State, bool>,
}

impl Player<'_> {
    fn phase(&self, line: usize, n: usize) -> &Phase {
        &self.case.lines[line][n]
    }

    fn inside(&self, line: usize, n: usize, end: bool, now: i64) -> bool {
        self.windows.is_none_or(|windows| {
            let (first, last) = windows[line][n][usize::from(end)];
            (first..=last).contains(&now)
        })
    }

    fn wins(&mut self) -> bool {
        let start = State { now: -12 * TICK, at: [Place::Before; 2], left: [None; 2] };
        self.decide(start)
    }

    /// Nature first: who may end now, and does it? Then the cook.
    fn decide(&mut self, state: State) -> bool {
        if let Some(&known) = self.known.get(&state) {
            return known;
        }
        let mut may_end = Vec::new();
        for line in 0..2 {
            if let Place::In(n, since) = state.at[line] {
                let (phase, lasted) = (self.phase(line, n), state.now - since);
                if phase.who == Who::Nature && lasted >= phase.low {
                    may_end.push((line, lasted >= phase.high));
                }
            }
        }
        let mut outcomes = vec![BTreeSet::new()];
        for (line, must) in may_end {
            let with: Vec<BTreeSet<usize>> = outcomes
                .iter()
                .cloned()
                .map(|mut ends| {
                    ends.insert(line);
                    ends
                })
                .collect();
            if must { outcomes = with } else { outcomes.extend(with) }
        }
        let won = if self.lucky {
            outcomes.into_iter().any(|ends| self.act(state, &ends))
        } else {
            outcomes.into_iter().all(|ends| self.act(state, &ends))
        };
        self.known.insert(state, won);
        won
    }

    /// The cook's turn, with these lines just ended by nature: every combination of ends and starts.
    fn act(&mut self, state: State, ended: &BTreeSet<usize>) -> bool {
        let mut options: Vec<Vec<Place>> = Vec::new();
        for line in 0..2 {
            options.push(self.options(&state, line, ended.contains(&line)));
        }
        for &first in &options[0] {
            for &second in &options[1] {
                if self.goes_on(&state, [first, second]) {
                    return true;
                }
            }
        }
        self.served(&state, ended)
    }

    /// What a line may be at from now on: as it was, or in its next phase.
    fn options(&self, state: &State, line: usize, ended: bool) -> Vec<Place> {
        let (next, may_stay) = match state.at[line] {
            Place::Before => (Some(0), true),
            Place::In(n, since) => {
                let (phase, lasted) = (self.phase(line, n), state.now - since);
                let (may_end, may_stay) = match phase.who {
                    Who::Nature => (ended, !ended),
                    _ => (lasted >= phase.low, lasted < phase.high),
                };
                (may_end.then_some(n + 1), may_stay)
            }
        };
        let mut options = Vec::new();
        if let Some(next) = next.filter(|&next| next < self.case.lines[line].len()) {
            let left_in_time = next == 0 || self.inside(line, next - 1, true, state.now);
            if left_in_time && self.inside(line, next, false, state.now) {
                options.push(Place::In(next, state.now));
            }
        }
        if may_stay {
            options.push(state.at[line]);
        }
        options
    }

    /// Both lines end now and dinner is served.
    fn served(&self, state: &State, ended: &BTreeSet<usize>) -> bool {
        let (first, late) = self.case.serve;
        let ready = (0..2).all(|line| match state.at[line] {
            Place::In(n, since) if n + 1 == self.case.lines[line].len() => {
                let (phase, lasted) = (self.phase(line, n), state.now - since);
                let may_end = ended.contains(&line) || phase.who != Who::Nature;
                may_end && (phase.low..=phase.high).contains(&lasted) && self.inside(line, n, true, state.now)
            }
            _ => false,
        });
        // Serving is a move, too.
        let awake = (state.now..state.now + TICK).all(|minute| !self.asleep(minute));
        ready && (first..=first + late).contains(&state.now) && awake
    }

    fn asleep(&self, minute: i64) -> bool {
        self.case.asleep.is_some_and(|(from, to)| (from..to).contains(&minute))
    }

    /// The time until the next turn with the lines at these places, and whatever comes after.
    fn goes_on(&mut self, state: &State, at: [Place; 2]) -> bool {
        if state.now > self.case.serve.0 + self.case.serve.1 {
            return false;
        }
        let mut hands = 0;
        let mut left = state.left;
        for line in 0..2 {
            let before = match state.at[line] {
                Place::In(n, _) => self.phase(line, n).oven,
                Place::Before => None,
            };
            let Place::In(n, since) = at[line] else { continue };
            let phase = self.phase(line, n);
            if let (Some(air), None) = (before, phase.oven) {
                left[line] = Some((air, state.now));
            }
            let moves = state.now - since < TICK && self.moves(line, n);
            hands += usize::from(phase.hands_on || moves);
            let has_to = phase.who != Who::Nature && state.now - since >= phase.high;
            if has_to {
                return false;
            }
        }
        if hands > self.case.people || hands > 0 && self.asleep(state.now) {
            return false;
        }
        if !self.oven_can(state, &at, &left) {
            return false;
        }
        // How long ago the oven was left matters only while it cools or heats.
        let left = left
            .map(|left| left.filter(|(_, when)| state.now + self.tick - when < OVEN.cools.max(OVEN.heats)));
        self.decide(State { now: state.now + self.tick, at, left })
    }

    /// Food that comes from elsewhere is moved; the first phase takes it out of the store.
    fn moves(&self, line: usize, n: usize) -> bool {
        n == 0 || self.phase(line, n - 1).oven.is_some() != self.phase(line, n).oven.is_some()
    }

    /// One setting at a time, and time between two for the oven to get there.
    fn oven_can(&self, state: &State, at: &[Place; 2], left: &Left) -> bool {
        let oven = |line: usize| match at[line] {
            Place::In(n, since) => self.phase(line, n).oven.map(|air| (air, since)),
            Place::Before => None,
        };
        if let (Some((a, _)), Some((b, _))) = (oven(0), oven(1))
            && a != b
        {
            return false;
        }
        (0..2).all(|line| match (oven(line), left[1 - line]) {
            (Some((air, since)), Some((last, when))) if since == state.now && air != last => {
                state.now - when >= OVEN.change(last, air)
            }
            _ => true,
        })
    }
}

fn minute(stamp: &Option<Stamp>) -> i64 {
    let Some(Stamp::Time(time)) = stamp else { panic!("a dated plan") };
    let noon = chrono::DateTime::parse_from_rfc3339("2026-12-12T12:00:00Z").expect("a time");
    (chrono::DateTime::parse_from_rfc3339(time).expect("RFC 3339") - noon).num_minutes()
}

fn windows(plan: &TimelineJson, case: &Case) -> [Windows; 2] {
    let mut phases = plan.phases.iter();
    [0, 1].map(|line| {
        let own = phases.by_ref().take(case.lines[line].len());
        own.map(|phase| {
            let start = (minute(&phase.start_earliest), minute(&phase.start_latest));
            [start, (minute(&phase.end_earliest), minute(&phase.end_latest))]
        })
        .collect()
    })
}

#[test]
fn no_plan_promises_what_cannot_be_played() {
    let mut dice = Dice(0x5eed_0009);
    let mut tally = [0; 4];
    for round in 0..400 {
        let case = case(&mut dice);
        let text = case.text();
        let (_, cook, findings) = common::cook(&text);
        assert!(findings.is_empty(), "{findings:#?}\n{text}");
        let (timeline, _) = plan(&cook.expect("a cook"), &Options::default());
        let plan = json(&timeline, Scale::Celsius);
        let play_by = |tick: i64, windows: Option<&[Windows; 2]>, lucky: bool| {
            Player { case: &case, windows, lucky, tick, known: HashMap::new() }.wins()
        };
        let play = |windows: Option<&[Windows; 2]>, lucky: bool| play_by(TICK, windows, lucky);
        match plan.on_time {
            OnTime::Always => {
                tally[0] += 1;
                let windows = windows(&plan, &case);
                assert!(play(Some(&windows), false), "round {round}: not always on time\n{text}{windows:?}");
                // No job for hands can fall only in sleep.
                for job in plan.jobs.iter().filter(|job| job.hands > 0) {
                    let (first, last) = (minute(&job.at), minute(&job.at_latest));
                    let asleep =
                        |minute: i64| case.asleep.is_some_and(|(from, to)| (from..to).contains(&minute));
                    assert!(!(first..=last).all(asleep), "round {round}: {job:?}\n{text}");
                }
            }
            OnTime::IfLucky => {
                tally[1] += 1;
                assert!(play(None, true), "round {round}: no luck helps\n{text}");
                // What can be won in steps of five may still be lost to food that is done between two of them.
                let needs_luck = !play(None, false) || !play_by(1, None, false);
                assert!(needs_luck, "round {round}: it needs no luck\n{text}");
            }
            OnTime::Never => {
                tally[2] += 1;
                assert!(!play(None, true), "round {round}: there is a way\n{text}");
            }
            OnTime::NotProved => tally[3] += 1,
        }
    }
    println!("always, if lucky, never, not proved: {tally:?}");
    assert!(tally[0] > 60 && tally[2] > 30, "{tally:?}");
}
