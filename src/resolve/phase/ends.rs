//! What ends a phase.

use super::super::blocks::Block;
use super::super::builder::Builder;
use crate::cook::{Lasts, Phase, Test};
use crate::findings::{Code, Finding};
use crate::say;
use crate::syntax::Clause;

/// What ends a phase, gathered over its clauses; it may have one end.
#[derive(Default)]
pub(super) struct Ends<'c> {
    pub clock: Option<(&'c Clause, Lasts)>,
    pub takes: Option<(&'c Clause, Lasts)>,
    pub until: Option<&'c Clause>,
    /// An end was written that could not be typed.
    pub lost: bool,
}

impl Ends<'_> {
    pub(super) fn settle(&self, builder: &mut Builder<'_>, block: &Block<'_>, phase: &mut Phase) {
        if phase.service.is_some() {
            phase.lasts = Lasts::Serving;
            return;
        }
        let spoken = phase
            .until
            .as_ref()
            .is_some_and(|until| until.tests.iter().any(|test| matches!(test.value, Test::Spoken(_))));
        if let (Some((clause, _)), true) = (self.clock, self.takes.is_some() || self.until.is_some()) {
            builder.twice(clause, "when the phase ends");
        }
        if let Some((clause, lasts)) = self.takes.or(self.clock) {
            phase.lasts = lasts;
            phase.lasts_span = clause.span;
        } else if let Some(clause) = self.until {
            phase.lasts = if spoken { Lasts::Unsaid } else { Lasts::Open };
            phase.lasts_span = clause.span;
            if spoken && !self.lost && !block.damaged {
                builder.report(
                    Finding::new(
                        Code::EndMissing,
                        clause.span,
                        say!["It is not said how long this takes, and nobody can work that out from words."],
                        say!["Add the shortest and the longest you have seen: `takes 1 h to 2 h`."],
                    )
                    .in_phase(phase.name.clone()),
                );
            }
        } else if !self.lost && !block.damaged {
            builder.report(
                Finding::new(
                    Code::EndMissing,
                    phase.span,
                    say![format!("It is not said when `{}` ends.", phase.name)],
                    say![
                        "Write `for 5 h` if you decide, `takes 20 min to 30 min` if the work or the food decides, or `until core 84 °C`."
                    ],
                )
                .in_phase(phase.name.clone()),
            );
        }
    }
}

pub(super) fn clock<'c>(
    builder: &mut Builder<'_>,
    clause: &'c Clause,
    lasts: Option<Lasts>,
    ends: &mut Ends<'c>,
) {
    ends.lost |= lasts.is_none();
    if ends.clock.is_some() {
        builder.twice(clause, "how long the phase lasts");
    } else {
        ends.clock = lasts.map(|lasts| (clause, lasts));
    }
}

/// `20 minutes` alone.
pub(super) fn who_decides(builder: &mut Builder<'_>, clause: &Clause, phase: &str) {
    let typed = builder.text(clause.span).value;
    builder.report(
        Finding::new(
            Code::EndMissing,
            clause.span,
            say![format!("`{typed}` does not say who decides when this ends.")],
            say![format!(
                "Write `for {typed}` if you decide, or `takes` with the shortest and the longest if the work or the food decides: `takes 15 min to 25 min`."
            )],
        )
        .in_phase(phase),
    );
}
