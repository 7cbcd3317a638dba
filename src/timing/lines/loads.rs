//! More work or food in all, between two moments, than people or kit can take on.

use super::crowds::Pool;
use crate::timing::clock::Minute;
use crate::timing::sets::FAR;

/// Activities that share something, whatever order they come in.
#[derive(Debug, Clone)]
pub(super) struct Load {
    pub(super) pool: Pool,
    /// At least so long passes between the end of one and the begin of the next.
    pub(super) gap: Minute,
}

/// An activity of such a length, at the earliest and at the latest.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spell {
    pub(super) first: Minute,
    pub(super) over: Minute,
    pub(super) length: Minute,
}

impl Load {
    /// Activities that all have to lie between two moments and are too much for the time between.
    pub(super) fn too_much(&self, spell: impl Fn(usize) -> Spell) -> Option<Vec<usize>> {
        let spells = self.pool.takes.iter().map(|&(one, much)| (spell(one), one, much));
        let mut spells: Vec<_> =
            spells.filter(|(at, ..)| at.length > 0 && at.first > -FAR && at.over < FAR).collect();
        spells.sort_by_key(|(at, one, _)| (-at.first, *one));
        let mut ends: Vec<Minute> = spells.iter().map(|(at, ..)| at.over).collect();
        ends.sort_unstable();
        ends.dedup();
        ends.iter().find_map(|&end| {
            let mut work = 0;
            let full = spells.iter().position(|(at, _, much)| {
                if at.over > end {
                    return false;
                }
                work += (at.length + self.gap) * much;
                work > (end - at.first + self.gap) * self.pool.limit
            })?;
            let among = spells[..=full].iter().filter(|(at, ..)| at.over <= end);
            Some(among.map(|(_, one, _)| *one).collect())
        })
    }
}

/// Groups in which each excludes each other, with the least time between any two, so that every pair is in one.
pub(super) fn groups(count: usize, pairs: &[([usize; 2], [Minute; 2])]) -> Vec<Load> {
    let mut apart = vec![vec![None; count]; count];
    for &([a, b], gaps) in pairs {
        let gap = gaps[0].min(gaps[1]);
        (apart[a][b], apart[b][a]) = (Some(gap), Some(gap));
    }
    let mut covered = vec![vec![false; count]; count];
    let mut loads = Vec::new();
    for &([a, b], _) in pairs {
        if covered[a][b] {
            continue;
        }
        let mut group = vec![a, b];
        for (one, from) in apart.iter().enumerate() {
            if group.iter().all(|&other| from[other].is_some()) {
                group.push(one);
            }
        }
        let mut gap = FAR;
        for &one in &group {
            for &other in group.iter().filter(|&&other| other != one) {
                covered[one][other] = true;
                gap = gap.min(apart[one][other].unwrap_or(0));
            }
        }
        if group.len() > 2 {
            let takes = group.into_iter().map(|one| (one, 1)).collect();
            loads.push(Load { pool: Pool { limit: 1, takes }, gap });
        }
    }
    loads
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_done_one_after_the_other_is_never_too_much_and_a_minute_less_is() {
        let mut state = 11u64;
        let mut roll = |most: u64| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((state >> 33) % most) as i64
        };
        for _ in 0..500 {
            // Each person does one thing after the other without a break, with so much time between.
            let (people, gap, count) = (1 + roll(3), roll(3), 2 + roll(5));
            let mut spells = Vec::new();
            for _ in 0..people {
                let mut at = 0;
                for _ in 0..count {
                    let length = 1 + roll(9);
                    spells.push(Spell { first: at - roll(4), over: at + length + roll(4), length });
                    at += length + gap;
                }
            }
            let takes = (0..spells.len()).map(|n| (n, 1)).collect();
            let load = Load { pool: Pool { limit: people, takes }, gap };
            assert_eq!(load.too_much(|n| spells[n]), None, "{spells:?}");
            // All of it in one minute less than all that it takes of everybody.
            let whole: i64 = spells.iter().map(|spell| spell.length + gap).sum();
            let end = (whole - 1).div_euclid(people) - gap;
            let squeezed = |n: usize| Spell { first: 0, over: end, ..spells[n] };
            assert!(load.too_much(squeezed).is_some(), "{spells:?}");
        }
    }

    #[test]
    fn every_pair_is_in_a_group_that_excludes_each_other() {
        // A ring of five: no three exclude each other; with 0 to 2 and 0 to 3 there are triangles.
        let ring = |n: usize| ([n, (n + 1) % 5], [1, 2]);
        let mut pairs: Vec<_> = (0..5).map(ring).collect();
        assert!(groups(5, &pairs).is_empty());
        pairs.extend([([0, 2], [4, 3]), ([0, 3], [2, 2])]);
        let found = groups(5, &pairs);
        assert_eq!(found.len(), 3);
        for load in found {
            assert_eq!((load.pool.takes.len(), load.gap), (3, 1));
            for (n, &(one, _)) in load.pool.takes.iter().enumerate() {
                for &(other, _) in &load.pool.takes[n + 1..] {
                    assert!(pairs.iter().any(|(pair, _)| *pair == [one, other] || *pair == [other, one]));
                }
            }
        }
    }
}
