//! Any small network against a game played minute by minute. Slow, crude, and written from what a network says of
//! itself, without a look at how it is solved: every moment is kept by its minute, and every combination is tried.

use std::collections::HashMap;
use std::hash::BuildHasherDefault;

use dwell::timing::OnTime;
use dwell::timing::network::{Lasts, Network, Point, Serving};
use dwell::timing::sets::Set;
use rustc_hash::FxHasher;

const MOST: usize = 12;
/// What lies further back than this makes no difference to anything that goes on.
const MEMORY: i16 = 10;

/// When each step started and ended, and when the guests of each serving came.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Kitchen {
    pub start: [Option<i16>; MOST],
    pub end: [Option<i16>; MOST],
    pub came: [Option<i16>; MOST],
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Goal {
    /// Every outcome keeps to everything.
    Always,
    /// One outcome does, and no other needs anybody in sleep.
    Lucky,
    /// Nobody is needed in sleep, whatever else goes wrong.
    Hard,
}

pub struct Game<'n> {
    network: &'n Network,
    known: HashMap<(i16, Kitchen, Goal), bool, BuildHasherDefault<FxHasher>>,
    first: i16,
    last: i16,
}

impl<'n> Game<'n> {
    /// Between these two minutes everything happens.
    pub fn new(network: &'n Network, first: i64, last: i64) -> Self {
        Self { network, known: HashMap::default(), first: first as i16, last: last as i16 }
    }

    pub fn verdict(&mut self) -> OnTime {
        let nothing = Kitchen::default();
        if self.nature(self.first, nothing, Goal::Always) {
            OnTime::Always
        } else if self.nature(self.first, nothing, Goal::Lucky) {
            OnTime::IfLucky
        } else {
            OnTime::Never
        }
    }

    /// Nature says what ends in this minute.
    fn nature(&mut self, now: i16, kitchen: Kitchen, goal: Goal) -> bool {
        let kitchen = blurred(kitchen, now);
        if let Some(&known) = self.known.get(&(now, kitchen, goal)) {
            return known;
        }
        let mut outcomes = vec![kitchen];
        for (n, step) in self.network.steps.iter().enumerate() {
            if let (Lasts::Nature { low, high, looks }, Some(start), None) =
                (step.lasts, kitchen.start[n], kitchen.end[n])
            {
                let lasted = i64::from(now - start);
                let may = lasted >= low && looks.is_none_or(|every| lasted % every == 0 || lasted == high);
                split(&mut outcomes, may, lasted >= high, |kitchen| kitchen.end[n] = Some(now));
            }
            if let (Some(Serving::Guests { first, last, .. }), None) = (step.serving, kitchen.came[n]) {
                let minute = i64::from(now);
                let come = goal != Goal::Hard;
                split(&mut outcomes, come && minute >= first, minute >= last, |kitchen| {
                    kitchen.came[n] = Some(now);
                });
            }
        }
        let won = match goal {
            Goal::Lucky => {
                self.nature(now, kitchen, Goal::Hard)
                    && outcomes.iter().any(|&outcome| self.cook(now, outcome, goal, 0))
            }
            _ => outcomes.iter().all(|&outcome| self.cook(now, outcome, goal, 0)),
        };
        self.known.insert((now, kitchen, goal), won);
        won
    }

    /// The cook ends and begins what may be ended and begun; `offered` are the moments that were thought about.
    fn cook(&mut self, now: i16, kitchen: Kitchen, goal: Goal, offered: u32) -> bool {
        let kitchen = self.follow(now, kitchen);
        let moment = |n: usize, end: bool| 1u32 << (2 * n + usize::from(end));
        let next = self.network.steps.iter().enumerate().find_map(|(n, step)| {
            let end = match (kitchen.start[n], kitchen.end[n], step.lasts) {
                (None, ..) if step.follows.is_empty() => false,
                (Some(start), None, Lasts::Chosen { low, high })
                    if (low..=high).contains(&i64::from(now - start)) =>
                {
                    true
                }
                _ => return None,
            };
            (offered & moment(n, end) == 0).then_some((n, end))
        });
        let Some((n, end)) = next else { return self.minute(now, kitchen, goal) };
        let offered = offered | moment(n, end);
        let mut done = kitchen;
        if end {
            done.end[n] = Some(now)
        } else {
            done.start[n] = Some(now)
        }
        self.cook(now, kitchen, goal, offered) || self.cook(now, done, goal, offered)
    }

