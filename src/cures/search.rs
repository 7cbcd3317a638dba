//! The first rung of a ladder that cures, in few tries.

/// What a change came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trial {
    /// The fault is still there, or it is not judged any more.
    NotYet,
    Cured,
    /// The fault is gone, and something else has come up.
    Harms,
}

/// Of `count` rungs, each further than the last, the first that cures. Begins at `hint`, or at the last where `all_or_none`
/// says that what the last does not cure none does. `attempt` gives `None` once no more may be tried, and what was found
/// until then counts.
pub fn first_cured(
    count: usize,
    hint: usize,
    all_or_none: bool,
    mut attempt: impl FnMut(usize) -> Option<Trial>,
) -> Option<usize> {
    let last = count.checked_sub(1)?;
    let (mut above, mut stride) = (0, 1);
    let mut at = if all_or_none { last } else { hint.min(last) };
    // Rungs below `above` are not far enough, and `gone` is.
    let first = loop {
        match attempt(at)? {
            Trial::NotYet if at == last => return None,
            Trial::NotYet => {
                above = at + 1;
                at = (at + stride).min(last);
                stride *= 2;
            }
            found => break found,
        }
    };
    let (mut gone, mut cured) = (at, (first == Trial::Cured).then_some(at));
    // The hint is often the figure itself, and then the one below is not enough.
    while above < gone {
        let next = match hint {
            hint if gone == hint => hint - 1,
            hint if (above..gone).contains(&hint) => hint,
            _ => above + (gone - above) / 2,
        };
        match attempt(next) {
            None => break,
            Some(Trial::NotYet) => above = next + 1,
            Some(found) => {
                gone = next;
                if found == Trial::Cured {
                    cured = Some(next);
                }
            }
        }
    }
    cured
}

#[cfg(test)]
mod tests {
    use super::{Trial, first_cured};

    /// The rung found, and how many were tried.
    fn search(count: usize, hint: usize, cures: usize, harms: usize) -> (Option<usize>, usize) {
        let mut tried = 0;
        let found = first_cured(count, hint, false, |at| {
            tried += 1;
            Some(match at {
                at if at < cures => Trial::NotYet,
                at if at < harms => Trial::Cured,
                _ => Trial::Harms,
            })
        });
        (found, tried)
    }

    #[test]
    fn the_first_rung_that_cures_is_found_from_any_hint() {
        for cures in 0..40 {
            for hint in 0..40 {
                let (found, tried) = search(40, hint, cures, 40);
                assert_eq!(found, Some(cures), "from {hint}");
                assert!(tried <= 13, "{tried} tries for {cures} from {hint}");
            }
        }
    }

    #[test]
    fn a_good_hint_takes_two_tries() {
        assert_eq!(search(40, 14, 14, 40), (Some(14), 2));
    }

    #[test]
    fn where_the_last_does_nothing_one_try_is_enough() {
        let mut tried = 0;
        let nothing = first_cured(16, 0, true, |_| {
            tried += 1;
            Some(Trial::NotYet)
        });
        assert_eq!((nothing, tried), (None, 1));
        for cures in 0..16 {
            let found =
                first_cured(16, 0, true, |at| Some(if at < cures { Trial::NotYet } else { Trial::Cured }));
            assert_eq!(found, Some(cures));
        }
    }

    #[test]
    fn what_harms_as_soon_as_it_cures_is_none() {
        assert_eq!(search(40, 3, 20, 20).0, None);
        assert_eq!(search(40, 3, 20, 21).0, Some(20));
        assert_eq!(search(40, 3, 40, 40).0, None);
        assert_eq!(search(0, 0, 0, 0).0, None);
    }

    #[test]
    fn what_was_found_before_the_tries_ran_out_counts() {
        let mut left = 2;
        let found = first_cured(40, 30, false, |_| {
            left -= 1;
            (left >= 0).then_some(Trial::Cured)
        });
        assert_eq!(found, Some(29));
    }
}
