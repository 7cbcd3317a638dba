//! More at once than there is room, or are hands, for.

use std::collections::VecDeque;

/// Activities that share so much of something.
#[derive(Debug, Clone)]
pub(super) struct Pool {
    pub(super) limit: i64,
    /// Activities, and how much each takes.
    pub(super) takes: Vec<(usize, i64)>,
}

/// Which members are over before which others begin; 64 to a word.
struct Before(Vec<Vec<u64>>);

impl Pool {
    /// Activities that may all be there at once and take more than the limit, the most of it that any do;
    /// empty if nothing ever is too much. `before` tells whether one is over in any case when another begins.
    ///
    /// What each member takes is handed on to what comes behind it, as much as can be: what then still has to
    /// come from elsewhere is what the heaviest crowd takes (Dilworth 1950; Fulkerson 1956).
    pub(super) fn crowd(&self, before: impl Fn(usize, usize) -> bool) -> Vec<usize> {
        let total: i64 = self.takes.iter().map(|take| take.1).sum();
        if total <= self.limit {
            return Vec::new();
        }
        let mut rows = Rows::new(self, Before::of(self, before));
        let mut elsewhere = total;
        loop {
            match rows.hand_on() {
                Some(much) => elsewhere -= much,
                None => return rows.crowd().into_iter().map(|n| self.takes[n].0).collect(),
            }
            if elsewhere <= self.limit {
                return Vec::new();
            }
        }
    }
}

impl Before {
    /// Everything that follows: what is before something is before all that this is before.
    fn of(pool: &Pool, before: impl Fn(usize, usize) -> bool) -> Self {
        let count = pool.takes.len();
        let mut rows = vec![vec![0; count.div_ceil(64)]; count];
        for (n, row) in rows.iter_mut().enumerate() {
            for other in (0..count).filter(|&other| other != n) {
                row[other / 64] |= u64::from(before(pool.takes[n].0, pool.takes[other].0)) << (other % 64);
            }
        }
        for via in 0..count {
            let further = rows[via].clone();
            for row in rows.iter_mut().filter(|row| row[via / 64] >> (via % 64) & 1 == 1) {
                row.iter_mut().zip(&further).for_each(|(word, more)| *word |= more);
            }
        }
        let mut all = Self(rows);
        // Of two moments that coincide each is before the other: one order of them will do.
        for n in 0..count {
            for other in (0..=n).filter(|&other| all.holds(other, n)).collect::<Vec<_>>() {
                all.0[n][other / 64] &= !(1 << (other % 64));
            }
        }
        all
    }

    fn holds(&self, n: usize, other: usize) -> bool {
        self.0[n][other / 64] >> (other % 64) & 1 == 1
    }
}

/// How much each member hands on to which.
struct Rows {
    before: Before,
    /// By who gets it: who gives it, and how much.
    handed: Vec<Vec<(usize, i64)>>,
    /// What each has not handed on yet, and what each has not got yet.
    left: Vec<i64>,
    missing: Vec<i64>,
    /// Who was found to be able to hand on more, in the last look, and from whom it would take that back.
    givers: Vec<Option<usize>>,
    /// Who was not found to get more then; 64 to a word.
    others: Vec<u64>,
}

/// Who hands on what is left, and need not take it back from anybody.
const ITSELF: usize = usize::MAX;

impl Rows {
    fn new(pool: &Pool, before: Before) -> Self {
        let takes: Vec<i64> = pool.takes.iter().map(|take| take.1).collect();
        let handed = vec![Vec::new(); takes.len()];
        Self { before, handed, left: takes.clone(), missing: takes, givers: Vec::new(), others: Vec::new() }
    }

    /// Hands on more along the shortest way on which that is possible, and how much.
    fn hand_on(&mut self) -> Option<i64> {
        let count = self.left.len();
        self.givers = self.left.iter().map(|left| (*left > 0).then_some(ITSELF)).collect();
        self.others = vec![u64::MAX; count.div_ceil(64)];
        let mut gets_from = vec![ITSELF; count];
        let mut queue: VecDeque<usize> = (0..count).filter(|&n| self.left[n] > 0).collect();
        while let Some(giver) = queue.pop_front() {
            for word in 0..self.others.len() {
                let mut found = self.before.0[giver][word] & self.others[word];
                self.others[word] &= !found;
                while found != 0 {
                    let getter = 64 * word + found.trailing_zeros() as usize;
                    found &= found - 1;
                    gets_from[getter] = giver;
                    if self.missing[getter] > 0 {
                        return Some(self.along(getter, &gets_from));
                    }
                    for &(other, _) in &self.handed[getter] {
                        if self.givers[other].is_none() {
                            self.givers[other] = Some(getter);
                            queue.push_back(other);
                        }
                    }
                }
            }
        }
        None
    }

