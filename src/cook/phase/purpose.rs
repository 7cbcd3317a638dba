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

    /// What a cook means by it.
    pub fn means(self) -> &'static str {
        match self {
            Self::Prep => "Trimming, seasoning, slicing, filling: work on the food, most of it on a bench.",
            Self::Thaw => {
                "Frozen food comes back to above freezing. The rules ask how warm it may get meanwhile."
            }
            Self::Cure => "Salt, brine or a marinade works on the food.",
            Self::Ferment => "Living cultures sour or raise the food.",
            Self::Cook => {
                "The food is heated until it is done. The rules ask how hot it gets inside, and for how long."
            }
            Self::Rest => "The food stands after the heat, and is soon eaten or goes on.",
            Self::HotHold => "The food is kept hot until people eat. The rules ask how hot at least.",
            Self::Cool => "Hot food becomes cold. The rules ask how fast.",
            Self::ColdHold => {
                "The food is kept cold. The rules ask how cold, and some for how long at the most."
            }
            Self::Freeze => "The food is frozen.",
            Self::Reheat => {
                "Food that was cooked and cooled becomes hot again. The rules ask how hot, and some how fast."
            }
            Self::Serve => "People eat.",
        }
    }
}
