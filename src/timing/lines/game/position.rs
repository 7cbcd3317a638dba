//! Where the game stands: how long ago each moment was, as far as that still matters.

use super::Goal;
use super::board::{Board, Length, binds};

/// How long ago each moment was, in ticks.
pub(super) type Ages = [i32; 64];
/// It has not been.
pub(super) const TO_COME: i32 = -1;
/// It has been, and it no longer matters when.
pub(super) const LONG_AGO: i32 = i32::MAX / 8;

/// A position, packed: nature is to say what she ends at this tick.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct Key {
    pub(super) tick: i32,
    /// Steps and parties that nature has already said she does not end at this tick.
    pub(super) asked: u64,
    code: u128,
}

impl Key {
    /// Everything is over.
    pub(super) const OVER: Self = Self { tick: i32::MAX, asked: 0, code: 0 };
}

/// How ages are packed into one number: one digit for each moment.
pub(super) struct Code {
    caps: Vec<i32>,
}

impl Code {
    /// `None` if it takes more than 128 bits.
    pub(super) fn of(board: &Board) -> Option<Self> {
        let caps = board.caps();
        let room = |all: u128, cap: &i32| all.checked_mul(*cap as u128 + 3);
        caps.iter().try_fold(1u128, room)?;
        Some(Self { caps })
    }

    pub(super) fn pack(&self, tick: i32, asked: u64, ages: &Ages) -> Key {
        let digit = |(cap, age): (&i32, &i32)| match *age {
            TO_COME => (0, *cap),
            age if age > *cap => (*cap as u128 + 2, *cap),
            age => (age as u128 + 1, *cap),
        };
        let digits = self.caps.iter().zip(ages).map(digit);
        let code = digits.fold(0, |code, (digit, cap)| code * (cap as u128 + 3) + digit);
        Key { tick, asked, code }
    }

    pub(super) fn unpack(&self, key: Key) -> Ages {
        let mut ages = [TO_COME; 64];
        let mut code = key.code;
        for (moment, cap) in self.caps.iter().enumerate().rev() {
            let radix = *cap as u128 + 3;
            let digit = (code % radix) as i32;
            code /= radix;
            ages[moment] = match digit {
                0 => TO_COME,
                digit if digit == cap + 2 => LONG_AGO,
                digit => digit - 1,
            };
        }
        ages
    }
}

impl Board {
    /// Drops from the ages at a tick what no longer makes a difference.
    pub(super) fn forget(&self, tick: i32, ages: &mut Ages, caps: &Code) {
        for (n, piece) in self.pieces.iter().enumerate() {
            let (start, end) = (2 * n, 2 * n + 1);
            if ages[start] == TO_COME {
                continue;
            }
            let going = ages[end] == TO_COME;
            let tied = self.is_awaited(start, ages);
            ages[start] = match going || tied || piece.is_serving && ages[start] < piece.busy {
                true => ages[start].min(caps.caps[start]),
                false => LONG_AGO,
            };
            if let Length::Chosen { high, settled, .. } = piece.length
                && going
                && !tied
                && self.forgets_choices()
                && ages[start] > settled
                && tick + high - ages[start] >= self.last_open[end]
            {
                ages[start] = settled;
            }
            if ages[end] != TO_COME {
                let awaited = self.is_awaited(end, ages) || self.is_kept_from(n, ages);
                ages[end] = if awaited { ages[end].min(caps.caps[end]) } else { LONG_AGO };
            }
        }
        for (n, party) in self.parties.iter().enumerate() {
            let moment = 2 * self.pieces.len() + n;
            if ages[moment] != TO_COME {
                let served = party.meals.iter().all(|meal| ages[2 * meal.0] != TO_COME);
                ages[moment] = if served { LONG_AGO } else { ages[moment].min(caps.caps[moment]) };
            }
        }
    }

    /// Whether a choice that can wait for its last minute anyway may be forgotten the beginning of. Who reckons with
    /// lateness has no last minute.
    fn forgets_choices(&self) -> bool {
        self.goal == Goal::Every
    }

    /// Whether a moment that is still to come hangs on this one.
    fn is_awaited(&self, moment: usize, ages: &Ages) -> bool {
        self.ties.iter().any(|tie| {
            let other = if tie.from == moment { tie.to } else { tie.from };
            (tie.from == moment || tie.to == moment)
                && ages[other] == TO_COME
                && (binds(tie.low) || binds(tie.high))
        })
    }

    /// Whether a step that is still to come has to leave the kit of this one its time.
    fn is_kept_from(&self, step: usize, ages: &Ages) -> bool {
        self.apart.iter().any(|apart| match apart.steps {
            [one, other] if one == step => ages[2 * other] == TO_COME,
            [other, one] if one == step => ages[2 * other] == TO_COME,
            _ => false,
        })
    }
}
