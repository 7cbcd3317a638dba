//! The last resort for a small kitchen: the game of cook and nature, played out on the clock.
//!
//! Everything that is fixed beforehand elsewhere is decided here as it goes, such as that who is done first has the
//! oven first. Every position is looked at once, and so many answers of the cook are tried at the most; nothing is
//! bounded by time.
//!
//! The clock ticks in whole minutes, for these are what a network is written in. Where all that is written are
//! multiples of more, it is first played in steps of that:
//!
//! - If the cook cannot win in those, then not by the minute either. Nature, on such a clock, has fewer ends to choose
//!   from; and what the cook does in a minute between two steps can as well be done at the next step, for whole steps
//!   of difference stay what they are when all is rounded up alike, and what has happened by then is known.
//! - A way with nature on the cook's side is there in both or in neither, for the same reason.
//! - But a cook who wins in those may still lose by the minute, where food can be done between two steps: so that is
//!   played again by the minute, and is not told otherwise.

mod awake;
mod board;
mod plan;
mod position;
mod rules;
mod search;
mod turn;
mod unit;
mod windows;

pub(super) use self::plan::{Book, Reading};

use self::awake::Awake;
use self::board::{Board, Laid};
use self::position::Code;
use self::search::{Known, way, wins};
use crate::timing::clock::Minute;
use crate::timing::network::Network;
use crate::timing::timeline::Window;

/// What is asked of a play.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Goal {
    /// Every outcome is on time.
    Every,
    /// One is, for nature is on the cook's side.
    Some,
    /// Nobody is needed in sleep, however late it gets.
    Awake,
}

/// What the game tells.
pub(super) enum Verdict {
    Always(Box<Book>),
    /// A way that is on time for one outcome.
    IfLucky(Vec<(Window, Window)>),
    Never,
}

/// Who wins, if that can be told by trying no more answers of the cook than these.
pub(super) fn verdict(network: &Network, tries: &mut u32) -> Option<Verdict> {
    if let Some(book) = always(network, tries)? {
        return Some(Verdict::Always(Box::new(book)));
    }
    let unit = unit::unit(network);
    match lucky(network, unit, tries)? {
        Luck::Way(windows) => Some(Verdict::IfLucky(windows)),
        Luck::NoWay => Some(Verdict::Never),
        Luck::WakesSomebody if unit == 1 => Some(Verdict::Never),
        Luck::WakesSomebody => match lucky(network, 1, tries)? {
            Luck::Way(windows) => Some(Verdict::IfLucky(windows)),
            _ => Some(Verdict::Never),
        },
    }
}

/// How to play so that it is always on time, `Some(None)` if that cannot be, and `None` if it was not found out.
pub(super) fn always(network: &Network, tries: &mut u32) -> Option<Option<Book>> {
    let unit = unit::unit(network);
    let mut units = vec![unit, 1];
    units.dedup();
    for unit in units {
        let board = match Board::lay(network, unit, Goal::Every, *tries) {
            Laid::Board(board) => board,
            Laid::Hopeless => return Some(None),
            Laid::TooLarge => return None,
        };
        let code = Code::of(&board)?;
        let mut known = Known::new(*tries);
        let won = wins(&board, &code, board.start(&code), &mut known);
        *tries = known.left;
        if !won? {
            return Some(None);
        }
        if unit == 1 {
            return Book::of(&board, &code, &known).map(Some);
        }
    }
    None
}

enum Luck {
    Way(Vec<(Window, Window)>),
    /// Somebody may be needed in sleep on every way there is.
    WakesSomebody,
    NoWay,
}

fn lucky(network: &Network, unit: Minute, tries: &mut u32) -> Option<Luck> {
    let board = match Board::lay(network, unit, Goal::Some, *tries) {
        Laid::Board(board) => board,
        Laid::Hopeless => return Some(Luck::NoWay),
        Laid::TooLarge => return None,
    };
    let code = Code::of(&board)?;
    let mut awake = Awake::of(network, unit, *tries)?;
    let found = way(&board, &code, tries, &mut |moment| awake.lasts(&moment))?;
    if let Some(way) = found {
        return plan::windows(network.steps.len(), unit, way.into_iter()).map(Luck::Way);
    }
    if awake.cut {
        return None;
    }
    let any = network.absent.is_empty() || way(&board, &code, tries, &mut |_| true)?.is_none();
    Some(if any { Luck::NoWay } else { Luck::WakesSomebody })
}
