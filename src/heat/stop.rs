//! When a phase ends, as far as heat is concerned.

use super::band::Band;
use crate::cook::{Lasts, Phase, Service, Test, When};

/// What ends a phase.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stop {
    /// The clock, the cook or the hands: seconds.
    Lasts(Band),
    /// A temperature of the food, °C; with a spoken test or a written range it lasts no shorter than that, seconds.
    Heat { core: bool, target_c: f64, takes: Option<Band> },
    /// Nothing that is known.
    Unknown,
}

pub fn stop(phase: &Phase) -> Stop {
    let heat = phase.until.iter().flat_map(|until| &until.tests).find_map(|test| match test.value {
        Test::Core(target) => Some((true, target.celsius())),
        Test::Surface(target) => Some((false, target.celsius())),
        Test::Ph(_) | Test::Spoken(_) => None,
    });
    match (heat, lasting(phase)) {
        (Some((core, target_c)), takes) => Stop::Heat { core, target_c, takes },
        (None, Some(lasting)) => Stop::Lasts(lasting),
        (None, None) => Stop::Unknown,
    }
}

/// How long the file says that it lasts, in seconds.
pub fn lasting(phase: &Phase) -> Option<Band> {
    let between = |low: f64, high: f64| Band::new(low, 0.5 * (low + high), high);
    Some(match phase.lasts {
        Lasts::Fixed(length) => Band::exact(length.seconds()),
        // A choice is no uncertainty: the curve is drawn for the middle of it.
        Lasts::Chosen { low, high } => {
            Band::exact(between(low.seconds(), high.unwrap_or(low).seconds()).typical)
        }
        Lasts::Nature { low, high, .. } => between(low.seconds(), high.seconds()),
        Lasts::Serving => serving(phase.service.as_ref()?),
        Lasts::Open | Lasts::Unsaid => return None,
    })
}

/// The range of a length that the cook chooses, in seconds.
pub fn chosen(phase: &Phase) -> Option<Band> {
    let Lasts::Chosen { low, high } = phase.lasts else { return None };
    let (low, high) = (low.seconds(), high.unwrap_or(low).seconds());
    (phase.until.is_none() && high.is_finite()).then(|| Band::new(low, 0.5 * (low + high), high))
}

/// How long a serving stands there.
fn serving(service: &Service) -> Band {
    let window = |from: &When, to: &When| {
        let minutes = f64::from(to.time.minutes()) - f64::from(from.time.minutes());
        60.0 * if minutes < 0.0 { minutes + 24.0 * 60.0 } else { minutes }
    };
    match service {
        Service::At { late, .. } => Band::new(0.0, 0.0, late.unwrap_or_default().seconds()),
        Service::Throughout { from, to } => Band::exact(window(&from.value, &to.value)),
        Service::Guests { from, to, late } => {
            let stands = window(&from.value, &to.value);
            Band::new(0.0, 0.5 * stands, stands + late.unwrap_or_default().seconds())
        }
        Service::Unsaid => Band::exact(0.0),
    }
}
