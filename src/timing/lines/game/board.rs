//! A network laid out for the game: everything in steps of its clock, which are called ticks.

use super::Goal;
use super::windows;
use crate::timing::clock::Minute;
use crate::timing::network::{Lasts, Network, Point, Serving};
use crate::timing::sets::{FAR, Set};

/// A moment is one bit of a word: two for each step, and one for each party of guests.
const MOST_MOMENTS: usize = 64;
/// With fewer tries for each tick it is not laid out, for it would not be told by them.
const TRIES_A_TICK: u32 = 4;
/// Longer than any game.
const NEVER: i32 = i32::MAX / 4;

pub(super) struct Board {
    /// Minutes in a tick.
    pub(super) unit: Minute,
    pub(super) goal: Goal,
    /// The first and the last tick at which anything may happen.
    pub(super) begin: i32,
    pub(super) end: i32,
    pub(super) pieces: Vec<Piece>,
    pub(super) parties: Vec<Party>,
    pub(super) ties: Vec<Tie>,
    pub(super) apart: Vec<Apart>,
    pub(super) rooms: Vec<Room>,
    pub(super) people: Option<u32>,
    /// From `begin` on.
    absent: Vec<bool>,
    /// For each moment that is no party, from `begin` on.
    open: Vec<Vec<bool>>,
    /// The last tick at which it is open.
    pub(super) last_open: Vec<i32>,
}

/// A step.
pub(super) struct Piece {
    pub(super) length: Length,
    pub(super) follows: Vec<usize>,
    pub(super) is_serving: bool,
    /// Hands from the start on for so long.
    pub(super) busy: i32,
    /// Half open, after the start: somebody must be awake.
    pub(super) watched: Vec<(i32, i32)>,
}

pub(super) enum Length {
    Fixed(i32),
    Chosen {
        low: i32,
        high: i32,
        /// From this age on only the most that it may last counts.
        settled: i32,
    },
    /// By age, whether it may end then.
    Nature(Vec<bool>),
}

/// Guests who come from `first` to `last`.
pub(super) struct Party {
    pub(super) first: i32,
    pub(super) last: i32,
    /// The servings that await them, and for how long they wait for each.
    pub(super) meals: Vec<(usize, i32)>,
}

/// A link between moments.
pub(super) struct Tie {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) low: i32,
    pub(super) high: i32,
}

pub(super) struct Apart {
    pub(super) steps: [usize; 2],
    pub(super) gaps: [i32; 2],
}

pub(super) struct Room {
    pub(super) limit: i64,
    pub(super) takes: Vec<(usize, i64)>,
}

/// What came of laying it out.
pub(super) enum Laid {
    Board(Box<Board>),
    /// Some moment has no minute at all.
    Hopeless,
    TooLarge,
}

impl Board {
    pub(super) fn lay(network: &Network, unit: Minute, goal: Goal, tries: u32) -> Laid {
        let count = 2 * network.steps.len();
        let endless = |step: &crate::timing::network::Step| {
            step.serving.is_some() && (step.needs.busy >= FAR || step.needs.awake_from.is_some())
        };
        if count + network.parties().len() > MOST_MOMENTS || network.steps.iter().any(endless) {
            return Laid::TooLarge;
        }
        let Some(sets) = windows::windows(network, goal) else { return Laid::Hopeless };
        let starts = sets.iter().step_by(2).filter_map(Set::first);
        let begin =
            starts.chain(network.parties().iter().map(|party| party.0)).min().unwrap_or(0).div_euclid(unit);
        let end = match goal {
            Goal::Awake => network.absent.last().unwrap_or(0) + looked_back_on(network),
            _ => sets.iter().filter_map(Set::last).max().unwrap_or(0),
        };
        let end = end.div_euclid(unit).max(begin);
        if end - begin > Minute::from(tries / TRIES_A_TICK)
            || begin.abs().max(end.abs()) > i64::from(NEVER / 4)
        {
            return Laid::TooLarge;
        }
        let after: Minute =
            network.steps.iter().map(|step| step.needs.busy).filter(|busy| *busy < FAR).max().unwrap_or(0);
        let ticks = |from: Minute, to: Minute, set: &Set| {
            let mut inside = vec![false; (to - from + 1) as usize];
            for &(first, last) in set.intervals() {
                // Up, and down, to whole ticks.
                let (first, last) = (-(-first).div_euclid(unit), last.div_euclid(unit));
                let (first, last) = (first.max(from), last.min(to));
                (first..=last).for_each(|tick| inside[(tick - from) as usize] = true);
            }
            inside
        };
        let open: Vec<Vec<bool>> = sets.iter().map(|set| ticks(begin, end, set)).collect();
        let last =
            |open: &Vec<bool>| open.iter().rposition(|open| *open).map(|at| (begin + at as i64) as i32);
        let last_open = match goal {
            Goal::Awake => vec![NEVER; count],
            _ => match open.iter().map(last).collect() {
                Some(all) => all,
                None => return Laid::Hopeless,
            },
        };
        let mut board = Self {
            unit,
            goal,
            begin: begin as i32,
            end: end as i32,
            pieces: Vec::new(),
            parties: Vec::new(),
            ties: Vec::new(),
            apart: Vec::new(),
            rooms: Vec::new(),
            people: network.people,
            absent: ticks(begin, end + after.div_euclid(unit) + 1, &network.absent),
            open,
            last_open,
        };
        board.place(network);
        Laid::Board(Box::new(board))
    }