    /// What comes about by itself: food goes on to what follows, and what has a fixed length ends.
    fn follow(&self, now: i16, mut kitchen: Kitchen) -> Kitchen {
        for (n, step) in self.network.steps.iter().enumerate() {
            let ready = !step.follows.is_empty() && step.follows.iter().all(|&b| kitchen.end[b].is_some());
            if ready && kitchen.start[n].is_none() {
                kitchen.start[n] = Some(now);
            }
            if let (Lasts::Fixed(length), Some(start), None) = (step.lasts, kitchen.start[n], kitchen.end[n])
                && i64::from(now - start) >= length
            {
                kitchen.end[n] = Some(now);
            }
        }
        kitchen
    }

    /// The minute from now on.
    fn minute(&mut self, now: i16, kitchen: Kitchen, goal: Goal) -> bool {
        if sleeps(self.network, now, &kitchen) || goal != Goal::Hard && breaks(self.network, now, &kitchen) {
            return false;
        }
        // Nothing may go on for longer than it is chosen to.
        let overdue = self.network.steps.iter().enumerate().any(|(n, step)| {
            let lasted = kitchen.start[n].map_or(0, |start| i64::from(now - start));
            matches!(step.lasts, Lasts::Chosen { high, .. } if lasted >= high)
                && kitchen.start[n].is_some()
                && kitchen.end[n].is_none()
        });
        if overdue {
            return false;
        }
        // Somebody may have had to be awake some minutes before something begins.
        let ahead = self.network.steps.iter().filter_map(|step| step.needs.before).map(|ahead| ahead.most);
        let morning = self.network.absent.last().map_or(-1000, |last| last + ahead.max().unwrap_or(0));
        match goal {
            Goal::Hard if i64::from(now) > morning => true,
            Goal::Hard => self.nature(now + 1, kitchen, goal),
            _ if self.is_over(now, &kitchen) => true,
            _ => now < self.last && self.nature(now + 1, kitchen, goal),
        }
    }

    fn is_over(&self, now: i16, kitchen: &Kitchen) -> bool {
        self.network.steps.iter().enumerate().all(|(n, step)| {
            let washed_up =
                |start: i16| step.serving.is_none() || i64::from(now - start) + 1 >= step.needs.busy;
            kitchen.end[n].is_some() && kitchen.start[n].is_some_and(washed_up)
        })
    }
}

/// Nature may do this, or must, in each of the outcomes so far.
fn split(outcomes: &mut Vec<Kitchen>, may: bool, must: bool, mut what: impl FnMut(&mut Kitchen)) {
    if !may {
        return;
    }
    let mut with = outcomes.clone();
    with.iter_mut().for_each(&mut what);
    if must { *outcomes = with } else { outcomes.extend(with) }
}

/// Long ago is long ago.
fn blurred(mut kitchen: Kitchen, now: i16) -> Kitchen {
    let far = now - MEMORY;
    for n in 0..MOST {
        if let Some(end) = kitchen.end[n] {
            kitchen.end[n] = Some(end.max(far));
            kitchen.start[n] = kitchen.start[n].map(|start| start.max(far));
        }
        if kitchen.start[n].is_some() {
            kitchen.came[n] = kitchen.came[n].map(|came| came.max(far));
        }
    }
    kitchen
}

/// Whether somebody is needed in this minute and nobody is there.
fn sleeps(network: &Network, now: i16, kitchen: &Kitchen) -> bool {
    let absent = |minute: i64| network.absent.contains(minute);
    let minute = i64::from(now);
    network.steps.iter().enumerate().any(|(n, step)| {
        let Some(start) = kitchen.start[n] else { return false };
        let needs = step.needs;
        let lasted = i64::from(now - start);
        let ahead = |ahead: dwell::timing::network::Ahead| {
            lasted == 0 && (minute - ahead.most..=minute - ahead.least).all(absent)
        };
        let looked = needs.at_end && kitchen.end[n] == Some(now);
        let going = kitchen.end[n].is_none();
        let wanted = lasted < needs.busy && (going || step.serving.is_some())
            || going && needs.awake_from.is_some_and(|from| lasted >= from)
            || going && needs.look_in.is_some_and(|every| lasted > 0 && lasted % every == 0);
        needs.before.is_some_and(ahead) || (looked || wanted) && absent(minute)
    })
}

