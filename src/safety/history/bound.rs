//! Kept above or below a limit, from the first moment to the last.

use super::record::History;
use super::ruling::{Measured, Ruling, cold_edge, hot_edge};
use crate::tables::Limit;

pub(super) fn at_least(history: &History, min: Limit, strict: bool) -> Ruling {
    let edge = hot_edge(min, strict);
    let measured = Measured::at_least(history.coldest(), min.lowest());
    match history.between(None, Some(edge)).first() {
        Some(below) => Ruling::new(false, measured, below.start),
        // One reading alone is no stretch.
        None => Ruling::new(history.coldest() >= edge, measured, history.end()),
    }
}

pub(super) fn at_most(history: &History, max: Limit, strict: bool) -> Ruling {
    let edge = cold_edge(max, strict);
    let measured = Measured::at_most(history.hottest(), max.highest());
    match history.between(Some(edge), None).first() {
        Some(above) => Ruling::new(false, measured, above.start),
        None => Ruling::new(history.hottest() <= edge, measured, history.end()),
    }
}
