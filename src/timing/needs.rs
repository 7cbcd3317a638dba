//! Whose hands a phase needs, and when.

use super::clock::Minute;
use super::network::{Lasts, Needs};
use super::sets::FAR;
use crate::cook::{Call, Cook, Hands, Phase, PhaseId, Test};
use crate::quantity::Duration;

/// What moving food or changing a setting costs one person, in minutes.
pub const MOVE: Minute = 5;
/// Longer than anything is taken to last: a phase of more than a year is beyond a timeline.
pub const LONGEST: Minute = 400 * 24 * 60;

/// Why somebody is taken up at the start of a phase though it is not hands-on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Start {
    Nothing,
    /// Food goes from one place to another.
    Move,
    /// The kit is set to another temperature, by hand.
    Set,
    /// Stock goes in.
    Add,
    /// Something is to be done.
    Do,
    /// A programmable kit goes to another setting.
    ByItself,
}

/// Whole minutes; anything longer than nothing lasts at least one.
pub fn minutes(duration: Duration) -> Minute {
    let minutes = duration.minutes();
    if minutes > 0.0 { (minutes.round() as Minute).clamp(1, LONGEST) } else { 0 }
}

/// Who decides, in whole minutes: nature's range rounded outwards, a choice as it is written.
pub fn lasts(phase: &Phase) -> Option<Lasts> {
    Some(match phase.lasts {
        crate::cook::Lasts::Fixed(length) => Lasts::Fixed(minutes(length)),
        crate::cook::Lasts::Chosen { low, high } => {
            let low = minutes(low);
            // Open upwards: two weeks over the least is as long as anybody asks about.
            let high = high.map_or(low + 14 * 24 * 60, minutes);
            Lasts::Chosen { low, high: high.max(low) }
        }
        crate::cook::Lasts::Nature { low, high, .. } => {
            let whole = |minutes: f64| (minutes as Minute).clamp(0, LONGEST);
            let (low, high) = (whole(low.minutes().floor()), whole(high.minutes().ceil()));
            Lasts::Nature {
                low,
                high: high.max(low),
                looks: is_spoken(phase).then(|| looks(phase)).flatten(),
            }
        }
        crate::cook::Lasts::Open | crate::cook::Lasts::Serving | crate::cook::Lasts::Unsaid => return None,
    })
}

/// Whether hands, eyes or a fork decide when the phase ends.
pub fn is_spoken(phase: &Phase) -> bool {
    let spoken = |until: &crate::cook::Until| until.tests.iter().any(|t| matches!(t.value, Test::Spoken(_)));
    phase.until.as_ref().is_some_and(spoken)
}

/// How often somebody is at the food anyway, where that is not all the time.
fn looks(phase: &Phase) -> Option<Minute> {
    let calls = phase.jobs.iter().filter_map(|job| match job.call {
        Call::Every(every) => Some(every),
        _ => None,
    });
    calls.chain(phase.hands.look_in).filter(|every| every.minutes() >= 2.0).map(minutes).min()
}

/// The hands that a phase needs when there is a crew.
pub fn needs(cook: &Cook, id: PhaseId) -> Needs {
    let phase = cook.phase(id);
    let whole = phase.hands.on.seconds().is_infinite();
    let start = match start(cook, id) {
        Start::Nothing | Start::ByItself => 0,
        Start::Do => 1,
        Start::Move | Start::Set | Start::Add => MOVE,
    };
    let spoken = is_spoken(phase).then(|| lasts(phase)).flatten();
    let looked_at = matches!(spoken, Some(Lasts::Nature { looks: Some(_), .. }));
    let instant = spoken.is_some_and(|lasts| lasts.low() == lasts.high());
    Needs {
        busy: if whole { FAR } else { minutes(phase.hands.on).max(start) },
        awake_from: spoken.filter(|_| !looked_at && !instant).map(Lasts::low),
        look_in: phase.hands.look_in.map(minutes).filter(|&every| every > 0),
        before: None,
        at_end: looked_at || instant || phase.jobs.iter().any(|job| job.call == Call::End),
    }
}

/// What has to be done by hand as the phase starts, in a phase that is not hands-on anyway.
pub fn start(cook: &Cook, id: PhaseId) -> Start {
    let phase = cook.phase(id);
    let place = phase.place.map(|place| place.value);
    let moved = |before: Option<PhaseId>| {
        before.is_none_or(|before| cook.phase(before).place.map(|place| place.value) != place)
    };
    if phase.placings.iter().any(|placing| moved(placing.before)) {
        return Start::Move;
    }
    let set = phase.placings.iter().filter_map(|placing| placing.before).any(|before| {
        let before = cook.phase(before).setting;
        phase.setting.is_some_and(|now| {
            before.is_none_or(|then| then.temperature != now.temperature || then.medium != now.medium)
        })
    });
    let by_itself = place.is_some_and(|kit| cook.kit(kit).programmable);
    if set && !by_itself {
        Start::Set
    } else if !phase.uses.is_empty() || (phase.placings.is_empty() && phase.service.is_none()) {
        Start::Add
    } else if phase.jobs.iter().any(|job| job.call == Call::Start) {
        Start::Do
    } else if set {
        Start::ByItself
    } else {
        Start::Nothing
    }
}

/// Hands from the first minute to the last.
pub fn is_hands_on(hands: &Hands) -> bool {
    hands.on.seconds().is_infinite()
}
