//! What lies around the food in a phase: the medium, how well it passes heat on, and how dry it is.

use super::band::Band;
use super::conduction::air;
use super::following::{ComingFrom, LeftKit};
use super::medium::{Around, ROOM_ASSUMED, ROOM_C, Unknown, medium_of};
use super::piece::Piece;
use crate::cook::{Cook, CoverKind, Kit, Medium, Phase};
use crate::tables::{Film, FoodState};

/// Of moist food; engineering texts, from memory.
const EMISSIVITY: f64 = 0.9;
/// Relative humidity of air that no kit makes drier or more humid. Common practice, no source.
const ROOM_MOISTURE: Band = Band::new(0.2, 0.5, 0.9);
/// The medium around the food in one phase, with all that is not known exactly about it.
#[derive(Debug, Clone, PartialEq)]
pub struct Surroundings {
    pub medium: Medium,
    /// Once the kit has reached its setting, °C.
    pub medium_c: Band,
    /// Where the kit still comes from another setting as the food is put in, or changes while it is in it.
    pub coming_from: Option<ComingFrom>,
    /// W/m² K, without radiation where [`emissivity`](Self::emissivity) is above zero.
    pub film_w_m2k: Band,
    pub emissivity: f64,
    /// The share of the surface that is wet, 0 to 1.
    pub wetness: Band,
    /// A solid, bare surface in air.
    pub dries: bool,
    /// How it usually does.
    pub drying: Drying,
    /// Of the air, kg of water per kg of dry air.
    pub humidity_ratio: Band,
    /// The air of the room, in which food that waits beside it is, too.
    pub room: bool,
    /// What was not written and had to be assumed.
    pub assumed: Vec<String>,
}

/// How a bare surface dries in air of 110 °C: juice from inside keeps it as wet as it was for so many seconds, then
/// evaporation fades, by about two thirds in so many more. The two stages are those of the drying of any wet solid; their
/// lengths are estimates, chosen so that a shoulder of 11 cm stands about 70 °C for hours and comes to 93 °C overnight
/// (common practice, no source: 10 to 14 h).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drying {
    stays_wet_s: f64,
    fades_in_s: f64,
}

const DRIES: Drying = Drying { stays_wet_s: 5.0 * 3600.0, fades_in_s: 2.0 * 3600.0 };
/// As soon as it may be dry. An estimate.
const DRIES_SOONEST: Drying = Drying { stays_wet_s: 0.0, fades_in_s: 2.0 * 3600.0 };
/// Longer than this it hardly stays wet. An estimate: crusts are dry after a night (common practice, no source).
const LONGEST_WET_S: f64 = 10.0 * 3600.0;
/// A wet surface is about so warm, °C; the hotter the air is than that, the faster it dries.
const WET_SURFACE_C: f64 = 70.0;
const DRIES_IN_AIR_OF_C: f64 = 110.0;

impl Surroundings {
    /// Staying wet for a `share` of the longest that is likely.
    pub fn drying_after(self, share: f64) -> Self {
        Self { drying: Drying { stays_wet_s: share * LONGEST_WET_S, ..DRIES }, ..self }
    }

    /// The usual wetness through a phase, when the surface has dried for `dried_s` before: points of seconds and share.
    pub fn usual_wetness(&self, dried_s: f64) -> Vec<(f64, f64)> {
        drying(self.wetness.typical, dried_s, self.drying, self.dries())
    }

    /// The same where it dries as soon as it may.
    pub fn driest(&self, dried_s: f64) -> Vec<(f64, f64)> {
        drying(self.wetness.low, dried_s, DRIES_SOONEST, self.dries())
    }

    /// What the kit has come to after so many seconds, °C.
    pub fn medium_after(&self, seconds: Band) -> Band {
        self.coming_from.as_ref().map_or(self.medium_c, |coming| coming.after(self.medium_c, seconds))
    }

    /// How fast the surface of the food dries, by how fast it does in air of 110 °C.
    pub fn dries(&self) -> f64 {
        if !self.dries {
            return 0.0;
        }
        (self.medium_c.typical - WET_SURFACE_C).max(0.0) / (DRIES_IN_AIR_OF_C - WET_SURFACE_C)
    }
}

