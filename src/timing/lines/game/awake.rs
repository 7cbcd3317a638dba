//! Whether it can still go on without anybody needed in sleep, whatever nature does and however late dinner is.
//!
//! Nothing else is asked then: who has the oven when is for an evening that is late anyway. So food lines that
//! come from nothing in common are looked at one by one, and one that has not begun can wait until nobody sleeps.

use super::Goal;
use super::board::{Board, Laid};
use super::position::{Ages, Code, LONG_AGO, TO_COME};
use super::search::{Known, wins};
use super::turn::Moment;
use super::windows::only_sleep;
use crate::timing::clock::Minute;
use crate::timing::network::Network;

/// One line that hangs together by the way of its food.
struct Line {
    steps: Vec<usize>,
    /// Of each of its parties, which it is of all.
    parties: Vec<usize>,
    board: Box<Board>,
    code: Code,
    known: Known,
}

pub(super) struct Awake {
    lines: Vec<Line>,
    /// Minutes in a tick of the game that asks.
    unit: i32,
    /// So many steps that game has.
    steps: usize,
    /// It took too many tries to tell.
    pub(super) cut: bool,
}

impl Awake {
    /// `None` if it is too large to be looked at.
    pub(super) fn of(network: &Network, unit: Minute, tries: u32) -> Option<Self> {
        let mut lines = Vec::new();
        if !network.absent.is_empty() {
            let loose = only_sleep(network);
            for steps in components(network) {
                // Always by the minute, for nature may end at any.
                let part = part(&loose, &steps);
                let Laid::Board(board) = Board::lay(&part, 1, Goal::Awake, tries) else {
                    return None;
                };
                let code = Code::of(&board)?;
                let all = loose.parties();
                let nth = |party: &_| all.iter().position(|other| other == party);
                let parties = part.parties().iter().filter_map(nth).collect();
                lines.push(Line { steps, parties, board, code, known: Known::new(tries) });
            }
        }
        Some(Self { lines, unit: i32::try_from(unit).ok()?, steps: network.steps.len(), cut: false })
    }

    /// Whether nobody need be needed in sleep from here on.
    pub(super) fn lasts(&mut self, moment: &Moment<'_>) -> bool {
        let unit = self.unit;
        let mut lasts = true;
        for line in &mut self.lines {
            let ages = line.ages(moment, unit, self.steps);
            if ages[..2 * line.steps.len()].iter().all(|age| *age == TO_COME) {
                continue;
            }
            let (tick, asked) = match moment.asked {
                None => (moment.tick.saturating_mul(unit).saturating_add(1), 0),
                Some(asked) => (moment.tick.saturating_mul(unit), line.own(asked, self.steps)),
            };
            if tick > line.board.end {
                continue;
            }
            let mut ages = ages;
            line.board.forget(tick, &mut ages, &line.code);
            let key = line.code.pack(tick, asked, &ages);
            match wins(&line.board, &line.code, key, &mut line.known) {
                Some(wins) => lasts &= wins,
                None => (self.cut, lasts) = (true, false),
            }
        }
        lasts
    }
}

impl Line {
    /// Its moments, one after the other, by their numbers in a game of so many steps.
    fn moments(&self, steps: usize) -> impl Iterator<Item = usize> {
        let own = self.steps.iter().flat_map(|step| [2 * step, 2 * step + 1]);
        own.chain(self.parties.iter().map(move |nth| 2 * steps + nth))
    }

    fn ages(&self, moment: &Moment<'_>, unit: i32, steps: usize) -> Ages {
        let mut ages = [TO_COME; 64];
        let past = i32::from(moment.asked.is_none());
        for (own, other) in ages.iter_mut().zip(self.moments(steps)) {
            *own = match moment.ages[other] {
                TO_COME => TO_COME,
                LONG_AGO => LONG_AGO,
                age => age.saturating_mul(unit).saturating_add(past).min(LONG_AGO),
            };
        }
        ages
    }

    /// What nature was asked for, by the numbers of this line.
    fn own(&self, asked: u64, steps: usize) -> u64 {
        let asked = self.moments(steps).enumerate().filter(|(_, other)| asked >> other & 1 == 1);
        asked.fold(0, |all, (own, _)| all | 1 << own)
    }
}

/// Steps that hang together by what follows what.
fn components(network: &Network) -> Vec<Vec<usize>> {
    let mut home: Vec<usize> = (0..network.steps.len()).collect();
    for (n, step) in network.steps.iter().enumerate() {
        for &before in &step.follows {
            let (a, b) = (home[n], home[before]);
            home.iter_mut().filter(|home| **home == a).for_each(|home| *home = b);
        }
    }
    let of = |leader: usize| (0..home.len()).filter(|&n| home[n] == leader).collect::<Vec<_>>();
    (0..home.len()).map(of).filter(|steps| !steps.is_empty()).collect()
}

fn part(network: &Network, steps: &[usize]) -> Network {
    let mut part = Network { absent: network.absent.clone(), ..Network::default() };
    for &n in steps {
        let mut step = network.steps[n].clone();
        step.follows = step.follows.iter().filter_map(|before| steps.binary_search(before).ok()).collect();
        part.steps.push(step);
    }
    part
}
