//! What may happen at a position: nature says what she ends at this tick, then the cook ends and begins.
//!
//! Who acts at a minute has seen what ended at it.

use super::Goal;
use super::board::{Board, Length};
use super::position::{Ages, Code, Key, LONG_AGO, TO_COME};
use crate::stop;

/// More that nature may end at one tick than this is not played.
const MOST_AT_ONCE: usize = 8;

/// Something that nature may do at a position.
pub(super) struct Outcome {
    /// The moments that she brings about.
    pub(super) struck: u64,
    pub(super) choices: Vec<Choice>,
}

/// Something that the cook may do in answer.
#[derive(Debug, Clone, Copy)]
pub(super) struct Choice {
    /// The moments that come about.
    pub(super) done: u64,
    pub(super) next: Key,
}

/// Asked of every position that a choice leads to: its tick, whom nature has been asked for, and the ages.
pub(super) type Keeps<'k> = dyn FnMut(Moment<'_>) -> bool + 'k;

/// Just after what happened at a tick, or in the middle of it.
pub(super) struct Moment<'a> {
    pub(super) tick: i32,
    /// `None`: the tick is done.
    pub(super) asked: Option<u64>,
    pub(super) ages: &'a Ages,
}

impl Board {
    pub(super) fn start(&self, code: &Code) -> Key {
        code.pack(self.begin, 0, &[TO_COME; 64])
    }

    /// Everything that nature may do, with every answer that breaks nothing; `None` if more than `left` are tried.
    pub(super) fn outcomes(
        &self,
        code: &Code,
        key: Key,
        left: &mut u32,
        keeps: &mut Keeps<'_>,
    ) -> Option<Vec<Outcome>> {
        stop::here();
        let ages = code.unpack(key);
        let (mut free, mut forced) = (Vec::new(), 0);
        for moment in 0..self.moments() {
            match self.may_strike(moment, key, &ages) {
                Some(true) => forced |= 1 << moment,
                Some(false) => free.push(moment),
                None => {}
            }
        }
        if free.len() > MOST_AT_ONCE {
            return None;
        }
        let mut outcomes = Vec::with_capacity(1 << free.len());
        for subset in 0..1u32 << free.len() {
            let chosen = free.iter().enumerate().filter(|(nth, _)| subset >> nth & 1 == 1);
            let struck = chosen.fold(forced, |all, (_, moment)| all | 1 << moment);
            let asked = free.iter().fold(key.asked, |all, moment| all | 1 << moment);
            let mut turn = Turn { board: self, code, tick: key.tick, asked, left, found: Vec::new(), keeps };
            let mut after = ages;
            let holds = (0..self.moments()).all(|m| struck >> m & 1 == 0 || turn.strike(m, &mut after));
            if holds {
                turn.go_on(0, after, 0)?;
            }
            outcomes.push(Outcome { struck, choices: turn.found });
        }
        Some(outcomes)
    }

    /// Whether nature may bring this about now, and whether she must.
    fn may_strike(&self, moment: usize, key: Key, ages: &Ages) -> Option<bool> {
        if ages[moment] != TO_COME || key.asked >> moment & 1 == 1 {
            return None;
        }
        match self.parties.get(moment.wrapping_sub(2 * self.pieces.len())) {
            Some(party) => (key.tick >= party.first).then_some(key.tick >= party.last),
            None if moment % 2 == 1 && ages[moment - 1] != TO_COME => {
                let Length::Nature(may) = &self.pieces[moment / 2].length else { return None };
                let age = usize::try_from(ages[moment - 1]).ok()?;
                may.get(age).copied().unwrap_or(true).then_some(age + 1 >= may.len())
            }
            None => None,
        }
    }
}

/// The cook's turn at a tick.
struct Turn<'t, 'k> {
    board: &'t Board,
    code: &'t Code,
    tick: i32,
    asked: u64,
    /// So many more answers are tried; each tick that passes after one counts as well.
    left: &'t mut u32,
    found: Vec<Choice>,
    keeps: &'t mut Keeps<'k>,
}

