//! What to say of a plan that is not always on time: what is short, by how much, and a cure that was
//! tried before it is offered.

use super::build::Built;
use super::chain::{Sets, win_before};
use super::clock::Minute;
use super::network::{Lasts, Needs, Network, Serving, Step};
use super::sets::Set;
use super::solution::{Solution, verdict};
use super::timeline::OnTime;
use crate::cook::{Cook, Phase, PhaseId, Purpose};
use crate::findings::{Code, Finding, Text};
use crate::quantity::Duration;
use crate::say;

/// Cures are looked for among amounts that one would write: these, then every half hour up to
/// [`FURTHEST`]; then what is really missing is told to the nearest [`FINE`].
const SMALL: [Minute; 5] = [5, 10, 15, 20, 30];
const COARSE: Minute = 30;
const FURTHEST: Minute = 24 * 60;
const FINE: Minute = 5;
/// With several food lines only these are tried, and few proofs of each.
const FEW: [Minute; 5] = [15, 30, 60, 120, 240];
const PROOFS: u32 = 12;
/// Nobody waits longer than this for dinner.
const LATEST: Minute = 2 * 60;
/// No more than this many are offered.
const OFFERED: usize = 3;
/// A network of more steps than this is not solved again and again.
const MOST_STEPS: usize = 60;

/// The finding for a verdict that is not `always`.
pub fn finding(cook: &Cook, built: &Built, solution: &Solution) -> Option<Finding> {
    let code = match solution.on_time {
        OnTime::Always => return None,
        OnTime::Never => Code::NeverOnTime,
        OnTime::IfLucky => Code::OnTimeIfLucky,
        OnTime::NotProved => Code::TimingNotProved,
    };
    let network = &built.network;
    let culprit = solution.sets.as_ref().and_then(|sets| culprit(network, sets));
    let cures = cures(network);
    let blamed = culprit.or(cures.first().and_then(|cure| cure.step)).unwrap_or(serving(network));
    let phase = cook.phase(PhaseId(blamed as u32));
    let mut message = match code {
        Code::NeverOnTime => say!["This cook can never be on time: "],
        Code::OnTimeIfLucky => say!["This cook is on time only with luck: "],
        _ => say!["That this cook is always on time cannot be proved: "],
    };
    match (culprit, &solution.sets) {
        (Some(step), Some(sets)) => explain(&mut message, built, sets, step, phase),
        _ if network.apart.is_empty() => {
            message.push("its food lines get in each other's way, or in the way of sleep.");
        }
        _ => message.push(
            "its food lines get in each other's way, want one kit at two settings without the time to heat or \
             to cool down between, or get in the way of sleep.",
        ),
    }
    if let Some(cure) = cures.first() {
        short(&mut message, cook, cure);
    }
    let remedy = if cures.is_empty() {
        say![
            "No single change that was tried cures it. A wait before the serving may take it up, such as a hold \
             `for up to 30 min`. Else change two lengths, the crew's hours, or the serving."
        ]
    } else {
        let mut text = if cures.len() == 1 {
            say!["This was tried and cures it: "]
        } else {
            say!["Any one of these was tried and cures it: "]
        };
        for (n, cure) in cures.iter().enumerate() {
            if n > 0 {
                text.push("; or ");
            }
            offer(&mut text, cook, built, cure);
        }
        text.push(".");
        text
    };
    let at = if phase.service.is_some() { phase.span } else { phase.lasts_span };
    Some(Finding::new(code, at, message, remedy).in_phase(phase.name.clone()))
}

fn serving(network: &Network) -> usize {
    network.steps.iter().rposition(|step| step.serving.is_some()).unwrap_or(0)
}

/// The step, counted from the serving back, at which the last safe start is lost.
fn culprit(network: &Network, sets: &Sets) -> Option<usize> {
    (0..network.steps.len()).rev().find(|&n| sets.always[n].is_empty())
}