/// Whether anything else is broken in this minute, or can no longer be kept.
fn breaks(network: &Network, now: i16, kitchen: &Kitchen) -> bool {
    let minute = i64::from(now);
    let at = |point: Point| match point.end {
        true => kitchen.end[point.step].map(i64::from),
        false => kitchen.start[point.step].map(i64::from),
    };
    let going = |n: usize| kitchen.start[n].is_some() && kitchen.end[n].is_none();
    for (n, step) in network.steps.iter().enumerate() {
        if kitchen.start[n] == Some(now) {
            let served = match step.serving {
                None => true,
                Some(Serving::Within { first, last }) => (first..=last).contains(&minute),
                Some(Serving::Guests { late, .. }) => {
                    kitchen.came[n].is_some_and(|came| i64::from(now - came) <= late)
                }
            };
            let together = step.follows.iter().all(|&before| kitchen.end[before] == Some(now));
            if !served || !together || !step.start_in.contains(minute) {
                return true;
            }
        }
        let missed = kitchen.start[n].is_none()
            && match step.serving {
                None => false,
                Some(Serving::Within { last, .. }) => minute >= last,
                Some(Serving::Guests { late, .. }) => {
                    kitchen.came[n].is_some_and(|came| i64::from(now - came) >= late)
                }
            };
        let waits =
            missed || kitchen.start[n].is_none() && step.follows.iter().any(|&b| kitchen.end[b].is_some());
        if waits || kitchen.end[n] == Some(now) && !step.end_in.contains(minute) {
            return true;
        }
    }
    for link in &network.links {
        let broken = match (at(link.from), at(link.to)) {
            (None, None) => false,
            (Some(from), None) => minute >= from.saturating_add(link.high),
            (None, Some(to)) => minute >= to.saturating_sub(link.low),
            (Some(from), Some(to)) if from.max(to) == minute => {
                !(link.low..=link.high).contains(&(to - from))
            }
            _ => false,
        };
        if broken {
            return true;
        }
    }
    for apart in &network.apart {
        let [a, b] = apart.steps;
        let (Some(a_start), Some(b_start)) = (kitchen.start[a], kitchen.start[b]) else { continue };
        let clear = |first: usize, then: i16, gap: i64| {
            kitchen.end[first].is_some_and(|end| i64::from(then - end) >= gap)
        };
        if a_start.max(b_start) == now
            && !clear(a, b_start, apart.gaps[0])
            && !clear(b, a_start, apart.gaps[1])
        {
            return true;
        }
    }
    let hands = network.steps.iter().enumerate().filter(|(n, step)| {
        let at_work = |start: i16| i64::from(now - start) < step.needs.busy;
        kitchen.start[*n].is_some_and(at_work) && (step.serving.is_some() || kitchen.end[*n].is_none())
    });
    if network.people.is_some_and(|people| hands.count() > people as usize) {
        return true;
    }
    network.rooms.iter().any(|room| {
        let full: i64 = room.takes.iter().filter(|take| going(take.0)).map(|take| take.1).sum();
        full > room.limit
    })
}

/// What was broken in a play that is over; looked at minute by minute, from the first to the last.
pub fn fault(network: &Network, played: &Kitchen) -> Option<String> {
    let moments = || played.start.iter().chain(&played.end).flatten();
    let (first, last) = (*moments().min()?, *moments().max()?);
    for (n, step) in network.steps.iter().enumerate() {
        let (Some(start), Some(end)) = (played.start[n], played.end[n]) else {
            return Some(format!("step {n} was not done"));
        };
        if !(step.lasts.low()..=step.lasts.high()).contains(&i64::from(end - start)) {
            return Some(format!("step {n} lasted from {start} to {end}"));
        }
    }
    for now in first..=last + 3 {
        let mut seen = *played;
        let later = |moment: &mut Option<i16>| *moment = moment.filter(|at| *at <= now);
        seen.start.iter_mut().chain(&mut seen.end).chain(&mut seen.came).for_each(later);
        if sleeps(network, now, &seen) {
            return Some(format!("somebody is needed in sleep at {now}"));
        }
        if breaks(network, now, &seen) {
            return Some(format!("something is broken at {now}"));
        }
    }
    None
}

/// A network in a few lines.
pub fn shown(network: &Network) -> String {
    let mut text = format!("people {:?}, absent {:?}\n", network.people, network.absent.intervals());
    for (n, step) in network.steps.iter().enumerate() {
        let mut clock = Vec::new();
        if step.start_in != Set::all() {
            clock.push(format!("starts in {:?}", step.start_in.intervals()));
        }
        if step.end_in != Set::all() {
            clock.push(format!("ends in {:?}", step.end_in.intervals()));
        }
        let (lasts, follows, serving) = (step.lasts, &step.follows, step.serving);
        text += &format!(
            "{n}: {lasts:?} after {follows:?}, {:?}, {serving:?} {}\n",
            step.needs,
            clock.join(", ")
        );
    }
    for link in &network.links {
        text += &format!("{link:?}\n");
    }
    text + &format!("{:?}\n{:?}\n", network.apart, network.rooms)
}