/// Points of seconds and share, of a surface that was so wet before it dried at all, has dried for `dried_s` and now dries
/// `pace` times as fast as in air of 110 °C.
fn drying(wetness: f64, dried_s: f64, drying: Drying, pace: f64) -> Vec<(f64, f64)> {
    let Drying { stays_wet_s, fades_in_s } = drying;
    let faded = (dried_s - stays_wet_s).max(0.0) / fades_in_s;
    let still_wet_s = (stays_wet_s - dried_s).max(0.0) / pace;
    if wetness == 0.0 || !still_wet_s.is_finite() {
        return vec![(0.0, wetness * (-faded).exp())];
    }
    let fading = [0.0, 0.5, 1.0, 2.0, 3.0, 5.0]
        .map(|more: f64| (still_wet_s + more * fades_in_s / pace, wetness * (-faded - more).exp()));
    let still_wet = (still_wet_s > 0.0).then_some((0.0, wetness));
    still_wet.into_iter().chain(fading).collect()
}

/// The surroundings of `piece` in `phase`; `pressure_pa` is that of the air, `left` the same kit as the food saw it last,
/// if that counts.
///
/// # Errors
/// What the cook would have to say.
pub fn surroundings(
    cook: &Cook,
    phase: &Phase,
    piece: &Piece,
    state: FoodState,
    pressure_pa: f64,
    left: Option<&LeftKit>,
) -> Result<Surroundings, Unknown> {
    let covers = &piece.covers;
    let Some(place) = &phase.place else {
        return Ok(on_the_table(covers, state, pressure_pa));
    };
    let kit = cook.kit(place.value);
    let pours = matches!(state, FoodState::Liquid | FoodState::Thick | FoodState::Fat);
    let lies_on = piece.thickness_m.is_some() && !piece.is_depth && !pours;
    let Around { medium, medium_c, room, assumed } = medium_of(phase, kit, lies_on)?;
    let in_air = medium == Medium::Air;
    let boils = matches!(medium, Medium::Oil | Medium::Plate);
    let (film_w_m2k, emissivity) = film(phase, kit, medium)?;
    let moisture = moisture(phase, kit);
    // How much water air of one relative humidity holds goes with how warm it is.
    // Steam leaves oil and hot metal as it boils off, whatever the air is like.
    let humidity = |rh: f64, at_c: f64| if boils { 0.0 } else { humidity_ratio(rh, at_c, pressure_pa) };
    // A pan of which nothing is said now has been turned to anything since.
    let told = phase.setting.is_some() || kit.class.unset.is_none();
    let coming_from = left.filter(|_| told).and_then(|left| ComingFrom::new(left, medium_c, &kit.class));
    Ok(Surroundings {
        medium,
        medium_c,
        coming_from,
        film_w_m2k,
        emissivity,
        wetness: match medium {
            Medium::Air => wetness(covers, state),
            Medium::Oil | Medium::Plate => boiling(covers, state, medium_c.typical, pressure_pa),
            Medium::Water | Medium::Liquid | Medium::Steam => Band::exact(0.0),
        },
        drying: DRIES,
        dries: in_air && !matches!(state, FoodState::Liquid | FoodState::Thick),
        humidity_ratio: Band::new(
            humidity(moisture.low, medium_c.low),
            humidity(moisture.typical, medium_c.typical),
            humidity(moisture.high, medium_c.high),
        ),
        room,
        assumed,
    })
}

/// The table that food is served from.
fn on_the_table(covers: &[CoverKind], state: FoodState, pressure_pa: f64) -> Surroundings {
    let humidity = |rh: f64, at_c: f64| humidity_ratio(rh, at_c, pressure_pa);
    Surroundings {
        medium: Medium::Air,
        medium_c: ROOM_C,
        coming_from: None,
        film_w_m2k: Band::new(3.0, 4.0, 6.0),
        emissivity: EMISSIVITY,
        wetness: wetness(covers, state),
        dries: false,
        drying: DRIES,
        humidity_ratio: Band::new(
            humidity(ROOM_MOISTURE.low, ROOM_C.low),
            humidity(ROOM_MOISTURE.typical, ROOM_C.typical),
            humidity(ROOM_MOISTURE.high, ROOM_C.high),
        ),
        room: true,
        assumed: vec![ROOM_ASSUMED.to_string()],
    }
}

