//! What to read and what it ought to be, with lines for the time and the reading.

use maud::{Markup, html};

use super::marks::{line, said, times};
use super::{Scope, deadlines};
use crate::compile::{Compiled, CompiledCook};
use crate::cook::{Check, Phase, Purpose, Test};
use crate::output::timeline::words;
use crate::quantity::{Scale, Temperature};
use crate::timing::{Clock, PhaseLine, Window};

struct Reading {
    clock: Option<Clock>,
    at: Option<Window>,
    phase: String,
    ought: String,
}

/// Of all cooks, in the order of the clock.
pub fn table(file: &Compiled, cooks: &[CompiledCook<'_>], scope: &Scope<'_>) -> Markup {
    let several = cooks.len() > 1;
    let mut readings: Vec<Reading> =
        cooks.iter().flat_map(|worked| of_cook(worked, several, scope, file.scale)).collect();
    readings.sort_by_key(|reading| reading.at.map(|at| at.earliest));
    let limits = deadlines::rows(file, cooks, scope);
    html! {
        @if !readings.is_empty() || limits.is_some() {
            table.readings {
                caption { "What to read" }
                thead { tr {
                    th scope="col" { "When" }
                    th scope="col" { "What it ought to be" }
                    th.written scope="col" { "Read at" }
                    th.written scope="col" { "Reading" }
                } }
                tbody {
                    @for (n, reading) in readings.iter().enumerate() { (row(scope.id("reading", n), reading)) }
                }
                @if let Some(limits) = limits { (limits) }
            }
        }
    }
}

fn row(id: String, reading: &Reading) -> Markup {
    html! {
        tr {
            td.when {
                @if let (Some(clock), Some(at)) = (&reading.clock, reading.at) { (times(clock, at)) }
            }
            td id=(id) { span.phase { (said(&reading.phase)) ": " } span.do { (said(&reading.ought)) } }
            td.written { (line("Read at", &id)) }
            td.written { (line("Reading", &id)) }
        }
    }
}

fn of_cook(worked: &CompiledCook<'_>, several: bool, scope: &Scope<'_>, scale: Scale) -> Vec<Reading> {
    let title = &worked.cook.title.value;
    let of_phase = |(n, phase): (usize, &Phase)| {
        let planned = worked.timeline.and_then(|plan| Some((plan.clock, plan.phases.get(n)?)));
        let ought = ought(phase, scale);
        let at = planned.and_then(|(_, planned)| moment(phase, planned));
        let phase = words::named(title, &phase.name, several);
        ought.map(|ought| Reading { clock: planned.map(|(clock, _)| clock), at, phase, ought })
    };
    let numbered = worked.cook.phases.iter().enumerate();
    numbered.filter(|(_, phase)| scope.holds(title, &phase.name)).filter_map(of_phase).collect()
}

/// What is said of a phase is for its end; of a serving, for all of it.
fn moment(phase: &Phase, planned: &PhaseLine) -> Option<Window> {
    if phase.purpose != Purpose::Serve {
        return planned.end;
    }
    let (start, end) = (planned.start?, planned.end?);
    Some(Window { earliest: start.earliest, latest: end.latest })
}

/// "until core 84 °C"; "at its end: core 55 °C to 72 °C".
pub fn ought(phase: &Phase, scale: Scale) -> Option<String> {
    let tests = phase.until.iter().flat_map(|until| &until.tests).map(|test| test_words(&test.value, scale));
    let tests = tests.collect::<Vec<_>>().join(" and ");
    let checks = phase.checks.iter().map(|check| check_words(&check.value, scale));
    let checks = checks.collect::<Vec<_>>().join(" and ");
    let when = if phase.purpose == Purpose::Serve { "throughout" } else { "at its end" };
    match (tests.is_empty(), checks.is_empty()) {
        (true, true) => None,
        (false, true) => Some(format!("until {tests}")),
        (true, false) => Some(format!("{when}: {checks}")),
        (false, false) => Some(format!("until {tests}; {when}: {checks}")),
    }
}

fn test_words(test: &Test, scale: Scale) -> String {
    match test {
        Test::Core(core) => format!("core {}", core.show(scale)),
        Test::Surface(surface) => format!("surface {}", surface.show(scale)),
        Test::Ph(ph) => format!("pH {}", crate::quantity::plain_number(*ph, 2)),
        Test::Spoken(words) => format!("“{words}”"),
    }
}

fn check_words(check: &Check, scale: Scale) -> String {
    let shares = |low: crate::quantity::Share, high: crate::quantity::Share| {
        if low == high { low.show() } else { format!("{} to {}", low.show(), high.show()) }
    };
    match *check {
        Check::Core { low, high } => format!("core {}", range(low, high, scale)),
        Check::Surface { low, high } => format!("surface {}", range(low, high, scale)),
        Check::Weight { low, high } => format!("weight {} of what it was", shares(low, high)),
        Check::Salt { low, high } => format!("salt {}", shares(low, high)),
        Check::Ph { low, high } => {
            let show = |ph| crate::quantity::plain_number(ph, 2);
            if low == high {
                format!("pH {}", show(low))
            } else {
                format!("pH {} to {}", show(low), show(high))
            }
        }
    }
}

fn range(low: Option<Temperature>, high: Option<Temperature>, scale: Scale) -> String {
    match (low, high) {
        (Some(low), Some(high)) if low == high => low.show(scale),
        (Some(low), Some(high)) => format!("{} to {}", low.show(scale), high.show(scale)),
        (Some(low), None) => format!("{} or above", low.show(scale)),
        (None, Some(high)) => format!("{} or below", high.show(scale)),
        (None, None) => "as measured".into(),
    }
}
