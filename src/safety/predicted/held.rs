//! The food itself while it is kept hot or cold, from the first moment to the last.

use super::super::Verdict;
use super::super::chance::typed;
use super::super::history::{self, judge};
use super::super::holding::Bound as Limited;
use super::super::lot::Lot;
use super::super::report::{About, Report};
use super::track::{Bound, Lasting, Track, track, track_once_cold};
use super::{Level, Place, best_way, food, lacking, put_down, weigh};
use crate::cook::ItemId;
use crate::findings::{Code, Severity, Text};
use crate::say;
use crate::tables::{Aim, FoodState, Rule, Species};
use crate::text::Span;

/// Food in a hot hold. `placed` is where it comes in.
///
/// # Errors
/// What is missing for a prediction.
pub fn hot(
    report: &mut Report,
    lot: &Lot,
    about: About,
    bounds: &[Limited],
    placed: Span,
) -> Result<(), Text> {
    let track = track(report, &[about], Bound::Cold, Lasting::Most).map_err(|missing| lacking(&missing))?;
    let held = held(report, lot, about.food);
    let counts = |rule: &Rule| bounds.iter().any(|(other, _)| other.id == rule.id);
    let all = best_way(weigh(report, Aim::HotHold, &held, &track.lines, counts));
    let (Some(one), Some((_, limit))) = (all.first(), bounds.first()) else { return Err(say![]) };
    let phase = report.cook.phase(about.phase);
    let (start, against) = (track.lines.usual.start(), one.against());
    let enters = against.moment.is_some_and(|moment| moment <= start);
    let setting = phase.setting.filter(|setting| !setting.kept);
    let (code, span) = match (enters, setting) {
        (true, _) => (Code::HoldEnteredCold, placed),
        (false, Some(setting)) => (Code::HoldTooCool, setting.span),
        (false, None) => (Code::HoldTooCool, phase.name_span),
    };
    let mut cure = match enters {
        true => say![format!(
            "Heat it to {} or hotter before it is held, with an end that a probe shows.",
            typed(*limit)
        )],
        false => say![
            "Wrap the food or seal it in foil (bare and damp, it stays cool in dry air), set the hold hotter, or hold it for less."
        ],
    };
    if one.level() == Level::Doubtful {
        cure.push(" Or say a smaller `±` of the setting and the thickness, if you know them better than they are taken for.");
    }
    let gravest = match tolerated(report, &track, &held, counts) {
        Some(asks) => {
            cure.push(format!(" A set time below the limit may be allowed: {asks}"));
            Severity::Warning
        }
        None => Severity::Error,
    };
    put_down(report, one, Aim::HotHold, Bound::Cold, Place { code, span, about, gravest, cure });
    Ok(())
}

/// What another rule of the set lets pass.
fn tolerated(
    report: &Report,
    track: &Track,
    held: &history::Food,
    counts: impl Fn(&Rule) -> bool,
) -> Option<String> {
    let outcomes = judge(&track.lines.usual, held, Aim::HotHold, report.rules);
    let met = |outcome: &&history::Outcome| outcome.verdict == Verdict::Met && !counts(outcome.rule);
    let plain = |outcome: &&history::Outcome| outcome.rule.on_curve.is_some() || outcome.rule.aims.is_some();
    outcomes.iter().find(|outcome| met(outcome) && plain(outcome)).map(|outcome| outcome.rule.asks.clone())
}

/// Food in the cold, once it has come down to the limit: the way there is a matter of cooling.
///
/// # Errors
/// What is missing for a prediction.
pub fn cold(
    report: &mut Report,
    lot: &Lot,
    about: About,
    (rule, limit): Limited,
    span: Span,
) -> Result<(), Text> {
    let track = track_once_cold(report, about, limit.highest()).map_err(|missing| lacking(&missing))?;
    let held = held(report, lot, about.food);
    let all = weigh(report, Aim::ColdHold, &held, &track.lines, |other| other.id == rule.id);
    let Some(one) = all.first() else { return Err(say![]) };
    // It hangs on how cold it comes in, which is another matter.
    if one.level() == Level::Doubtful && track.lines.bound.first() > limit.highest() {
        let why = say![
            "Predicted: as it usually goes, it is cold enough. How cold it is for certain hangs on how cold it comes in; `starts at` says that of bought food."
        ];
        report.judged(&rule.id, Verdict::NotJudged, about, why);
        return Ok(());
    }
    let cure =
        say!["Set it colder, or bring the food in colder. A setting with its own `±` leaves less in doubt."];
    put_down(
        report,
        one,
        Aim::ColdHold,
        Bound::Warm,
        Place { code: Code::HoldTooWarm, span, about, gravest: Severity::Error, cure },
    );
    Ok(())
}

/// Food that is kept, cooked or not.
pub fn held(report: &Report, lot: &Lot, item: ItemId) -> history::Food {
    let kind = report.cook.item(item).kind.as_ref().map(|kind| &kind.value);
    let (species, state) =
        kind.map_or((Species::Other, FoodState::Cooked), |kind| (kind.species, kind.state));
    let name = kind.map_or("", |kind| kind.name.as_str());
    history::Food {
        cooked_by: lot.cooked_by.clone(),
        bought_cooked: lot.bought_cooked,
        ..food(species, state, name, kind.map(|kind| &kind.properties))
    }
}
