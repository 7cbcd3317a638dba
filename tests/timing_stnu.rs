//! Dynamic controllability on networks that can be worked out by hand, and on random ones against a game.

#[path = "common/dice.rs"]
mod dice;

use dice::Dice;
use dwell::timing::stnu::{Bound, Stnu};

const OPEN: i64 = 1 << 40;

fn bound(from: usize, to: usize, low: i64, high: i64) -> Bound {
    Bound { from, to, low, high }
}

fn network(nodes: usize, bounds: &[Bound], natural: &[Bound]) -> Stnu {
    Stnu { nodes, bounds: bounds.to_vec(), natural: natural.to_vec() }
}

/// From memory: the first examples in the literature (Vidal and Fargier; Morris, Muscettola and Vidal)
/// are of this form. B follows a natural C by a fixed gap: it can wait and see.
#[test]
fn what_follows_nature_can_wait_for_it() {
    let after = network(3, &[bound(1, 2, 5, 5)], &[bound(0, 1, 10, 20)]);
    assert!(after.controllable().is_some());
}

/// From memory, as above: B has to come 5 to 10 before C, and C is not known beforehand.
#[test]
fn what_comes_before_nature_cannot_foresee_it() {
    let before = network(3, &[bound(2, 1, 5, 10)], &[bound(0, 1, 10, 20)]);
    assert!(before.controllable().is_none());
    assert!(before.hopeful().is_some(), "with luck it can be done");
    // A gap as wide as nature's range can be foreseen.
    let wide = network(3, &[bound(2, 1, 5, 15)], &[bound(0, 1, 10, 20)]);
    assert!(wide.controllable().is_some());
}

/// A wait: B comes no later than 2 after C and no sooner than 1 before it, so it waits for C until it
/// need not.
#[test]
fn a_wait_is_found() {
    let wait = network(3, &[bound(1, 2, -1, 2)], &[bound(0, 1, 0, 10)]);
    assert!(wait.controllable().is_some());
    let deadline = network(3, &[bound(1, 2, 0, 2), bound(0, 2, 0, 9)], &[bound(0, 1, 0, 10)]);
    assert!(deadline.controllable().is_none());
}

#[test]
fn two_natural_ends_cannot_be_one_moment() {
    let both = network(2, &[], &[bound(0, 1, 1, 2), bound(0, 1, 1, 2)]);
    assert!(both.controllable().is_none());
}

#[test]
fn contradictions_are_found_without_nature_too() {
    assert!(network(2, &[bound(0, 1, 5, 3)], &[]).controllable().is_none());
    let circle = network(3, &[bound(0, 1, 1, 2), bound(1, 2, 1, 2), bound(0, 2, 5, 9)], &[]);
    assert!(circle.controllable().is_none());
}

/// Is there a minute for every moment that all bounds hold for? Tried one moment after the other.
fn fits(stnu: &Stnu, at: &mut Vec<i64>) -> bool {
    let known = |bound: &&Bound| bound.from < at.len() && bound.to < at.len();
    let all = stnu.bounds.iter().chain(&stnu.natural);
    if !all.filter(known).all(|b| (b.low..=b.high).contains(&(at[b.to] - at[b.from]))) {
        return false;
    }
    if at.len() == stnu.nodes {
        return true;
    }
    (0..=LAST).any(|minute| {
        at.push(minute);
        let found = fits(stnu, at);
        at.pop();
        found
    })
}

#[test]
fn there_is_hope_where_some_minutes_fit() {
    let mut dice = Dice(0x0B0E_5EED);
    let mut tally = [0; 2];
    for round in 0..2_000 {
        let mut bounds: Vec<Bound> = (1..5).map(|node| bound(0, node, 0, LAST)).collect();
        let mut natural = Vec::new();
        for nth in 0..6 {
            let (from, to, least) = (dice.roll(0, 4) as usize, dice.roll(1, 4) as usize, dice.roll(-4, 4));
            if from != to {
                let high = if dice.one_in(3) { OPEN } else { least + dice.roll(-1, 3) };
                if nth == 0 { &mut natural } else { &mut bounds }.push(bound(from, to, least, high));
            }
        }
        let stnu = network(5, &bounds, &natural);
        let hope = fits(&stnu, &mut vec![0]);
        assert_eq!(stnu.hopeful().is_some(), hope, "round {round}: {stnu:#?}");
        tally[usize::from(hope)] += 1;
    }
    assert!(tally.iter().all(|&count| count > 200), "{tally:?}");
}

