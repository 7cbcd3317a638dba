//! The rules once more, over the times at which things really happened: a plan from now on is no reason to eat what has
//! stood out all day.

use super::Worked;
use super::lengths::judged_with;
use crate::cook::{Cook, Lasts, Phase};
use crate::findings::{Code, Finding, Severity};
use crate::quantity::Duration;
use crate::say;
use crate::timing::{State, Timeline};

/// What the rules find in the cook as it has gone so far, beyond what was `said` of the file.
pub fn judged(cook: &mut Cook, worked: &Worked, timeline: &Timeline, said: &[Finding]) -> Vec<Finding> {
    let verdicts = judged_with(cook, &worked.ledger, &worked.sets, lengths(timeline));
    let mut found: Vec<Finding> = verdicts.into_iter().flat_map(|of_set| of_set.findings).collect();
    let known = |one: &Finding| {
        let alike = |other: &&Finding| {
            (other.code, &other.phase, &other.food) == (one.code, &one.phase, &one.food)
                && other.severity == one.severity
        };
        said.iter().any(|other| alike(&other))
    };
    found.retain(|one| one.severity != Severity::Note && !known(one));
    for one in &mut found {
        one.message =
            say!["As it has gone so far, by the clock: "].followed_by(std::mem::take(&mut one.message));
        // What is not cooked yet may be cooked on.
        if one.code == Code::CookEndTooCool {
            continue;
        }
        let first = say![
            "What was out of control for too long is thrown away, not served. If the times given are wrong, give the right \
             ones. For the next time: "
        ];
        one.remedy = first.followed_by(std::mem::take(&mut one.remedy));
    }
    found
}

/// How long each phase has lasted by now, or else what is written; asked in their order.
pub fn lengths(timeline: &Timeline) -> impl FnMut(&Phase) -> Lasts {
    let mut lines = timeline.phases.iter();
    move |phase| {
        let (Some(now), Some(line)) = (timeline.now, lines.next()) else { return phase.lasts };
        let (Some(start), Some(end)) = (line.start, line.end) else { return phase.lasts };
        let took = |end| Duration::from_minutes((end - start.earliest) as f64);
        match line.state {
            State::Done => over(phase.lasts, took(end.earliest)),
            State::Going => going(phase.lasts, took(now)),
            State::ToCome => phase.lasts,
        }
    }
}

/// Over after so long. What food decides may be over sooner than anybody has seen.
fn over(written: Lasts, took: Duration) -> Lasts {
    match written {
        Lasts::Fixed(_) | Lasts::Chosen { .. } => Lasts::Fixed(took),
        other => going(other, took),
    }
}

/// Not over after so long.
fn going(written: Lasts, took: Duration) -> Lasts {
    match written {
        Lasts::Fixed(length) => Lasts::Fixed(length.max(took)),
        Lasts::Chosen { low, high: Some(high) } if took > high => {
            Lasts::Chosen { low: low.max(took), high: Some(took) }
        }
        Lasts::Chosen { low, high: None } => Lasts::Chosen { low: low.max(took), high: None },
        Lasts::Nature { high, each, .. } if took > high => Lasts::Nature { low: took, high: took, each },
        other => other,
    }
}
