//! Single changes that make a cook always on time, each tried before it is offered.

use super::build::Built;
use super::clock::Minute;
use super::lines::Effort;
use super::needs::MOVE;
use super::network::{Lasts, Link, Network, Serving};
use super::sets::FAR;
use super::solution::Purse;
use crate::cook::{Cook, Order, OrderBound, PhaseId, Purpose};
use crate::findings::{OtherLength, Text};
use crate::quantity::Duration;

/// Cures are looked for among amounts that one would write: these, then every half hour up to
/// [`FURTHEST`]; then what is really missing is told to the nearest [`FINE`].
const SMALL: [Minute; 5] = [5, 10, 15, 20, 30];
const COARSE: Minute = 30;
const FURTHEST: Minute = 24 * 60;
const FINE: Minute = 5;
/// With several food lines only these are tried, and few proofs of each.
const FEW: [Minute; 5] = [15, 30, 60, 120, 240];
/// Nobody waits longer than this for dinner.
const LATEST: Minute = 2 * 60;
/// No more than this many are offered.
pub const OFFERED: usize = 3;

/// One change that makes the cook always on time.
#[derive(Debug, Clone, Copy)]
pub struct Cure {
    /// `None`: the first serving moves, and everything written with it; or the crew grows.
    pub step: Option<usize>,
    change: Change,
    /// How far it goes, in minutes, as exactly as it was looked for.
    by: Minute,
    /// Rounded up to something that one would write.
    offered: Minute,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
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
    /// It need not start or end in the very minute that another does, but may be later.
    AfterInstead,
    OnePersonMore,
}

impl Change {
    /// It takes nothing away: whatever was a way still is one.
    fn only_helps(self) -> bool {
        matches!(self, Self::MoreRoom | Self::MoreLate)
    }
}

impl Cure {
    /// The same for a network in which its step has another number.
    pub fn shifted(self, to: impl Fn(usize) -> usize) -> Self {
        Self { step: self.step.map(to), ..self }
    }

    /// The network with what is offered.
    pub fn applied(self, network: &Network) -> Network {
        changed(network, self.step, self.change, self.offered).unwrap_or_else(|| network.clone())
    }
}

/// Single changes that were tried and cure it, the smallest first, as long as the purse lasts: as many as are
/// offered, and one person more.
pub fn cures(network: &Network, purse: &Purse) -> Vec<Cure> {
    let mut moves = vec![(None, Change::ServeLater), (None, Change::ServeEarlier)];
    for (n, step) in network.steps.iter().enumerate() {
        let changes: &[Change] = match (step.serving, step.lasts) {
            (Some(_), Lasts::Fixed(0)) => &[Change::MoreLate],
            (Some(_), _) | (None, Lasts::Nature { .. }) => &[],
            // It goes on for too long as it is; that it might go on for longer is no cure.
            (None, lasts) if step.behind.is_some() && lasts.high() == 0 => &[],
            (None, Lasts::Fixed(_)) => &[Change::Longer, Change::Shorter],
            (None, Lasts::Chosen { .. }) => &[Change::MoreRoom, Change::LessAtLeast],
        };
        moves.extend(changes.iter().map(|&change| (Some(n), change)));
    }
    let single = single_changes(network, purse);
    // Several lines cost more to prove again, so a few amounts have to do there.
    let chain = super::chain::wins(network).is_some();
    let mut found: Vec<Cure> = if chain {
        let amounts: Vec<Minute> =
            SMALL.into_iter().chain((2..=FURTHEST / COARSE).map(|n| n * COARSE)).collect();
        moves.iter().filter_map(|&one| smallest(network, one, &amounts, FINE, purse)).collect()
    } else {
        // What cures most often is tried first, for the purse may not last.
        moves.sort_by_key(|(_, change)| !change.only_helps());
        moves.iter().filter_map(|&one| smallest(network, one, &FEW, LATEST, purse)).collect()
    };
    found.extend(single);
    found.sort_by_key(|cure| (cure.offered, cure.step.is_none()));
    // One person more is the last of them, and is not left out for it.
    let people = found.pop_if(|cure| cure.change == Change::OnePersonMore);
    found.truncate(OFFERED);
    found.extend(people);
    found
}

/// The changes that are made or not, whatever the amount.
fn single_changes(network: &Network, purse: &Purse) -> Vec<Cure> {
    let loose = network.links.iter().filter(|link| is_when(link)).map(|link| (Some(link.to.step), 0));
    let mut moves: Vec<_> = loose.map(|(step, by)| (step, Change::AfterInstead, by)).collect();
    moves.dedup();
    // Last of what is offered.
    moves.extend(network.people.map(|_| (None, Change::OnePersonMore, FURTHEST)));
    let cures = moves.into_iter().filter(|&(step, change, by)| works(network, step, change, by, purse));
    cures.map(|(step, change, by)| Cure { step, change, by, offered: by }).collect()
}

/// `starts when roast ends`.
fn is_when(link: &Link) -> bool {
    link.low == -MOVE && link.high == MOVE
}

/// The first of `amounts` that cures it, and within it how much is really missing, `fine` by `fine`.
fn smallest(
    network: &Network,
    (step, change): (Option<usize>, Change),
    amounts: &[Minute],
    fine: Minute,
    purse: &Purse,
) -> Option<Cure> {
    let works = |by: Minute| works(network, step, change, by, purse);
    // What the most of it does not cure, less does not.
    let most = amounts.iter().copied().filter(|&by| change != Change::MoreLate || by <= LATEST).max()?;
    if change.only_helps() && !works(most) {
        return None;
    }
    let at = amounts.iter().position(|&by| works(by))?;
    let (offered, below) = (amounts[at], at.checked_sub(1).map_or(0, |before| amounts[before]));
    let by = (below + fine..offered).step_by(fine as usize).find(|&by| works(by)).unwrap_or(offered);
    Some(Cure { step, change, by, offered })
}

