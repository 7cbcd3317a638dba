//! What a phase declares of temperature and time: the only figures that are judged here.

use crate::cook::{Check, Cook, Cover, CoverKind, Lasts, Medium, Phase, Purpose, Service, Test};
use crate::quantity::{Duration, Temperature, TemperatureDifference};
use crate::text::Span;

const UNBOUNDED: Duration = Duration::from_seconds(f64::INFINITY);

/// A declared temperature, and where it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Figure {
    pub at: Temperature,
    pub span: Span,
}

/// What surrounds the food: a setting, or all that the kit can be set to where no setting says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Band {
    pub medium: Medium,
    pub low: Temperature,
    pub high: Temperature,
    pub tolerance: Option<TemperatureDifference>,
    /// The clause that says so; `None` for the default of a class.
    pub span: Option<Span>,
    /// The phase itself says it.
    pub here: bool,
}

pub(super) fn surroundings(cook: &Cook, phase: &Phase) -> Option<Band> {
    if let Some(setting) = &phase.setting {
        return Some(Band {
            medium: setting.medium,
            low: setting.temperature,
            high: setting.temperature,
            tolerance: setting.tolerance,
            span: Some(setting.span),
            here: !setting.kept,
        });
    }
    let kit = cook.kit(phase.place.as_ref()?.value);
    let [range] = kit.ranges.as_slice() else { return None };
    Some(Band {
        medium: range.medium,
        low: range.low,
        high: range.high,
        tolerance: None,
        span: range.span,
        here: false,
    })
}

/// The temperature around the food, where one single figure is declared.
pub(super) fn setting(cook: &Cook, phase: &Phase) -> Option<Figure> {
    let band = surroundings(cook, phase)?;
    (band.low == band.high).then(|| Figure { at: band.low, span: band.span.unwrap_or(phase.span) })
}

/// The food stands in a fridge, a freezer, a chiller or on ice.
pub(super) fn in_the_cold(cook: &Cook, phase: &Phase) -> bool {
    phase.place.as_ref().is_some_and(|place| cook.kit(place.value).class.cold)
}

pub(super) fn is_bag(cover: &Cover) -> bool {
    matches!(cover.kind, CoverKind::Bagged | CoverKind::VacuumBagged)
}

/// How long a phase may last. `planned` counts what the cook chooses at its longest and what nature
/// chooses at its shortest: a plan that allows it is declared, whatever nature does.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Times {
    pub shortest: Duration,
    pub planned: Duration,
    pub longest: Duration,
}

impl std::ops::Add for Times {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            shortest: self.shortest + other.shortest,
            planned: self.planned + other.planned,
            longest: self.longest + other.longest,
        }
    }
}

pub(super) fn times(phase: &Phase) -> Times {
    let (shortest, planned, longest) = match phase.lasts {
        Lasts::Fixed(d) => (d, d, d),
        Lasts::Chosen { low, high: Some(high) } => (low, high, high),
        Lasts::Chosen { low, high: None } => (low, low, UNBOUNDED),
        Lasts::Nature { low, high, .. } => (low, low, high),
        Lasts::Open | Lasts::Unsaid => (Duration::ZERO, Duration::ZERO, UNBOUNDED),
        Lasts::Serving => return serving_times(phase),
    };
    let longest = phase.within.as_ref().map_or(longest, |within| longest.min(within.value));
    Times { shortest, planned, longest }
}

/// How long a serving stands there.
fn serving_times(phase: &Phase) -> Times {
    let window = |from: &crate::cook::When, to: &crate::cook::When| {
        // A window over midnight has a later day; days apart are not a serving.
        let minutes = f64::from(to.time.minutes()) - f64::from(from.time.minutes());
        Duration::from_minutes(if minutes < 0.0 { minutes + 24.0 * 60.0 } else { minutes })
    };
    match &phase.service {
        Some(Service::At { late, .. }) => {
            let late = late.unwrap_or_default();
            Times { shortest: Duration::ZERO, planned: late, longest: late }
        }
        Some(Service::Throughout { from, to }) => {
            let stands = window(&from.value, &to.value);
            Times { shortest: stands, planned: stands, longest: stands }
        }
        Some(Service::Guests { from, to, late }) => {
            let stands = window(&from.value, &to.value) + late.unwrap_or_default();
            Times { shortest: Duration::ZERO, planned: Duration::ZERO, longest: stands }
        }
        Some(Service::Unsaid) | None => Times::default(),
    }
}

