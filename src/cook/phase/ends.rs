//! How long a phase lasts, what ends it, and what is checked then.

use crate::quantity::{Duration, Share, Temperature};
use crate::text::{Span, Spanned};

/// Who decides how long a phase takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lasts {
    /// `for 5 h`.
    Fixed(Duration),
    /// `for 8 h to 14 h`, `for up to 1 h`, `for at least 10 h` (no upper end): the cook.
    Chosen { low: Duration, high: Option<Duration> },
    /// `takes 2 h to 4 h`: the food, or the hands. `each` counts per piece.
    Nature { low: Duration, high: Duration, each: bool },
    /// An `until` that only a prediction can time.
    Open,
    /// A serving: its own times say.
    Serving,
    /// Nothing says; a finding has said so.
    Unsaid,
}

/// `until core 90 °C and "tender"`.
#[derive(Debug, Clone, PartialEq)]
pub struct Until {
    pub tests: Vec<Spanned<Test>>,
    pub span: Span,
}

/// One end that nature decides.
#[derive(Debug, Clone, PartialEq)]
pub enum Test {
    Core(Temperature),
    Surface(Temperature),
    Ph(f64),
    /// What hands, eyes or a fork say.
    Spoken(String),
}

/// A checkpoint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Check {
    /// `None` is open: `core 60 °C or above` has no upper end.
    Core {
        low: Option<Temperature>,
        high: Option<Temperature>,
    },
    Surface {
        low: Option<Temperature>,
        high: Option<Temperature>,
    },
    /// Share of the weight that the food had as the phase began.
    Weight {
        low: Share,
        high: Share,
    },
    Ph {
        low: f64,
        high: f64,
    },
    Salt {
        low: Share,
        high: Share,
    },
}
