//! A layer that is less deep.

use super::{Ladder, Offers};
use crate::cook::{Amount, Origin, Part, Phase};
use crate::cures::steps;
use crate::quantity::{Length, plain_number};

impl Offers<'_> {
    /// How deep it lies, in this phase or where that was last said of it.
    pub(super) fn shallower(&self, phase: &Phase) -> Ladder {
        let before = self.before(phase);
        let mut phases = std::iter::once(phase).chain(before);
        let said = phases.find_map(|phase| phase.shape.depth.map(|depth| (phase, depth)));
        let Some(depth) = said.map(|(_, depth)| depth.value).or_else(|| self.bought_depth(phase)) else {
            return Ladder::default();
        };
        let figures = steps::shallower(depth);
        let clause = |at: Length| format!("depth {}", at.show());
        match said {
            Some((there, depth)) => {
                if there.shape.pieces.is_some() {
                    return self.more_trays(there, depth.value, &figures);
                }
                let instead = |at| self.written.instead(depth.span, clause(at), there);
                Ladder::of(&figures, 0, instead).bounded()
            }
            None => Ladder::of(&figures, 0, |at| self.written.added(phase, clause(at))).bounded(),
        }
    }

    pub(super) fn bought_depth(&self, phase: &Phase) -> Option<Length> {
        let cook = self.written.cook;
        let of = |phase: &Phase| {
            phase.placings.iter().find_map(|placing| match &cook.item(placing.item).origin {
                Origin::Food(stock) => stock.shape.depth.map(|depth| depth.value),
                _ => None,
            })
        };
        of(phase).or_else(|| self.before(phase).into_iter().find_map(of))
    }

    /// The same trays, less deep: more of them, with less in each.
    pub(super) fn more_trays(&self, phase: &Phase, depth: Length, figures: &[Length]) -> Ladder {
        let (Some(pieces), Some(written)) = (&phase.shape.pieces, &phase.shape.depth) else {
            return Ladder::default();
        };
        // For other numbers of people the file is written in other figures.
        let typed = self.written.slice(pieces.span);
        if !typed.starts_with(&format!("{} ", plain_number(pieces.count, 2))) {
            return Ladder::default();
        }
        // Who takes so many trays later would get less.
        let counts = |part: &Part| {
            matches!(part, Part::Amount(Amount::Count { word, .. })
                if word.trim_end_matches('s') == pieces.word.trim_end_matches('s'))
        };
        let mut parts = self.written.cook.phases.iter().flat_map(|phase| &phase.placings);
        if parts.any(|placing| counts(&placing.part)) {
            return Ladder::default();
        }
        let rungs = figures.iter().map_while(|&at| {
            let count = (pieces.count * (depth / at) - 1e-6).ceil();
            let each = pieces.each.times(pieces.count / count);
            let trays = format!("{count} {} of {}", pieces.word, each.show());
            let trays = self.written.instead(pieces.span, trays, phase)?;
            let flat = self.written.instead(written.span, format!("depth {}", at.show()), phase)?;
            Some(vec![trays, flat])
        });
        Ladder { rungs: rungs.collect(), all_or_none: true, ..Ladder::default() }
    }
}
