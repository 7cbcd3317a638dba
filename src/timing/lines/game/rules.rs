//! What binds at a tick, and whether anything can happen at it.

use super::Goal;
use super::board::{Board, Length, Party, Piece, binds};
use super::position::{Ages, TO_COME};

impl Board {
    /// What happened at this tick has left kit its time, and no food waits for what it goes on with.
    pub(super) fn begins_well(&self, ages: &Ages) -> bool {
        if self.goal == Goal::Awake {
            return true;
        }
        let joined = self.pieces.iter().enumerate().all(|(n, piece)| {
            let ends = || piece.follows.iter().map(|before| ages[2 * before + 1]);
            match ages[2 * n] {
                TO_COME => ends().all(|end| end == TO_COME),
                0 => ends().all(|end| end == 0),
                _ => true,
            }
        });
        joined
            && self.apart.iter().all(|apart| {
                let [a, b] = apart.steps.map(|step| (ages[2 * step], ages[2 * step + 1]));
                // Only where the later of the two begins now.
                if a.0 == TO_COME || b.0 == TO_COME || a.0 != 0 && b.0 != 0 {
                    return true;
                }
                let after = |first: (i32, i32), then: (i32, i32), gap: i32| {
                    first.1 != TO_COME && then.0 == 0 && first.1 >= gap
                };
                after(a, b, apart.gaps[0]) || after(b, a, apart.gaps[1])
            })
    }

    /// Whether the tick can pass as things stand.
    pub(super) fn holds(&self, tick: i32, ages: &Ages) -> bool {
        let watched = self.is_absent(tick)
            && self.pieces.iter().enumerate().any(|(n, piece)| {
                let age = ages[2 * n];
                let there = ages[2 * n + 1] == TO_COME || piece.is_serving;
                age != TO_COME && there && piece.watched.iter().any(|&(from, to)| (from..to).contains(&age))
            });
        if watched {
            return false;
        }
        let goes_on = |n: usize| ages[2 * n] != TO_COME && ages[2 * n + 1] == TO_COME;
        let overdue = self.pieces.iter().enumerate().any(|(n, piece)| match &piece.length {
            Length::Chosen { high, .. } => goes_on(n) && ages[2 * n] >= *high,
            _ => false,
        });
        if overdue || self.goal == Goal::Awake {
            return !overdue;
        }
        let late = (0..2 * self.pieces.len()).any(|m| ages[m] == TO_COME && tick >= self.last_open[m]);
        let tied = self.ties.iter().all(|tie| match (ages[tie.from], ages[tie.to]) {
            (from, TO_COME) if from != TO_COME => !binds(tie.high) || from < tie.high,
            (TO_COME, to) if to != TO_COME => !binds(tie.low) || to < -tie.low,
            _ => true,
        });
        let waits = self.parties.iter().enumerate().all(|(n, party)| {
            let came = ages[2 * self.pieces.len() + n];
            party.meals.iter().all(|&(step, late)| came < late || ages[2 * step] != TO_COME)
        });
        !late && tied && waits && self.has_room(goes_on) && self.has_hands(ages)
    }

    fn has_room(&self, goes_on: impl Fn(usize) -> bool) -> bool {
        self.rooms.iter().all(|room| {
            let there = room.takes.iter().filter(|(step, _)| goes_on(*step));
            there.map(|take| take.1).sum::<i64>() <= room.limit
        })
    }

    fn has_hands(&self, ages: &Ages) -> bool {
        let Some(people) = self.people else { return true };
        let at_work = |(n, piece): &(usize, &Piece)| {
            let age = ages[2 * n];
            (0..piece.busy).contains(&age) && (piece.is_serving || ages[2 * n + 1] == TO_COME)
        };
        self.pieces.iter().enumerate().filter(at_work).count() <= people as usize
    }

    /// Whether nothing can happen at this tick but that it passes.
    pub(super) fn is_quiet(&self, tick: i32, ages: &Ages) -> bool {
        let comes =
            |(n, party): (usize, &Party)| ages[2 * self.pieces.len() + n] == TO_COME && tick >= party.first;
        if self.parties.iter().enumerate().any(comes) {
            return false;
        }
        self.pieces.iter().enumerate().all(|(n, piece)| {
            let (start, end) = (2 * n, 2 * n + 1);
            if ages[start] == TO_COME {
                return !piece.follows.is_empty() || !self.is_open(start, tick);
            }
            let age = ages[start];
            ages[end] != TO_COME
                || match &piece.length {
                    Length::Fixed(length) => age < *length,
                    Length::Chosen { low, high, .. } => age < *low || age < *high && !self.is_open(end, tick),
                    Length::Nature(may) => !may.get(age as usize).copied().unwrap_or(true),
                }
        })
    }
}
