//! The plain input of the solvers: steps on an axis of elapsed minutes. Knows nothing of food.

use super::clock::Minute;
use super::sets::{FAR, Set};

/// More looks than this in one step are taken as somebody there all the while.
const MOST_LOOKS: Minute = 200;

/// Steps, what binds them, and when nobody is there.
#[derive(Debug, Clone, Default)]
pub struct Network {
    /// In an order in which each stands after the steps it follows.
    pub steps: Vec<Step>,
    pub links: Vec<Link>,
    pub apart: Vec<Apart>,
    pub rooms: Vec<Room>,
    /// The minutes in which everybody is asleep or away.
    pub absent: Set,
    /// `None`: hands are not judged.
    pub people: Option<u32>,
    /// The plan is from this minute on.
    pub now: Option<Minute>,
}

/// Something that happens between two moments.
#[derive(Debug, Clone)]
pub struct Step {
    pub lasts: Lasts,
    pub needs: Needs,
    /// The steps whose end is this one's start.
    pub follows: Vec<usize>,
    /// When the clock lets it start and end.
    pub start_in: Set,
    pub end_in: Set,
    pub serving: Option<Serving>,
    /// It is over, or going on: nobody decides any more when it starts.
    pub behind: Option<Behind>,
    /// In a plan from now on: nothing that is still to come starts sooner, whatever else moves.
    pub not_before: Minute,
}

/// A step that has begun, in a plan from now on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Behind {
    /// It ended so many minutes ago.
    Over {
        ago: Minute,
    },
    Going,
}

/// Who decides how long a step lasts, with both ends included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lasts {
    Fixed(Minute),
    Chosen {
        low: Minute,
        high: Minute,
    },
    /// With `looks`, it is found out only at multiples of that many minutes, and at the latest at `high`.
    Nature {
        low: Minute,
        high: Minute,
        looks: Option<Minute>,
    },
}

/// Which hands a step needs, in minutes after its start and only as long as it lasts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Needs {
    /// One person is taken up for this long from the start; [`FAR`] for the whole step.
    pub busy: Minute,
    /// Somebody must be awake from this minute on to the end.
    pub awake_from: Option<Minute>,
    /// Somebody must look in at each multiple of this, before the end.
    pub look_in: Option<Minute>,
    /// Somebody must be awake at the minute in which it ends.
    pub at_end: bool,
    /// Somebody must be awake in one of the minutes from the most to the least before its start.
    pub before: Option<Ahead>,
}

/// From `most` to `least` minutes before a start.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ahead {
    pub least: Minute,
    pub most: Minute,
}

/// Two steps that want one kit at two settings: either ends before the other starts, and the kit has
/// the time between to get from one setting to the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Apart {
    pub steps: [usize; 2],
    /// Minutes from the end of the first to the start of the second, and from the end of the second to
    /// the start of the first.
    pub gaps: [Minute; 2],
    /// Which piece of kit.
    pub kit: usize,
}

/// Kit that holds only so much at once, in whatever unit both figures have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Room {
    pub limit: i64,
    /// Steps, each once, and how much of it each takes from its start to its end.
    pub takes: Vec<(usize, i64)>,
    /// Which piece of kit.
    pub kit: usize,
}

/// When a step that is a serving is on time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Serving {
    /// It starts from `first` to `last`: the cook decides.
    Within { first: Minute, last: Minute },
    /// The guests come from `first` to `last`, which is seen as it happens, and wait up to `late`. Those
    /// who come between the same two minutes are the same guests, and come once for all that is served.
    Guests { first: Minute, last: Minute, late: Minute },
}

impl Network {
    /// The minutes between which each party of guests comes, in the order of their first servings.
    pub fn parties(&self) -> Vec<(Minute, Minute)> {
        let mut all = Vec::new();
        for party in self.steps.iter().filter_map(|step| step.serving?.party()) {
            if !all.contains(&party) {
                all.push(party);
            }
        }
        all
    }
}

impl Serving {
    /// The minutes between which the guests come, where they decide.
    pub fn party(self) -> Option<(Minute, Minute)> {
        match self {
            Self::Within { .. } => None,
            Self::Guests { first, last, .. } => Some((first, last)),
        }
    }

    /// Every minute at which it may start in some outcome.
    pub fn whole(self) -> (Minute, Minute) {
        match self {
            Self::Within { first, last } => (first, last),
            Self::Guests { first, last, late } => (first, last + late),
        }
    }
}

/// The start or the end of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Point {
    pub step: usize,
    pub end: bool,
}

/// `to` lies `low` to `high` minutes after `from`; [`FAR`] for no bound.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Link {
    pub from: Point,
    pub to: Point,
    pub low: Minute,
    pub high: Minute,
}

impl Lasts {
    pub fn low(self) -> Minute {
        match self {
            Self::Fixed(length) => length,
            Self::Chosen { low, .. } | Self::Nature { low, .. } => low,
        }
    }

    pub fn high(self) -> Minute {
        match self {
            Self::Fixed(length) => length,
            Self::Chosen { high, .. } | Self::Nature { high, .. } => high,
        }
    }

    /// The lengths that nature picks from where they are few: the looks in its range, and its end.
    pub fn looks(self) -> Option<Vec<Minute>> {
        let Self::Nature { low, high, looks: Some(every) } = self else { return None };
        if every <= 1 || (high - low) / every > 100 {
            return None;
        }
        let first = (low + every - 1).div_euclid(every) * every;
        let mut lengths: Vec<Minute> = (first..=high).step_by(every as usize).collect();
        if lengths.last() != Some(&high) {
            lengths.push(high);
        }
        Some(lengths)
    }
}

impl Step {
    /// When the clock lets it start.
    pub fn starts(&self) -> Set {
        self.start_in.intersect(&Set::from(self.not_before))
    }

    pub fn new(lasts: Lasts) -> Self {
        Self {
            lasts,
            needs: Needs::default(),
            follows: Vec::new(),
            start_in: Set::all(),
            end_in: Set::all(),
            serving: None,
            behind: None,
            not_before: -FAR,
        }
    }

    /// The minutes after the start, half open and in order, in which somebody must be awake if the step
    /// lasts long enough. A serving's hands do not depend on how long people eat.
    pub fn awake_pieces(&self) -> Vec<(Minute, Minute)> {
        let mut pieces = Vec::new();
        let high = if self.serving.is_some() { FAR } else { self.lasts.high() };
        if self.needs.busy > 0 {
            pieces.push((0, self.needs.busy));
        }
        if let Some(every) = self.needs.look_in.filter(|&every| every > 0) {
            let looks = (high.min(self.lasts.high()) - 1).max(0) / every;
            if looks > MOST_LOOKS {
                pieces.push((every, looks * every + 1));
            } else {
                pieces.extend((1..=looks).map(|n| (n * every, n * every + 1)));
            }
        }
        if let Some(from) = self.needs.awake_from {
            pieces.push((from, FAR));
        }
        pieces.sort_unstable();
        let mut merged: Vec<(Minute, Minute)> = Vec::with_capacity(pieces.len());
        for (from, to) in pieces.into_iter().map(|(from, to)| (from, to.min(high))).filter(|(a, b)| a < b) {
            match merged.last_mut() {
                Some(open) if from <= open.1 => open.1 = open.1.max(to),
                _ => merged.push((from, to)),
            }
        }
        merged
    }
}
