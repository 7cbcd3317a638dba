//! More at once than there is room, or are hands, for.

/// Activities that share so much of something.
#[derive(Debug, Clone)]
pub(super) struct Pool {
    pub(super) limit: i64,
    /// Activities, and how much each takes.
    pub(super) takes: Vec<(usize, i64)>,
}

impl Pool {
    /// For each member the first crowd around it that is too much and may be there at once, by what two
    /// activities are `apart` in any case; `None` if that takes more than `left` steps to find out.
    pub(super) fn crowds(
        &self,
        apart: impl Fn(usize, usize) -> bool,
        left: &mut u32,
    ) -> Option<Vec<Vec<usize>>> {
        let takes = &self.takes;
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
