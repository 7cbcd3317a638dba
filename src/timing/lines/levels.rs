//! Sets of decisions, by their number on the way down.

/// A few numbers from 1 on.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Levels(Vec<u64>);

impl Levels {
    /// Puts a level in; 0 stands for what nobody decided.
    pub(super) fn insert(&mut self, level: u32) {
        if level == 0 {
            return;
        }
        let word = (level / 64) as usize;
        if self.0.len() <= word {
            self.0.resize(word + 1, 0);
        }
        self.0[word] |= 1 << (level % 64);
    }

    pub(super) fn contains(&self, level: u32) -> bool {
        self.0.get((level / 64) as usize).is_some_and(|word| word >> (level % 64) & 1 == 1)
    }

    pub(super) fn remove(&mut self, level: u32) {
        if let Some(word) = self.0.get_mut((level / 64) as usize) {
            *word &= !(1 << (level % 64));
        }
    }

    pub(super) fn extend(&mut self, other: &Self) {
        if self.0.len() < other.0.len() {
            self.0.resize(other.0.len(), 0);
        }
        self.0.iter_mut().zip(&other.0).for_each(|(word, more)| *word |= more);
    }
}
