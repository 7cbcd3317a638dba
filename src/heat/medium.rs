//! What the food lies in, and how hot that is.

use super::band::Band;
use super::stop::{Stop, stop};
use crate::cook::{Kit, Medium, Phase, Purpose};

/// A room where no kit says how warm it is, °C. Common practice, no source.
pub const ROOM_C: Band = Band::new(16.0, 20.0, 26.0);
pub const ROOM_ASSUMED: &str = "the room at 20 °C";
/// Swing of a kit whose class has none, K.
const SWING_K: f64 = 2.0;

/// Why it is not known: what to write.
pub type Unknown = String;

/// The medium and its temperature, °C.
pub struct Around {
    pub medium: Medium,
    pub medium_c: Band,
    /// The air of the room.
    pub room: bool,
    /// What was not written and had to be assumed.
    pub assumed: Vec<String>,
}

/// The setting, the one thing that the kit can be set to, the room, or for food that may `lie_on` hot metal what its class
/// is when nothing is said of it.
///
/// # Errors
/// What the cook would have to say.
pub fn medium_of(phase: &Phase, kit: &Kit, lie_on: bool) -> Result<Around, Unknown> {
    let known = |medium, medium_c| Around { medium, medium_c, room: false, assumed: Vec::new() };
    let swing = kit.swing.map_or(kit.class.swing_k.unwrap_or(SWING_K), |swing| swing.kelvin());
    if let Some(setting) = &phase.setting {
        let swing = setting.tolerance.map_or(swing, |tolerance| tolerance.kelvin());
        return Ok(known(setting.medium, Band::around(setting.temperature.celsius(), swing)));
    }
    match kit.ranges.as_slice() {
        [range] if range.low == range.high => {
            Ok(known(range.medium, Band::around(range.low.celsius(), swing)))
        }
        [range] if kit.class.cold && range.medium == Medium::Water => {
            let low_c = range.low.celsius();
            Ok(known(range.medium, Band::new(low_c, low_c + 0.5, range.high.celsius())))
        }
        _ if !kit.class.thermostat && kit.class.ranges.iter().all(|range| range.medium == Medium::Air) => {
            let assumed = kit.room.map_or(vec![ROOM_ASSUMED.to_string()], |_| Vec::new());
            let medium_c = kit.room.map_or(ROOM_C, |room| Band::exact(room.celsius()));
            Ok(Around { medium: Medium::Air, medium_c, room: true, assumed })
        }
        _ => unset(phase, kit)
            .filter(|_| lie_on)
            .ok_or_else(|| format!("say what `{}` is set to", kit.name.value)),
    }
}

/// A pan of which nothing is said: no hotter than the kit goes.
fn unset(phase: &Phase, kit: &Kit) -> Option<Around> {
    let unset = kit.class.unset.as_ref()?;
    // A pot that water stands in is brought to a boil, or not.
    if !matches!(phase.purpose, Purpose::Cook | Purpose::Reheat) || phase.lie_in.is_some() {
        return None;
    }
    let goes_to = kit.ranges.iter().find(|range| range.medium == unset.medium);
    let most_c = goes_to.map_or(unset.high_c, |range| unset.high_c.min(range.high.celsius()));
    // A pan that is to bring the food to a temperature is at least as hot as that.
    let least_c = match stop(phase) {
        Stop::Heat { target_c, .. } => unset.low_c.max(target_c),
        Stop::Lasts(_) | Stop::Unknown => unset.low_c,
    };
    let least_c = least_c.min(most_c);
    let medium_c = Band::new(least_c, unset.typical_c.clamp(least_c, most_c), most_c);
    let Band { low, typical, high } = medium_c;
    let assumed = format!(
        "the {} of `{}` in `{}` at {typical:.0} °C, where it may be at {low:.0} to {high:.0} °C",
        unset.medium.word(),
        kit.name.value,
        phase.name
    );
    Some(Around { medium: unset.medium, medium_c, room: false, assumed: vec![assumed] })
}

/// All that it may be there, whatever the food; `None` where that is anything.
pub fn extremes_c(phase: &Phase, kit: &Kit) -> Option<Band> {
    if let Ok(around) = medium_of(phase, kit, false) {
        return Some(around.medium_c);
    }
    let ends = kit.ranges.iter().map(|range| (range.low.celsius(), range.high.celsius()));
    let (low, high) = ends.reduce(|one, other| (one.0.min(other.0), one.1.max(other.1)))?;
    Some(Band::new(low, 0.5 * (low + high), high))
}