    fn place(&mut self, network: &Network) {
        let unit = self.unit;
        let ticks = move |minutes: Minute| {
            (minutes.div_euclid(unit)).clamp(-i64::from(NEVER), i64::from(NEVER)) as i32
        };
        for step in &network.steps {
            let watched: Vec<(i32, i32)> =
                step.awake_pieces().into_iter().map(|(from, to)| (ticks(from), ticks(to))).collect();
            let busy = ticks(step.needs.busy);
            let (low, high) = (ticks(step.lasts.low()), ticks(step.lasts.high()));
            let length = match step.lasts {
                Lasts::Chosen { .. } => {
                    let pieces = watched.iter().map(|&(from, to)| if to >= high { from } else { to });
                    let busy = if busy >= high { 0 } else { busy };
                    let settled = pieces.chain([busy]).fold(low, i32::max);
                    Length::Chosen { low, high, settled }
                }
                Lasts::Nature { .. }
                    if low < high && step.lasts.looks().is_none_or(|looks| looks.len() > 1) =>
                {
                    // Nothing gets older than the game.
                    let most = high.clamp(0, self.end - self.begin + 1) as usize;
                    let mut may = vec![false; most + 1];
                    match step.lasts.looks() {
                        None => may.iter_mut().skip(low.max(0) as usize).for_each(|may| *may = true),
                        Some(looks) => {
                            for look in looks.into_iter().filter(|look| look % unit == 0) {
                                may.get_mut(ticks(look) as usize).into_iter().for_each(|may| *may = true);
                            }
                        }
                    }
                    Length::Nature(may)
                }
                _ => Length::Fixed(high),
            };
            let is_serving = step.serving.is_some();
            self.pieces.push(Piece { length, follows: step.follows.clone(), is_serving, busy, watched });
        }
        self.parties.extend(network.parties().into_iter().map(|party| {
            let meals = network.steps.iter().enumerate().filter_map(|(n, step)| match step.serving {
                Some(Serving::Guests { first, last, late }) if (first, last) == party => {
                    Some((n, ticks(late)))
                }
                _ => None,
            });
            Party { first: ticks(party.0), last: ticks(party.1), meals: meals.collect() }
        }));
        let at = |point: Point| 2 * point.step + usize::from(point.end);
        let ties = network.links.iter().map(|link| {
            let (low, high) = (ticks(link.low), ticks(link.high));
            Tie { from: at(link.from), to: at(link.to), low, high }
        });
        self.ties = ties.collect();
        self.apart =
            network.apart.iter().map(|one| Apart { steps: one.steps, gaps: one.gaps.map(ticks) }).collect();
        let rooms = network.rooms.iter().map(|room| Room { limit: room.limit, takes: room.takes.clone() });
        self.rooms = rooms.collect();
    }

    /// How many moments there are: start and end of each step, then the parties.
    pub(super) fn moments(&self) -> usize {
        2 * self.pieces.len() + self.parties.len()
    }

    pub(super) fn is_absent(&self, tick: i32) -> bool {
        let at = usize::try_from(tick - self.begin).ok();
        at.and_then(|at| self.absent.get(at)).copied().unwrap_or(false)
    }

    pub(super) fn is_open(&self, moment: usize, tick: i32) -> bool {
        let Some(open) = self.open.get(moment) else { return true };
        let at = usize::try_from(tick - self.begin).ok();
        at.and_then(|at| open.get(at)).copied().unwrap_or(self.goal == Goal::Awake)
    }

    /// The greatest age of each moment that makes a difference.
    pub(super) fn caps(&self) -> Vec<i32> {
        // What is now is told from what was.
        let mut caps = vec![1; self.moments()];
        for (n, piece) in self.pieces.iter().enumerate() {
            let length = match &piece.length {
                Length::Fixed(length) => *length,
                Length::Chosen { high, .. } => *high,
                Length::Nature(may) => may.len() as i32,
            };
            caps[2 * n] = caps[2 * n].max(length).max(if piece.is_serving { piece.busy } else { 0 });
        }
        for (n, party) in self.parties.iter().enumerate() {
            caps[2 * self.pieces.len() + n] = party.meals.iter().map(|meal| meal.1).fold(1, i32::max);
        }
        for tie in &self.ties {
            let bounds = [tie.low, tie.high].into_iter().filter(|bound| bound.abs() < NEVER).map(i32::abs);
            let most = bounds.max().unwrap_or(0);
            caps[tie.from] = caps[tie.from].max(most);
            caps[tie.to] = caps[tie.to].max(most);
        }
        for apart in &self.apart {
            for (nth, step) in apart.steps.into_iter().enumerate() {
                caps[2 * step + 1] = caps[2 * step + 1].max(apart.gaps[nth]);
            }
        }
        caps
    }
}

/// For how long after a night it makes a difference that nobody was awake in it.
fn looked_back_on(network: &Network) -> Minute {
    network.steps.iter().filter_map(|step| step.needs.before).map(|ahead| ahead.most).max().unwrap_or(0)
}

/// Whether a bound is one.
pub(super) fn binds(bound: i32) -> bool {
    bound.abs() < NEVER
}
