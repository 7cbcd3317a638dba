//! Sets of minutes as a few intervals, so that two days cost no more than two hours.

use super::clock::Minute;

/// Further away than any cook reaches; an end at or beyond it stands for "for ever".
pub const FAR: Minute = 1 << 40;

/// Intervals with both ends included, in order, with gaps between them.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Set(Vec<(Minute, Minute)>);

impl Set {
    pub fn empty() -> Self {
        Self(Vec::new())
    }

    pub fn all() -> Self {
        Self(vec![(-FAR, FAR)])
    }

    /// From `first` to `last`, both included; empty when they are the wrong way round.
    pub fn range(first: Minute, last: Minute) -> Self {
        if first > last { Self::empty() } else { Self(vec![(first, last)]) }
    }

    pub fn from(first: Minute) -> Self {
        Self::range(first, FAR)
    }

    pub fn up_to(last: Minute) -> Self {
        Self::range(-FAR, last)
    }

    /// From intervals in any order, which may touch or overlap.
    pub fn of(mut intervals: Vec<(Minute, Minute)>) -> Self {
        intervals.retain(|(first, last)| first <= last);
        intervals.sort_unstable();
        let mut merged: Vec<(Minute, Minute)> = Vec::with_capacity(intervals.len());
        for (first, last) in intervals {
            match merged.last_mut() {
                Some(open) if first <= open.1 + 1 => open.1 = open.1.max(last),
                _ => merged.push((first, last)),
            }
        }
        Self(merged)
    }

    pub fn intervals(&self) -> &[(Minute, Minute)] {
        &self.0
    }

    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub fn first(&self) -> Option<Minute> {
        self.0.first().map(|&(first, _)| first)
    }

    pub fn last(&self) -> Option<Minute> {
        self.0.last().map(|&(_, last)| last)
    }

    pub fn contains(&self, minute: Minute) -> bool {
        let after = self.0.partition_point(|&(first, _)| first <= minute);
        after > 0 && self.0[after - 1].1 >= minute
    }

    /// The first minute of the set at or after this one.
    pub fn next(&self, minute: Minute) -> Option<Minute> {
        let at = self.0.partition_point(|&(_, last)| last < minute);
        self.0.get(at).map(|&(first, _)| first.max(minute))
    }

    /// The last minute of the set at or before this one.
    pub fn previous(&self, minute: Minute) -> Option<Minute> {
        let after = self.0.partition_point(|&(first, _)| first <= minute);
        Some(self.0[after.checked_sub(1)?].1.min(minute))
    }

    pub fn union(&self, other: &Self) -> Self {
        Self::of(self.0.iter().chain(&other.0).copied().collect())
    }

    pub fn intersect(&self, other: &Self) -> Self {
        let (mut a, mut b) = (0, 0);
        let mut both = Vec::new();
        while let (Some(&(first_a, last_a)), Some(&(first_b, last_b))) = (self.0.get(a), other.0.get(b)) {
            let (first, last) = (first_a.max(first_b), last_a.min(last_b));
            if first <= last {
                both.push((first, last));
            }
            if last_a < last_b { a += 1 } else { b += 1 }
        }
        Self(both)
    }

    pub fn complement(&self) -> Self {
        let mut gaps = Vec::with_capacity(self.0.len() + 1);
        let mut next = -FAR;
        for &(first, last) in &self.0 {
            if next < first {
                gaps.push((next, first - 1));
            }
            next = last + 1;
        }
        if next <= FAR {
            gaps.push((next, FAR));
        }
        Self(gaps)
    }

    /// The minutes t for which *some* d in `low..=high` brings t + d into the set.
    pub fn some_before(&self, low: Minute, high: Minute) -> Self {
        if low > high {
            return Self::empty();
        }
        Self::of(self.0.iter().map(|&(first, last)| (back(first, high), back(last, low))).collect())
    }

    /// The minutes t for which *every* d in `low..=high` brings t + d into the set.
    pub fn all_before(&self, low: Minute, high: Minute) -> Self {
        if low > high {
            return Self::all();
        }
        Self::of(self.0.iter().map(|&(first, last)| (back(first, low), back(last, high))).collect())
    }

    /// Every t + d with t in the set and d in `low..=high`.
    pub fn after(&self, low: Minute, high: Minute) -> Self {
        Self::of(self.0.iter().map(|&(first, last)| (back(first, -low), back(last, -high))).collect())
    }
}

/// `minute - by`; for ever stays for ever.
fn back(minute: Minute, by: Minute) -> Minute {
    if minute.abs() >= FAR { minute } else { (minute - by).clamp(-FAR, FAR) }
}