/// Why `step` cannot start safely although what follows it could.
fn explain(message: &mut Text, built: &Built, sets: &Sets, step: usize, phase: &Phase) {
    let network = &built.network;
    let name = format!("`{}`", phase.name);
    let all = Set::all();
    let target = sets.always.get(step + 1).unwrap_or(&all).intersect(&network.steps[step].end_in);
    let unattended = Step { needs: Needs::default(), ..network.steps[step].clone() };
    let starts = win_before(&unattended, &target, &all).intersect(&super::chain::on_time(&unattended));
    if let Some((first, last)) = starts.first().zip(starts.last()) {
        let clock = built.times.clock;
        let (first, last) = (clock.time_of_day(first), clock.time_of_day(last));
        let when = if first == last { format!("at {first}") } else { format!("between {first} and {last}") };
        let lighting =
            if network.steps[step].needs.before.is_some() { ", or to switch its kit on before" } else { "" };
        message.push(format!("{name} would have to start {when}, and nobody is there for it{lighting}."));
        return;
    }
    match network.steps[step].lasts {
        Lasts::Nature { low, high, .. } if low < high => {
            let spread = Duration::from_minutes((high - low) as f64);
            let room = target.intervals().iter().map(|(first, last)| last - first).max();
            message.push(format!("{name} may take "));
            message.push(spread);
            message.push(" longer or shorter, and what follows can take up ");
            match room {
                Some(room) if room > 0 => {
                    message.push("only ");
                    message.push(Duration::from_minutes(room as f64));
                    message.push(" of that.");
                }
                _ => message.push("none of that."),
            }
        }
        _ => message.push(format!("{name} has no time at which it could start.")),
    }
}