/// Two natural lengths side by side from moments that are chosen, and bounds between all of them:
/// A chosen, C = A + nature, B chosen, D = B + nature, E chosen. Played minute by minute.
struct Game<'a> {
    stnu: &'a Stnu,
    chosen: Vec<usize>,
    seen: std::collections::HashMap<(i64, Vec<Option<i64>>), bool>,
}

const LAST: i64 = 9;

impl Game<'_> {
    fn holds(&self, at: &[Option<i64>]) -> bool {
        self.stnu.bounds.iter().all(|b| match (at[b.from], at[b.to]) {
            (Some(from), Some(to)) => (b.low..=b.high).contains(&(to - from)),
            _ => true,
        })
    }

    /// Minute `now`: nature has ended what it ends now; the cook then picks what happens now.
    fn wins(&mut self, now: i64, at: Vec<Option<i64>>) -> bool {
        if at.iter().all(Option::is_some) {
            return self.holds(&at);
        }
        if now > LAST || !self.holds(&at) {
            return false;
        }
        if let Some(&known) = self.seen.get(&(now, at.clone())) {
            return known;
        }
        // Nature first: each running length may end now, unless it must or must not.
        let mut outcomes = vec![at.clone()];
        for link in &self.stnu.natural {
            let mut next = Vec::new();
            for state in outcomes {
                match (state[link.from], state[link.to]) {
                    (Some(began), None) if now - began >= link.low && now - began <= link.high => {
                        let mut ended = state.clone();
                        ended[link.to] = Some(now);
                        next.push(ended);
                        if now - began < link.high {
                            next.push(state);
                        }
                    }
                    _ => next.push(state),
                }
            }
            outcomes = next;
        }
        let won = outcomes.into_iter().all(|state| self.picks(now, state));
        self.seen.insert((now, at), won);
        won
    }

    fn picks(&mut self, now: i64, state: Vec<Option<i64>>) -> bool {
        let open: Vec<usize> = self.chosen.iter().copied().filter(|&node| state[node].is_none()).collect();
        (0..1 << open.len()).any(|mask: u32| {
            let mut next = state.clone();
            for (n, &node) in open.iter().enumerate() {
                if mask & (1 << n) != 0 {
                    next[node] = Some(now);
                }
            }
            self.holds(&next) && self.wins(now + 1, next)
        })
    }
}

#[test]
fn random_networks_agree_with_the_game() {
    let mut dice = Dice(0x1234_5678_9abc_def0);
    let mut roll = |low: i64, high: i64| dice.roll(low, high);
    let mut tally = [0; 2];
    for round in 0..300 {
        // 0 the beginning, 1 and 2 chosen starts, 3 and 4 their natural ends, 5 chosen.
        let low = [roll(1, 2), roll(1, 2)];
        let natural =
            vec![bound(1, 3, low[0], low[0] + roll(0, 2)), bound(2, 4, low[1], low[1] + roll(0, 2))];
        let mut bounds: Vec<Bound> = (1..6).map(|node| bound(0, node, 0, LAST)).collect();
        for _ in 0..roll(2, 4) {
            let (from, to) = (roll(1, 5) as usize, roll(1, 5) as usize);
            if from != to {
                let least = roll(-3, 3);
                bounds.push(bound(from, to, least, if roll(0, 2) == 0 { OPEN } else { least + roll(0, 3) }));
            }
        }
        let stnu = network(6, &bounds, &natural);
        let mut game = Game { stnu: &stnu, chosen: vec![1, 2, 5], seen: Default::default() };
        let mut at = vec![None; 6];
        at[0] = Some(0);
        let won = game.wins(0, at);
        assert_eq!(stnu.controllable().is_some(), won, "round {round}: {stnu:#?}");
        tally[usize::from(won)] += 1;
    }
    assert!(tally.iter().all(|&count| count > 40), "{tally:?}");
}