fn works(network: &Network, step: Option<usize>, change: Change, by: Minute, purse: &Purse) -> bool {
    (change != Change::MoreLate || by <= LATEST)
        && changed(network, step, change, by).is_some_and(|tried| purse.always(&tried, Effort::SHORT))
}

/// The network with one thing changed; `None` where that means nothing.
fn changed(network: &Network, step: Option<usize>, change: Change, by: Minute) -> Option<Network> {
    let mut tried = network.clone();
    if change == Change::OnePersonMore {
        tried.people = Some(tried.people? + 1);
        return Some(tried);
    }
    let Some(n) = step else {
        let shift = if change == Change::ServeEarlier { -by } else { by };
        for step in tried.steps.iter_mut().filter(|step| step.behind.is_none()) {
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
    if change == Change::AfterInstead {
        for link in tried.links.iter_mut().filter(|link| link.to.step == n && is_when(link)) {
            (link.low, link.high) = (0, FAR);
        }
        return Some(tried);
    }
    let step = tried.steps.get_mut(n)?;
    step.lasts = match (change, step.lasts) {
        (Change::Longer, Lasts::Fixed(length)) => Lasts::Fixed(length + by),
        (Change::Shorter, Lasts::Fixed(length)) if length > by => Lasts::Fixed(length - by),
        (Change::MoreRoom, Lasts::Chosen { low, high }) => Lasts::Chosen { low, high: high + by },
        (Change::LessAtLeast, Lasts::Chosen { low, high }) if low >= by => {
            Lasts::Chosen { low: low - by, high }
        }
        (Change::MoreLate, lasts) => {
            step.serving = Some(match step.serving? {
                Serving::Within { first, last } => Serving::Within { first, last: last + by },
                Serving::Guests { first, last, late } => Serving::Guests { first, last, late: late + by },
            });
            lasts
        }
        _ => return None,
    };
    Some(tried)
}

/// " `smoke` is 35 min too short for that."
pub fn short(message: &mut Text, cook: &Cook, cure: &Cure) {
    let Some(step) = cure.step else { return };
    let by = Duration::from_minutes(cure.by as f64);
    let phase = &cook.phase(PhaseId(step as u32)).name;
    let (before, after) = match cure.change {
        Change::Longer => ("is ", " too short for that."),
        Change::Shorter => ("is ", " too long for that."),
        Change::MoreRoom => ("would have to last up to ", " longer."),
        Change::LessAtLeast => ("would have to end up to ", " sooner."),
        Change::AfterInstead => {
            message.push(format!(" `{phase}` would have to be free to wait."));
            return;
        }
        _ => ("would have to be up to ", " later still."),
    };
    message.push(format!(" `{phase}` {before}"));
    message.push(by);
    message.push(after);
}

/// The length that a phase would have, where that is what is offered.
pub fn length(cook: &Cook, built: &Built, cure: &Cure) -> Option<OtherLength> {
    let step = cure.step.filter(|_| built.past.is_none())?;
    let tried = changed(&built.network, cure.step, cure.change, cure.offered)?;
    let (low, high) = match (cure.change, tried.steps.get(step)?.lasts) {
        (Change::Longer | Change::Shorter, Lasts::Fixed(length)) => (length, length),
        (Change::MoreRoom | Change::LessAtLeast, Lasts::Chosen { low, high }) => (low, high),
        _ => return None,
    };
    let time = |minutes: Minute| Duration::from_minutes(minutes as f64);
    let phase = cook.phase(PhaseId(step as u32)).name.clone();
    Some(OtherLength { phase, low: time(low), high: time(high) })
}

/// What to type.
pub fn offer(text: &mut Text, cook: &Cook, built: &Built, cure: &Cure) {
    // Of what is going on, a part is behind already.
    let gone = cure.step.and_then(|n| Some(built.past.as_ref()?.elapsed(n))).unwrap_or(0);
    let length = |minutes: Minute| Duration::from_minutes((minutes + gone) as f64);
    if cure.change == Change::OnePersonMore {
        text.push("one person more in the `crew`");
        return;
    }
    let Some(n) = cure.step else {
        let Some((first, _)) = built.times.servings.iter().flatten().next() else { return };
        let shift = if cure.change == Change::ServeEarlier { -cure.offered } else { cure.offered };
        text.push(format!("serve at {}, ", built.times.clock.time_of_day(first + shift)));
        text.push(length(cure.offered));
        text.push(if shift < 0 { " sooner" } else { " later" });
        return;
    };
    let phase = cook.phase(PhaseId(n as u32));
    if cure.change == Change::AfterInstead {
        let when = phase.orders.iter().find(|order| matches!(order.bound, OrderBound::When(_)));
        let words = when.and_then(|order| {
            let OrderBound::When(moment) = order.bound else { return None };
            let after = Order { bound: OrderBound::NoSooner(moment), ..*order };
            Some(super::circle::words(cook, (PhaseId(n as u32), &after)))
        });
        text.push(words.unwrap_or_default());
        return;
    }
    let Some(tried) = changed(&built.network, cure.step, cure.change, cure.offered) else { return };
    match tried.steps[n].lasts {
        Lasts::Fixed(0) if cure.change == Change::MoreLate => {
            let late = match tried.steps[n].serving {
                Some(Serving::Within { first, last }) => last - first,
                Some(Serving::Guests { late, .. }) => late,
                None => cure.offered,
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
            text.push(if low + gone == 0 { "`for up to " } else { "`for " });
            if low + gone > 0 {
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