impl Turn<'_, '_> {
    /// Goes through the moments from this one on: what must come about does, and what may does or does not.
    fn go_on(&mut self, from: usize, mut ages: Ages, mut done: u64) -> Option<()> {
        *self.left = self.left.checked_sub(1)?;
        for moment in from..2 * self.board.pieces.len() {
            let piece = &self.board.pieces[moment / 2];
            if ages[moment] != TO_COME {
                continue;
            }
            let must = if moment % 2 == 0 {
                let ended = |before: &&usize| ages[2 * **before + 1] != TO_COME;
                let all = piece.follows.iter().filter(ended).count();
                match piece.follows.len() {
                    0 => false,
                    count if all == count => true,
                    _ => continue,
                }
            } else {
                let age = ages[moment - 1];
                match piece.length {
                    _ if age == TO_COME => continue,
                    Length::Fixed(length) if age >= length => true,
                    Length::Chosen { low, high, .. } if age >= low => age >= high,
                    _ => continue,
                }
            };
            let before = ages;
            let struck = self.strike(moment, &mut ages);
            if must {
                if !struck {
                    return Some(());
                }
                done |= 1 << moment;
            } else if struck {
                self.go_on(moment + 1, ages, done | 1 << moment)?;
                ages = before;
            } else {
                ages = before;
            }
        }
        self.finish(ages, done)
    }

    /// Sets a moment to now, if nothing forbids it.
    fn strike(&self, moment: usize, ages: &mut Ages) -> bool {
        let board = self.board;
        if !board.is_open(moment, self.tick) {
            return false;
        }
        ages[moment] = 0;
        // Food that is set out for nobody is not served, however late it may get.
        let guests = board.parties.iter().enumerate().all(|(n, party)| {
            let came = ages[2 * board.pieces.len() + n];
            let mut here = party.meals.iter().filter(|meal| 2 * meal.0 == moment);
            here.all(|&(_, late)| came >= 0 && (came <= late || board.goal == Goal::Awake))
        });
        if !guests || board.goal == Goal::Awake {
            return guests;
        }
        board.ties.iter().all(|tie| {
            let after = match (ages[tie.from], ages[tie.to]) {
                _ if tie.from != moment && tie.to != moment => return true,
                (TO_COME, TO_COME) => return true,
                // What comes later can only be further off.
                (TO_COME, to) => return tie.low <= to.min(0),
                (_, TO_COME) => return tie.high >= 0,
                (from, to) => from - to,
            };
            (tie.low..=tie.high).contains(&after)
        })
    }

    /// All is done that is done at this tick.
    fn finish(&mut self, mut ages: Ages, done: u64) -> Option<()> {
        let board = self.board;
        let fresh = (0..board.pieces.len()).any(|n| match &board.pieces[n].length {
            Length::Nature(may) => {
                let end = 2 * n + 1;
                ages[end] == TO_COME && ages[2 * n] == 0 && may[0] && self.asked >> end & 1 == 0
            }
            _ => false,
        });
        if fresh {
            if (self.keeps)(Moment { tick: self.tick, asked: Some(self.asked), ages: &ages }) {
                self.found.push(Choice { done, next: self.code.pack(self.tick, self.asked, &ages) });
            }
            return Some(());
        }
        let mut tick = self.tick;
        if !board.begins_well(&ages)
            || !board.holds(tick, &ages)
            || !(self.keeps)(Moment { tick, asked: None, ages: &ages })
        {
            return Some(());
        }
        loop {
            *self.left = self.left.checked_sub(1)?;
            tick += 1;
            ages.iter_mut().filter(|age| (0..LONG_AGO).contains(*age)).for_each(|age| *age += 1);
            board.forget(tick, &mut ages, self.code);
            let over = match board.goal {
                Goal::Awake => tick > board.end,
                _ => ages[..board.moments()].iter().all(|age| *age == LONG_AGO),
            };
            if over {
                self.found.push(Choice { done, next: Key::OVER });
                return Some(());
            }
            if !board.is_quiet(tick, &ages) {
                self.found.push(Choice { done, next: self.code.pack(tick, 0, &ages) });
                return Some(());
            }
            if !board.holds(tick, &ages) {
                return Some(());
            }
        }
    }
}