/// From memory: Vidal and Fargier, *Handling contingency in temporal constraint networks: from consistency
/// to controllabilities*, JETAI 11, 1999. The story is theirs, the figures are made up.
/// Cooking takes 30 to 60 min, the guests drive for 60 to 80; dinner
/// is to be ready 0 to 5 min after they come. One cooks before one knows when they come: weakly
/// controllable, for each outcome has its start, and not dynamically.
#[test]
fn vidal_and_fargier_1999_cooking_before_the_guests_come() {
    // 1: cooking starts, 2: it ends; 3: the guests come.
    let dinner = |wait: i64| {
        network(4, &[bound(0, 1, 0, 100), bound(3, 2, 0, wait)], &[bound(1, 2, 30, 60), bound(0, 3, 60, 80)])
    };
    let fits = |cook: i64, drive: i64| {
        let known =
            [bound(0, 1, 0, 100), bound(3, 2, 0, 5), bound(1, 2, cook, cook), bound(0, 3, drive, drive)];
        network(4, &known, &[]).controllable().is_some()
    };
    assert!([30, 60].iter().all(|&cook| [60, 80].iter().all(|&drive| fits(cook, drive))), "weakly");
    assert!(dinner(5).controllable().is_none());
    // Both ranges together, 20 of the drive and 30 of the cooking, are what has to be waited for.
    assert!(dinner(49).controllable().is_none());
    assert!(dinner(50).controllable().is_some());
}

/// From memory: Morris, Muscettola and Vidal, *Dynamic control of plans with temporal uncertainty*, IJCAI
/// 2001: the triangular reduction. A —[x, y]→ C is nature's, B —[u, v]→ C is asked for.
/// Follow (v < 0): B waits for C. Precede (u ≥ 0): B has to lie y - v to x - u after A, whatever C does.
/// Unordered (u < 0 ≤ v): B waits for C or for y - v after A.
#[test]
fn morris_muscettola_and_vidal_2001_the_three_cases_of_a_triangle() {
    let triangle = |u: i64, v: i64, more: &[Bound]| {
        let bounds = [&[bound(0, 1, 0, OPEN), bound(2, 3, u, v)], more].concat();
        network(4, &bounds, &[bound(1, 3, 10, 20)])
    };
    // Precede, u = 5, v = 15: B exactly 5 after A.
    assert!(triangle(5, 15, &[bound(1, 2, 5, 5)]).controllable().is_some());
    assert!(triangle(5, 15, &[bound(1, 2, 4, 4)]).controllable().is_none());
    assert!(triangle(5, 15, &[bound(1, 2, 6, 6)]).controllable().is_none());
    assert!(triangle(6, 15, &[]).controllable().is_none(), "narrower than nature's range");
    // Unordered, u = -3, v = 4: B waits until 16 after A, unless C comes first.
    assert!(triangle(-3, 4, &[bound(1, 2, 0, 15)]).controllable().is_none());
    assert!(triangle(-3, 4, &[bound(1, 2, 0, 16)]).controllable().is_some());
    // The wait is no bound: B may be sooner, after C.
    assert!(triangle(-3, 4, &[bound(1, 2, 17, 30)]).controllable().is_none());
    // Follow, u = -9, v = -2: at C + 2, which is known.
    assert!(triangle(-9, -2, &[]).controllable().is_some());
    assert!(triangle(-9, -2, &[bound(1, 2, 0, 21)]).controllable().is_none());
    assert!(triangle(-9, -2, &[bound(1, 2, 0, 22)]).controllable().is_some());
}

/// After Morris 2006 (*A structural characterization of temporal dynamic controllability*, CP) and 2014: a
/// network fails just when it has a semi-reducible negative cycle, which may run through several natural
/// lengths one after the other; the bounds on it are what clashes. The network is made up, the theorem is
/// from memory.
#[test]
fn morris_2006_and_2014_a_clash_is_a_circle_through_several_lengths() {
    // Two lengths in a row, 10 to 20 and 5 to 9; then at most `slack` up to a deadline at 40, and one bound
    // that has nothing to do with it.
    let row = |slack: i64| {
        let bounds = [bound(0, 4, 40, 40), bound(3, 4, 0, slack), bound(0, 5, 1, 2)];
        network(6, &bounds, &[bound(1, 2, 10, 20), bound(2, 3, 5, 9)])
    };
    assert!(row(14).prove().is_ok(), "both vary by 14 together");
    let clash = row(13).prove().expect_err("one minute less is too little");
    assert_eq!((clash.bounds.as_slice(), clash.natural.as_slice()), ([0, 1].as_slice(), [0, 1].as_slice()));
}
