//! The starts of one line from which some outcome is on time, on a way that is hard.

use super::{Awaiting, State, back, idle};
use crate::timing::chain::{guests_of, luck_before, on_time, some_before, win_before};
use crate::timing::network::{Lasts, Network, Step};
use crate::timing::sets::Set;

/// `hard` are the starts from which nobody is ever needed while away.
pub fn lucky(network: &Network, hard: &[State], awake: &Set) -> Vec<State> {
    let end = State::Plain(Set::all());
    back(network, |n, step, lucky| {
        let after = hard.get(n + 1).unwrap_or(&end);
        match (lucky, after, &hard[n]) {
            (State::Awaiting(lucky), State::Awaiting(after), State::Awaiting(hard)) => {
                State::Awaiting(Awaiting {
                    coming: lucky.coming_before(after, hard, step, awake).intersect(&step.starts()),
                    here: (lucky.here.iter().zip(&after.here))
                        .map(|(lucky, after)| luck_before(step, &lucky.intersect(&step.end_in), after, awake))
                        .map(|set| set.intersect(&step.starts()))
                        .collect(),
                    ..*lucky
                })
            }
            _ => {
                let ends = lucky.known().intersect(&step.end_in);
                let free = luck_before(step, &ends, &after.known_or_not(), awake);
                match guests_of(step) {
                    Some(party) => State::Awaiting(Awaiting::served(party, &free.intersect(&step.starts()))),
                    None => State::Plain(free.intersect(&on_time(step))),
                }
            }
        }
    })
}

/// Whether there is a first minute to start on a way that is hard, from which some outcome is on time.
pub fn is_lucky(lucky: &State, hard: &State, awake: &Set) -> bool {
    let blind = !lucky.known().intersect(&hard.known_or_not()).is_empty();
    blind
        || match (lucky, hard) {
            (State::Awaiting(lucky), State::Awaiting(hard)) => {
                !lucky.choose_luck(hard, &idle(), awake).intersect(&lucky.nobody_yet()).is_empty()
            }
            _ => false,
        }
}

impl Awaiting {
    /// While the guests are still to come. `after` is hard for the next step, `hard` for this one.
    fn coming_before(&self, after: &Self, hard: &Self, step: &Step, awake: &Set) -> Set {
        match step.lasts {
            Lasts::Chosen { .. } => self.choose_luck(after, step, awake),
            _ => self.suffer_luck(step).intersect(&hard.coming),
        }
    }

    /// They come during a step whose length nobody chooses, or are still to come at its end.
    fn suffer_luck(&self, step: &Step) -> Set {
        let still = self.coming.intersect(&Set::up_to(self.last - 1)).intersect(&step.end_in);
        self.arrivals().fold(some_before(step, &still), |all, (g, here)| {
            let come = here.intersect(&Set::from(g)).intersect(&step.end_in);
            all.union(&some_before(step, &come).intersect(&Set::up_to(g - 1)))
        })
    }

    /// In a step that the cook ends every coming has an answer that is hard, and one of them, or the end
    /// planned for the case that nobody comes, is lucky.
    fn choose_luck(&self, after: &Self, step: &Step, awake: &Set) -> Set {
        let planned = self.coming.intersect(&step.end_in);
        let mut found = win_before(step, &planned.intersect(&Set::up_to(self.first - 1)), awake);
        let (mut answered, mut lucky) = (Set::all(), Set::empty());
        for ((g, here), hard) in self.arrivals().zip(&after.here) {
            let answer = |set: &Set| win_before(step, &set.intersect(&Set::from(g)), awake);
            answered = answered.intersect(&answer(hard).union(&Set::from(g)));
            lucky = lucky.union(&answer(&here.intersect(&step.end_in)).intersect(&Set::up_to(g - 1)));
            if g < self.last && after.coming.contains(g) {
                let ends = win_before(step, &Set::range(g, g), awake).intersect(&answered);
                found = found.union(&if planned.contains(g) { ends } else { ends.intersect(&lucky) });
            }
        }
        found.union(&answered.intersect(&lucky))
    }
}