/// One change that makes the cook always on time.
#[derive(Debug, Clone, Copy)]
struct Cure {
    /// `None`: the first serving moves, and everything written with it.
    step: Option<usize>,
    change: Change,
    /// How far it goes, in minutes, as exactly as it was looked for.
    by: Minute,
    /// Rounded up to something that one would write.
    offered: Minute,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Change {
    Longer,
    Shorter,
    /// The most that may be chosen.
    MoreRoom,
    /// The least that may be chosen.
    LessAtLeast,
    /// The serving may be this much later than said.
    MoreLate,
    ServeLater,
    ServeEarlier,
}

/// Single changes that were tried and cure it, the smallest first.
fn cures(network: &Network) -> Vec<Cure> {
    if network.steps.len() > MOST_STEPS {
        return Vec::new();
    }
    let mut found = Vec::new();
    let mut moves = vec![(None, Change::ServeLater), (None, Change::ServeEarlier)];
    for (n, step) in network.steps.iter().enumerate() {
        let changes: &[Change] = match (step.serving, step.lasts) {
            (Some(Serving::Within { .. }), Lasts::Fixed(0)) => &[Change::MoreLate],
            (Some(_), _) | (None, Lasts::Nature { .. }) => &[],
            (None, Lasts::Fixed(_)) => &[Change::Longer, Change::Shorter],
            (None, Lasts::Chosen { .. }) => &[Change::MoreRoom, Change::LessAtLeast],
        };
        moves.extend(changes.iter().map(|&change| (Some(n), change)));
    }
    // Several lines cost more to prove again, so a few amounts have to do there.
    let chain = super::chain::solve(network).is_some();
    let amounts: Vec<Minute> = if chain {
        SMALL.into_iter().chain((2..=FURTHEST / COARSE).map(|n| n * COARSE)).collect()
    } else {
        FEW.to_vec()
    };
    for (step, change) in moves {
        let works = |by: Minute| {
            (change != Change::MoreLate || by <= LATEST)
                && changed(network, step, change, by)
                    .is_some_and(|tried| verdict(&tried, PROOFS) == OnTime::Always)
        };
        let Some(at) = amounts.iter().position(|&by| works(by)) else { continue };
        let (offered, below) = (amounts[at], at.checked_sub(1).map_or(0, |before| amounts[before]));
        let mut finer = (below + FINE..offered).step_by(FINE as usize);
        let by = if chain { finer.find(|&by| works(by)).unwrap_or(offered) } else { offered };
        found.push(Cure { step, change, by, offered });
    }
    found.sort_by_key(|cure| (cure.offered, cure.step.is_none()));
    found.truncate(OFFERED);
    found
}

/// The network with one thing changed; `None` where that means nothing.
fn changed(network: &Network, step: Option<usize>, change: Change, by: Minute) -> Option<Network> {
    let mut tried = network.clone();
    let Some(n) = step else {
        let shift = if change == Change::ServeEarlier { -by } else { by };
        for step in &mut tried.steps {
            step.start_in = step.start_in.after(shift, shift);
            step.end_in = step.end_in.after(shift, shift);
            step.serving = step.serving.map(|serving| match serving {
                Serving::Within { first, last } => {
                    Serving::Within { first: first + shift, last: last + shift }
                }
                Serving::Guests { first, last, late } => {
                    Serving::Guests { first: first + shift, last: last + shift, late }
                }
            });
        }
        return Some(tried);
    };
    let step = tried.steps.get_mut(n)?;
    step.lasts = match (change, step.lasts) {
        (Change::Longer, Lasts::Fixed(length)) => Lasts::Fixed(length + by),
        (Change::Shorter, Lasts::Fixed(length)) if length > by => Lasts::Fixed(length - by),
        (Change::MoreRoom, Lasts::Chosen { low, high }) => Lasts::Chosen { low, high: high + by },
        (Change::LessAtLeast, Lasts::Chosen { low, high }) if low >= by => {
            Lasts::Chosen { low: low - by, high }
        }
        (Change::MoreLate, lasts) => {
            let Some(Serving::Within { first, last }) = step.serving else { return None };
            step.serving = Some(Serving::Within { first, last: last + by });
            lasts
        }
        _ => return None,
    };
    Some(tried)
}

/// " `smoke` is 35 min too short for that."
fn short(message: &mut Text, cook: &Cook, cure: &Cure) {
    let Some(step) = cure.step else { return };
    let by = Duration::from_minutes(cure.by as f64);
    let name = format!(" `{}` ", cook.phase(PhaseId(step as u32)).name);
    message.push(name);
    let (before, after) = match cure.change {
        Change::Longer => ("is ", " too short for that."),
        Change::Shorter => ("is ", " too long for that."),
        Change::MoreRoom => ("would have to last up to ", " longer."),
        Change::LessAtLeast => ("would have to end up to ", " sooner."),
        _ => ("would have to be up to ", " later still."),
    };
    message.push(before);
    message.push(by);
    message.push(after);
}

/// What to type.
fn offer(text: &mut Text, cook: &Cook, built: &Built, cure: &Cure) {
    let length = |minutes: Minute| Duration::from_minutes(minutes as f64);
    let Some(n) = cure.step else {
        let Some((first, _)) = built.times.servings.iter().flatten().next() else { return };
        let shift = if cure.change == Change::ServeEarlier { -cure.offered } else { cure.offered };
        text.push(format!("serve at {}, ", built.times.clock.time_of_day(first + shift)));
        text.push(length(cure.offered));
        text.push(if shift < 0 { " sooner" } else { " later" });
        return;
    };
    let phase = cook.phase(PhaseId(n as u32));
    let Some(tried) = changed(&built.network, cure.step, cure.change, cure.offered) else { return };
    match tried.steps[n].lasts {
        Lasts::Fixed(0) if cure.change == Change::MoreLate => {
            let late = match tried.steps[n].serving {
                Some(Serving::Within { first, last }) => last - first,
                _ => cure.offered,
            };
            text.push("`up to ");
            text.push(length(late));
            text.push(" late`");
        }
        Lasts::Fixed(now) => {
            text.push("`for ");
            text.push(length(now));
            text.push("`");
        }
        Lasts::Chosen { low, high } | Lasts::Nature { low, high, .. } => {
            text.push(if low == 0 { "`for up to " } else { "`for " });
            if low > 0 {
                text.push(length(low));
                text.push(" to ");
            }
            text.push(length(high));
            text.push("`");
        }
    }
    text.push(format!(" in `{}`", phase.name));
    if phase.purpose == Purpose::Cook && cure.change == Change::Shorter {
        text.push(" (if it is then still cooked)");
    }
}
