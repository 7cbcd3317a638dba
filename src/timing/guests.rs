//! The winning starts of one line, with guests who come when they like.
//!
//! Their coming is nature's choice and is seen as it happens. While they have not come, one set for a
//! step; once they came at minute g, one set for each g, for they wait only so long. However late dinner
//! may be, nobody is served before coming.

mod luck;

pub use luck::{is_lucky, lucky};

use super::chain::{guests_of, on_time, win_before};
use super::clock::Minute;
use super::network::{Lasts, Network, Serving, Step};
use super::sets::{FAR, Set};

/// Guests cost a set for every minute in which they may come, in every step before.
const MOST_STEPS: usize = 200;

/// The winning starts of a step.
pub enum State {
    Plain(Set),
    /// Of a step before a serving for guests, or of that serving.
    Awaiting(Awaiting),
}

/// Winning starts where guests are awaited.
pub struct Awaiting {
    first: Minute,
    last: Minute,
    /// While the guests are still to come.
    coming: Set,
    /// After they came at `first`, `first + 1` … `last`.
    here: Vec<Set>,
}

/// Whether guests come when they like once at most, within a day, and at the end of no more steps than
/// anybody takes.
pub fn few(network: &Network) -> bool {
    let mut awaited = network.steps.iter().filter_map(guests_of);
    let party = awaited.next();
    let too_many = |(first, last, _)| last - first > 24 * 60 || network.steps.len() > MOST_STEPS;
    awaited.next().is_none() && !party.is_some_and(too_many)
}

/// The starts from which every outcome is on time.
pub fn always(network: &Network, awake: &Set) -> Vec<State> {
    back(network, |_, step, after| match (after, guests_of(step)) {
        (State::Plain(target), None) => {
            let ends = target.intersect(&step.end_in);
            State::Plain(win_before(step, &ends, awake).intersect(&on_time(step)))
        }
        (State::Plain(target), Some(party)) => {
            let free = win_before(step, &target.intersect(&step.end_in), awake);
            State::Awaiting(Awaiting::served(party, &free.intersect(&step.starts())))
        }
        (State::Awaiting(after), _) => State::Awaiting(after.before(step, awake)),
    })
}

/// The starts from which nobody is ever needed while away, however late dinner is.
pub fn hard(network: &Network, awake: &Set) -> Vec<State> {
    let mut patient = network.clone();
    for step in &mut patient.steps {
        (step.start_in, step.end_in, step.not_before) = (Set::all(), Set::all(), -FAR);
        step.serving = step.serving.map(|serving| match serving {
            Serving::Within { .. } => Serving::Within { first: -FAR, last: FAR },
            Serving::Guests { first, last, .. } => Serving::Guests { first, last, late: FAR },
        });
    }
    always(&patient, awake)
}

/// From the last step to the first, each from what comes after it.
fn back(network: &Network, before: impl Fn(usize, &Step, &State) -> State) -> Vec<State> {
    let mut states: Vec<State> = Vec::with_capacity(network.steps.len());
    let end = State::Plain(Set::all());
    for (n, step) in network.steps.iter().enumerate().rev() {
        let state = before(n, step, states.last().unwrap_or(&end));
        states.push(state);
    }
    states.reverse();
    states
}

impl State {
    /// The starts that win without knowing yet whether the guests have come.
    pub fn known_or_not(&self) -> Set {
        match self {
            Self::Plain(set) => set.clone(),
            Self::Awaiting(awaiting) => awaiting.known_or_not(),
        }
    }

    /// The starts that win for some minute in which the guests came, or while they are still to come.
    pub fn known(&self) -> Set {
        match self {
            Self::Plain(set) => set.clone(),
            Self::Awaiting(awaiting) => awaiting.known(),
        }
    }

    /// Whether there is a first minute to start, which may wait for the guests.
    pub fn is_won(&self, awake: &Set) -> bool {
        match self {
            Self::Plain(set) => !set.is_empty(),
            Self::Awaiting(awaiting) => {
                !awaiting.known_or_not().is_empty()
                    || !awaiting.choose_before(&idle(), awake).intersect(&awaiting.nobody_yet()).is_empty()
            }
        }
    }

    /// Whether nothing is lost yet: there is a winning start for every minute in which the guests may have
    /// come, and before they come where the step does not wait for them.
    pub fn may_win(&self, step: &Step) -> bool {
        match self {
            Self::Plain(set) => !set.is_empty(),
            Self::Awaiting(awaiting) => {
                let before = awaiting.coming.intersect(&Set::up_to(awaiting.last - 1));
                awaiting.here.iter().all(|here| !here.is_empty())
                    && (step.serving.is_some() || !before.is_empty() || !awaiting.known_or_not().is_empty())
            }
        }
    }
}

/// Time before the first step, of which the cook makes as much as is wanted.
fn idle() -> Step {
    Step::new(Lasts::Chosen { low: 0, high: FAR })
}

impl Awaiting {
    /// Before anybody can have come.
    fn nobody_yet(&self) -> Set {
        Set::up_to(self.first - 1)
    }

    /// At the serving, which may start at these minutes.
    fn served((first, last, late): (Minute, Minute, Minute), free: &Set) -> Self {
        let here = (first..=last).map(|g| free.intersect(&Set::range(g, (g + late).min(FAR)))).collect();
        Self { first, last, coming: Set::empty(), here }
    }

    fn known_or_not(&self) -> Set {
        let coming = self.coming.union(&Set::from(self.last));
        self.arrivals().fold(coming, |all, (g, here)| all.intersect(&here.union(&Set::up_to(g - 1))))
    }

    fn known(&self) -> Set {
        let after = |g: Minute, here: &Set| here.intersect(&Set::from(g));
        let coming = self.coming.intersect(&Set::up_to(self.last - 1));
        self.arrivals().fold(coming, |all, (g, here)| all.union(&after(g, here)))
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
            let answer = here.intersect(&step.end_in).intersect(&Set::from(g));
            answered = answered.intersect(&win_before(step, &answer, awake).union(&Set::from(g)));
            if g < self.last && planned.contains(g) {
                found = found.union(&answered.intersect(&win_before(step, &Set::range(g, g), awake)));
            }
        }
        // Waiting until everybody must have come needs no planned end.
        found.union(&answered)
    }
}