/// W/m² K and emissivity.
fn film(phase: &Phase, kit: &Kit, medium: Medium) -> Result<(Band, f64), Unknown> {
    if let Some(measured) = kit.class.film_w_m2k {
        return Ok((Band::exact(measured), 0.0));
    }
    let rows: &[Film] = &kit.class.films;
    let Some(row) = rows.iter().find(|row| row.medium == medium) else {
        return Err(format!("nothing is known of how `{}` passes heat on", kit.name.value));
    };
    let mut band = Band::new(row.low_w_m2k, row.typical_w_m2k, row.high_w_m2k);
    // A fan where the class has none, or the other way about: the figures of the other oven.
    if let (Some(fan), Medium::Air) = (phase.fan, medium) {
        band = if fan.value {
            Band::new(band.low.max(15.0), band.typical.max(20.0), band.high.max(40.0))
        } else {
            Band::new(band.low.min(4.0), band.typical.min(5.0), band.high.min(12.0))
        };
    }
    Ok((band, if row.radiates { EMISSIVITY } else { 0.0 }))
}

/// Relative humidity of the air in the kit, 0 to 1. Kit always has a figure: where it is that of its class, nobody has
/// measured anything.
fn moisture(phase: &Phase, kit: &Kit) -> Band {
    let usual = kit.class.moisture_percent.map(|percent| percent / 100.0);
    let kits = kit.moisture.map(|said| said.fraction()).filter(|said| Some(*said) != usual);
    if let Some(said) = phase.moisture.map(|said| said.value.fraction()).or(kits) {
        return Band::exact(said);
    }
    match (usual, kit.class.moisture_range_percent) {
        (Some(typical), Some([low, high])) => {
            // An own class may have a figure of its own and the range of the class it goes by.
            Band::new(typical.min(low / 100.0), typical, typical.max(high / 100.0))
        }
        (Some(typical), None) => Band::exact(typical),
        (None, _) => ROOM_MOISTURE,
    }
}

/// How wet the surface is in oil or on metal at `medium_c`, where nothing but boiling dries it: just so wet that it stays
/// below the boiling point, where it is as long as there is water under the crust (Farkas, Singh and Rumsey, J. Food
/// Engineering 29 (1996) 211, from memory). How far below, as the share of the air's pressure that its vapour has, is an
/// estimate.
fn boiling(covers: &[CoverKind], state: FoodState, medium_c: f64, pressure_pa: f64) -> Band {
    if state == FoodState::Fat || covers.iter().any(is_tight) {
        return Band::exact(0.0);
    }
    /// Heat of evaporation by specific heat of air, K.
    const LATENT_K: f64 = 2.26e6 / 1006.0;
    let wetness = |share: f64| {
        let surface_c = air::boiling_point_c(share * pressure_pa).unwrap_or(100.0);
        let ratio = air::humidity_ratio(share * pressure_pa, pressure_pa);
        ((medium_c - surface_c) / (LATENT_K * ratio)).clamp(0.0, 1.0)
    };
    Band::new(wetness(0.97), wetness(0.9), wetness(0.8))
}

/// Nothing dries through it.
fn is_tight(cover: &CoverKind) -> bool {
    matches!(cover, CoverKind::Wrapped | CoverKind::Sealed | CoverKind::Bagged | CoverKind::VacuumBagged)
}

/// How wet the surface is, which nobody knows: a bare joint dries as it cooks. The usual figure for meat is the one
/// that fits published roasting charts (0.1); a soup is all surface.
fn wetness(covers: &[CoverKind], state: FoodState) -> Band {
    if covers.iter().any(is_tight) {
        return Band::exact(0.0);
    }
    let bare = match state {
        // Only its top lies open.
        FoodState::Liquid | FoodState::Thick => Band::new(0.1, 0.4, 0.8),
        FoodState::Fat => Band::exact(0.0),
        _ => Band::new(0.0, 0.1, 0.3),
    };
    if covers.contains(&CoverKind::Covered) {
        // Under a lid the air is soon as humid as it gets.
        return Band::new(0.0, 0.02, 0.1_f64.min(bare.high));
    }
    bare
}

/// kg of water per kg of dry air at relative humidity `rh` (0 to 1). Air is never taken for nearly pure steam.
fn humidity_ratio(rh: f64, at_c: f64, pressure_pa: f64) -> f64 {
    let vapour_pa = (rh * air::saturation(at_c).0).min(0.9 * pressure_pa);
    air::humidity_ratio(vapour_pa, pressure_pa)
}
