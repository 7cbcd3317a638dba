//! What phases are for.

/// Why a phase is done; selects the rules that judge it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Purpose {
    Prep,
    Thaw,
    Cure,
    Ferment,
    Cook,
    Rest,
    HotHold,
    Cool,
    ColdHold,
    Freeze,
    Reheat,
    /// A `serve` block.
    Serve,
}

impl Purpose {
    /// The purposes that a writer can name.
    pub const WRITTEN: [Self; 11] = [
        Self::Prep,
        Self::Thaw,
        Self::Cure,
        Self::Ferment,
        Self::Cook,
        Self::Rest,
        Self::HotHold,
        Self::Cool,
        Self::ColdHold,
        Self::Freeze,
        Self::Reheat,
    ];

    /// The purpose of these words, or of a name made of them.
    pub fn named(words: &str) -> Option<Self> {
        let is_it = |purpose: &Self| {
            purpose.words().eq_ignore_ascii_case(words)
                || purpose.words().replace(' ', "-").eq_ignore_ascii_case(words)
        };
        Self::WRITTEN.into_iter().find(is_it)
    }

    pub fn words(self) -> &'static str {
        match self {
            Self::Prep => "prep",
            Self::Thaw => "thaw",
            Self::Cure => "cure",
            Self::Ferment => "ferment",
            Self::Cook => "cook",
            Self::Rest => "rest",
            Self::HotHold => "hot hold",
            Self::Cool => "cool",
            Self::ColdHold => "cold hold",
            Self::Freeze => "freeze",
            Self::Reheat => "reheat",
            Self::Serve => "serve",
        }
    }
}
