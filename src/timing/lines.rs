//! Several food lines in one kitchen: for every job its waking hours, for every two uses that get in each
//! other's way an order; what is left is a [network with uncertainty](super::stnu) that is proved or not.
//!
//! A proof is a proof; finding none is not the opposite, for a cleverer way might choose as it goes. That
//! there is no way is only said where none is left even if nature were on the cook's side.

mod clashes;
mod crowds;
mod game;
mod growing;
mod levels;
mod loads;
mod luck;
mod model;
mod proof;
mod reach;
mod search;
mod strategy;
mod way;

pub use self::search::Effort;
pub use self::strategy::{Pace, Play, Strategy};
pub use self::way::Way;

use self::game::Verdict;
use self::model::{Model, Nature};
use self::search::{Found, Search};
use super::clock::Minute;
use super::network::{Network, Step};
use super::sets::Set;
use super::timeline::Window;

/// More steps than this are not tried.
const MOST_STEPS: usize = 600;

/// So many answers of the cook, and ticks of the clock after them, are tried in a game.
const MOST_TRIES: u32 = 32_000;

/// What can be said of several lines.
#[derive(Debug, Clone)]
pub enum Outcome {
    /// Always on time, with an order fixed beforehand of who has shared kit and hands first.
    Proved(Box<Way>),
    /// Always on time: when the first step may start, and start and end of each. Who is done first goes first, or whatever
    /// else then leaves everything on time.
    Played(Window, Vec<(Window, Window)>),
    IfLucky(Vec<(Window, Window)>),
    Never,
    Unknown,
}

/// [`solve`] with all effort there is. What neither a proof nor its opposite settles is played out, if it is small enough.
pub fn settle(network: &Network) -> Outcome {
    match solve(network, Effort::WHOLE) {
        Outcome::Unknown => played(network).unwrap_or(Outcome::Unknown),
        told => told,
    }
}

fn played(network: &Network) -> Option<Outcome> {
    Some(match game::verdict(network, &mut { MOST_TRIES })? {
        Verdict::Always(book) => {
            let windows = book.windows()?;
            let start = windows.iter().map(|window| window.0).min_by_key(|start| start.earliest)?;
            Outcome::Played(start, windows)
        }
        Verdict::IfLucky(windows) => Outcome::IfLucky(windows),
        Verdict::Never => Outcome::Never,
    })
}

/// Looks for a proof, and where there is none for the opposite.
pub fn solve(network: &Network, effort: Effort) -> Outcome {
    if !is_tried(network) {
        return Outcome::Unknown;
    }
    let searched = searched(network, effort, |search, found| match found {
        Found::Yes => Err(search.way().map(Box::new)),
        Found::No | Found::GaveUp => Ok(search.is_exact()),
    });
    let exact = match searched {
        Err(cautious) => !cautious,
        Ok(Err(way)) => return way.map_or(Outcome::Unknown, Outcome::Proved),
        Ok(Ok(exact)) => exact,
    };
    let Ok(kind) = Model::new(network, Nature::Kind) else { return Outcome::Never };
    let (hope, found) = Search::tried(&kind, effort);
    match found {
        Found::No if is_hopeless(network, effort) => return Outcome::Never,
        Found::No | Found::GaveUp => return Outcome::Unknown,
        Found::Yes => {}
    }
    // Without sleep nobody is needed in it, so a way that needs luck is a way.
    let lucky = (exact || fails(network, Effort::SHORT))
        && (network.absent.is_empty() || luck::shown(network, Effort::SHORT));
    let windows = if lucky { hope.hopeful() } else { None };
    windows.map_or(Outcome::Unknown, Outcome::IfLucky)
}

/// Whether it is proved to be always on time, and what it cost to find out in small steps; nothing is said of
/// what is not proved.
pub fn proves(network: &Network, effort: Effort) -> (bool, u64) {
    if !is_tried(network) {
        return (false, 0);
    }
    searched(network, effort, |search, found| (found == Found::Yes, search.cost())).unwrap_or((false, 0))
}

fn is_tried(network: &Network) -> bool {
    (1..=MOST_STEPS).contains(&network.steps.len())
}

