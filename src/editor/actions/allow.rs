//! A reason to leave something as it is, for the writer to put in words.

use super::places::{below, line};
use super::trial::Offer;
use crate::editor::View;
use crate::findings::{Finding, Severity, Stage};

/// For a warning that hurts nobody.
pub fn offer(view: &View<'_>, finding: &Finding) -> Option<Offer> {
    use Stage::{Heat, Kit, Ledger, Timing};
    let may =
        finding.severity == Severity::Warning && matches!(finding.code.stage(), Ledger | Kit | Heat | Timing);
    let line = line(view, finding.span).filter(|_| may)?;
    let fact = format!("allow {} because \"say why\"", finding.code.name());
    Some((format!("Leave it, and say why: `allow {}`", finding.code.name()), below(view, line, &fact)))
}
