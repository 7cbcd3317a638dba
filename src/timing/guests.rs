//! The always-sets of one line, with guests who come when they like.
//!
//! Their coming is nature's choice and is seen as it happens. While they have not come, one set for a
//! step; once they came at minute g, one set for each g, for they wait only so long.

use super::chain::{guests_of, on_time, win_before};
use super::clock::Minute;
use super::network::{Lasts, Network, Step};
use super::sets::{FAR, Set};

/// Guests cost a set for every minute in which they may come, in every step before.
const MOST_STEPS: usize = 200;

/// For each step, the starts from which every outcome is on time.
#[derive(Debug, Clone)]
pub struct Starts {
    /// Whether or not the guests have come by then.
    pub always: Vec<Set>,
    /// For some minute in which they came, or while they are still to come.
    pub possible: Vec<Set>,
}

/// `None` when guests are awaited twice,
/// over more than a day, or at the end of more steps than anybody takes.
pub fn always(network: &Network, awake: &Set) -> Option<Starts> {
    let mut awaited = network.steps.iter().filter_map(guests_of);
    let party = awaited.next();
    let too_many = |(first, last, _)| last - first > 24 * 60 || network.steps.len() > MOST_STEPS;
    if awaited.next().is_some() || party.is_some_and(too_many) {
        return None;
    }
    let all = vec![Set::all(); network.steps.len()];
    let mut starts = Starts { always: all.clone(), possible: all };
    let mut next = State::Plain(Set::all());
    for (n, step) in network.steps.iter().enumerate().rev() {
        next = match (next, guests_of(step)) {
            (State::Plain(target), None) => {
                let ends = target.intersect(&step.end_in);
                State::Plain(win_before(step, &ends, awake).intersect(&on_time(step)))
            }
            (State::Plain(target), Some((first, last, late))) => {
                let free = win_before(step, &target.intersect(&step.end_in), awake).intersect(&step.starts());
                let here = (first..=last).map(|g| free.intersect(&Set::range(g, g + late))).collect();
                State::Awaiting(Awaiting { first, last, coming: Set::empty(), here })
            }
            (State::Awaiting(after), _) => State::Awaiting(after.before(step, awake)),
        };
        (starts.always[n], starts.possible[n]) = match &next {
            State::Plain(set) => (set.clone(), set.clone()),
            State::Awaiting(awaiting) => (awaiting.known_or_not(), awaiting.known()),
        };
    }
    Some(starts)
}

enum State {
    Plain(Set),
    Awaiting(Awaiting),
}

/// Winning starts of a step before the serving.
struct Awaiting {
    first: Minute,
    last: Minute,
    /// While the guests are still to come.
    coming: Set,
    /// After they came at `first`, `first + 1` … `last`.
    here: Vec<Set>,
}

impl Awaiting {
    /// The starts that win without knowing yet whether the guests have come.
    fn known_or_not(&self) -> Set {
        let coming = self.coming.union(&Set::from(self.last));
        self.arrivals().fold(coming, |all, (g, here)| all.intersect(&here.union(&Set::up_to(g - 1))))
    }

    /// The starts that win for some minute in which the guests came, or while they are still to come.
    fn known(&self) -> Set {
        let after = |g: Minute, here: &Set| here.intersect(&Set::range(g, FAR));
        self.arrivals().fold(self.coming.clone(), |all, (g, here)| all.union(&after(g, here)))
    }

    fn arrivals(&self) -> impl Iterator<Item = (Minute, &Set)> {
        (self.first..=self.last).zip(&self.here)
    }

    fn before(&self, step: &Step, awake: &Set) -> Self {
        let here = self
            .arrivals()
            .map(|(_, set)| win_before(step, &set.intersect(&step.end_in), awake).intersect(&step.starts()))
            .collect();
        let coming = match step.lasts {
            Lasts::Chosen { .. } => self.choose_before(step, awake),
            _ => self.suffer_before(step, awake),
        };
        Self { first: self.first, last: self.last, coming: coming.intersect(&step.starts()), here }
    }

    /// The guests may come during a step whose length nobody chooses: wherever it ends, they have come
    /// by then and the rest is won, or they have not and the rest is won.
    fn suffer_before(&self, step: &Step, awake: &Set) -> Set {
        let still = self.coming.union(&Set::from(self.last)).intersect(&step.end_in);
        self.arrivals().fold(win_before(step, &still, awake), |all, (g, here)| {
            let either = here.union(&Set::up_to(g - 1)).intersect(&step.end_in);
            all.intersect(&win_before(step, &either, awake).union(&Set::from(g)))
        })
    }

    /// In a step that the cook ends: plan an end for the case that nobody comes, and answer each coming
    /// before it with an end of its own.
    fn choose_before(&self, step: &Step, awake: &Set) -> Set {
        let planned = self.coming.intersect(&step.end_in);
        // Before anybody can come the planned end is all that counts.
        let mut found = win_before(step, &planned.intersect(&Set::up_to(self.first - 1)), awake);
        let mut answered = Set::all();
        for (g, here) in self.arrivals() {
            let answer = here.intersect(&step.end_in).intersect(&Set::range(g, FAR));
            answered = answered.intersect(&win_before(step, &answer, awake).union(&Set::from(g)));
            if g < self.last && planned.contains(g) {
                found = found.union(&answered.intersect(&win_before(step, &Set::range(g, g), awake)));
            }
        }
        // Waiting until everybody must have come needs no planned end.
        found.union(&answered)
    }
}
