//! More at once than there is room, or are hands, for.

/// Activities that share so much of something.
#[derive(Debug, Clone)]
pub(super) struct Pool {
    pub(super) limit: i64,
    /// Activities, and how much each takes.
    pub(super) takes: Vec<(usize, i64)>,
}

impl Pool {
    /// For each member the first crowd around it that is too much and may be there at once, by which of two
    /// activities is over `before` the other in any case; `None` if that takes more than `left` steps to find out.
    pub(super) fn crowds(
        &self,
        before: impl Fn(usize, usize) -> bool,
        left: &mut u32,
    ) -> Option<Vec<Vec<usize>>> {
        let takes = &self.takes;
        if self.has_room_for_all(&before) {
            return Some(Vec::new());
        }
        let apart = |a: usize, b: usize| before(a, b) || before(b, a);
        let mut beside = vec![Vec::new(); takes.len()];
        for n in 0..takes.len() {
            beside[n].extend((n + 1..takes.len()).filter(|&other| !apart(takes[n].0, takes[other].0)));
        }
        let mut crowds = Vec::new();
        for n in 0..takes.len() {
            let mut crowd = vec![n];
            if grow(takes, self.limit - takes[n].1, &beside[n], &beside, &mut crowd, left)? {
                crowds.push(crowd.into_iter().map(|member| takes[member].0).collect());
            }
        }
        Some(crowds)
    }

    /// Whether the members fall into so few rows, each one behind the other, that they never are too many at once. Rows
    /// are put together by a matching (Fulkerson 1956): as few as can be.
    fn has_room_for_all(&self, before: &impl Fn(usize, usize) -> bool) -> bool {
        let Some(most) = self.takes.iter().map(|take| take.1).max().filter(|most| *most > 0) else {
            return true;
        };
        let count = self.takes.len();
        let behind = |n: usize, other: usize| {
            let (one, other_one) = (self.takes[n].0, self.takes[other].0);
            // Of two moments that coincide each is before the other: one order of them will do.
            before(one, other_one) && (n < other || !before(other_one, one))
        };
        let after: Vec<Vec<usize>> = (0..count)
            .map(|n| (0..count).filter(|&other| other != n && behind(n, other)).collect())
            .collect();
        let mut comes_after: Vec<Option<usize>> = vec![None; count];
        for n in 0..count {
            follow(n, &after, &mut comes_after, &mut vec![false; count]);
        }
        let rows = comes_after.iter().filter(|before| before.is_none()).count();
        // A ring of moments would be a row without a first one.
        let straight = (0..count).all(|n| {
            let mut at = Some(n);
            (0..=count).any(|_| match at {
                Some(here) => {
                    at = comes_after[here];
                    false
                }
                None => true,
            })
        });
        straight && i64::try_from(rows).is_ok_and(|rows| rows.saturating_mul(most) <= self.limit)
    }
}

/// Finds a member to come straight behind `n`, moving others along where need be.
fn follow(n: usize, after: &[Vec<usize>], comes_after: &mut [Option<usize>], seen: &mut [bool]) -> bool {
    for &next in &after[n] {
        if std::mem::replace(&mut seen[next], true) {
            continue;
        }
        if comes_after[next].is_none_or(|other| follow(other, after, comes_after, seen)) {
            comes_after[next] = Some(n);
            return true;
        }
    }
    false
}

/// Adds members that may all be there at once until they take more than `room`.
fn grow(
    takes: &[(usize, i64)],
    room: i64,
    from: &[usize],
    beside: &[Vec<usize>],
    crowd: &mut Vec<usize>,
    left: &mut u32,
) -> Option<bool> {
    if room < 0 {
        return Some(true);
    }
    *left = left.checked_sub(1)?;
    let mut rest: i64 = from.iter().map(|&member| takes[member].1).sum();
    for &member in from {
        if rest <= room {
            return Some(false);
        }
        rest -= takes[member].1;
        let both: Vec<usize> = from.iter().copied().filter(|other| beside[member].contains(other)).collect();
        crowd.push(member);
        if grow(takes, room - takes[member].1, &both, beside, crowd, left)? {
            return Some(true);
        }
        crowd.pop();
    }
    Some(false)
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
            let crowds = pool.crowds(before, &mut 100_000).expect("few steps");
            assert_eq!(!crowds.is_empty(), too_many(&spells, limit), "{spells:?} {limit}");
            crowded += usize::from(!crowds.is_empty());
        }
        assert!((400..1600).contains(&crowded), "{crowded}");
    }

    #[test]
    fn moments_that_coincide_are_no_ring() {
        // Three moments of one minute, each before the others by their bounds, and one hand.
        let pool = Pool { limit: 1, takes: vec![(0, 1), (1, 1), (2, 1)] };
        assert!(pool.crowds(|_, _| true, &mut 1_000).expect("few steps").is_empty());
        assert!(!pool.crowds(|_, _| false, &mut 1_000).expect("few steps").is_empty());
    }
}