/// Looks for a proof, and reads off what was found; if something has no time at all, whether that may be for too much caution.
fn searched<T>(
    network: &Network,
    effort: Effort,
    read: impl FnOnce(&Search<'_>, Found) -> T,
) -> Result<T, bool> {
    let model = Model::new(network, Nature::Decides)?;
    let (search, found) = Search::tried(&model, effort);
    Ok(read(&search, found))
}

/// How to play it so that it is always on time, where that is proved.
pub fn strategy_of(network: &Network, effort: Effort) -> Option<Strategy> {
    let book = || game::always(network, &mut { MOST_TRIES }).flatten();
    ordered(network, effort).or_else(|| book().map(Strategy::by))
}

/// As [`strategy_of`], with the orders fixed beforehand.
fn ordered(network: &Network, effort: Effort) -> Option<Strategy> {
    let way = |search: &Search<'_>, found| if found == Found::Yes { search.way() } else { None };
    searched(network, effort, way).ok()??.strategy()
}

/// The last minute up to `latest` at which a step may end so that there is a way if nature is on the cook's side; as far
/// as this effort tells, and `None` where it tells of none. And whether there may be a later one but for sleep.
pub fn last_hope(network: &Network, step: usize, latest: Minute, effort: Effort) -> Option<(Minute, bool)> {
    let hope = last_end(network, step, latest, effort)?;
    let awake = Network { absent: Set::empty(), ..network.clone() };
    let asleep = !network.absent.is_empty() && !is_lost(&awake, step, (hope + 1, latest), effort);
    Some((hope, asleep))
}

/// Whether nothing is on time any more if a step ends inside these minutes.
fn is_lost(network: &Network, step: usize, (first, last): (Minute, Minute), effort: Effort) -> bool {
    let mut tried = network.clone();
    let Some(own) = tried.steps.get_mut(step) else { return true };
    own.end_in = own.end_in.intersect(&Set::range(first, last));
    fits(&tried, effort).0 == Some(false) && is_hopeless(&tried, effort)
}

fn last_end(network: &Network, step: usize, latest: Minute, effort: Effort) -> Option<Minute> {
    let is_lost = |first: Minute| is_lost(network, step, (first, latest), effort);
    let model = Model::new(network, Nature::Kindest).ok()?;
    let reach = reach::Reach::new(&model).ok()?;
    let [first, last] =
        [reach.earliest(model.nodes[step][1]), reach.latest(model.nodes[step][1]).min(latest)];
    // Mostly it is all that the lengths and the clock leave.
    if !is_lost(last) {
        return (last < latest).then_some(last);
    }
    let (mut holds, mut lost) = (first - 1, last);
    while lost - holds > 1 {
        let middle = holds + (lost - holds) / 2;
        if is_lost(middle) { lost = middle } else { holds = middle }
    }
    (holds >= first).then_some(holds)
}

/// Whether there is no way either if all that may be over before its work is done is over before.
fn is_hopeless(network: &Network, effort: Effort) -> bool {
    let cut_short = |step: &Step| step.lasts.low() < step.needs.busy.min(step.lasts.high());
    let vanishes = |n: usize| network.steps[n].lasts.low() == 0 && network.steps[n].lasts.high() > 0;
    let mut in_rooms = network.rooms.iter().flat_map(|room| &room.takes).map(|take| take.0);
    if !network.steps.iter().any(cut_short) && !in_rooms.any(vanishes) {
        return true;
    }
    let model = Model::new(network, Nature::Kindest);
    model.map_or(true, |model| Search::tried(&model, effort).1 == Found::No)
}

/// Whether for some outcome there is no way at all: who knew it from the first could not be on time.
fn fails(network: &Network, effort: Effort) -> bool {
    luck::draws(network).iter().any(|draw| {
        let drawn = draw.drawn(network);
        let model = Model::new(&drawn, Nature::Kind);
        model.map_or(true, |model| Search::tried(&model, effort).1 == Found::No)
            && is_hopeless(&drawn, effort)
    })
}

/// Whether there is a plan with nature on the cook's side, and how many decisions it took to tell; `None`
/// if the effort does not tell.
pub fn fits(network: &Network, effort: Effort) -> (Option<bool>, u32) {
    let Ok(model) = Model::new(network, Nature::Kind) else { return (Some(false), 0) };
    let (search, found) = Search::tried(&model, effort);
    let found = match found {
        Found::Yes => Some(true),
        Found::No => Some(false),
        Found::GaveUp => None,
    };
    (found, search.steps())
}
