//! The registry of findings: one row ties code, stage, severity and the long text together.
//!
//! To add one: a row here and `texts/<code>.md` beside it. Tests refuse a row without its text, a
//! text with a section missing, and an example that does not do what it says.

/// How much a finding weighs. Only an error makes `dwell check` fail.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    Error,
    Warning,
    Note,
}

impl Severity {
    pub fn name(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }
}

/// Which stage of the compiler makes a finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    Syntax,
    Units,
    Names,
    Ledger,
    Kit,
    Heat,
    Safety,
    Timing,
}

impl Stage {
    pub fn name(self) -> &'static str {
        match self {
            Self::Syntax => "syntax",
            Self::Units => "units",
            Self::Names => "names",
            Self::Ledger => "ledger",
            Self::Kit => "kit",
            Self::Heat => "heat",
            Self::Safety => "safety",
            Self::Timing => "timing",
        }
    }
}

macro_rules! catalogue {
    ($($stage:ident { $($code:ident = $name:literal, $severity:ident;)* })*) => {
        /// The readable codes. A code names the fault and reads naturally after `allow`; none is
        /// ever given a second meaning.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Code {
            $($($code,)*)*
        }

        /// Every code, in the order of the stages.
        pub const ALL: &[Code] = &[$($(Code::$code,)*)*];

        impl Code {
            /// As people type it: `hold-too-cool`.
            pub fn name(self) -> &'static str {
                match self { $($(Self::$code => $name,)*)* }
            }

            pub fn stage(self) -> Stage {
                match self { $($(Self::$code => Stage::$stage,)*)* }
            }

            /// What it weighs unless the stage that makes it says otherwise.
            pub fn severity(self) -> Severity {
                match self { $($(Self::$code => Severity::$severity,)*)* }
            }

            /// The long text, in Markdown with fixed sections.
            pub fn text(self) -> &'static str {
                match self { $($(Self::$code => include_str!(concat!("texts/", $name, ".md")),)*)* }
            }
        }
    };
}

impl Code {
    /// The code that is spelt `name`, in any letter case.
    pub fn find(name: &str) -> Option<Code> {
        ALL.iter().copied().find(|code| code.name().eq_ignore_ascii_case(name))
    }
}

