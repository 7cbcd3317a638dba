//! How phases lie to each other and to the clock.

use super::PhaseId;
use crate::cook::when::{Day, When};
use crate::quantity::Duration;
use crate::text::Span;

/// `starts`/`ends` and a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Order {
    pub edge: Edge,
    pub bound: OrderBound,
    pub span: Span,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edge {
    Start,
    End,
}

/// How an edge lies to a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OrderBound {
    /// `when M`, `at TIME`: the same minute, give or take the moves that one person makes in turn.
    When(Moment),
    /// `after M`: no sooner.
    NoSooner(Moment),
    /// `by TIME`, `before M`: no later.
    NoLater(Moment),
    /// `30 min before M`: exactly; `at least`: that much or more.
    Before { by: Duration, at_least: bool, moment: Moment },
    /// `1 h after M`.
    After { by: Duration, at_least: bool, moment: Moment },
    /// `on Thursday`: at any time of that day.
    OnDay(Day),
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Moment {
    Starts(PhaseId),
    Ends(PhaseId),
    /// The first serving below.
    Serving(PhaseId),
    Clock(When),
}
