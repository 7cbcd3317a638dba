//! Changes that lead further and further.

use crate::cures::changes::Change;

/// Changes of one kind, each going further than the last, and the rung that is tried first.
#[derive(Debug, Clone, Default)]
pub struct Ladder {
    pub rungs: Vec<Vec<Change>>,
    pub hint: usize,
    /// What the last rung does not cure none does.
    pub all_or_none: bool,
}

impl Ladder {
    pub fn of<T: Copy>(figures: &[T], hint: usize, change: impl Fn(T) -> Option<Change>) -> Self {
        let rungs = figures.iter().map_while(|&figure| Some(vec![change(figure)?])).collect();
        Self { rungs, hint, all_or_none: false }
    }

    pub fn one(change: Option<Change>) -> Self {
        Self { rungs: change.map(|change| vec![change]).into_iter().collect(), ..Self::default() }
    }

    pub fn rung(&self, at: usize) -> Option<Vec<Change>> {
        self.rungs.get(at).cloned()
    }

    /// Every rung with all these; nothing where there are none. What the last does not cure then, none does.
    pub fn and_all(self, further: Option<Vec<Change>>) -> Self {
        let further = further.unwrap_or_default();
        if further.is_empty() {
            return Self::default();
        }
        further.into_iter().fold(self, |ladder, change| ladder.and(Some(change))).bounded()
    }

    pub fn bounded(self) -> Self {
        Self { all_or_none: true, ..self }
    }

    /// Without what goes further than these.
    pub fn up_to(&self, rungs: usize) -> Self {
        Self { rungs: self.rungs.iter().take(rungs).cloned().collect(), hint: self.hint, all_or_none: true }
    }

    /// Every rung with a further change; nothing where there is none.
    pub fn and(mut self, further: Option<Change>) -> Self {
        match further {
            Some(further) => self.rungs.iter_mut().for_each(|rung| rung.push(further.clone())),
            None => self.rungs.clear(),
        }
        self
    }
}
