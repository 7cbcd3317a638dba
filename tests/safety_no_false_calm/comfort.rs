//! What the crude judge calls comfortable: cooks of which nothing should be said.

use super::cooks::{Purpose, Written};
use super::crude::{
    Part, Points, Stage, WAY_UP_MIN, by_the_minute, coldest, cooling_of, hold_of, joined, run_up, runs_down,
};

/// Inside every limit of the three rules, on the bounds, by 3 K where it is hot, 1 K where it is cold (a fridge is no
/// colder than that) and a fifth of the time.
pub fn comfortable(written: &Written, parts: &[Part]) -> bool {
    let floor_c = hold_of(written.rules).floor_c;
    let mut held = parts.iter().filter(|part| part.purpose == Purpose::HotHold);
    let (ways, _) = cooling_of(written.rules);
    let quick = |minutes: &[f64], Stage(from, to, max): &Stage| {
        let cold = minutes.iter().position(|t| *t <= to - 1.0);
        cold.is_some_and(|cold| {
            minutes[..cold].iter().filter(|t| **t < from + 3.0).count() as f64 <= 0.8 * *max as f64
        })
    };
    let cools = |run: &[Part]| {
        let minutes = by_the_minute(&joined(run, |part| &part.warm), 0.0);
        // Where no temperature is published, it is in the fridge within 2 h (Food Standards Agency).
        let out = run.iter().filter(|part| part.purpose != Purpose::ColdHold);
        let fridge = out.map(|part| part.warm.last().map_or(0.0, |last| last.0 / 60.0)).sum::<f64>() <= 96.0;
        let hot = minutes.first().is_some_and(|first| *first > 10.0);
        let straight = !run.iter().any(|part| part.purpose == Purpose::Cool);
        match ways {
            [] => fridge && !(hot && straight),
            ways => ways.iter().any(|way| way.iter().all(|stage| quick(&minutes, stage))),
        }
    };
    let run = run_up(parts);
    let up = by_the_minute(&joined(run, |part| &part.cold), 0.0);
    // Australian advice on baths counts what comes after as well.
    let bath = written.rules == "au-nz" && run.iter().any(|part| part.in_water);
    let through = if bath { Some(up.len()) } else { up.iter().position(|t| *t >= 57.4) };
    written.coolest_hold() > floor_c
        && written.longest_within() <= 96
        && held.all(|part| coldest(&part.cold) >= floor_c + 3.0)
        && runs_down(parts).into_iter().all(cools)
        && through.is_some_and(|minutes| minutes as f64 <= 0.8 * WAY_UP_MIN as f64)
}

/// Inside what the other rules ask as well: cooked and reheated hotter than any set asks, soon enough, not long on the
/// bench, cold in the fridge and not for long.
pub fn roomy(written: &Written, parts: &[Part]) -> bool {
    let lasts = |part: &Part| part.cold.last().map_or(0.0, |last| last.0 / 60.0);
    let hottest = |points: &Points| points.iter().fold(f64::NEG_INFINITY, |high, (_, c)| high.max(*c));
    let asked_c = if written.rules == "uk-scotland" { 85.0 } else { 78.0 };
    let window = if written.rules == "fr" { 48.0 } else { 96.0 };
    let fridge_c = if written.rules == "fr" { 2.0 } else { 3.0 };
    let heated = hottest(&joined(run_up(parts), |part| &part.cold)) >= asked_c;
    let bench: f64 =
        parts.iter().filter(|part| matches!(part.purpose, Purpose::Rest | Purpose::Prep)).map(lasts).sum();
    let stored: f64 = parts.iter().filter(|part| part.purpose == Purpose::ColdHold).map(lasts).sum();
    heated
        && bench <= 96.0
        && stored <= 2400.0
        && parts.iter().all(|part| match part.purpose {
            Purpose::Reheat => hottest(&part.cold) >= asked_c - 4.0 && lasts(part) <= window,
            Purpose::ColdHold => part.warm.last().is_some_and(|last| last.1 <= fridge_c),
            _ => true,
        })
}