catalogue! {
    Syntax {
        FileUnreadable = "file-unreadable", Error;
        FileEmpty = "file-empty", Error;
        FileTooLong = "file-too-long", Error;
        EditionUnknown = "edition-unknown", Error;
        LineUnreadable = "line-unreadable", Error;
        BlockUnreadable = "block-unreadable", Error;
        LineOutsideBlock = "line-outside-block", Error;
        ClauseOutOfPlace = "clause-out-of-place", Error;
        ClauseTwice = "clause-twice", Error;
        QuoteUnclosed = "quote-unclosed", Error;
        NameAlone = "name-alone", Error;
        CommaMissing = "comma-missing", Error;
        DecimalComma = "decimal-comma", Error;
    }
    Units {
        NumberSpaced = "number-spaced", Error;
        UnitMissing = "unit-missing", Error;
        UnitUnknown = "unit-unknown", Error;
        UnitMismatch = "unit-mismatch", Error;
        MeasuresUnsaid = "measures-unsaid", Error;
        TemperatureOfWhat = "temperature-of-what", Error;
        TwinDisagrees = "twin-disagrees", Warning;
        RangeBackwards = "range-backwards", Error;
        RangeMisplaced = "range-misplaced", Error;
        FigureImpossible = "figure-impossible", Error;
        ClockTimeForm = "clock-time-form", Error;
        ZoneUnknown = "zone-unknown", Error;
        DateImpossible = "date-impossible", Error;
    }
    Names {
        TitleMissing = "title-missing", Error;
        NameUnknown = "name-unknown", Error;
        NameTaken = "name-taken", Error;
        NameIdle = "name-idle", Warning;
        NameReserved = "name-reserved", Error;
        AmountMissing = "amount-missing", Error;
        FoodKindUnknown = "food-kind-unknown", Error;
        KitClassUnknown = "kit-class-unknown", Error;
        PurposeUnknown = "purpose-unknown", Error;
        PurposeMissing = "purpose-missing", Error;
        RulesUnknown = "rules-unknown", Error;
        AllergenUnknown = "allergen-unknown", Error;
        FileMissing = "file-missing", Error;
        FileOutside = "file-outside", Error;
        FileCircular = "file-circular", Error;
        DishesDisagree = "dishes-disagree", Error;
        PlaceMissing = "place-missing", Error;
        IngredientPlaced = "ingredient-placed", Error;
        BecomesMissing = "becomes-missing", Error;
        PartUnnamed = "part-unnamed", Error;
        FoodUnclear = "food-unclear", Error;
        UsedTooEarly = "used-too-early", Error;
        FoodEatenUp = "food-eaten-up", Error;
        NothingServed = "nothing-served", Warning;
        OwnFileUnreadable = "own-file-unreadable", Error;
        OwnKeyUnknown = "own-key-unknown", Error;
        OwnValueWrong = "own-value-wrong", Error;
        OwnRowIncomplete = "own-row-incomplete", Error;
        AllowUnused = "allow-unused", Warning;
        AllowUnknown = "allow-unknown", Error;
    }
    Ledger {
        CountWithoutShape = "count-without-shape", Error;
        StockOverdrawn = "stock-overdrawn", Error;
        StockLeft = "stock-left", Note;
        CoverNotDrawn = "cover-not-drawn", Note;
        UnitsUnrelated = "units-unrelated", Error;
        AmountInProse = "amount-in-prose", Note;
        ServingsShort = "servings-short", Warning;
        ServesMissing = "serves-missing", Error;
        PotTooDeep = "pot-too-deep", Warning;
        HandsNotScaled = "hands-not-scaled", Note;
        LossNeverTaken = "loss-never-taken", Warning;
    }
    Kit {
        SettingOutOfRange = "setting-out-of-range", Error;
        SettingNotHad = "setting-not-had", Error;
        SettingMissing = "setting-missing", Error;
        SettingsClash = "settings-clash", Error;
        KitTooFull = "kit-too-full", Error;
        ProbeMissing = "probe-missing", Error;
        SmokeNotHad = "smoke-not-had", Error;
        SmokeUnvented = "smoke-unvented", Error;
        KitUnfit = "kit-unfit", Error;
        BagMissing = "bag-missing", Warning;
        BagTooHot = "bag-too-hot", Warning;
    }
    Heat {
        EndOutOfReach = "end-out-of-reach", Error;
        ExpectationUnlikely = "expectation-unlikely", Warning;
        ReadingContradicts = "reading-contradicts", Warning;
        ReadingUnplaced = "reading-unplaced", Warning;
        LogUnreadable = "log-unreadable", Error;
        LogRowUnreadable = "log-row-unreadable", Warning;
        LogOutOfOrder = "log-out-of-order", Warning;
        LogGap = "log-gap", Warning;
        LogEndsEarly = "log-ends-early", Warning;
        SensorImplausible = "sensor-implausible", Warning;
    }
    Safety {
        FoodUnrecognised = "food-unrecognised", Note;
        RulesAssumed = "rules-assumed", Warning;
        HoldTooCool = "hold-too-cool", Error;
        HoldTooWarm = "hold-too-warm", Error;
        HoldEnteredCold = "hold-entered-cold", Error;
        CookEndTooCool = "cook-end-too-cool", Error;
        ComeUpTooSlow = "come-up-too-slow", Error;
        ReheatTooCool = "reheat-too-cool", Error;
        ReheatTooSlow = "reheat-too-slow", Error;
        ReheatedTwice = "reheated-twice", Warning;
        CoolTooSlow = "cool-too-slow", Error;
        NitriteTooHigh = "nitrite-too-high", Error;
        KeptTooLong = "kept-too-long", Error;
        ThawNotFrozen = "thaw-not-frozen", Warning;
        ParasitesNotFrozen = "parasites-not-frozen", Warning;
        ThawTooWarm = "thaw-too-warm", Error;
        TimeWithoutControl = "time-without-control", Error;
        RawIntoCooked = "raw-into-cooked", Error;
        GrowthAboveLimit = "growth-above-limit", Note;
    }
    Timing {
        EndMissing = "end-missing", Error;
        ServingTimeMissing = "serving-time-missing", Note;
        WeekdayMissing = "weekday-missing", Error;
        WeekdayMoved = "weekday-moved", Warning;
        ClockTimeSkipped = "clock-time-skipped", Error;
        ClockTimeTwice = "clock-time-twice", Warning;
        OrderCircular = "order-circular", Error;
        NeverOnTime = "never-on-time", Error;
        OnTimeIfLucky = "on-time-if-lucky", Warning;
        TimingNotProved = "timing-not-proved", Note;
        ProgressUnclear = "progress-unclear", Error;
        PhaseOverdue = "phase-overdue", Warning;
    }
}
