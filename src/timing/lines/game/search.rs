//! Who wins: down from a position, every position once.

use rustc_hash::{FxHashMap, FxHashSet};

use super::board::Board;
use super::position::{Code, Key};
use super::turn::{Choice, Keeps, Outcome};

/// What is known of positions, and how many more answers of the cook may be tried.
pub(super) struct Known {
    pub(super) won: FxHashMap<Key, bool>,
    pub(super) left: u32,
}

/// A position on the way down, and which answer to what is being looked at.
struct Frame {
    key: Key,
    outcomes: Vec<Outcome>,
    outcome: usize,
    choice: usize,
}

/// Whether the cook has an answer to everything that nature may do; `None` if that takes too many tries to tell.
pub(super) fn wins(board: &Board, code: &Code, root: Key, known: &mut Known) -> Option<bool> {
    let mut frames = Vec::new();
    if let Some(won) = look(board, code, root, known, &mut frames)? {
        return Some(won);
    }
    while let Some(frame) = frames.last_mut() {
        let Some(outcome) = frame.outcomes.get(frame.outcome) else {
            known.won.insert(frame.key, true);
            frames.pop();
            continue;
        };
        let Some(choice) = outcome.choices.get(frame.choice) else {
            known.won.insert(frame.key, false);
            frames.pop();
            continue;
        };
        let Some(won) = look(board, code, choice.next, known, &mut frames)? else { continue };
        let Some(frame) = frames.last_mut() else { break };
        if won {
            (frame.outcome, frame.choice) = (frame.outcome + 1, 0);
        } else {
            frame.choice += 1;
        }
    }
    known.won.get(&root).copied()
}

/// What is known of a position, or else it is laid on the frames.
fn look(
    board: &Board,
    code: &Code,
    key: Key,
    known: &mut Known,
    frames: &mut Vec<Frame>,
) -> Option<Option<bool>> {
    if key == Key::OVER {
        return Some(Some(true));
    }
    if let Some(&won) = known.won.get(&key) {
        return Some(Some(won));
    }
    let outcomes = board.outcomes(code, key, &mut known.left, &mut |_| true)?;
    if outcomes.iter().any(|outcome| outcome.choices.is_empty()) {
        known.won.insert(key, false);
        return Some(Some(false));
    }
    frames.push(Frame { key, outcomes, outcome: 0, choice: 0 });
    Some(None)
}

/// A way through with nature on the cook's side, past nothing but what `keeps` lets pass: what happens at which tick.
pub(super) fn way(
    board: &Board,
    code: &Code,
    left: &mut u32,
    keeps: &mut Keeps<'_>,
) -> Option<Option<Vec<(i32, u64)>>> {
    let root = board.start(code);
    let mut seen = FxHashSet::from_iter([root]);
    let mut frames: Vec<(Key, Vec<(u64, Choice)>)> = vec![(root, kind(board, code, root, left, keeps)?)];
    let mut way: Vec<(i32, u64)> = Vec::new();
    while let Some((key, answers)) = frames.last_mut() {
        let Some((struck, choice)) = answers.pop() else {
            frames.pop();
            way.pop();
            continue;
        };
        let step = (key.tick, struck | choice.done);
        if choice.next == Key::OVER {
            way.push(step);
            return Some(Some(way));
        }
        if seen.insert(choice.next) {
            frames.push((choice.next, kind(board, code, choice.next, left, keeps)?));
            way.push(step);
        }
    }
    Some(None)
}

/// Every answer to anything, the first last.
fn kind(
    board: &Board,
    code: &Code,
    key: Key,
    left: &mut u32,
    keeps: &mut Keeps<'_>,
) -> Option<Vec<(u64, Choice)>> {
    let outcomes = board.outcomes(code, key, left, keeps)?;
    let all = outcomes.into_iter().flat_map(|outcome| {
        let struck = outcome.struck;
        outcome.choices.into_iter().map(move |choice| (struck, choice))
    });
    let mut all: Vec<_> = all.collect();
    all.reverse();
    Some(all)
}

impl Known {
    pub(super) fn new(left: u32) -> Self {
        Self { won: FxHashMap::default(), left }
    }
}
