//! A reason to leave something as it is, for the writer to put in words.

use super::places::{below, line};
use super::trial::Offer;
use crate::editor::View;
use crate::findings::{Code, Finding, Severity};

/// The worst that comes of these is a small plate, or dinner late. Whatever is about food that may make somebody ill, about
/// bags, smoke or heat, about kit that might suffer or boil over, or about what was measured, is none of them.
const HARMLESS: [Code; 3] = [Code::ServingsShort, Code::LossNeverTaken, Code::OnTimeIfLucky];

/// For a warning that hurts nobody. Without a reason the compiler says that there has to be one.
pub fn offer(view: &View<'_>, finding: &Finding, reason: &str) -> Option<Offer> {
    let may = finding.severity == Severity::Warning && HARMLESS.contains(&finding.code);
    let line = line(view, finding.span).filter(|_| may)?;
    let fact = format!("allow {} because \"{reason}\"", finding.code.name());
    Some((format!("Leave it, and say why: `allow {}`", finding.code.name()), below(view, line, &fact)))
}
