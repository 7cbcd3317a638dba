//! Time between two temperatures, and how it is counted.

use super::super::Verdict;
use super::record::{History, Spell};
use super::ruling::{Measured, Ruling, cold_edge, hot_edge, in_time};
use crate::quantity::Duration;
use crate::tables::{Aim, Band, Count};

/// `until`: nothing counts from there on.
pub(super) fn judge(
    history: &History,
    band: &Band,
    max: Duration,
    strict: bool,
    aim: Aim,
    until: Option<Duration>,
) -> Ruling {
    let end = until.unwrap_or(history.end());
    let above = band.above.map(|limit| cold_edge(limit, false));
    let below = band.below.map(|limit| hot_edge(limit, false));
    let outings: Vec<Spell> = history
        .between(above, below)
        .into_iter()
        .filter(|spell| spell.start < end)
        .map(|spell| Spell { end: spell.end.min(end), ..spell })
        .collect();
    if let Some(too_warm) = too_warm(history, band) {
        return too_warm;
    }
    let ruling = match band.count {
        Count::Total => total(band, max, strict, &outings, history.end()),
        Count::Once => once(max, strict, &outings, history.end()),
        Count::SinceLeaving => {
            let first = history.first();
            let starts_out = above.is_none_or(|edge| first > edge) && below.is_none_or(|edge| first < edge);
            since_leaving(max, strict, &outings, history, starts_out)
        }
    };
    let rising = matches!(aim, Aim::Cook | Aim::ComeUp);
    let still_under = below.is_some_and(|edge| history.hottest() < edge);
    if rising && until.is_none() && still_under && ruling.verdict == Verdict::Met {
        return ruling.open("the history ends before the food is through it");
    }
    ruling
}

fn too_warm(history: &History, band: &Band) -> Option<Ruling> {
    let ceiling = band.ceiling?;
    let edge = cold_edge(ceiling, false);
    if history.hottest() <= edge {
        return None;
    }
    let moment = history.between(Some(edge), None).first().map_or(history.start(), |spell| spell.start);
    Some(Ruling::new(false, Measured::at_most(history.hottest(), ceiling.highest()), moment))
}

/// Every outing added up.
fn total(band: &Band, max: Duration, strict: bool, outings: &[Spell], end: Duration) -> Ruling {
    let sum: Duration = outings.iter().map(|spell| spell.length()).sum();
    let measured = Measured::no_longer_than(sum, max);
    if !in_time(sum, max, strict) {
        return Ruling::new(false, measured, passes(outings, max, end));
    }
    let Some(back_within) = band.back_within_s.map(Duration::from_seconds) else {
        return Ruling::new(true, measured, end);
    };
    let mut so_far = Duration::ZERO;
    for outing in outings.iter().filter(|outing| outing.end < end) {
        so_far = so_far + outing.length();
        if !in_time(so_far, back_within, strict) {
            let late = Measured::no_longer_than(so_far, back_within);
            return Ruling::new(false, late, outing.end).because("it was put back too late to be kept on");
        }
    }
    Ruling::new(true, measured, end)
}

/// The moment at which the sum gets to `max`.
fn passes(outings: &[Spell], max: Duration, end: Duration) -> Duration {
    let mut left = max;
    for outing in outings {
        if outing.length() >= left {
            return outing.start + left;
        }
        left = left - outing.length();
    }
    end
}

fn once(max: Duration, strict: bool, outings: &[Spell], end: Duration) -> Ruling {
    let sum: Duration = outings.iter().map(|spell| spell.length()).sum();
    let measured = Measured::no_longer_than(sum, max);
    match outings {
        [_, second, ..] => Ruling::new(false, measured, second.start)
            .because("it is allowed once, and this is the second time"),
        [only] if !in_time(sum, max, strict) => Ruling::new(false, measured, only.start + max),
        _ => Ruling::new(true, measured, end),
    }
}

fn since_leaving(
    max: Duration,
    strict: bool,
    outings: &[Spell],
    history: &History,
    starts_out: bool,
) -> Ruling {
    let Some(first) = outings.first() else {
        let measured = Measured::no_longer_than(Duration::ZERO, max);
        return Ruling::new(!starts_out, measured, history.end());
    };
    let time = history.end() - first.start;
    let measured = Measured::no_longer_than(time, max);
    if starts_out {
        return Ruling::new(false, measured, first.start).because("it starts neither hot nor cold");
    }
    let met = in_time(time, max, strict);
    Ruling::new(met, measured, if met { history.end() } else { first.start + max })
}