    fn along(&mut self, last: usize, gets_from: &[usize]) -> i64 {
        // Who gives, to whom, and from whom it takes that back.
        let mut way = Vec::new();
        let mut getter = last;
        let mut much = self.missing[last];
        loop {
            let giver = gets_from[getter];
            let back = self.givers[giver].unwrap_or(ITSELF);
            way.push((giver, getter, back));
            if back == ITSELF {
                much = much.min(self.left[giver]);
                self.left[giver] -= much;
                break;
            }
            much = much.min(self.given(back, giver));
            getter = back;
        }
        self.missing[last] -= much;
        for (giver, getter, back) in way {
            self.give(getter, giver, much);
            if back != ITSELF {
                self.give(back, giver, -much);
            }
        }
        much
    }

    fn given(&self, getter: usize, giver: usize) -> i64 {
        self.handed[getter].iter().find(|from| from.0 == giver).map_or(0, |from| from.1)
    }

    fn give(&mut self, getter: usize, giver: usize, more: i64) {
        let all = &mut self.handed[getter];
        match all.iter_mut().find(|from| from.0 == giver) {
            Some(from) => from.1 += more,
            None => all.push((giver, more)),
        }
        all.retain(|from| from.1 > 0);
    }

    /// The heaviest crowd, once nothing more can be handed on.
    fn crowd(&self) -> Vec<usize> {
        let gets = |n: usize| self.others[n / 64] >> (n % 64) & 1 == 0;
        (0..self.left.len()).filter(|&n| self.givers[n].is_some() && !gets(n)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::Pool;

    /// Whether more than `limit` of the spells are on at once at any minute, by looking at every minute.
    fn too_many(spells: &[(i64, i64)], limit: i64) -> bool {
        (0..40).any(|minute| {
            let on = spells.iter().filter(|(from, to)| *from <= minute && minute < *to).count();
            on as i64 > limit
        })
    }

    #[test]
    fn rows_are_told_from_crowds() {
        let mut state = 7u64;
        let mut roll = |most: u64| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((state >> 33) % most) as i64
        };
        let mut crowded = 0;
        for _ in 0..2000 {
            let spells: Vec<(i64, i64)> = (0..2 + roll(9))
                .map(|_| {
                    let from = roll(24);
                    (from, from + 1 + roll(8))
                })
                .collect();
            let limit = 1 + roll(4);
            let pool = Pool { limit, takes: (0..spells.len()).map(|n| (n, 1)).collect() };
            let before = |a: usize, b: usize| spells[a].1 <= spells[b].0;
            let crowd = pool.crowd(before);
            assert_eq!(!crowd.is_empty(), too_many(&spells, limit), "{spells:?} {limit}");
            crowded += usize::from(!crowd.is_empty());
        }
        assert!((400..1600).contains(&crowded), "{crowded}");
    }

    #[test]
    fn the_heaviest_crowd_is_found_and_is_there_at_once() {
        let mut state = 5u64;
        let mut roll = |most: u64| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((state >> 33) % most) as i64
        };
        for _ in 0..1000 {
            let spells: Vec<(i64, i64, i64)> = (0..2 + roll(9))
                .map(|_| {
                    let from = roll(24);
                    (from, from + 1 + roll(8), 1 + roll(4))
                })
                .collect();
            let on = |minute: i64| {
                let there = spells.iter().filter(|(from, to, _)| *from <= minute && minute < *to);
                there.map(|spell| spell.2).sum::<i64>()
            };
            let most = (0..40).map(on).max().unwrap_or(0);
            let takes = spells.iter().enumerate().map(|(n, spell)| (n, spell.2)).collect();
            let pool = Pool { limit: most - 1, takes };
            let before = |a: usize, b: usize| spells[a].1 <= spells[b].0;
            let crowd = pool.crowd(before);
            assert_eq!(crowd.iter().map(|&n| spells[n].2).sum::<i64>(), most, "{spells:?} {crowd:?}");
            let meet = crowd.iter().all(|&a| crowd.iter().all(|&b| a == b || !before(a, b)));
            assert!(meet, "{spells:?} {crowd:?}");
            assert!(Pool { limit: most, ..pool }.crowd(before).is_empty());
        }
    }

    #[test]
    fn moments_that_coincide_are_no_ring() {
        // Three moments of one minute, each before the others by their bounds, and one hand.
        let pool = Pool { limit: 1, takes: vec![(0, 1), (1, 1), (2, 1)] };
        assert!(pool.crowd(|_, _| true).is_empty());
        assert!(!pool.crowd(|_, _| false).is_empty());
    }
}