/// What a phase declares of the heat that the coldest part of the food gets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Heat {
    /// The phase does not end before the core is this hot.
    pub sure: Option<Temperature>,
    /// The core gets no hotter than this; `None` where nothing says.
    pub most: Option<Temperature>,
    /// The phase ends exactly as the core gets there.
    pub exact: bool,
    /// The outside gets this hot.
    pub surface: Option<Temperature>,
    pub longest: Duration,
    pub shortest: Duration,
    /// It stood beside its parent in this heat, as nobody says; it is not placed there.
    pub beside: bool,
    /// Where the figure that bounds it stands.
    pub span: Span,
}

/// The heat of a phase that heats, or whose checkpoint says how hot the food is.
pub(super) fn heat(cook: &Cook, phase: &Phase) -> Option<Heat> {
    let heats = matches!(phase.purpose, Purpose::Cook | Purpose::Reheat);
    let core_checked = phase.checks.iter().any(|check| matches!(check.value, Check::Core { .. }));
    let claims = core_checked && matches!(phase.purpose, Purpose::Rest | Purpose::Prep | Purpose::Serve);
    if !heats && !claims {
        return None;
    }
    let times = times(phase);
    let mut heat = Heat {
        sure: None,
        most: None,
        exact: false,
        surface: None,
        longest: times.longest,
        shortest: times.shortest,
        beside: false,
        span: phase.lasts_span,
    };
    if phase.damaged {
        return Some(Heat { longest: UNBOUNDED, ..heat });
    }
    if heats && let Some(setting) = setting(cook, phase) {
        heat.most = Some(setting.at);
        heat.span = setting.span;
    }
    for check in &phase.checks {
        match check.value {
            Check::Core { low, high } => {
                if let Some(top) = high
                    && heat.most.is_none_or(|most| top < most)
                {
                    heat.most = Some(top);
                    heat.span = check.span;
                }
                if claims {
                    // A claim is worth the least that it lets pass, for as long as nature gives.
                    heat.most = low.or(high);
                    heat.longest = UNBOUNDED;
                    heat.span = check.span;
                }
            }
            Check::Surface { low, high } => heat.surface = high.or(low),
            _ => {}
        }
    }
    if let Some(until) = &phase.until {
        for test in &until.tests {
            match test.value {
                Test::Core(core) => {
                    heat.sure = Some(heat.sure.map_or(core, |sure| sure.max(core)));
                    if until.tests.len() == 1 {
                        heat.exact = true;
                        heat.most = Some(heat.most.map_or(core, |most| most.min(core)));
                        heat.span = until.span;
                        // How long it stays there is the next phase's business, and nature's.
                        heat.longest = UNBOUNDED;
                    }
                }
                Test::Surface(surface) => heat.surface = Some(surface),
                Test::Ph(_) | Test::Spoken(_) => {}
            }
        }
    }
    Some(heat)
}

/// The core that a phase is to end with: its `until`.
pub(super) fn core_end(phase: &Phase) -> Option<Figure> {
    phase.until.as_ref()?.tests.iter().find_map(|test| match test.value {
        Test::Core(at) => Some(Figure { at, span: test.span }),
        _ => None,
    })
}

/// Checkpoints of the core: lowest and highest that they let pass.
pub(super) fn core_checks(
    phase: &Phase,
) -> impl Iterator<Item = (Option<Temperature>, Option<Temperature>, Span)> {
    phase.checks.iter().filter_map(|check| match check.value {
        Check::Core { low, high } => Some((low, high, check.span)),
        _ => None,
    })
}
