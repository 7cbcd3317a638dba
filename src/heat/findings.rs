//! Where the prediction and what is written do not fit together.

use super::band::Band;
use super::stop::{Stop, stop};
use super::walk::{Reach, Run};
use crate::cook::{Check, Cook, Phase, Test};
use crate::findings::{Code, Finding, Piece, Severity};
use crate::quantity::{Duration, Temperature};
use crate::say;
use crate::text::Span;

/// A miss within this is no miss, K: no thermometer in a kitchen tells it.
const CLOSE_K: f64 = 1.0;

pub fn findings(cook: &Cook, runs: &[Run]) -> Vec<Finding> {
    let mut found = Vec::new();
    for run in runs {
        let phase = cook.phase(run.phase);
        let about = |finding: Finding| Finding {
            food: Some(cook.item(run.item).name.clone()),
            ..finding.in_phase(phase.name.clone())
        };
        if let Some(finding) = unreachable(phase, run) {
            found.push(about(finding));
            continue;
        }
        found.extend(checkpoints(phase, run.exit_core_c).map(about));
        found.extend(too_soon_or_too_late(phase, run.alone_s).map(about));
    }
    found
}

/// The temperature that ends the phase never comes.
fn unreachable(phase: &Phase, run: &Run) -> Option<Finding> {
    let Reach::Short { limit_c, possible } = run.reach else { return None };
    let test = phase
        .until
        .as_ref()?
        .tests
        .iter()
        .find(|test| matches!(test.value, Test::Core(_) | Test::Surface(_)))?;
    let target = match test.value {
        Test::Core(target) | Test::Surface(target) => target,
        Test::Ph(_) | Test::Spoken(_) => return None,
    };
    // What is nearer than a tenth is that.
    let limit = Temperature::from_celsius((10.0 * limit_c).round() / 10.0);
    let colder = limit > target;
    Some(if possible {
        Finding::new(
            Code::EndOutOfReach,
            test.span,
            say!["As predicted, the food usually gets no further than ", limit, " here, and is to reach ", target, "."],
            if colder {
                say!["Choose a colder setting or a warmer end, or write what you have seen: `takes 2 h to 4 h`."]
            } else {
                say![
                    "A damp surface in dry air stays cool for hours. Cover or wrap it, raise the setting, or write what you have seen: `takes 2 h to 4 h`."
                ]
            },
        )
        .with_severity(Severity::Warning)
    } else {
        Finding::new(
            Code::EndOutOfReach,
            test.span,
            say![
                "The food can never reach ",
                target,
                " here: as predicted, it gets no further than ",
                limit,
                "."
            ],
            if colder {
                say!["Choose a colder setting, or a higher temperature to end at."]
            } else {
                say!["Choose a hotter setting, or a lower temperature to end at."]
            },
        )
    })
}

/// `expect core 60 °C to 72 °C` against the core at the end.
fn checkpoints(phase: &Phase, core_c: Band) -> impl Iterator<Item = Finding> + '_ {
    phase.checks.iter().filter(|_| phase.service.is_none()).filter_map(move |check| {
        let Check::Core { low, high } = check.value else { return None };
        let too_cold = low.is_some_and(|low| core_c.high < low.celsius() - CLOSE_K);
        let too_warm = high.is_some_and(|high| core_c.low > high.celsius() + CLOSE_K);
        (too_cold || too_warm).then(|| {
            let at = |c: f64| Piece::from(Temperature::from_celsius(c));
            unlikely(check.span, "the core at the end of this phase", at(core_c.low), at(core_c.high))
        })
    })
}

/// `until core 84 °C, takes 2 h to 4 h` and `within 90 min` against the time it is predicted to take.
fn too_soon_or_too_late(phase: &Phase, alone_s: Option<Band>) -> Option<Finding> {
    let predicted = alone_s?;
    if let Stop::Heat { takes: Some(takes), .. } = stop(phase)
        && (predicted.low > takes.high || predicted.high < takes.low)
    {
        return Some(slow(phase.lasts_span, predicted));
    }
    let within = phase.within.as_ref()?;
    (predicted.typical > within.value.seconds()).then(|| slow(within.span, predicted))
}

fn slow(span: Span, predicted: Band) -> Finding {
    let minutes = |seconds: f64| Piece::from(Duration::from_minutes((seconds / 60.0).round()));
    unlikely(span, "how long this takes", minutes(predicted.low), minutes(predicted.high))
}

fn unlikely(span: Span, what: &str, low: Piece, high: Piece) -> Finding {
    Finding::new(
        Code::ExpectationUnlikely,
        span,
        say![format!("The prediction does not fit {what}: it comes to "), low, " to ", high, "."],
        say![
            "Look at the thickness, the setting and the cover. If you have measured it, trust the probe, and give its readings to `dwell curve --core`."
        ],
    )
}
