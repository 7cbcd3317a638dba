//! What a won game tells the cook: the windows of every step, and what to do when.

use rustc_hash::FxHashMap;

use super::board::Board;
use super::position::{Code, Key};
use super::search::Known;
use crate::timing::clock::Minute;
use crate::timing::timeline::Window;

/// One answer to everything that nature may do, from every position that it leads to.
#[derive(Debug, Clone)]
pub(in crate::timing::lines) struct Book {
    pages: FxHashMap<Key, Vec<Entry>>,
    start: Key,
    unit: Minute,
    steps: usize,
}

/// If nature brings about this at a position, the cook does that.
#[derive(Debug, Clone, Copy)]
struct Entry {
    struck: u64,
    done: u64,
    next: Key,
}

impl Book {
    pub(super) fn of(board: &Board, code: &Code, known: &Known) -> Option<Self> {
        let start = board.start(code);
        let mut pages = FxHashMap::default();
        let mut open = vec![start];
        // It leads to nothing that was not looked at before.
        let mut left = u32::MAX;
        while let Some(key) = open.pop() {
            if key == Key::OVER || pages.contains_key(&key) {
                continue;
            }
            let outcomes = board.outcomes(code, key, &mut left, &mut |_| true)?;
            let won = |next: Key| next == Key::OVER || known.won.get(&next) == Some(&true);
            let entry = |outcome: &super::turn::Outcome| {
                let choice = outcome.choices.iter().find(|choice| won(choice.next))?;
                Some(Entry { struck: outcome.struck, done: choice.done, next: choice.next })
            };
            let entries: Vec<Entry> = outcomes.iter().map(entry).collect::<Option<_>>()?;
            open.extend(entries.iter().map(|entry| entry.next));
            pages.insert(key, entries);
        }
        Some(Self { pages, start, unit: board.unit, steps: board.pieces.len() })
    }

    /// Start and end of each step over all plays.
    pub(in crate::timing::lines) fn windows(&self) -> Option<Vec<(Window, Window)>> {
        let events = self
            .pages
            .iter()
            .flat_map(|(key, entries)| entries.iter().map(|entry| (key.tick, entry.struck | entry.done)));
        windows(self.steps, self.unit, events)
    }

    fn entry(&self, key: Key, struck: u64) -> Option<&Entry> {
        self.pages.get(&key)?.iter().find(|entry| entry.struck == struck)
    }
}

/// The windows of what happens at these ticks.
pub(super) fn windows(
    steps: usize,
    unit: Minute,
    events: impl Iterator<Item = (i32, u64)>,
) -> Option<Vec<(Window, Window)>> {
    let mut all: Vec<Option<Window>> = vec![None; 2 * steps];
    for (tick, moments) in events {
        let minute = Minute::from(tick) * unit;
        for (_, window) in all.iter_mut().enumerate().filter(|(moment, _)| moments >> moment & 1 == 1) {
            let known = window.get_or_insert(Window { earliest: minute, latest: minute });
            known.earliest = known.earliest.min(minute);
            known.latest = known.latest.max(minute);
        }
    }
    let all: Vec<Window> = all.into_iter().collect::<Option<_>>()?;
    Some(all.chunks(2).map(|pair| (pair[0], pair[1])).collect())
}

/// A run of it: what has happened, and when.
#[derive(Debug, Clone)]
pub(in crate::timing::lines) struct Reading<'b> {
    book: &'b Book,
    key: Key,
    /// What nature has brought about at this position.
    struck: u64,
    at: Vec<Option<Minute>>,
}

impl Book {
    pub(in crate::timing::lines) fn read(&self) -> Reading<'_> {
        Reading { book: self, key: self.start, struck: 0, at: vec![None; 64] }
    }
}

impl Reading<'_> {
    pub(in crate::timing::lines) fn when(&self, step: usize, end: bool) -> Option<Minute> {
        self.at[2 * step + usize::from(end)]
    }

    pub(in crate::timing::lines) fn ended(&mut self, step: usize, minute: Minute) {
        self.strike(2 * step + 1, minute);
    }

    pub(in crate::timing::lines) fn came(&mut self, nth: usize, minute: Minute) {
        self.strike(2 * self.book.steps + nth, minute);
    }

    fn strike(&mut self, moment: usize, minute: Minute) {
        let (key, struck) = self.ahead(|key| self.minute(key) >= minute);
        (self.key, self.struck) = (key, struck | 1 << moment);
        self.at[moment] = Some(minute);
    }

    /// The next minute at which the cook does something if nature does nothing before.
    pub(in crate::timing::lines) fn next(&self) -> Option<Minute> {
        let (key, struck) = self.ahead(|_| false);
        let entry = self.book.entry(key, struck)?;
        (entry.done != 0).then(|| self.minute(key))
    }

    /// Does it.
    pub(in crate::timing::lines) fn act(&mut self) {
        let (key, struck) = self.ahead(|_| false);
        let Some(entry) = self.book.entry(key, struck).filter(|entry| entry.done != 0) else { return };
        let minute = self.minute(key);
        for (moment, at) in self.at.iter_mut().enumerate().filter(|(m, _)| entry.done >> m & 1 == 1) {
            debug_assert!(at.is_none(), "{moment}");
            *at = Some(minute);
        }
        (self.key, self.struck) = (entry.next, 0);
    }

    fn minute(&self, key: Key) -> Minute {
        Minute::from(key.tick) * self.book.unit
    }

    /// Past all positions at which nothing happens, up to where it is enough.
    fn ahead(&self, enough: impl Fn(Key) -> bool) -> (Key, u64) {
        let (mut key, mut struck) = (self.key, self.struck);
        while key != Key::OVER && !enough(key) {
            match self.book.entry(key, struck) {
                Some(entry) if entry.done == 0 => (key, struck) = (entry.next, 0),
                _ => break,
            }
        }
        (key, struck)
    }
}
