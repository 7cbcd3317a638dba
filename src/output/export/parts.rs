//! The parts of a phase.

use schemars::JsonSchema;
use serde::Serialize;

use super::amounts::{Amount, Part};
use super::kit::Medium;
use super::when::{When, day};
use crate::cook::{self, Cook};
use crate::quantity::Temperature;

/// When a serving is.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum Service {
    At { at: When, late_s: Option<f64> },
    Throughout { from: When, to: When },
    Guests { from: When, to: When, late_s: Option<f64> },
    Unsaid,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Placing {
    pub(super) food: String,
    pub(super) part: Part,
    /// The phase that had it before; none straight from the store.
    pub(super) before: Option<String>,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Draw {
    pub(super) item: String,
    pub(super) part: Part,
    pub(super) before: Option<String>,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Setting {
    pub(super) medium: Medium,
    pub(super) temperature_c: f64,
    pub(super) tolerance_k: Option<f64>,
    /// It only goes on from the phase before.
    pub(super) kept: bool,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct LiesIn {
    pub(super) amount: Amount,
    /// None for tap water.
    pub(super) item: Option<String>,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Smoke {
    pub(super) draw: Option<Draw>,
}

/// How long, and who decides.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum Lasts {
    Fixed {
        for_s: f64,
    },
    /// The cook decides.
    Chosen {
        low_s: f64,
        high_s: Option<f64>,
    },
    /// The food, or the hands.
    Nature {
        low_s: f64,
        high_s: f64,
        for_each_piece: bool,
    },
    /// As long as `until` takes; only a prediction could tell.
    Open,
    Serving,
    Unsaid,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(super) enum Test {
    CoreC(f64),
    SurfaceC(f64),
    AcidityPh(f64),
    Spoken(String),
}

/// A checkpoint at the end, or throughout a serving; an end that is none is open.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum Check {
    Core { low_c: Option<f64>, high_c: Option<f64> },
    Surface { low_c: Option<f64>, high_c: Option<f64> },
    Weight { low_fraction: f64, high_fraction: f64 },
    Acidity { low_ph: f64, high_ph: f64 },
    Salt { low_fraction: f64, high_fraction: f64 },
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Collect {
    pub(super) item: String,
    pub(super) amount: Amount,
    pub(super) from: Option<String>,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Job {
    pub(super) call: Call,
    pub(super) text: String,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(super) enum Call {
    Start,
    End,
    AtCoreC(f64),
    EveryS(f64),
}

/// Who must be there.
#[derive(Serialize, JsonSchema)]
pub(super) struct Hands {
    /// For the whole phase.
    throughout: bool,
    /// For this long from the start; none where it is the whole phase.
    on_s: Option<f64>,
    look_in_every_s: Option<f64>,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Order {
    edge: Edge,
    relation: Relation,
    by_s: Option<f64>,
    at_least: bool,
    moment: Moment,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum Edge {
    Starts,
    Ends,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Relation {
    When,
    NoSooner,
    NoLater,
    Before,
    After,
    OnDay,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum Moment {
    Starts(String),
    Ends(String),
    Serving(String),
    Clock(When),
    Day(String),
}

impl From<&cook::Service> for Service {
    fn from(service: &cook::Service) -> Self {
        match service {
            cook::Service::At { at, late } => {
                Self::At { at: (&at.value).into(), late_s: late.map(|late| late.seconds()) }
            }
            cook::Service::Throughout { from, to } => {
                Self::Throughout { from: (&from.value).into(), to: (&to.value).into() }
            }
            cook::Service::Guests { from, to, late } => Self::Guests {
                from: (&from.value).into(),
                to: (&to.value).into(),
                late_s: late.map(|late| late.seconds()),
            },
            cook::Service::Unsaid => Self::Unsaid,
        }
    }
}

impl From<cook::Lasts> for Lasts {
    fn from(lasts: cook::Lasts) -> Self {
        match lasts {
            cook::Lasts::Fixed(time) => Self::Fixed { for_s: time.seconds() },
            cook::Lasts::Chosen { low, high } => {
                Self::Chosen { low_s: low.seconds(), high_s: high.map(|high| high.seconds()) }
            }
            cook::Lasts::Nature { low, high, each } => {
                Self::Nature { low_s: low.seconds(), high_s: high.seconds(), for_each_piece: each }
            }
            cook::Lasts::Open => Self::Open,
            cook::Lasts::Serving => Self::Serving,
            cook::Lasts::Unsaid => Self::Unsaid,
        }
    }
}

impl From<&cook::Test> for Test {
    fn from(test: &cook::Test) -> Self {
        match test {
            cook::Test::Core(temperature) => Self::CoreC(temperature.celsius()),
            cook::Test::Surface(temperature) => Self::SurfaceC(temperature.celsius()),
            cook::Test::Ph(ph) => Self::AcidityPh(*ph),
            cook::Test::Spoken(words) => Self::Spoken(words.clone()),
        }
    }
}

impl From<cook::Check> for Check {
    fn from(check: cook::Check) -> Self {
        let celsius = |end: Option<Temperature>| end.map(|temperature| temperature.celsius());
        match check {
            cook::Check::Core { low, high } => Self::Core { low_c: celsius(low), high_c: celsius(high) },
            cook::Check::Surface { low, high } => {
                Self::Surface { low_c: celsius(low), high_c: celsius(high) }
            }
            cook::Check::Weight { low, high } => {
                Self::Weight { low_fraction: low.fraction(), high_fraction: high.fraction() }
            }
            cook::Check::Ph { low, high } => Self::Acidity { low_ph: low, high_ph: high },
            cook::Check::Salt { low, high } => {
                Self::Salt { low_fraction: low.fraction(), high_fraction: high.fraction() }
            }
        }
    }
}

impl From<cook::Call> for Call {
    fn from(call: cook::Call) -> Self {
        match call {
            cook::Call::Start => Self::Start,
            cook::Call::End => Self::End,
            cook::Call::AtCore(temperature) => Self::AtCoreC(temperature.celsius()),
            cook::Call::Every(time) => Self::EveryS(time.seconds()),
        }
    }
}

impl From<cook::Hands> for Hands {
    fn from(hands: cook::Hands) -> Self {
        let on = hands.on.seconds();
        Self {
            throughout: on.is_infinite(),
            on_s: on.is_finite().then_some(on),
            look_in_every_s: hands.look_in.map(|time| time.seconds()),
        }
    }
}

impl Order {
    pub(super) fn new(cook: &Cook, order: &cook::Order) -> Self {
        let moment = |moment| match moment {
            cook::Moment::Starts(phase) => Moment::Starts(cook.phase(phase).name.clone()),
            cook::Moment::Ends(phase) => Moment::Ends(cook.phase(phase).name.clone()),
            cook::Moment::Serving(phase) => Moment::Serving(cook.phase(phase).name.clone()),
            cook::Moment::Clock(when) => Moment::Clock((&when).into()),
        };
        let (relation, by, least, moment) = match order.bound {
            cook::OrderBound::When(at) => (Relation::When, None, false, moment(at)),
            cook::OrderBound::NoSooner(at) => (Relation::NoSooner, None, false, moment(at)),
            cook::OrderBound::NoLater(at) => (Relation::NoLater, None, false, moment(at)),
            cook::OrderBound::Before { by, at_least, moment: at } => {
                (Relation::Before, Some(by), at_least, moment(at))
            }
            cook::OrderBound::After { by, at_least, moment: at } => {
                (Relation::After, Some(by), at_least, moment(at))
            }
            cook::OrderBound::OnDay(on) => (Relation::OnDay, None, false, Moment::Day(day(on))),
        };
        Self {
            edge: match order.edge {
                cook::Edge::Start => Edge::Starts,
                cook::Edge::End => Edge::Ends,
            },
            relation,
            by_s: by.map(|by| by.seconds()),
            at_least: least,
            moment,
        }
    }
}
