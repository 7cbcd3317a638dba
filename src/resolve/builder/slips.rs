//! Facts that stand in the wrong block, alone or twice.

use super::super::blocks::{Block, block_word};
use super::super::place::home;
use super::Builder;
use crate::findings::{Code, Finding, Text};
use crate::quantity::Dimension;
use crate::say;
use crate::syntax::{Checked, Clause, ClauseKind, Measure};

impl Builder<'_> {
    /// Reports a clause that belongs in another kind of block.
    pub fn out_of_place(&mut self, clause: &Clause, block: &Block<'_>) {
        if let ClauseKind::Amount { measure, of: None, .. } = &clause.kind
            && self.units.is(measure, Dimension::Temperature)
        {
            self.temperature_of_what(clause, measure);
            return;
        }
        let here = block_word(&block.head.kind);
        let home = home(&clause.kind);
        let typed = self.text(clause.span).value;
        let remedy = if let Some(instead) = self.said_here(clause, here) {
            instead
        } else if home == here {
            say!["Take it away, or say it in a block of its own."]
        } else {
            say![format!("Move it below the `{home}` line that it is about.")]
        };
        self.report(Finding::new(
            Code::ClauseOutOfPlace,
            clause.span,
            say![format!("`{typed}` does not belong in a `{here}` block.")],
            remedy,
        ));
    }

    /// How a fact that looks like one of another block is said in this one.
    fn said_here(&self, clause: &Clause, here: &str) -> Option<Text> {
        let typed = self.text(clause.span).value;
        Some(match (&clause.kind, here) {
            (ClauseKind::StartsAt(_), "phase") => {
                say![
                    "For a time of day write `starts at 08:00`; the food's own temperature stands in its `food` block."
                ]
            }
            (ClauseKind::Amount { .. }, "kit") => match typed.to_lowercase().split_once(" shel") {
                Some((number, _)) => say![format!("Write `shelves {number}`.")],
                None => say![format!("Write `holds {typed}` if that is how much food fits.")],
            },
            (ClauseKind::Check { what: Checked::Weight, measure, .. }, "food") => {
                say![format!("Write the amount alone: `{}`.", self.text(measure.span).value)]
            }
            (ClauseKind::For(measure), "cook") => {
                let people = measure.low().first().filter(|figure| figure.value.fract() == 0.0)?;
                let word = self.units.slice(people.unit?).to_lowercase();
                if !matches!(word.as_str(), "people" | "persons" | "guests" | "portions" | "servings") {
                    return None;
                }
                say![format!("Write `serves {}`.", people.value)]
            }
            _ => return None,
        })
    }

    /// Reports a temperature that stands alone.
    pub fn temperature_of_what(&mut self, clause: &Clause, measure: &Measure) {
        let typed = self.text(measure.span).value;
        self.report(Finding::new(
            Code::TemperatureOfWhat,
            clause.span,
            say![format!("`{typed}` does not say what it is the temperature of.")],
            say![format!("Write `air {typed}`, `water {typed}` or `core {typed}`, whichever it is.")],
        ));
    }

    /// Reports a fact that was already said in this block.
    pub fn twice(&mut self, clause: &Clause, what: &str) {
        let typed = self.text(clause.span).value;
        self.report(Finding::new(
            Code::ClauseTwice,
            clause.span,
            say![format!("`{typed}` says {what} a second time in this block.")],
            say!["Keep one of the two."],
        ));
    }
}
