//! A temperature inside food is only known to somebody who has a thermometer.

use crate::cook::{Call, Check, Cook, Phase, Test};
use crate::findings::{Code, Finding};
use crate::say;
use crate::text::Span;

pub(super) fn check(cook: &Cook) -> Option<Finding> {
    let has_thermometer = cook.kit.iter().any(|kit| !kit.class.holds_food);
    if has_thermometer {
        return None;
    }
    let mut needs = cook.phases.iter().flat_map(|phase| measured(phase).map(move |span| (phase, span)));
    let (phase, first) = needs.next()?;
    let finding = Finding::new(
        Code::ProbeMissing,
        first,
        say!["A temperature of the food is asked for here, and there is no thermometer."],
        say!["Add a line `kit probe is probe thermometer`."],
    );
    // Three more are enough to show that it is wanted again and again.
    let finding = needs.take(3).fold(finding, |finding, (_, span)| finding.also(span, say!["and here"]));
    Some(finding.in_phase(&phase.name))
}

/// Every place in a phase that asks for a temperature of the food, in the order of the file.
fn measured(phase: &Phase) -> impl Iterator<Item = Span> {
    let ends = phase.until.iter().flat_map(|until| &until.tests);
    let ends =
        ends.filter(|test| matches!(test.value, Test::Core(_) | Test::Surface(_))).map(|test| test.span);
    let checks = phase.checks.iter();
    let checks = checks
        .filter(|check| matches!(check.value, Check::Core { .. } | Check::Surface { .. }))
        .map(|check| check.span);
    let calls = phase.jobs.iter().filter(|job| matches!(job.call, Call::AtCore(_))).map(|job| job.span);
    let mut spans: Vec<Span> = ends.chain(checks).chain(calls).collect();
    spans.sort_unstable();
    spans.into_iter()
}
