//! What to say of a plan that is not always on time: what is short, by how much, and a cure that was
//! tried before it is offered.

use super::build::Built;
use super::chain::{Sets, guests_of, win_before};
use super::clash;
use super::clock::Minute;
use super::cures::{OFFERED, cures, length, offer, short};
use super::lines::Effort;
use super::network::{Lasts, Needs, Network, Serving, Step};
use super::sets::Set;
use super::solution::{Purse, Solution, always};
use super::timeline::OnTime;
use crate::cook::{Cook, Phase, PhaseId};
use crate::findings::{Code, Finding, Text};
use crate::quantity::Duration;
use crate::say;

/// The finding for a verdict that is not `always`.
pub fn finding(cook: &Cook, built: &Built, solution: &Solution) -> Option<Finding> {
    let code = match solution.on_time {
        OnTime::Always => return None,
        OnTime::Never => Code::NeverOnTime,
        OnTime::IfLucky => Code::OnTimeIfLucky,
        OnTime::NotProved => Code::TimingNotProved,
    };
    let network = &built.network;
    let culprit = solution.sets().and_then(|sets| sets.lost);
    let purse = Purse::of(network);
    let mut cures = cures(network, &purse);
    cures.truncate(OFFERED);
    let blamed = culprit.or(cures.first().and_then(|cure| cure.step)).unwrap_or(serving(network));
    let phase = cook.phase(PhaseId(blamed as u32));
    let mut message = match code {
        Code::NeverOnTime => say!["This cook can never be on time: "],
        Code::OnTimeIfLucky => say!["This cook is on time only with luck: "],
        _ => say!["That this cook is always on time cannot be proved: "],
    };
    match (culprit, solution.sets()) {
        (Some(step), Some(sets)) => explain(&mut message, built, sets, step, phase),
        _ => clash::explain(&mut message, cook, network, solution.on_time),
    }
    if let Some(cure) = cures.first() {
        short(&mut message, cook, cure);
    }
    let remedy = if cures.is_empty() {
        let mut text = match purse.is_spent() {
            false => say![
                "Nothing that was tried by itself cures it: other lengths for one phase, serving sooner or \
                 later, or up to 2 h late, or one person more. "
            ],
            true => say!["There are too many changes to try them all, and none that was tried cures it. "],
        };
        text.push(
            "A wait before the serving may take it up, such as a hold `for up to 30 min`. Else change two \
             lengths, the crew's hours, or the serving.",
        );
        text
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
    let lengths = cures.iter().filter_map(|cure| length(cook, built, cure)).collect();
    Some(Finding { lengths, ..Finding::new(code, at, message, remedy).in_phase(phase.name.clone()) })
}

fn serving(network: &Network) -> usize {
    network.steps.iter().rposition(|step| step.serving.is_some()).unwrap_or(0)
}

/// Why `step` cannot start so that all is on time although what follows it could.
fn explain(message: &mut Text, built: &Built, sets: &Sets, step: usize, phase: &Phase) {
    let network = &built.network;
    let name = format!("`{}`", phase.name);
    let all = Set::all();
    let target = sets.always.get(step + 1).unwrap_or(&all).intersect(&network.steps[step].end_in);
    let unattended = Step { needs: Needs::default(), ..network.steps[step].clone() };
    if let Some((first, last, late)) = guests_of(&network.steps[step]) {
        let free = win_before(&network.steps[step], &target, &network.absent.complement());
        let alone = (first..=last).find(|&g| free.intersect(&Set::range(g, g + late)).is_empty());
        let clock = built.times.clock;
        if let Some(comes) = alone {
            let by =
                if late > 0 { format!(" by {}", clock.time_of_day(comes + late)) } else { String::new() };
            let comes = clock.time_of_day(comes);
            message.push(format!("the guests may come at {comes}, and nobody is there to serve them{by}."));
            return;
        }
    }
    if let Some(spread) = waited_for(network) {
        message.push("the guests may come any time within ");
        message.push(Duration::from_minutes(spread as f64));
        message.push(", and what is ready before them cannot wait that long.");
        return;
    }
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

/// How far apart the guests may come, where it would be on time if it were known that they come first or last.
fn waited_for(network: &Network) -> Option<Minute> {
    let (first, last) = network.parties().first().copied()?;
    let known = |at: Minute| {
        let mut tried = network.clone();
        for step in &mut tried.steps {
            if let Some(Serving::Guests { late, .. }) = step.serving {
                step.serving = Some(Serving::Within { first: at, last: at + late });
            }
        }
        always(&tried, Effort::SHORT)
    };
    (first < last && known(first) && known(last)).then_some(last - first)
}
